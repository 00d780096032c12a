"""Bed maps for tests: the months to draw, and a map read back."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.bedmap.map import bed_map
from tallybed.garden.units import Showing
from tallybed.reckoning.calendar.month import BedMonth
from tests.drawing import months
from tests.drawing.markup import parsed

LINKS = {"spinach": "../crops/spinach/", "pea-garden": "../crops/pea-garden/"}
MONTHS: Mapping[str, Callable[[], BedMonth]] = {
    "may": months.may,
    "planned": months.planned,
    "empty": lambda: months.month_of(months.LONG, ()),
}
TURNS = pytest.mark.parametrize("upright", [False, True], ids=["flat", "upright"])
EVERY = pytest.mark.parametrize("month", [make() for make in MONTHS.values()], ids=list(MONTHS))


def drawn(month: BedMonth, *, upright: bool = False, metric: bool = False) -> Tree.Element:
    return parsed(bed_map(month, ident="map", links=LINKS, upright=upright, showing=Showing(metric=metric)))


def standing(month: BedMonth) -> Counter[str]:
    return Counter({each.planting: len(each.spots) for each in month.drawn if each.standing and each.spots})
