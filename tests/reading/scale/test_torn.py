"""Figures that are not the whole of a weight are refused or asked about, and no part of them is taken."""

from __future__ import annotations

import pytest

from tallybed.garden.units import POUND, Weight
from tallybed.reading.base.problems import Misread
from tallybed.reading.scale.helping import help_with
from tallybed.reading.scale.line import Habits, pickings
from tallybed.reading.scale.questions import LineQuestion
from tests.reading.scale.test_line import DAY, demo_vocabulary, picking


def asked(line: str) -> LineQuestion:
    with pytest.raises(LineQuestion) as question:
        pickings(line, demo_vocabulary(), DAY)
    return question.value


def helps(line: str) -> tuple[str, ...]:
    """Return what helps with a refused line."""
    with pytest.raises(Misread) as refused:
        pickings(line, demo_vocabulary(), DAY)
    return help_with(line, demo_vocabulary(), DAY, Habits(), refused.value.typed)


@pytest.mark.parametrize(
    "typed",
    [
        *("12..5 kg", "1.2.3 kg", "..5 kg", "5,,2 kg", "--5 kg", "5.,2 kg", "5.-2 kg", "5--2 kg", "1,2,3 lb"),
        *("1//2 lb", "14.7.5 oz", "5. oz", "2.lb", ",,5oz", "12..5", "5,,2"),
    ],
)
def test_a_torn_figure_is_told_as_one_with_what_is_expected(typed: str) -> None:
    """Fails where “12” of “12..5 kg” is told as understood, or “5 kg” is taken of “--5 kg”."""
    with pytest.raises(Misread, match="its signs make no one figure") as one:
        pickings(f"kale {typed} C2", demo_vocabulary(), DAY)
    assert one.value.found.startswith(f"“{typed}” is not a ")
    assert one.value.expected == "a figure with one sign alone, before its decimals, such as 12.5 kg"
    assert helps(f"kale {typed} C2") == ("understood: kale | C2", f"not understood: {typed}")


@pytest.mark.parametrize(
    "words", ["14.7. 5 oz", "14.7.2026 5 oz", "4 ... 5 oz", "-- 5 oz", "note 1..2 kg or so"]
)
def test_days_and_remarks_are_no_torn_figures(words: str) -> None:
    told = picking(f"kale {'' if '5 oz' in words else '5 oz '}{words}", demo_vocabulary(), DAY)
    assert told.weight_text == "5 oz"


@pytest.mark.parametrize(
    ("typed", "weight"),
    [
        ("2 kg and a bit", "about 2 kg"),
        ("2 kg n a little", "about 2 kg"),
        ("2 kg plus", "about 2 kg"),
        ("prob 2 kg", "about 2 kg"),
        ("2 kg n half", "2 1/2 kg"),
        ("2 kg plus a bit", "about 2 kg"),
        ("2 kg+", "about 2 kg"),
        ("2 kg and a bit of mud", "2 kg"),
        ("2 kg half rotten", "2 kg"),
    ],
)
def test_what_people_add_to_a_weight_is_not_left_to_the_note(typed: str, weight: str) -> None:
    """Fails where “2 kg and a bit” is two kilograms to the gram, or “n half” a remark."""
    assert picking(f"kale {typed}", demo_vocabulary(), DAY).weight_text == weight


@pytest.mark.parametrize("typed", ["2 kg and half of it to pantry", "2 kg n half of them to pantry"])
def test_half_of_what_was_picked_is_no_half_more(typed: str) -> None:
    """Fails where two kilograms, half of them given away, are written as two and a half."""
    with pytest.raises(Misread, match="the shares do not add up to 2 kg"):
        pickings(f"kale {typed}", demo_vocabulary(), DAY)


@pytest.mark.parametrize("typed", ["2 kg half", "2 lb half, radish 3 oz"])
def test_a_half_behind_a_weight_may_be_part_of_it(typed: str) -> None:
    with pytest.raises(Misread, match="may be another weight than"):
        pickings(f"kale {typed}", demo_vocabulary(), DAY)


@pytest.mark.parametrize(
    ("typed", "write"),
    [
        # Weights and Measures Act 1985, schedule 1: 14 pounds are a stone.
        ("2 stone", "28 lb"),
        ("2 stone 3 lb", "31 lb"),
        ("2st 3", "31 lb"),
        ("1 st.", "14 lb"),
        ("1.5 stone", "21 lb"),
        ("1/3 stone", "4 2/3 lb"),
        ("half a stone", "7 lb"),
        ("two stone", "28 lb"),
        ("a stone", "14 lb"),
        ("20 dag", "200 g"),
        ("2 Pfund", "1000 g"),
        ("0,5 tonnes", "500 kg"),
        ("3 cwt", "it in kg or lb"),
    ],
)
def test_a_unit_that_no_file_takes_is_refused_with_what_to_write(typed: str, write: str) -> None:
    with pytest.raises(Misread, match="in a unit that the ledger does not take") as refused:
        pickings(f"kale {typed}", demo_vocabulary(), DAY)
    assert refused.value.remedy == f"write {write}"
    assert helps(f"kale {typed}") == ("understood: kale", f"not understood: {typed}")


def test_a_stone_is_fourteen_pounds() -> None:
    assert Weight.of(14, POUND).nanograms == 6_350_293_180_000, "6.350 293 18 kg exactly"


@pytest.mark.parametrize("words", ["found a stone", "note 2 stone under it"])
def test_a_stone_in_a_remark_is_no_weight(words: str) -> None:
    assert picking(f"kale 5 oz {words}", demo_vocabulary(), DAY).weight_text == "5 oz"


@pytest.mark.parametrize(
    ("typed", "one", "two"),
    [
        ("1 200 g", "1200 g", (1, "200 g")),
        ("3 150g", "3150 g", (3, "150g")),
        ("12 345 g", "12345 g", (12, "345 g")),
        ("1 200.5 g", "1200.5 g", (1, "200.5 g")),
        ("about 3 150 g", "about 3150 g", (3, "150 g")),
    ],
)
def test_a_space_before_three_figures_is_asked_about(typed: str, one: str, two: tuple[int, str]) -> None:
    """ISO 80000-1: a space may set thousands apart; people also write a count before a weight."""
    question = asked(f"kale {typed}")
    assert [choice.value for choice in question.choices] == ["one", "two"]
    answers = [
        pickings(f"kale {typed}", demo_vocabulary(), DAY, answers={question.kept_as: value})[0]
        for value in ("one", "two")
    ]
    assert [(told.count, told.weight_text) for told in answers] == [(None, one), two]


@pytest.mark.parametrize(
    ("typed", "count", "weight"),
    [
        ("1 012 g", None, "1012 g"),  # no weight begins with a nought
        ("1'200 g", None, "1200 g"),
        ("1’200 g", None, "1200 g"),
        ("1\u00a0200 g", None, "1200 g"),
        ("1\u202f200\u00a0g", None, "1200 g"),
        ("40 345 g", 40, "345 g"),  # 40 kg are not weighed at once
        ("count 3 150 g", 3, "150 g"),
        ("3 pcs 150 g", 3, "150 g"),
        ("Jul 14 150 g", None, "150 g"),
        ("7/14 150 g", None, "150 g"),
        ("C 2 150 g", None, "150 g"),
        ("c 2 150 g", None, "150 g"),
    ],
)
def test_what_no_space_leaves_open_is_not_asked(typed: str, count: int | None, weight: str) -> None:
    told = picking(f"radish {typed}", demo_vocabulary(), DAY)
    assert (told.count, told.weight_text) == (count, weight)


@pytest.mark.parametrize(
    "typed",
    ["5 oz x2", "5oz x 2", "5 oz ×2", "5 oz *2", "5 oz @ 2", "5 oz 2x", "5 oz (x2)", "2x 5 oz", "2x5 oz"],
)
def test_a_number_tied_to_a_weight_by_a_sign_is_asked_about_on_either_side(typed: str) -> None:
    question = asked(f"kale {typed}")
    told = [
        pickings(f"kale {typed}", demo_vocabulary(), DAY, answers={question.kept_as: value})[0]
        for value in ("all", "each")
    ]
    weights = [one.weight for one in told]
    assert [one.count for one in told] == [2, 2]
    assert weights[0] is not None
    assert weights == [weights[0], weights[0] + weights[0]]


@pytest.mark.parametrize("typed", ["5 oz x2 each", "5 oz each x2", "2 x 5 oz", "2 @ 5 oz"])
def test_what_says_that_each_weighed_so_much_is_not_asked(typed: str) -> None:
    told = picking(f"kale {typed}", demo_vocabulary(), DAY)
    assert (told.count, told.weight_text) == (2, "10 oz")


@pytest.mark.parametrize(
    ("words", "day"),
    [
        ("14-Jul", "2026-07-14"),
        ("14-Jul-26", "2026-07-14"),
        ("14-Jul-2026", "2026-07-14"),
        ("Jul-14", "2026-07-14"),
        ("Jul-14-2026", "2026-07-14"),
    ],
)
def test_a_day_may_be_joined_to_its_month_by_a_dash(words: str, day: str) -> None:
    """As spreadsheets show it; refused, the line was offered without its day."""
    assert picking(f"kale 5 oz {words}", demo_vocabulary(), DAY).day.isoformat() == day


@pytest.mark.parametrize("words", ["on the 14th", "7-14", "14-15 Jul", "7-14-26"])
def test_no_line_is_offered_without_the_day_that_it_may_tell(words: str) -> None:
    found = helps(f"kale 5 oz {words}")
    assert found[0] == "understood: kale | 5 oz"
    assert not [one for one in found if "would do" in one]


def test_a_year_of_no_season_in_short_is_refused() -> None:
    with pytest.raises(Misread, match="lies outside the season"):
        pickings("kale 5 oz 26-Jul-14", demo_vocabulary(), DAY)


@pytest.mark.parametrize(
    ("words", "squares"), [("c 1", "C1"), ("c 1 - d 1", "C1:D1"), ("a 2", ""), ("x 3", "")]
)
def test_a_small_letter_before_a_number_is_a_square_where_there_is_one(words: str, squares: str) -> None:
    """Fails where “c 1” becomes a count of 1 and the note “c”."""
    told = picking(f"kale 5 oz, {words}", demo_vocabulary(), DAY)
    assert bool(told.places) == bool(squares)


def test_a_letter_of_no_square_before_a_number_is_asked_about() -> None:
    with pytest.raises(LineQuestion, match="may count all that was weighed"):
        picking("kale 5 oz, z 1", demo_vocabulary(), DAY)


def test_weights_of_two_units_are_told_as_one_that_was_not_understood() -> None:
    assert helps("kale 1 kg 2 lb") == ("understood: kale", "not understood: 1 kg 2 lb")


def test_about_is_also_said_by_one_letter() -> None:
    assert picking("kale c. 1 kg", demo_vocabulary(), DAY).estimated


@pytest.mark.parametrize("words", ["2 bunches 300 g each", "300 g ea", "1 kg/200 g", "1 kg -200"])
def test_no_part_of_a_weight_is_offered_as_the_whole(words: str) -> None:
    """Fails where “this would do” offers 300 g for two bunches of 300 g."""
    assert not [one for one in helps(f"kale {words}") if "would do" in one]


@pytest.mark.parametrize("typed", ["six hundred grams", "a hundred grams", "2 hundred g", "two thousand g"])
def test_hundreds_in_words_are_refused(typed: str) -> None:
    """Fails where they become a remark beside something that nobody weighed."""
    with pytest.raises(Misread, match="is a weight in words"):
        pickings(f"kale {typed}", demo_vocabulary(), DAY)


@pytest.mark.parametrize("typed", ["two fifty grams", "three 150 g", "one 1/2 lb"])
def test_a_number_in_words_before_a_weight_is_no_remark(typed: str) -> None:
    """Fails where “fifty grams” is taken of two hundred and fifty, or a count is lost in a note."""
    with pytest.raises(Misread, match="may be another weight than"):
        pickings(f"kale {typed} C2", demo_vocabulary(), DAY)


def test_decimals_of_a_unit_are_a_weight() -> None:
    told = picking("kale 0.6 of a kilo", demo_vocabulary(), DAY)
    assert (told.count, told.weight_text) == (None, "0.6 kilo")


@pytest.mark.parametrize("price", ["£3", "€3", "Rs 50", "Rs. 50", "₹50", "$3", "3 €"])
def test_money_is_no_count(price: str) -> None:
    told = picking(f"kale {price} 1 kg", demo_vocabulary(), DAY)
    assert (told.count, told.weight_text) == (None, "1 kg")
