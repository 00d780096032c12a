"""Lines said at the scale, as the demonstration garden of two beds understands them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.records.ledger import State
from tallybed.garden.records.pickings import Picking
from tallybed.garden.squares import in_words
from tallybed.garden.units import GRAM, OUNCE, POUND, Weight
from tallybed.reading.base.problems import Misread
from tallybed.reading.scale.helping import help_with
from tallybed.reading.scale.line import Habits, pickings
from tallybed.reading.scale.questions import LineQuestion
from tallybed.reading.scale.vocabulary import Vocabulary
from tests.demonstration import demo_vocabulary
from tests.small_garden import read_garden, written

DAY = date(2026, 8, 1)


def picking(line: str, vocabulary: Vocabulary, day: date) -> Picking:
    """The one picking of a line."""
    (told,) = pickings(line, vocabulary, day)
    return told


def heard(line: str) -> dict[str, Any]:
    """What a line was understood as: only what it tells."""
    told: Picking = picking(line, demo_vocabulary(), DAY)
    parts: dict[str, Any] = {
        "crops": tuple(name.typed for name in told.crops),
        "slugs": told.meanings if not told.mixed else (),
        "variety": told.variety,
        "tag": told.tag,
        "bed": told.bed,
        "places": tuple(in_words(squares) for squares in told.places),
        "row": told.row,
        "weight": told.weight_text,
        "count": told.count,
        "to": told.to,
        "as": told.form,
        "state": "" if told.state is State.FRESH else told.state.value,
        "picked": told.day if told.weighed else "",
        "note": told.note,
    }
    return {key: value for key, value in parts.items() if value not in ("", (), None)}


BEANS = ("bean-bush", "bean-lima", "bean-pole", "bean-runner")
RADISH = {"crops": ("radish",), "slugs": ("radish",)}
BASIL = {"crops": ("basil",), "slugs": ("basil",)}
TOMATO = {"crops": ("tomato",), "slugs": ("tomato-determinate", "tomato-indeterminate")}
BUSH = {"crops": ("tomato-determinate",), "slugs": ("tomato-determinate",)}
GIVEN = (
    *("gave away", "gave it away", "gave them all away", "to give away", "giving away", "given away"),
    *("which we gave away", "were given away", "all given away", "giveaway", "donated", "for donation"),
)
GIVEN_FIRST = ("gave away", "give away:", "donated")
GIVEN_TO = ("gave", "gave it", "gave away", "given away", "donated", "which we donated", "giving it away")
NAMES = ('"Big" Ed', 'Ed "Big" Alder', "Ed and Jo", "Ed & Jo Alder", "Mrs. Alder and Jo")
RED = {"crops": ("Library Red",), "slugs": ("tomato-indeterminate",), "variety": "Library Red"}
GARLIC = {
    "crops": ("garlic",),
    "slugs": ("garlic",),
    "count": 35,
    "weight": "2 lb 3 oz",
    "state": "cured",
    "picked": date(2026, 7, 7),
}
BOTH_C = ("elbow/C2:C3", "long/C2:C3")

LINES: list[tuple[str, dict[str, Any]]] = [
    ("tomato 2 lb 3 oz C2:C3", {**TOMATO, "weight": "2 lb 3 oz", "places": BOTH_C}),
    ("radish 16 9oz to food pantry", {**RADISH, "count": 16, "weight": "9oz", "to": "food pantry"}),
    ("basil not weighed", {**BASIL, "weight": "not weighed"}),
    ("Basil  NOT  WEIGHED", {**BASIL, "crops": ("Basil",), "weight": "NOT WEIGHED"}),
    # Order does not matter.
    ("9oz radish 16 to food pantry", {**RADISH, "count": 16, "weight": "9oz", "to": "food pantry"}),
    ("C2:C3 2 lb 3 oz tomato", {**TOMATO, "weight": "2 lb 3 oz", "places": BOTH_C}),
    ('radish 9oz to "block 7"', {**RADISH, "weight": "9oz", "to": "block 7"}),
    ("radish 16 9oz to “the 4th grade”", {**RADISH, "count": 16, "weight": "9oz", "to": "the 4th grade"}),
    ('radish to "bed A1 and B2" 9oz', {**RADISH, "weight": "9oz", "to": "bed A1 and B2"}),
    ("radish to food pantry 16 9oz", {**RADISH, "count": 16, "weight": "9oz", "to": "food pantry"}),
    (
        "radish 9oz to food pantry long/E3",
        {**RADISH, "weight": "9oz", "to": "food pantry", "places": ("long/E3",)},
    ),
    # Names: plurals, other names, slugs, tags, varieties before, behind and alone.
    ("radishes 9oz", {**RADISH, "crops": ("radishes",), "weight": "9oz"}),
    ("scallions 3 oz", {"crops": ("scallions",), "slugs": ("onion-bunching",), "weight": "3 oz"}),
    ("tomato-determinate 1 lb", {**BUSH, "weight": "1 lb"}),
    ("TO1 2 lb", {"tag": "TO1", "weight": "2 lb"}),
    ("to1, 2 lb", {"tag": "TO1", "weight": "2 lb"}),
    ("tomato TO1 2 lb", {**TOMATO, "tag": "TO1", "weight": "2 lb"}),
    ("tag TO1 2 lb", {"tag": "TO1", "weight": "2 lb"}),
    ("Library Red 12 oz", {**RED, "weight": "12 oz"}),
    ("library red tomatoes 12 oz", {**RED, "crops": ("tomatoes",), "weight": "12 oz"}),
    ("tomato, Library Red 12 oz", {**RED, "crops": ("tomato",), "weight": "12 oz"}),
    ("beans 4 oz", {"crops": ("beans",), "slugs": BEANS, "weight": "4 oz"}),
    # Weights as everywhere: fractions, estimates, grams.
    ("radish ½ lb", {**RADISH, "weight": "1/2 lb"}),
    ("radish 1 1/2 lb", {**RADISH, "weight": "1 1/2 lb"}),
    ("radish about 2 lb", {**RADISH, "weight": "about 2 lb"}),
    ("radish ~2 lb", {**RADISH, "weight": "~2 lb"}),
    ("radish <2 lb", {**RADISH, "weight": "about 2 lb"}),
    ("radish at least 2 lb", {**RADISH, "weight": "about 2 lb"}),
    ("radish 1.375lb", {**RADISH, "weight": "1.375lb"}),
    ("radish 9oz row 2", {**RADISH, "weight": "9oz", "row": 2}),
    ("the long bed, row 1, radish 9oz", {**RADISH, "weight": "9oz", "bed": "long", "row": 1}),
    # Only a whole number may be a count.
    ("2 lb 3.5 radish", {**RADISH, "weight": "2 lb 3.5 oz"}),
    ("radish 1 lb and 6 oz", {**RADISH, "weight": "1 lb and 6 oz"}),
    ("radish 2lb3oz", {**RADISH, "weight": "2lb3oz"}),
    ("radish 2 lb3oz E3", {**RADISH, "weight": "2 lb3oz", "places": ("long/E3",)}),
    ("radish 620 g", {**RADISH, "weight": "620 g"}),
    ("radish 0.62 KG", {**RADISH, "weight": "0.62 KG"}),
    # Parts of a unit in words and figures; 7/8 of a pound is no day.
    ("radish 7/8 of a pound", {**RADISH, "weight": "7/8 pound"}),
    ("radish two thirds of a pound", {**RADISH, "weight": "2/3 pound"}),
    ("radish 2 and 3/4 lb", {**RADISH, "weight": "2 3/4 lb"}),
    ("radish two and one-half pounds", {**RADISH, "weight": "2 1/2 pounds"}),
    ("radish two and three quarters pounds", {**RADISH, "weight": "2 3/4 pounds"}),
    ("radish a pound and three quarters", {**RADISH, "weight": "1 3/4 pound"}),
    ("radish 1 lb and half an ounce", {**RADISH, "weight": "1 lb and 1/2 ounce"}),
    # Figures of another keyboard.
    ("radish １６ ９ oz ８/１", {**RADISH, "weight": "9 oz", "count": 16}),
    # As what was understood is shown.
    ("radish 9oz 16 counted", {**RADISH, "weight": "9oz", "count": 16}),
    # The weight of one piece.
    ("radish 6, 4 oz a piece", {**RADISH, "count": 6, "weight": "1 lb 8 oz"}),
    ("radish 4 oz x6 each", {**RADISH, "count": 6, "weight": "1 lb 8 oz"}),
    ("radish 6 each 4 oz", {**RADISH, "count": 6, "weight": "1 lb 8 oz"}),
    ("radish 6 averaging 4 oz", {**RADISH, "count": 6, "weight": "1 lb 8 oz"}),
    ("radish 9oz sun-dried", {**RADISH, "weight": "9oz", "note": "sun-dried"}),
    # Measures of room, and hours, are no counts.
    ("radish 9oz at 8", {**RADISH, "weight": "9oz", "note": "at 8"}),
    ("radish 2 lb 8 a.m.", {**RADISH, "weight": "2 lb", "note": "8 a.m."}),
    ("radish 2 quarts 3 lb", {**RADISH, "weight": "3 lb", "note": "2 quarts"}),
    # Counts.
    ("radish x16 9oz", {**RADISH, "count": 16, "weight": "9oz"}),
    ("radish 16, 9oz", {**RADISH, "count": 16, "weight": "9oz"}),
    ("radish count 16 9oz", {**RADISH, "count": 16, "weight": "9oz"}),
    ("radish 9oz 16", {**RADISH, "count": 16, "weight": "9oz"}),
    # Pieces in each of some.
    ("radish bunch of 5, 9oz", {**RADISH, "count": 5, "weight": "9oz", "note": "bunch"}),
    ("radish 9oz two bunches of 5", {**RADISH, "count": 10, "weight": "9oz", "note": "two bunches"}),
    ("radish 3 bunches, 10 each, 9oz", {**RADISH, "count": 30, "weight": "9oz", "note": "3 bunches"}),
    ("radish bunch of 10 oz", {**RADISH, "weight": "10 oz", "note": "bunch"}),
    ("radish 4 ea 9oz", {**RADISH, "count": 4, "weight": "2 lb 4 oz"}),
    # What is no count.
    ("radish 2 handfuls", {**RADISH, "weight": "not weighed", "note": "2 handfuls"}),
    ("radish 16 not weighed", {**RADISH, "weight": "not weighed", "count": 16}),
    ("radish 9oz day 90, 30 degrees", {**RADISH, "weight": "9oz", "note": "day 90; 30 degrees"}),
    ("radish, a big one 9oz", {**RADISH, "weight": "9oz", "note": "big one"}),
    ("radish 9oz w/o tops", {**RADISH, "weight": "9oz", "note": "w/o tops"}),
    # Squares: with the bed, without, several; a bed alone.
    ("radish 9oz long/E3:F3", {**RADISH, "weight": "9oz", "places": ("long/E3:F3",)}),
    ("radish 9oz long E3:F3", {**RADISH, "weight": "9oz", "places": ("long/E3:F3",)}),
    ("radish 9oz long/E3, F3", {**RADISH, "weight": "9oz", "places": ("long/E3:F3",)}),
    ("radish 9oz E3 and F3", {**RADISH, "weight": "9oz", "places": ("long/E3:F3",)}),
    ("radish 9oz e3:f3", {**RADISH, "weight": "9oz", "places": ("long/E3:F3",)}),
    ("radish 9oz long", {**RADISH, "weight": "9oz", "bed": "long"}),
    ("radish 9oz in the long bed to school", {**RADISH, "weight": "9oz", "bed": "long", "to": "school"}),
    # Behind "to" stands where it went, also where a bed is called the same.
    ("radish 9oz to long", {**RADISH, "weight": "9oz", "to": "long"}),
    ("radish 9oz to the long table", {**RADISH, "weight": "9oz", "to": "long table"}),
    # A crop's name in capitals right behind "to" is of a person or a place.
    ("radish 9oz to Rosemary", {**RADISH, "weight": "9oz", "to": "Rosemary"}),
    ("radish 9oz to Sunflower House", {**RADISH, "weight": "9oz", "to": "Sunflower House"}),
    ("radish 9oz to the Mint Street school", {**RADISH, "weight": "9oz", "to": "Mint Street school"}),
    # Said beside a crop, rain is no slip of rapini, and a child none of a chili.
    ("radish 9oz before rain", {**RADISH, "weight": "9oz", "note": "before rain"}),
    ("radish 9oz one child helped", {**RADISH, "weight": "9oz", "note": "one child helped"}),
    ("radish 9oz -> elbow room", {**RADISH, "weight": "9oz", "to": "elbow room"}),
    # Where it went, how it was.
    ("radish 9oz to lantern street PANTRY", {**RADISH, "weight": "9oz", "to": "Lantern Street pantry"}),
    *((f"radish 9oz {words}", {**RADISH, "weight": "9oz", "to": "given away"}) for words in GIVEN),
    *((f"{words} radish 9oz", {**RADISH, "weight": "9oz", "to": "given away"}) for words in GIVEN_FIRST),
    *((f"radish 9oz {words} to school", {**RADISH, "weight": "9oz", "to": "school"}) for words in GIVEN_TO),
    *(
        (f"radish 9oz {words} to the food pantry", {**RADISH, "weight": "9oz", "to": "food pantry"})
        for words in GIVEN_TO
    ),
    (
        "donated radish 9oz to school",
        {**RADISH, "weight": "9oz", "to": "school", "note": "donated"},
    ),
    ("we gave radish 9oz away", {**RADISH, "weight": "9oz", "to": "given away"}),
    ("radish 9oz gave some away", {**RADISH, "weight": "9oz", "note": "away"}),
    ("radish 9oz put away", {**RADISH, "weight": "9oz", "note": "away"}),
    *((f"radish 9oz to {name}", {**RADISH, "weight": "9oz", "to": name}) for name in NAMES),
    ("radish to “Big” Ed 9oz", {**RADISH, "weight": "9oz", "to": '"Big" Ed'}),
    ('radish to "block 7" wet 9oz', {**RADISH, "weight": "9oz", "to": "block 7", "note": "wet"}),
    ("radish 9oz to: food pantry", {**RADISH, "weight": "9oz", "to": "food pantry"}),
    ("ON1 6 lb as dry cured", {"tag": "ON1", "weight": "6 lb", "as": "dry", "state": "cured"}),
    ("ON1 6 lb cured to volunteers", {"tag": "ON1", "weight": "6 lb", "to": "volunteers", "state": "cured"}),
    ("ON1 6 lb to volunteers cured", {"tag": "ON1", "weight": "6 lb", "to": "volunteers", "state": "cured"}),
    ("garlic 35 2 lb 3 oz cured picked Jul 7", GARLIC),
    ("garlic picked 2026-07-07 35 2 lb 3 oz cured", GARLIC),
    (
        "basil not weighed note: a handful, to be dried",
        {**BASIL, "weight": "not weighed", "note": "a handful, to be dried"},
    ),
    # A tag behind a day or a share with a slash.
    ("radish 9 oz 7/28 RA1", {**RADISH, "tag": "RA1", "weight": "9 oz"}),
    ("RA1 9 oz 7/28 radishes", {**RADISH, "crops": ("radishes",), "tag": "RA1", "weight": "9 oz"}),
    # A bowl.
    ("leaf lettuce + kale 6 oz", {"crops": ("leaf lettuce", "kale"), "weight": "6 oz"}),
]


@pytest.mark.parametrize(
    ("line", "part"),
    [
        ("radish 1 lb 2 oz, half to pantry, rest kitchen", "9 oz"),
        ("radish 3 lb, half to pantry, rest kitchen", "1 lb 8 oz"),
        ("radish 1 lb, quarter to pantry, rest kitchen", "4 oz"),
        ("radish 4 lb, half to pantry, rest kitchen", "2 lb"),
        ("radish 5 oz, half to pantry, rest kitchen", "2.5 oz"),
        ("radish 1 kg, half to pantry, rest kitchen", "0.5 kg"),
    ],
)
def test_a_share_is_told_in_pounds_and_ounces_as_it_would_be_weighed(line: str, part: str) -> None:
    """Fails where half of 1 lb 2 oz is 0.5625 lb."""
    assert picking(line, demo_vocabulary(), DAY).shares[0].text == part


@pytest.mark.parametrize(
    "words",
    [
        *(
            "1 lb to pantry, rest to hens",
            "1 lb to pantry remainder for hens",
            "1 lb pantry rest for the hens",
        ),
        *("1 lb pantry and the rest of it for hens", "pantry 1 lb, remainder for our hens"),
    ],
)
def test_the_rest_goes_to_whom_it_is_for(words: str) -> None:
    """Fails where the word behind a place, with no comma between, is the share of that place."""
    told = picking(f"kale 2 lb, {words}", demo_vocabulary(), DAY)
    parts = [(share.name, share.text) for share in told.shares]
    assert (parts, told.note) == ([("pantry", "1 lb"), ("hens", "the rest")], "")


@pytest.mark.parametrize(
    ("line", "note"),
    [
        ("2 lb tomatoes picked beside the basil", "beside the basil"),
        ("tomatoes 2 lb from right next to the pole beans", "right next to the pole beans"),
        ("tomatoes 2 lb, under the kale", "under the kale"),
        ("beside the peas, tomatoes 2 lb", "beside the peas"),
        ("2 lb tomatoes where the peas were", "where the peas"),
        ("tomatoes 2 lb between the kale and the leeks", "between the kale and the leeks"),
        ("tomatoes 2 lb from the strawberry bed", "from the strawberry bed"),
        ("tomatoes 2 lb beside BR1", "beside BR1"),
        ("tomatoes 2 lb next to C2", "next to C2"),
        ("tomatoes 2 lb between C2 and C4", "between C2 and C4"),
        ("tomatoes 2 lb in front of the long bed", "in front of the long bed"),
    ],
)
def test_what_a_picking_grew_beside_is_a_remark(line: str, note: str) -> None:
    """Neither a second crop nor the squares that the picking came from."""
    told = picking(line, demo_vocabulary(), DAY)
    assert ([crop.typed for crop in told.crops], told.weight_text) == (["tomatoes"], "2 lb")
    assert (told.note, told.tag, told.bed, told.places) == (note, "", "", ())


def test_a_crop_behind_such_a_word_with_a_weight_of_its_own_is_a_picking() -> None:
    told = pickings("kale 6 oz, after the peas 3 oz", demo_vocabulary(), DAY)
    assert [(one.crops[0].typed, one.weight_text) for one in told] == [("kale", "6 oz"), ("peas", "3 oz")]


@pytest.mark.parametrize(
    ("line", "answer", "note"),
    [
        ("2 lb tomatoes with fennel", "2 lb of tomatoes, and “with fennel” is a remark", "with fennel"),
        ("2 lb tomatoes, fennel", "2 lb of tomatoes, and “fennel” is a remark", "fennel"),
        ("tomatoes 2 lb, fennel looks tired", "a remark on the other picking", "fennel looks tired"),
        ("fennel looks tired, tomatoes 2 lb", "a remark on the other picking", "fennel looks tired"),
        ("tomatoes 2 lb (the fennel is bolting)", "a remark on “tomatoes”", "the fennel is bolting"),
        ("tomatoes 2 lb with fennel", "2 lb of tomatoes, and “with fennel” is a remark", "with fennel"),
        ("tomatoes 2 lb for mint soup", "a remark on “tomatoes”", "for mint soup"),
        ("tomatoes 2 lb b4 the rain", "“b4 the rain” is a remark", "b4 the rain"),
    ],
)
def test_what_is_answered_to_be_a_remark_goes_to_the_note_whole(line: str, answer: str, note: str) -> None:
    with pytest.raises(LineQuestion) as caught:
        picking(line, demo_vocabulary(), DAY)
    (value,) = [choice.value for choice in caught.value.choices if choice.words == answer]
    (told,) = pickings(line, demo_vocabulary(), DAY, answers={caught.value.kept_as: value})
    assert ([crop.typed for crop in told.crops], told.weight_text) == (["tomatoes"], "2 lb")
    assert (told.note, told.places) == (note, ())


@pytest.mark.parametrize("line", ["2 lb tomatoes with fennel", "tomatoes 2 lb with fennel"])
def test_what_was_weighed_with_another_crop_may_be_a_bowl(line: str) -> None:
    (told,) = pickings(line, demo_vocabulary(), DAY, answers={f"weight {line}": "bowl"})
    assert [crop.typed for crop in told.crops] == ["tomatoes", "fennel"]
    assert (told.weight_text, told.note) == ("2 lb", "")


@pytest.mark.parametrize(
    ("line", "crop"), [("2 lb tomatoes, fennel", "tomatoes"), ("tomatoes, fennel 2 lb", "fennel")]
)
def test_one_weight_of_two_crops_is_offered_to_the_one_beside_it(line: str, crop: str) -> None:
    """Fails where the answer names another crop than the one that gets the weight."""
    with pytest.raises(LineQuestion) as caught:
        picking(line, demo_vocabulary(), DAY)
    assert f"2 lb of {crop}, the others not weighed" in [choice.words for choice in caught.value.choices]
    answers = {caught.value.kept_as: "apart"}
    with pytest.raises(LineQuestion) as unweighed:
        pickings(line, demo_vocabulary(), DAY, answers=answers)
    answers[unweighed.value.kept_as] = "not weighed"
    told = pickings(line, demo_vocabulary(), DAY, answers=answers)
    assert [one.crops[0].typed for one in told if one.weight] == [crop]


@pytest.mark.parametrize(
    "line", ["kale 6 oz b4", "kale 6 oz B4 wet", "kale 6 oz b4 to pantry", "b4 kale 6 oz"]
)
def test_b4_is_a_square_where_no_strange_word_follows(line: str) -> None:
    assert picking(line, demo_vocabulary(), DAY).places


def test_a_share_may_be_given_away() -> None:
    told = picking("kale 2 lb, half given away, rest kitchen", demo_vocabulary(), DAY)
    parts = [(share.name, share.weight, share.text) for share in told.shares]
    assert parts == [("given away", Weight.of(1, POUND), "1 lb"), ("kitchen", None, "the rest")]
    with pytest.raises(Misread) as caught:
        picking("kale 2 lb gave half away", demo_vocabulary(), DAY)
    assert "do not add up" in caught.value.found


@pytest.mark.parametrize(("line", "expected"), LINES, ids=[line for line, _expected in LINES])
def test_a_line_is_understood(line: str, expected: dict[str, Any]) -> None:
    assert heard(line) == expected


ANOTHER_WEIGHT = (
    *("two hundred fifty grams", "a hundred and fifty grams", "one point five pounds", "1. 5 lb", "3 / 4 lb"),
    *("a fifth of a pound", "1 - 1/2 lb", "2 Ib 3 oz", "2 pund 3 oz", "1 ,5 kg", "16 .5 lb"),
    "a kilo two hundred",
    *("lb 2 oz 3", "oz: 3 lb 2", "2 lbb 3 oz", "2 grms 3 oz"),
    *("two to three pounds", "12 - 14 oz", "50% of 4 oz", "half of 4 oz", "double 4 oz", "lost 4 oz"),
    *("3 bags of 2 lb", "2 boxes @ 3 lb", "200 g x 3.5", "4 oz x 6 lb", "4 oz per radish 6", "twice 4 oz"),
)
"""Read without the words around them, these were 50 g, 5 lb, 4 lb, 1 lb, 1/2 lb, 200 g, 3 oz, and so on."""

REFUSED = [
    ("2 lb", "does not say what", ""),
    ("", "does not say what", ""),
    ("mulch 2 lb", "no crop is named; not understood: “mulch”", ""),
    ("corgette 1.2k", "not understood: “corgette” and “1.2k”", "courgette"),
    # Without a mark between them, pickings are clear only as a name and its weight, one after the other.
    *(
        (line, "no mark parts them", "")
        for line in (
            "2 lb tomato 3 oz radish",
            "tomato 2 lb 4 pcs radish 3 oz",
            "tomato 2 lb radish",
            "TO1 12oz PP2",
        )
    ),
    *((f"radish 4 {words}", "of each and of all", "") for words in ("each 9oz in all", "ea 9oz total")),
    ("radish 9oz tare 4", "“4” is not understood", ""),
    ("tomato 2 lb 3 oz 5 oz", "2 weights", ""),
    # A scale that shows both: one weight told twice.
    ("tomato 1 lb 453 g", "does not add up", ""),
    ("tomato 1 kg, 2.2 lb", "2 weights", ""),
    ("tomato 1 lb 20 oz", "does not add up", ""),
    ("tomato 0 lb", "is zero", ""),
    ("radish 16 12 9oz", "the numbers 16 and 12", ""),
    ("radish 9oz Z9", "no bed has the squares “Z9”", ""),
    ("radish 9oz elbow/F5", "does not have F5", ""),
    ("radish 9oz short/A1", "there is no bed “short”", ""),
    ("long radish 9oz elbow", "the line names the beds elbow and long", ""),
    ("radish 9oz row 0", "there is no row 0", ""),
    *((f"radish 9oz row 2 {words}", "names a row and other squares", "") for words in ("A1", "row 3")),
    ("radish 9oz long/A1 elbow/", "the beds", ""),
    ("TO9 2 lb", "neither a tag", "TO"),
    ("TO1 TO2 2 lb", "names several crops", ""),
    *((f"radish 9oz {words}", "nothing follows", "") for words in ("to", "to the", "to our", "->")),
    ("radish 9oz to x to y", "without saying how much went where", ""),
    ("radish 9oz dried cured", "cured and dried", ""),
    ("radish 9oz picked Aug 2", "a day that has not come", ""),
    ("radish 9oz picked Feb 30", "no day", ""),
    ("radish 9oz 7/14 7/15", "2 days", ""),
    ("radish 9oz Sat Jul 14", "is not a “Sat", ""),
    ("radish 9oz 6 oz pantry, 5 oz kitchen", "do not add up", ""),
    ("kale 4 oz not spinach", "several crops", ""),
    ("kale 4 oz or more", "may turn the meaning", ""),
    ("kale + kale 6 oz", "a “+” stands beside “kale” alone", ""),
    ("kale 6 oz + 4 oz", "a “+” stands beside “kale” alone", ""),
    ("radish \x1b[2J 9oz", "cannot be seen", ""),
    # What stands beside the figure makes another weight of it.
    *((f"radish {words}", "another weight", "") for words in ANOTHER_WEIGHT),
    ("radish 4 oz July 2026", "may be a year", ""),
    *(
        (f"radish 9oz {words}", "a day in words", "")
        for words in ("July fourth", "first of July", "july one")
    ),
    ("radish 41/2 oz", "more than one", ""),
    ("radish 3 oz, not weighed", "says that nothing was weighed", ""),
    ("radish 2 lb 3 02", "02 is not a count", ""),
    ("radish wasn't 4 oz", "may turn the meaning", ""),
    # In the note, all of it would have gone to the place that is named.
    ("radish 9oz to Olive, rest staffroom", "may be where a part of it went", ""),
    ("radish 9oz to pantry, remainder for hens", "does not say how much went where", ""),
    ("radish 9oz to pantry remainder for hens", "does not say how much went where", ""),
    ("radish 9oz, 4 oz to pantry rest hens", "may be where a part of it went", ""),
    # One of two crops may have lost its weight or its mark.
    ("2 lb tomato basil not weighed", "no mark parts them", ""),
    ("kale 6 oz between the leeks and chard 9 oz", "2 weights", ""),
    # The end of a word of which the beginning was understood.
    ("radish 2 lb 7-14", "“14” is not understood", ""),
    *(
        (f"radish 9oz {words}", "may be several days", "")
        for words in ("Jul 4-6", "July 4 and 5", "4 Jul to 6")
    ),
    ("radish 9oz Monday Tuesday", "tells several days of the week", ""),
    *((f"radish 9oz Jul 14 {year}", "may be a year", "") for year in ("26", "'26")),
    *((f"radish 9oz {word} Monday", "does not say which day", "") for word in ("since", "next", "before")),
    *(
        (f"radish 9oz {words}", "or part of a remark", "")
        for words in ("sun dried", "sun scald", "in full sun")
    ),
    ("radish 9oz " + "x" * 400, "too long", ""),
]


ASKED = [
    ("radish 16x 9oz", "weight", ["16 counted, 9oz in all", "16 of 9oz each"]),
    ("tomatoe 2 lb", "spelling", ["tomatoes"]),
    ("Libary Red 2 lb", "spelling", ["library red"]),
    ("tomato 2", "weight", ["2 counted, not weighed", "2 oz"]),
    ("tomato 1.5 C2", "weight", ["1.5 oz", "1.5 lb"]),
    ("tomato", "weight", ["not weighed"]),
    ("radisch 9oz lovely", "spelling", ["radish", "none of these; “radisch” is a remark"]),
    ("radish 9oz to block 7", "place", ['to "block 7"', "to block, and 7 counted"]),
    ("radish 9oz to the block 7 yesterday", "place", ['to "block 7"', "to block, and 7 counted"]),
    ("kale and radish 1 lb", "weight", ["a mixed bowl of 1 lb"]),
    ("radish 9oz 5/6", "date-order", ["6 May 2026 (month-first)", "5 June 2026 (day-first)"]),
    ("radish 9oz Sat", "day", ["1 August 2026", "25 July 2026"]),
    # The likely reading is first: nobody weighs a thousand kilograms, pounds or ounces at once.
    ("radish 1.250 kg", "decimal", ["1.25 kg", "1250 kg"]),
    ("radish 1,250 kg", "decimal", ["1.25 kg", "1250 kg"]),
    ("radish 1,250 lb", "decimal", ["1.25 lb", "1250 lb"]),
    ("radish 1,250 oz", "decimal", ["1.25 oz", "1250 oz"]),
    ("radish 1,250 g", "decimal", ["1250 g", "1.25 g"]),
    ("radish 1.250 g", "decimal", ["1250 g", "1.25 g"]),
    ("radish 950.125 g", "decimal", ["950.125 g", "950125 g"]),
    # A slip in the day's own word: silently a remark, it would leave the picking on another day.
    ("radish 9oz yestrday", "spelling", ["yesterday", "none of these; “yestrday” is a remark"]),
    ("radish 9oz satruday", "spelling", ["Saturday"]),
    ("radish 9oz ystdy", "spelling", ["yesterday"]),
    ("radish 9oz Satur", "spelling", ["Saturday"]),
    ("radish 9oz yester", "spelling", ["yesterday"]),
    ("radish 9oz 14 juli", "spelling", ["July"]),
    ("radish 9oz Juen 14th", "spelling", ["June"]),
    *(
        (f"radish 9oz {day}", "spelling", [month])
        for day, month in (
            *(("14 juillet", "July"), ("3 août", "August"), ("14. Mai", "May"), ("3 März", "March")),
            *(("3 giugno", "June"), ("3. Okt", "October")),
        )
    ),
    # Silently a remark, it would leave the picking on the day of weighing, Saturday 1 August.
    ("radish 9oz the other day", "day", ["Friday, 31 July 2026", "Thursday, 30 July 2026"]),
    ("radish 9oz last week", "day", ["Sunday, 26 July 2026", "Saturday, 25 July 2026"]),
    ("radish 9oz picked this week", "day", ["Saturday, 1 August 2026", "Friday, 31 July 2026"]),
    ("radish 9oz, last weekend", "day", ["Sunday, 26 July 2026", "Saturday, 25 July 2026"]),
    ("radish 9oz weekend", "day", ["Saturday, 1 August 2026", "none of these; “weekend” is a remark"]),
    ("radish 9oz couple of days ago", "day", ["Friday, 31 July 2026"]),
    ("radish 9oz 10 days ago", "day", ["Wednesday, 22 July 2026", "“10 days ago” is a remark"]),
    ("radish 9oz picked twenty-one days back", "day", ["Saturday, 11 July 2026"]),
    *(
        (f"radish 9oz {words}", "day", ["Saturday, 18 July 2026"])
        for words in ("two weeks ago", "2 wks back", "a fortnight ago", "a couple of weeks ago")
    ),
    # Silently a remark, it would leave the picking a week too late.
    *(
        (f"radish 9oz {words}", "day", ["Monday, 27 July 2026", "Monday, 20 July 2026"])
        for words in ("Monday last week", "last week on Mon", "the Monday before last", "a week last Monday")
    ),
    # Nothing but the word behind it tells a count from ounces.
    ("radish 2 lb 12 ripe ones", "lesser-or-count", ["2 lb 12 oz", "2 lb, 12 counted"]),
    *(
        (f"radish 2 lb {words}", "lesser-or-count", [f"2 lb {words[0]} oz", f"2 lb, {words[0]} counted"])
        for words in ("3 with tops", "3 were split", "1 was rotten")
    ),
    ("radish 2 lb one was rotten", "lesser-or-count", ["2 lb 1 oz"]),
    # Behind the weight, a word beside a number may say that it counts some of the pieces, or no pieces.
    *(
        (f"radish 9oz {words}", "count", ["3 counted", f"“{words}” is a remark"])
        for words in ("3 with worms", "3 speared", "3 for the rabbit", "left 3", "bag 3")
    ),
    *(
        (f"radish 9oz{words}", "place", ["to neighbours, 3 of them", "to neighbours, and 3 counted"])
        for words in (" 3 neighbours", ", 3 neighbours")
    ),
    ("radish 2 lb and 3", "lesser-or-count", ["2 lb 3 oz", "2 lb, 3 counted"]),
    ("radish 2 to 3 lb", "weight", ["2 lb", "3 lb"]),
    ("radish between 2 and 3 lb", "weight", ["2 lb", "3 lb"]),
    ("radish 6 times 4 oz", "weight", ["6 counted, 4 oz in all", "6 of 4 oz each"]),
    # A count tied to a weight may tell that of one piece, also where the crop stands between.
    *(
        (line, "weight", ["6 counted, 4 oz in all", "6 of 4 oz each"])
        for line in ("radish 6 at 4 oz", "6 radishes of 4 oz", "6 RA1 at 4 oz")
    ),
    ("6 radishes of about 4 oz", "weight", ["6 counted, about 4 oz in all", "6 of about 4 oz each"]),
    ("radish 1-1/2 lb", "weight", ["1.5 lb", "1 lb", "0.5 lb"]),
    ("radish 1 kg 300", "lesser-or-count", ["1 kg 300 g", "1 kg, 300 counted"]),
]


@pytest.mark.parametrize(
    ("words", "day"),
    [
        *(
            (words, 31)
            for words in ("yday", "y'day", "y-day", "Yester-day", "yst", "last nite", "last evening")
        ),
        *((words, 30) for words in ("two days ago", "2 days ago", "2 days back", "day before yday")),
        ("a week ago", 25),
        *((words, 32) for words in ("2day", "tonite", "this am", "this p.m.", "this morn")),
    ],
)
def test_short_words_for_a_day_are_that_day(words: str, day: int) -> None:
    """Silently a remark, they would leave the picking on the day of weighing: 1 August."""
    found = picking(f"radish 9oz {words}", demo_vocabulary(), DAY)
    assert (found.day, found.note) == (DAY - timedelta(days=32 - day), "")


def test_no_word_of_a_weight_of_each_is_passed_over() -> None:
    told = picking("beet 6 at 4 oz each", demo_vocabulary(), DAY)
    assert (told.count, told.weight_text, told.passed_over) == (6, "1 lb 8 oz", ())


@pytest.mark.parametrize(
    "words",
    ["late July", "mid-June", "early in July", "the end of June", "some time in May", "last month"],
)
def test_a_part_of_the_year_is_no_day(words: str) -> None:
    """Silently a remark, it would leave the picking on the day of weighing, and so would a line offered."""
    with pytest.raises(Misread) as caught:
        picking(f"radish 9oz {words}", demo_vocabulary(), DAY)
    assert "does not say which day it was" in caught.value.sentence
    helps = help_with(f"radish 9oz {words}", demo_vocabulary(), DAY, Habits())
    assert not [one for one in helps if one.startswith("this would do")]


@pytest.mark.parametrize(
    "words",
    [
        *("sown 30 days ago", "sown in late May", "planted two weeks ago", "note late July", "in July"),
        *("sown 9 wks ago", "sown 3 months ago", "planted 2 yrs back", "10 mths old", "20 secs boiled"),
    ],
)
def test_a_time_of_other_work_is_a_remark(words: str) -> None:
    """Neither a day nor, in what unit ever, a count."""
    found = picking(f"radish 9oz {words}", demo_vocabulary(), DAY)
    assert (found.day, found.note) == (DAY, words.removeprefix("note ").removeprefix("in "))
    assert found.count is None


@pytest.mark.parametrize(
    "words",
    ["the other day", "picked this week", "last weekend", "a fortnight ago", "2 wks back", "10 days ago"],
)
def test_a_day_that_is_answered_to_be_a_remark_is_one_in_all_its_words(words: str) -> None:
    line = f"radish 9oz {words}"
    with pytest.raises(LineQuestion) as caught:
        picking(line, demo_vocabulary(), DAY)
    remark = caught.value.choices[-1].value
    (found,) = pickings(line, demo_vocabulary(), DAY, answers={caught.value.kept_as: remark})
    assert (found.note, found.count, found.day) == (words.removeprefix("picked "), None, DAY)


def test_a_day_told_about_is_the_one_that_is_answered_else_a_remark() -> None:
    line = "radish 9oz last week"
    with pytest.raises(LineQuestion) as caught:
        picking(line, demo_vocabulary(), DAY)
    key, choices = caught.value.kept_as, caught.value.choices
    (found,) = pickings(line, demo_vocabulary(), DAY, answers={key: choices[2].value})
    assert (found.day, found.note) == (date(2026, 7, 24), "")
    (found,) = pickings(line, demo_vocabulary(), DAY, answers={key: choices[-1].value})
    assert (found.day, found.note) == (DAY, "last week")
    for told in (
        "radish 9oz 7/20, last week",
        "radish 9oz note: from last week",
        "radish 9oz fewer than last week",
    ):
        assert picking(told, demo_vocabulary(), DAY).note.endswith("last week")


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("TO1 1 lb green", False),
        ("TO1 green 1 lb", False),
        ("tomato 1 lb green", False),
        ("beet green 1 lb", True),
    ],
)
def test_green_is_a_remark_but_for_right_behind_its_crop(line: str, asked: bool) -> None:
    """Unripe fruit at the end of a season is no slip of the pen for greens; a beet green may be one."""
    vocabulary = replace(demo_vocabulary(), forms=frozenset())
    if asked:
        with pytest.raises(LineQuestion):
            picking(line, vocabulary, DAY)
    else:
        assert picking(line, vocabulary, DAY).note == "green"


@pytest.mark.parametrize(("line", "about", "choices"), ASKED, ids=[line for line, _a, _c in ASKED])
def test_what_can_be_read_two_ways_is_asked(line: str, about: str, choices: list[str]) -> None:
    with pytest.raises(LineQuestion) as caught:
        picking(line, demo_vocabulary(), DAY)
    assert caught.value.about == about
    assert [choice.words for choice in caught.value.choices][: len(choices)] == choices


@pytest.mark.parametrize(
    ("word", "offered"),
    [
        ("spin", ["spinach", "spinach beet"]),
        ("zucs", ["cucs", "zucchini"]),
        ("pars", ["peas", "parsley", "parsnip"]),
        ("tomatos", ["tomatoes"]),
    ],
)
def test_the_beginning_of_a_name_is_offered_where_no_crop_is_known(word: str, offered: list[str]) -> None:
    with pytest.raises(LineQuestion) as caught:
        picking(f"{word} 11 oz", demo_vocabulary(), DAY)
    assert [choice.words for choice in caught.value.choices] == offered


@pytest.mark.parametrize(("answer", "to", "count"), [("name", "block 7", None), ("count", "block", 7)])
def test_a_number_behind_a_place_is_of_its_name_or_a_count_as_answered(
    answer: str, to: str, count: int | None
) -> None:
    (found,) = pickings("radish 9oz to block 7", demo_vocabulary(), DAY, answers={"place block 7": answer})
    assert (found.to, found.count, found.note, found.passed_over) == (to, count, "", ())


@pytest.mark.parametrize(
    ("line", "value", "count", "note", "to"),
    [
        ("radish 9oz 3 with worms", "remark", None, "3 with worms", ""),
        ("radish 9oz 3 with worms", "count", 3, "worms", ""),
        ("radish 12, 9oz, 3 speared", "remark", 12, "3 speared", ""),
        ("radish 2 lb 3 with worms", "remark", None, "3 with worms", ""),
        ("radish 9oz 3 neighbours", "people", None, "3 neighbours", "neighbours"),
        ("radish 9oz 3 neighbours", "count", 3, "", "neighbours"),
    ],
)
def test_a_number_beside_a_word_counts_the_picking_or_is_a_remark_as_answered(
    line: str, value: str, count: int | None, note: str, to: str
) -> None:
    with pytest.raises(LineQuestion) as caught:
        picking(line, demo_vocabulary(), DAY)
    (found,) = pickings(line, demo_vocabulary(), DAY, answers={caught.value.kept_as: value})
    assert (found.count, found.note, found.to) == (count, note, to)


def test_a_variety_of_the_garden_that_is_another_name_of_its_crop_is_the_variety() -> None:
    varieties = {"lacinato": ("Lacinato", ("kale",)), "beet": ("Beet", ("kale",))}
    known = replace(demo_vocabulary(), varieties=varieties)
    assert picking("lacinato 9oz", known, DAY).variety == "Lacinato"
    told = picking("beet 9oz", known, DAY)
    assert (told.variety, told.crops[0].slugs) == ("", ("beet",))


@pytest.mark.parametrize(
    "line", ["PP1 12oz PP2 9oz", "7/28 PP1 12oz PP2 9oz to pantry", "kale 2 lb radish 3 oz"]
)
def test_a_name_and_its_weight_one_after_the_other_need_no_mark(line: str) -> None:
    found = pickings(line, demo_vocabulary(), DAY, answers={f"to {line}": "last"})
    told = [(one.tag or one.crops[0].typed, one.weight_text, one.to) for one in found]
    assert " ".join(word for one in told for word in one if word) == line.removeprefix("7/28 ").replace(
        "to ", ""
    )
    assert {one.day for one in found} == {date(2026, 7, 28) if line.startswith("7") else DAY}


@pytest.mark.parametrize("line", ["radish 9oz to block 7", "radish block 7, 9oz", "radish Block 7 9oz"])
def test_a_place_whose_name_has_a_number_is_known_from_then_on(line: str) -> None:
    known = replace(demo_vocabulary(), destinations={"block 7": "block 7"})
    found = picking(line, known, DAY)
    assert (found.to, found.count, found.weight_text) == ("block 7", None, "9oz")


def test_a_known_place_takes_no_figure_of_a_weight() -> None:
    known = replace(demo_vocabulary(), destinations={"block 7": "block 7"})
    assert picking("radish to block 7 oz", known, DAY).weight_text == "7 oz"


def test_each_question_has_an_answer_of_its_own() -> None:
    """Fails where what is answered of one weight counts for the next."""
    text = "radish 2 lb 12 ripe ones\nkale 3 lb 5 ripe ones"
    answers: dict[str, str] = {}
    for value in ("lesser", "count"):
        with pytest.raises(LineQuestion) as caught:
            pickings(text, demo_vocabulary(), DAY, answers=answers)
        answers[caught.value.kept_as] = value
    found = pickings(text, demo_vocabulary(), DAY, answers=answers)
    assert [(one.weight_text, one.count) for one in found] == [("2 lb 12 oz", None), ("3 lb", 5)]


@pytest.mark.parametrize(
    ("answer", "told"),
    [("bowl", [("kale", "radish")]), ("apart", [("kale",), ("radish",)])],
)
def test_crops_with_one_weight_lie_in_one_bowl_or_apart_as_answered(
    answer: str, told: list[tuple[str, ...]]
) -> None:
    line = "kale and radish 1 lb"
    answers = {f"weight {line}": answer, "weight kale": "not weighed"}
    found = pickings(line, demo_vocabulary(), DAY, answers=answers)
    assert [tuple(crop.typed for crop in one.crops) for one in found] == told
    assert [one.weight_text for one in found] == ["not weighed", "1 lb"][-len(told) :]


@pytest.mark.parametrize(("metric", "units"), [(False, ["oz", "lb"]), (True, ["g", "kg"])])
def test_of_a_weight_without_a_unit_those_of_the_garden_come_first(metric: bool, units: list[str]) -> None:
    known = demo_vocabulary()
    with pytest.raises(LineQuestion) as caught:
        picking("tomato 1.5", replace(known, context=replace(known.context, metric=metric)), DAY)
    assert [choice.words for choice in caught.value.choices][:2] == [f"1.5 {unit}" for unit in units]


@pytest.mark.parametrize(("line", "words", "near"), REFUSED, ids=[line[:30] for line, _w, _n in REFUSED])
def test_what_cannot_be_meant_is_said(line: str, words: str, near: str) -> None:
    with pytest.raises(Misread) as caught:
        picking(line, demo_vocabulary(), DAY)
    assert words in caught.value.found
    assert caught.value.nearest.startswith(near)


def test_a_word_that_is_tag_and_square_is_asked_apart(tmp_path: Path) -> None:
    bed = "name: G\nbeds: [{name: bed, length: 40 squares, width: 3 squares}]\n"
    plan = "- {crop: radish, tag: AB1, squares: A1, sow: Apr 1}\n"
    garden = read_garden(written(tmp_path, {"garden.yaml": bed, "2026/plan.yaml": plan}))
    vocabulary = Vocabulary.of(garden, garden.seasons[0])
    with pytest.raises(Misread) as caught:
        picking("radish 9oz AB1", vocabulary, date(2026, 5, 1))
    assert "AB1 is both a tag and a square" in caught.value.found
    assert picking("radish 9oz tag AB1", vocabulary, date(2026, 5, 1)).tag == "AB1"
    (squares,) = picking("radish 9oz bed/AB1", vocabulary, date(2026, 5, 1)).places
    assert in_words(squares) == "bed/AB1"


@pytest.mark.parametrize(
    ("words", "to"),
    [
        ("kitchen", "kitchen"),
        ("to the kitchen", "kitchen"),
        ("school", "School"),
        ("shed", ""),
        ("kitchen/A1", ""),
        ("in the kitchen bed", ""),
    ],
)
def test_the_name_of_a_bed_that_is_gone_may_be_where_a_picking_went(
    tmp_path: Path, words: str, to: str
) -> None:
    """Fails where nothing goes to the kitchen any more, once the bed called "kitchen" was rebuilt."""
    size = "length: 4 squares, width: 3 squares"
    gone = [f"  - {{name: {name}, {size}, until: 2025}}" for name in ("kitchen", "school", "shed")]
    beds = "\n".join(["name: G", "beds:", *gone, f"  - {{name: new, {size}}}"])
    ledger = "- {date: 2026-05-01, crop: kale, weight: 1 lb, to: School}\n"
    garden = read_garden(written(tmp_path, {"garden.yaml": beds, "2026/harvest.yaml": ledger}))
    vocabulary = Vocabulary.of(garden, garden.seasons[-1])
    if to:
        assert picking(f"radish 9oz {words}", vocabulary, date(2026, 5, 1)).to == to
        return
    with pytest.raises(Misread) as caught:
        picking(f"radish 9oz {words}", vocabulary, date(2026, 5, 1))
    assert "until 2025" in caught.value.found


@given(
    st.integers(0, 30),
    st.integers(0, 159),
    st.one_of(st.none(), st.integers(1, 99)),
    st.permutations(["crop", "weight", "count", "squares"]),
)
def test_weight_and_count_come_through_exactly_in_any_order(
    pounds: int, tenths: int, count: int | None, order: list[str]
) -> None:
    if not pounds + tenths:
        return
    ounces = f"{tenths // 10}.{tenths % 10} oz" if tenths else ""
    parts = {
        "crop": "radish",
        "weight": f"{pounds} lb {ounces}".strip() if pounds else ounces,
        "count": f"count {count}" if count else "",
        "squares": "long/E3",
    }
    told = picking(" ".join(parts[part] for part in order if parts[part]), demo_vocabulary(), DAY)
    assert told.weight == Weight.of(pounds, POUND) + Weight.of(Fraction(tenths, 10), OUNCE)
    assert told.count == count
    assert in_words(told.places[0]) == "long/E3"


SAID = {
    "crop": ["radish", "Radishes"],
    "weight": ["9oz", "2 lbs. 3 oz.", "1#4", "2lb3", "1 lb and a half", "about 12 oz", "350gr"],
    "day": ["7/14", "18/7", "Jul 20", "14th of July", "yesterday", "Thu"],
    "squares": ["E3-F3", "E3 to F3", "e3", "long/E3", "E3, F3"],
    "to": ["pantry", "to school fair", "→ volunteers", "kitchen shelf"],
    "count": ["16 heads", "(16)", "16 pieces", "a dozen"],
}
"""Ways to say each part of a picking."""


@given(
    st.fixed_dictionaries({part: st.sampled_from(ways) for part, ways in SAID.items()}),
    st.permutations([*SAID, "strange", "strange"]),
    st.lists(st.text("bdfghjklmnqrsvwxyz", min_size=3, max_size=9), min_size=2, max_size=2),
)
def test_no_word_of_a_line_is_lost(said: dict[str, str], order: list[str], strange: list[str]) -> None:
    """Every part comes through as if it stood alone, and every other word is in note or question."""
    words = list(strange)
    line = ", ".join(words.pop() if part == "strange" else said[part] for part in order)
    try:
        told = picking(line, demo_vocabulary(), DAY)
    except (Misread, LineQuestion) as open_one:
        shown = open_one.found if isinstance(open_one, Misread) else open_one.words
        assert any(word in shown for word in strange), "nothing else in it leaves a question open"
        return
    alone = picking(f"radish {said['weight']} {said['squares']}", demo_vocabulary(), DAY)
    assert (told.weight, told.estimated, told.places) == (alone.weight, alone.estimated, alone.places)
    assert told.day == picking(f"radish 9oz {said['day']}", demo_vocabulary(), DAY).day
    assert told.count == picking(f"radish 9oz {said['count']}", demo_vocabulary(), DAY).count
    assert told.to == picking(f"radish 9oz {said['to']}", demo_vocabulary(), DAY).to
    kept = f"{told.note} {' '.join(told.passed_over)}"
    assert all(word in kept for word in strange)


@given(st.text(max_size=60))
def test_no_line_brings_more_than_a_refusal(text: str) -> None:
    try:
        pickings(text, demo_vocabulary(), DAY)
    except Misread as misread:
        assert misread.found  # noqa: PT017 - a line that is understood is as good
    except LineQuestion as question:
        assert question.choices  # noqa: PT017


@pytest.mark.parametrize(
    ("line", "first"),
    [
        ("kale 2k", "2 kg"),
        ("kale 2K", "2 kg"),
        ("kale 400gg C2", "400 g"),
        ("kale 3lbz", "3 lb"),
        ("kale 1.5k", "1.5 kg"),
        ("kale 12j", "12 oz"),
    ],
)
def test_a_number_that_runs_on_in_letters_is_asked_with_its_units(line: str, first: str) -> None:
    """Fails where "not weighed" is all that is offered to somebody who told a figure."""
    vocabulary = demo_vocabulary()
    with pytest.raises(LineQuestion) as question:
        pickings(line, vocabulary, DAY)
    choices = [choice.value for choice in question.value.choices]
    assert next(choice for choice in choices if choice != "not weighed") == first
    (told,) = pickings(line, vocabulary, DAY, answers={question.value.kept_as: first})
    assert (told.weight_text, told.count, told.note) == (first, None, "")


@pytest.mark.parametrize(
    ("line", "typed"),
    [
        ("kale 1.5.2 lb", "1.5.2 lb"),
        ("kale 12..5 oz", "12..5 oz"),
        ("kale 1e3 g C2", "1e3 g"),
        ("kale 1O oz", "1O oz"),
        ("kale l2 oz", "l2 oz"),
        ("kale I2 oz", "I2 oz"),
        ("kale I lb", "I lb"),
        ("kale O.5 lb", "O.5 lb"),
        ("kale l.5kg", "l.5kg"),
        ("kale lOOg", "lOOg"),
        ("kale 1.5.2kg", "1.5.2kg"),
        ("kale l2-oz", "l2-oz"),
        ("kale 2 lb l2 oz", "l2 oz"),
        ("kale 2 lb 1O oz", "1O oz"),
    ],
)
def test_a_figure_with_a_unit_that_cannot_be_read_is_refused(line: str, typed: str) -> None:
    """Fails where "1.5.2 lb" is offered as not weighed alone, or a figure is torn out of it.

    The letters l, I and O stand for figures where eyes or fingers slipped: a part of "l2 oz" is no weight.
    """
    with pytest.raises(Misread, match="is not a weight") as refused:
        pickings(line, demo_vocabulary(), DAY)
    assert refused.value.found.startswith(f"“{typed}” is not a weight")
    assert not [one for one in help_with(line, demo_vocabulary(), DAY, Habits()) if "would do" in one]


@pytest.mark.parametrize("typed", ["12 oz kg", "1.2 kg g", "12 oz/lb", "2 lb, kg"])
def test_one_figure_with_two_units_is_refused(typed: str) -> None:
    """Fails where the second unit becomes a note: nobody knows which of them was meant."""
    with pytest.raises(Misread) as refused:
        pickings(f"kale {typed} C2", demo_vocabulary(), DAY)
    assert refused.value.found == f"“{typed}” names two units for one figure"
    assert not [
        one for one in help_with(f"kale {typed}", demo_vocabulary(), DAY, Habits()) if "would do" in one
    ]


@pytest.mark.parametrize("figure", ["3OO", "1O", "3l", "2.5O"])
def test_a_figure_with_letters_like_figures_is_refused(figure: str) -> None:
    """Fails where 3 oz are offered for "3OO"."""
    with pytest.raises(Misread) as refused:
        pickings(f"kale {figure}", demo_vocabulary(), DAY)
    assert refused.value.found == f"“{figure}” is not a figure"
    assert not [
        one for one in help_with(f"kale {figure}", demo_vocabulary(), DAY, Habits()) if "would do" in one
    ]


@pytest.mark.parametrize("words", ["I lost count", "lg", "log", "oil"])
def test_words_with_such_letters_are_no_figures(words: str) -> None:
    assert picking(f"kale 2 oz {words}", demo_vocabulary(), DAY).weight_text == "2 oz"


@pytest.mark.parametrize(
    ("line", "weight"), [("kale 12-oz", "12 oz"), ("kale 2-lb 3-oz", "2 lb 3 oz"), ("400-gram kale", "400 g")]
)
def test_a_dash_may_stand_before_a_unit(line: str, weight: str) -> None:
    (told,) = pickings(line, demo_vocabulary(), DAY)
    assert told.weight_text == weight


@pytest.mark.parametrize("habits", [Habits(), Habits(unit=GRAM)])
@pytest.mark.parametrize(
    ("line", "word", "first"),
    [
        ("kale 12 ounzes", "ounzes", "12 oz"),
        ("kale 3 pnds C2", "pnds", "3 lb"),
        ("kale 3 ib", "ib", "3 lb"),
        ("kale 3ib", "ib", "3 lb"),
        ("kale 1.5 kilso", "kilso", "1.5 kg"),
        ("400 grms. kale", "grms", "400 g"),
    ],
)
def test_a_unit_misspelt_is_named_and_offered_first(line: str, word: str, first: str, habits: Habits) -> None:
    """Fails where "12 ounzes" is 12 grams with a note, as the scale shows them, or its unit stands last."""
    vocabulary = demo_vocabulary()
    with pytest.raises(LineQuestion) as question:
        pickings(line, vocabulary, DAY, habits)
    assert f"“{word}” is not a unit of weight" in question.value.words
    assert question.value.choices[0].value == first
    (told,) = pickings(line, vocabulary, DAY, habits, {question.value.kept_as: first})
    assert (told.weight_text, told.count, told.note) == (first, None, "")


@pytest.mark.parametrize("habits", [Habits(), Habits(unit=GRAM)])
@pytest.mark.parametrize(
    ("line", "first"),
    [
        ("kale lb 3", "3 lb"),
        ("kg: 1.5 kale C2", "1.5 kg"),
        ("kale lbs. 3", "3 lb"),
        ("kale lb3", "3 lb"),
        ("kale kg1.5", "1.5 kg"),
    ],
)
def test_a_unit_before_its_figure_is_offered_first(line: str, first: str, habits: Habits) -> None:
    """Fails where "lb 3" is 3 grams with a note, as the scale shows them, or a square, or lb stands last."""
    vocabulary = demo_vocabulary()
    with pytest.raises(LineQuestion) as question:
        pickings(line, vocabulary, DAY, habits)
    assert question.value.choices[0].value == first
    (told,) = pickings(line, vocabulary, DAY, habits, {question.value.kept_as: first})
    assert (told.weight_text, told.count, told.note) == (first, None, "")


@pytest.mark.parametrize("words", ["#3 lb", "# 3 lb"])
def test_a_number_sign_before_a_weight_is_no_unit(words: str) -> None:
    assert picking(f"kale {words}", demo_vocabulary(), DAY).weight_text == "3 lb"


def test_litres_beside_a_weight_are_told_as_not_understood() -> None:
    with pytest.raises(Misread, match="is not understood"):
        pickings("kale 4 oz 10l of water", demo_vocabulary(), DAY)


def test_a_square_that_is_called_like_a_unit_and_a_figure_is_a_square() -> None:
    assert picking("kale 2 oz g3", demo_vocabulary(), DAY).places


@pytest.mark.parametrize("line", ["kale 3 rounds", "kale 3 great ones"])
def test_a_word_that_is_like_a_unit_from_its_second_letter_on_is_none(line: str) -> None:
    with pytest.raises(LineQuestion) as question:
        pickings(line, demo_vocabulary(), DAY)
    assert question.value.words.endswith("no unit follows 3")


@pytest.mark.parametrize("line", ["kale the 3rd of them", "kale B2x4y", "kale"])
def test_no_unit_is_offered_where_no_figure_is_told(line: str) -> None:
    """Neither a day of the month nor a mark of other words is a weight."""
    with pytest.raises(LineQuestion) as question:
        pickings(line, demo_vocabulary(), DAY)
    assert [choice.value for choice in question.value.choices] == ["not weighed"]
