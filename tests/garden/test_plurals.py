"""The plural of a crop's name where none was told, against a dictionary's (from memory)."""

from __future__ import annotations

import pytest

from tallybed.garden.plurals import figured, in_plural, plural_of
from tallybed.reading.folder.library import load_library


@pytest.mark.parametrize(
    ("name", "plural"),
    [
        *(("asparagus", "asparagus"), ("cilantro", "cilantro"), ("sea kale", "sea kale")),
        *(("radish", "radishes"), ("winter radish", "winter radishes"), ("gooseberry", "gooseberries")),
        *(("husk tomato", "husk tomatoes"), ("cardoon", "cardoons"), ("Asian greens", "Asian greens")),
        *(("bean of the valley", "beans of the valley"), ("star of herbs", "stars of herbs")),
        *(("bean from the valley", "beans from the valley"), ("corn on the cob", "corn on the cob")),
        *(("radish for the winter", "radishes for the winter"), ("Inca melon", "Inca melons")),
        *(("小松菜", "小松菜"), ("ملوخية", "ملوخية"), ("щавель", "щавель"), ("rosé beet №1", "rosé beet №1")),
        ("rowan berries", "rowan berries"),
        *(("artichoke", "artichokes"), ("leek", "leeks"), ("peach", "peaches"), ("chicory", "chicories")),
    ],
)
def test_default_plurals(name: str, plural: str) -> None:
    assert plural_of(name) == plural


def test_the_librarys_own_plurals_come_out_of_the_rule() -> None:
    """Those told by hand hold the rule, but for names that are said of both one and many."""
    off = {crop.slug for crop in load_library().crops.values() if plural_of(crop.name) != crop.plural}
    assert off == set()


@pytest.mark.parametrize(
    ("typed", "plural"),
    [
        *(("tomato", "tomatoes"), ("tomatoes", "tomatoes"), ("bean", "beans"), ("beans", "beans")),
        *(("squash", "squash"), ("squashes", "squash"), ("lettuces", "lettuce"), ("cress", "cress")),
        *(("peas", "peas"), ("chives", "chives"), ("greens", "greens"), ("herb", "herbs"), ("s", "s")),
    ],
)
def test_a_name_in_either_number_has_one_plural(typed: str, plural: str) -> None:
    assert in_plural(typed) == plural


@pytest.mark.parametrize(
    ("number", "said"), [(0, "0 plants"), (1, "1 plant"), (3, "3 plants"), (1200, "1,200 plants")]
)
def test_figured(number: int, said: str) -> None:
    assert figured(number, "plant") == said
