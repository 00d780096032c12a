"""What is offered after a refused line: it reads, and it weighs as the garden weighs."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from tallybed.garden.units import GRAM
from tallybed.reading.base.problems import Misread
from tallybed.reading.scale.helping import help_with
from tallybed.reading.scale.line import Habits, pickings
from tallybed.reading.spreadsheet.dates import DateOrder
from tests.demonstration import demo_vocabulary

DAY = date(2026, 8, 1)


@pytest.mark.parametrize(("metric", "offered"), [(False, "carrots 4 oz"), (True, "carrots 100 g")])
def test_a_line_that_would_do_weighs_in_the_units_of_the_garden(metric: bool, offered: str) -> None:
    known = demo_vocabulary()
    vocabulary = replace(known, context=replace(known.context, metric=metric))
    assert f"this would do: {offered}" in help_with("carrots", vocabulary, DAY, Habits())
    assert pickings(offered, vocabulary, DAY, Habits())[0].weight_text == offered.removeprefix("carrots ")


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("carrot 700", "carrot 700 g"),
        ("karrot 7.5", "carrot 7.5 g"),
        ("carrot 7 200", ""),
        ("carrot 1 200 g", ""),
        ("carrot 3OO g", ""),
        ("carrot 700 g, half to pantry", ""),
    ],
)
def test_a_figure_that_was_told_is_not_made_another(line: str, offered: str) -> None:
    """Fails where somebody who told 700 is offered a line with 100."""
    known = demo_vocabulary()
    vocabulary = replace(known, context=replace(known.context, metric=True))
    helps = [one for one in help_with(line, vocabulary, DAY, Habits()) if one.startswith("this would do")]
    assert helps == ([f"this would do: {offered} (or another unit, as the scale shows)"] if offered else [])


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("mixed greens: kale + chard 1 lb 1 oz", "kale + chard 1 lb 1 oz"),
        ("greens kale 1 lb", "kale 1 lb"),
        ("kale chard 1 lb", ""),
        ("kale 12 oz mixed with chard", ""),
    ],
)
def test_no_crop_that_was_named_is_left_out_of_what_is_offered(line: str, offered: str) -> None:
    """Fails where somebody who picked kale and chard is offered a line with the kale alone."""
    helps = help_with(line, demo_vocabulary(), DAY, Habits())
    assert [one for one in helps if one.startswith("this would do")] == (
        [f"this would do: {offered}"] if offered else []
    )


def test_the_unit_of_a_figure_told_without_one_is_that_of_the_scale_or_left_open() -> None:
    """Fails where 400 of a garden that shows pounds are offered as ounces and nothing else."""

    def offered(habits: Habits) -> str:
        helps = help_with("karrot 400", demo_vocabulary(), DAY, habits)
        return next(one for one in helps if one.startswith("this would do"))

    assert offered(Habits()).endswith(": carrot 400 oz (or another unit, as the scale shows)")
    assert offered(Habits(unit=GRAM)).endswith(": carrot 400 g")


@pytest.mark.parametrize(
    ("line", "offered"), [("kalle 2k", "kale 2 kg"), ("karrot 12 ounzes", "carrot 12 oz")]
)
def test_a_unit_misspelt_is_offered_as_what_it_is_like(line: str, offered: str) -> None:
    """Fails where somebody who told "2k" is offered 2 oz."""
    helps = help_with(line, demo_vocabulary(), DAY, Habits(unit=GRAM))
    assert helps[-1] == f"this would do: {offered}"


@pytest.mark.parametrize(("metric", "weight"), [(False, "2 lb 3 oz"), (True, "1.2 kg")])
def test_what_is_expected_weighs_in_the_units_of_the_garden(metric: bool, weight: str) -> None:
    known = demo_vocabulary()
    vocabulary = replace(known, context=replace(known.context, metric=metric))
    with pytest.raises(Misread) as refused:
        pickings("300", vocabulary, DAY, Habits())
    assert refused.value.expected == f"a crop or tag, and a weight, such as: tomato {weight} C2:C3"


@pytest.mark.parametrize("line", ["zzyzx 12 oz", "900", "A1 900", "12 oz"])
def test_where_no_crop_is_meant_none_is_offered(line: str) -> None:
    """Fails where a crop out of the air is offered to somebody who told none."""
    helps = help_with(line, demo_vocabulary(), DAY, Habits())
    assert not [words for words in helps if words.startswith("this would do")]


def test_a_tag_that_is_a_square_too_is_offered_as_a_tag() -> None:
    known = demo_vocabulary()
    clashing = replace(known, tags=known.tags | {"A1"})
    assert "this would do: tag A1 5 oz" in help_with("A1 5 oz", clashing, DAY, Habits())


def test_a_known_place_at_the_end_of_a_longer_name_is_part_of_it() -> None:
    told = pickings("carrot 9 oz to school kitchen", demo_vocabulary(), DAY)
    assert [one.to for one in told] == ["school kitchen"]
    told = pickings("carrot 9 oz to school, rest kitchen".replace(" to", " 4 oz to"), demo_vocabulary(), DAY)
    assert [share.name for share in told[0].shares] == ["school", "kitchen"]


def test_a_weight_that_was_understood_stays_as_it_was_told() -> None:
    known = demo_vocabulary()
    vocabulary = replace(known, context=replace(known.context, metric=True))
    assert "this would do: kale 12 oz" in help_with("kale 12 oz M14", vocabulary, DAY, Habits())


@pytest.mark.parametrize(
    ("words", "day_told"),
    [("kale 12 oz M14 14 July", True), ("kale 12 oz 14 July 2025", False), ("kale 12 oz 14/7/2025", False)],
)
def test_no_line_is_offered_that_lacks_the_day_it_told(words: str, day_told: bool) -> None:
    """Without it, what was picked another day or season would be written under the day of weighing."""
    offered = [one for one in help_with(words, demo_vocabulary(), DAY, Habits()) if "would do" in one]
    assert offered == (["this would do: kale 12 oz 14 July"] if day_told else [])


@pytest.mark.parametrize(
    ("order", "day"), [(DateOrder.MONTH_FIRST, date(2026, 5, 6)), (DateOrder.DAY_FIRST, date(2026, 6, 5))]
)
def test_where_the_order_of_dates_is_known_nobody_is_asked_for_it(order: DateOrder, day: date) -> None:
    (found,) = pickings("kale 12 oz 5/6", demo_vocabulary(), date(2026, 8, 1), Habits(order=order))
    assert found.day == day


@pytest.mark.parametrize(
    ("words", "order", "remedy"),
    [
        ("kale 12 oz 14 July 2025", None, "--date 2025-07-14"),
        ("kale 12 oz 14/7/2025", None, "--date 2025-07-14"),
        ("kale 12 oz 5/7/2025", None, "--date 2025-05-07 or --date 2025-07-05"),
        ("kale 12 oz 5/7/2025", DateOrder.DAY_FIRST, "--date 2025-07-05"),
    ],
)
def test_a_day_of_another_season_is_told_with_how_to_say_it(
    words: str, order: DateOrder | None, remedy: str
) -> None:
    with pytest.raises(Misread) as refused:
        pickings(words, demo_vocabulary(), DAY, Habits(order=order))
    assert refused.value.remedy == f"for a day of another season say {remedy}"


@pytest.mark.parametrize("line", ["kale 2 lb less basket 4 oz", "kale 12 oz, 9 oz", "kale 12 oz Jul 3 Jul 4"])
def test_of_two_weights_or_days_none_is_offered_alone(line: str) -> None:
    """Whoever took it would write a part of what was told."""
    helps = help_with(line, demo_vocabulary(), DAY, Habits())
    assert helps
    assert not [one for one in helps if one.startswith("this would do")]
