"""The strips of squares that changed hands: words fit their boxes, boxes their squares, marks stay clear."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.bedmap.map import bed_map
from tallybed.drawing.bedmap.view import Handover
from tallybed.garden.squares import Bed
from tallybed.reckoning.calendar.month import BedMonth
from tallybed.reckoning.squares.occupancy import Grade
from tests.drawing import months
from tests.drawing.markup import SVG, of_class, parsed

Box = tuple[float, float, float, float]
BROAD = replace(months.WIDE, columns=7, rows=7, name="long")
"""A bed so broad both ways that its squares are small on a narrow page."""


def box(rect: Tree.Element) -> Box:
    x, y, width, height = (float(rect.get(name, "")) for name in ("x", "y", "width", "height"))
    return x, y, x + width, y + height


def overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def boxes(root: Tree.Element) -> list[tuple[Box, str, float]]:
    """Return each box of a strip, its words and their size."""
    found = []
    for each in of_class(root, "d-turn"):
        (parent,) = [group for group in root.iter(f"{SVG}g") if each in list(group)]
        (words,) = parent.findall(f"{SVG}text")
        found.append((box(each), "".join(words.itertext()), float(words.get("font-size", ""))))
    return found


@pytest.mark.parametrize("bed", [months.LONG, months.WIDE, BROAD], ids=["long", "wide", "broad"])
@pytest.mark.parametrize("holders", [1, 2, 3])
@pytest.mark.parametrize("upright", [False, True])
def test_words_fit_their_boxes_and_boxes_their_squares(bed: Bed, holders: int, upright: bool) -> None:
    month = months.crowded(bed, holders=holders)
    root = parsed(bed_map(month, ident="m", links={}, upright=upright))
    found = boxes(root)
    assert found, "every square changed hands"
    for (left, _top, right, _bottom), words, size in found:
        assert right - left >= width_of(words, size), f"{words} runs out of its box"
        assert right - left <= 72, "wider than a square of a foot"
    for (one, _w, _s), (other, _v, _t) in combinations(found, 2):
        assert not overlap(one, other)
    for chip in of_class(root, "d-chip"):
        assert not [words for each, words, _size in found if overlap(box(chip), each)], "a mark on a strip"


@pytest.mark.parametrize(
    ("starts", "ends", "lost", "expected"),
    [
        (3, None, False, ("Ra 3 →", "Ra 3→", "Ra→")),
        (None, 28, False, ("Ra → 28", "Ra→28", "Ra→")),
        (3, 28, True, ("Ra 3 → 28 ×", "Ra 3→28×", "Ra→×")),
    ],
)
def test_a_turn_says_less_where_there_is_less_room(
    starts: int | None, ends: int | None, lost: bool, expected: tuple[str, str, str]
) -> None:
    turn = Handover(
        planting="RA1",
        letters="Ra",
        name="radish",
        starts=months.MAY.first.replace(day=starts) if starts else None,
        ends=months.MAY.first.replace(day=ends) if ends else None,
        grade=Grade.SEEN,
        lost=lost,
    )
    assert (turn.words, turn.closed_up, turn.shortest) == expected


def test_days_stay_where_there_is_room_for_them() -> None:
    month: BedMonth = months.crowded(holders=2)
    said = [words for _box, words, _size in boxes(parsed(bed_map(month, ident="m", links={})))]
    assert said.count("Ra 10→20") == said.count("Ra 20 →") == 3
