"""How large a crop grows is told beside its map, and said to be about right where it is not printed."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tallybed.drawing.bedmap.description import grown
from tallybed.drawing.bedmap.legend import legend
from tallybed.garden.units import INCH, Length, Showing
from tallybed.reckoning.calendar.plant_size import Size, Sizes
from tests.drawing import months
from tests.drawing.bedmaps import bed_map
from tests.drawing.markup import SVG, parsed

FEET, METRES = Showing(), Showing(metric=True)


def size(inches: int, *, about: bool = False, of_vines: bool = False) -> Size:
    return Size(length=Length.of(inches, INCH), about=about, of_vines=of_vines)


@pytest.mark.parametrize(
    ("sizes", "showing", "expected"),
    [
        (Sizes(), FEET, ""),
        (Sizes(height=size(12)), FEET, "grows 1 ft high"),
        (Sizes(height=size(21, about=True)), FEET, "grows about 1 ft 9 in high"),
        (
            Sizes(height=size(21, about=True), spread=size(12)),
            FEET,
            "grows about 1 ft 9 in high and 1 ft wide",
        ),
        (Sizes(spread=size(12, about=True)), FEET, "grows about 1 ft wide"),
        (
            Sizes(height=size(20), spread=size(20, about=True)),
            METRES,
            "grows 51 cm high and about 51 cm wide",
        ),
        (
            Sizes(height=size(12), spread=size(66, about=True, of_vines=True)),
            FEET,
            "grows 1 ft high, vines run about 5 ft 6 in",
        ),
        (Sizes(spread=size(66, of_vines=True)), FEET, "vines run 5 ft 6 in"),
    ],
)
def test_sizes_in_words(sizes: Sizes, showing: Showing, expected: str) -> None:
    assert grown(sizes, showing) == expected


def test_the_legend_tells_how_large_each_crop_grows() -> None:
    carrot, holders = months.plan_row(months.LONG, "CA1", "A1", crop="carrot", spacing=3)
    sized = replace(carrot, sizes=Sizes(height=size(14, about=True), spread=size(8)))
    (item,) = [
        each for each in legend(months.month_of(months.LONG, ((sized, holders),))) if each.kind == "crop"
    ]
    assert item.detail == "A1: growing, seen; grows about 1 ft 2 in high and 8 in wide"
    assert (item.planting, item.crop) == ("CA1", "carrot")


def test_that_drawn_widths_are_only_about_right_is_said_where_plants_are_drawn() -> None:
    said = "about as wide as"
    for month, plants in ((months.may(), True), (months.month_of(months.LONG, ()), False)):
        told = parsed(bed_map(month, ident="m", links={}))[1].text or ""
        assert (said in told) is plants
        assert any(said in each.words for each in legend(month)) is plants


def test_a_planting_leads_to_its_own_page_before_its_crops() -> None:
    links = {"CA1": "plants/CA1/", "carrot": "crops/carrot/", "radish": "crops/radish/"}
    found = [
        each.get("href") for each in parsed(bed_map(months.may(), ident="m", links=links)).iter(f"{SVG}a")
    ]
    assert sorted(str(each) for each in found) == ["crops/radish/", "plants/CA1/"]
    open_name, holders = months.plan_row(months.LONG, "beans", "A1", crop="bean-bush", spacing=4)
    month = months.month_of(months.LONG, ((replace(open_name, crop=""), holders),))
    (link,) = parsed(bed_map(month, ident="m", links={"beans": "plants/beans/"})).iter(f"{SVG}a")
    assert link.get("href") == "plants/beans/", "a general name has a page of its planting"


def test_sizes_are_exact_until_they_are_shown() -> None:
    third = Size(length=Length.of(Fraction(1, 3), INCH), about=False)
    assert grown(Sizes(height=third), FEET) == "grows 0.3 in high"
