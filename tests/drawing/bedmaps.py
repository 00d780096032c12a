"""Bed maps for tests: the months to draw, and a map read back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.base import look
from tallybed.drawing.bedmap.map import bed_maps
from tallybed.drawing.bedmap.planted import layer
from tallybed.garden.units import IN_FEET, Showing
from tallybed.reckoning.calendar.month import BedMonth
from tests.drawing import months
from tests.drawing.markup import SVG, of_class, parsed

LINKS = {"spinach": "../crops/spinach/", "pea-garden": "../crops/pea-garden/"}
MONTHS: Mapping[str, Callable[[], BedMonth]] = {
    "may": months.may,
    "planned": months.planned,
    "empty": lambda: months.month_of(months.LONG, ()),
}
TURNS = pytest.mark.parametrize("upright", [False, True], ids=["flat", "upright"])
EVERY = pytest.mark.parametrize("month", [make() for make in MONTHS.values()], ids=list(MONTHS))


def bed_map(
    month: BedMonth,
    *,
    ident: str,
    links: Mapping[str, str],
    upright: bool = False,
    showing: Showing = IN_FEET,
    smallest: float = look.SMALLEST_TEXT,
) -> str:
    """Return one of the two maps that a page has of a month."""
    return bed_maps(month, ident=ident, links=links, showing=showing, smallest=smallest)[upright]


def drawn(month: BedMonth, *, upright: bool = False, metric: bool = False) -> Tree.Element:
    return parsed(bed_map(month, ident="map", links=LINKS, upright=upright, showing=Showing(metric=metric)))


def plants(month: BedMonth, *, upright: bool) -> list[Tree.Element]:
    """The plants that a map shows: its own, or those of the flat one, which it shows again."""
    root = drawn(month, upright=upright)
    again = f"#{layer('map-flat')}" in {each.get("href") for each in root.iter(f"{SVG}use")}
    return of_class(drawn(month) if again else root, "plant")


def standing(month: BedMonth) -> Counter[str]:
    return Counter({each.planting: len(each.spots) for each in month.drawn if each.standing and each.spots})
