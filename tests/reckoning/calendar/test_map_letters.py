"""The letters of plantings: those of the tag, else of the crop, never two crops alike."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import pytest

from tallybed.garden.crops import Crop
from tallybed.garden.garden import Garden
from tallybed.garden.naming import CropName
from tallybed.reckoning.calendar.map_letters import map_letters
from tallybed.reckoning.plantings.plantings import Planting
from tests.reckoning.byhand import CROPS

GARDEN = Garden(name="g", crops=CROPS)
NAMES = {each.slug: each for each in CROPS}


def letters(*plantings: tuple[str, str]) -> Mapping[str, str]:
    """Return the letters of plantings given as tag and crop."""
    found = [
        Planting(
            season="2026",
            key=tag or crop,
            crop=CropName(typed=crop, slugs=(crop,) if crop in NAMES else ()),
            tag=tag,
        )
        for tag, crop in plantings
    ]
    answer = map_letters(GARDEN, found)
    assert map_letters(GARDEN, found[::-1]) == answer, "the order makes no difference"
    return answer


@pytest.mark.parametrize(("tag", "expected"), [("LE5", "LE"), ("BEANS2", "BEA"), ("7", "7"), ("2A", "2A")])
def test_they_are_those_of_the_tag(tag: str, expected: str) -> None:
    assert letters((tag, "lettuce")) == {tag: expected}


def test_without_a_tag_they_are_those_of_the_crop() -> None:
    assert letters(("", "carrot")) == {"carrot": NAMES["carrot"].letters}


def test_plantings_of_one_crop_have_the_same() -> None:
    assert set(letters(("CA1", "carrot"), ("CA2", "carrot")).values()) == {"CA"}


def test_of_two_crops_with_like_tags_one_has_the_whole_of_its_tag() -> None:
    assert letters(("TO1", "carrot"), ("TO2", "radish"), ("TO3", "carrot")) == {
        "TO1": "TO",
        "TO2": "TO2",
        "TO3": "TO",
    }


def test_a_crop_without_a_tag_gives_way_to_a_tag_whatever_the_case() -> None:
    taken = NAMES["carrot"].letters.upper()
    found = letters((f"{taken}1", "radish"), ("", "carrot"))
    assert found[f"{taken}1"] == taken
    assert found["carrot"].upper() != taken
    assert found["carrot"][0] == "C"


def test_names_without_another_letter_are_numbered() -> None:
    found = letters(("", "q"), ("Q", "radish"), ("Q2", "lettuce"))
    assert found["q"] not in ("Q", "Q2")
    assert len({each.casefold() for each in found.values()}) == 3


def own(slug: str, letters: str = "") -> Crop:
    return replace(NAMES["lettuce"], slug=slug, name=slug, letters=letters, own=True)


def lettered(*crops: Crop, stand: tuple[str, ...]) -> list[str]:
    """Letters of plantings without tags in a garden that has those crops of its own."""
    found = [Planting(season="2026", key=one, crop=CropName(typed=one, slugs=(one,))) for one in stand]
    answer = map_letters(Garden(name="g", crops=(*CROPS, *crops)), found)
    return [answer[one] for one in stand]


def test_letters_that_nobody_told_are_of_the_name_and_no_crop_of_the_library_has_them() -> None:
    assert lettered(own("skirret"), stand=("skirret",)) == ["Sk"]
    assert lettered(own("cardoon"), stand=("cardoon",)) == ["Cr"], "Ca is the carrot, which stands elsewhere"
    assert lettered(own("cardoon"), stand=("cardoon", "carrot")) == ["Cr", "Ca"]


def test_another_crop_of_the_garden_changes_no_letters_of_a_season_it_does_not_stand_in() -> None:
    later = own("skorzonera"), own("skullcap", "Sk")
    assert lettered(own("skirret"), stand=("skirret",)) == ["Sk"]
    for every in ((own("skirret"), *later), (*later, own("skirret"))):
        assert lettered(*every, stand=("skirret",)) == ["Sk"]
        assert lettered(*every, stand=("skirret", "skorzonera")) == ["Sk", "So"]
        assert lettered(*every, stand=("skirret", "skullcap")) == ["Si", "Sk"], "letters that are told win"
