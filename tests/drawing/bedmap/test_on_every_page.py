"""Names, letters and textures of every map: the demonstration's and those of twenty generated beds.

Computed from where things lie, at pages of 360, 768 and 1280 pixels.
"""

from __future__ import annotations

from functools import cache
from itertools import combinations
from random import Random

import pytest

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.patterns import textures
from tallybed.drawing.bedmap.layout import Layout
from tallybed.drawing.bedmap.map import reached
from tallybed.drawing.bedmap.margins import laid_out
from tallybed.drawing.bedmap.tags import MapTag, tags
from tallybed.drawing.bedmap.view import Group, View, viewed
from tallybed.garden.crops import everyday
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import Showing
from tallybed.reckoning.beds import months_of
from tallybed.reckoning.calendar.month import BedMonth
from tallybed.reckoning.calendar.stages import Stage
from tallybed.tasks.site.reckoned import reckoned
from tests.demonstration import demo_garden
from tests.drawing import months

PAGES = {360: (True, 328.0), 768: (True, 706.0), 1280: (False, 1177.0)}
"""Whether drawings stand on a page so wide, and the pixels it leaves them: less 2 em, or margins of 4 %."""
SIZES = [(1, 1), (2, 1), (1, 3), (2, 2), (3, 2), (4, 4), (3, 4), (6, 3), (8, 3), (12, 4), (4, 12), (12, 1)]
CROPS = {
    "carrot": 3,
    "spinach": 4,
    "bean-bush": 6,
    "lettuce-leaf": 8,
    "broccoli": 18,
    "okra": 12,
    "tomato-indeterminate": 24,
    "onion-bulb": 4,
}
SHORT = 4
"""Letters of a name that surely has room in two squares beside each other."""


def _bed(number: int, chance: Random) -> Bed:
    """Return a generated bed: the sizes above as they are, then L-shapes."""
    if number < len(SIZES):
        columns, rows = SIZES[number]
        return Bed(name=f"g{number}", title="A bed", columns=columns, rows=rows)
    columns, rows = chance.randint(2, 12), chance.randint(2, 4)
    keep = (chance.randint(1, columns - 1), chance.randint(1, rows - 1))
    omitted = frozenset(
        Square(f"g{number}", column, row)
        for column in range(keep[0], columns)
        for row in range(keep[1], rows)
    )
    return Bed(name=f"g{number}", title="An L", columns=columns, rows=rows, omitted=omitted)


def _month(number: int) -> BedMonth:
    """Return a generated bed's month: crops in runs of one to three squares, some bare, some gone."""
    chance = Random(number)
    bed = _bed(number, chance)
    free = list(bed.squares)
    found = []
    while free:
        start = free.pop(0)
        run = [start]
        while free and len(run) < chance.randint(1, 3) and free[0].row == start.row == run[-1].row:
            if free[0].column != run[-1].column + 1:
                break
            run.append(free.pop(0))
        crop = chance.choice([*CROPS, ""])
        if crop:
            stage = chance.choice([Stage.SOWN, Stage.GROWING, Stage.BEARING, Stage.OVER, Stage.LOST])
            gone = stage in (Stage.OVER, Stage.LOST)
            days = (months.MAY.first, months.MAY.first.replace(day=11) if gone else months.MAY.last)
            where = " ".join(square.label for square in run)
            key = f"{crop[:2].upper()}{len(found)}"
            found.append(
                months.plan_row(bed, key, where, crop=crop, spacing=CROPS[crop], stage=stage, days=days)
            )
    return months.month_of(bed, found)


@cache
def demonstration() -> tuple[BedMonth, ...]:
    """Return every month of the demonstration's newest season."""
    garden = demo_garden()
    year = reckoned(garden).foremost
    assert year
    return tuple(month for bed in garden.beds for month in months_of(year, bed))


@cache
def maps(source: str, upright: bool) -> tuple[tuple[Layout, View, tuple[tuple[Group, MapTag], ...]], ...]:
    """Return every map as it is laid out."""
    found = demonstration() if source == "demonstration" else map(_month, range(20))
    return tuple(_laid(month, upright) for month in found)


def _laid(month: BedMonth, upright: bool) -> tuple[Layout, View, tuple[tuple[Group, MapTag], ...]]:
    view = viewed(month)
    layout = laid_out(month.bed, reached(view), upright=upright, showing=Showing())
    return layout, view, tuple(tags(layout, view))


def pixels(layout: Layout, room: float) -> float:
    """Return pixels a unit has on a page that leaves drawings so many."""
    return min(room, layout.least * look.GROWS) / layout.width


SOURCES = pytest.mark.parametrize("source", ["demonstration", "generated"])
TURNS = pytest.mark.parametrize("upright", [False, True], ids=["flat", "upright"])


def test_there_are_twenty_generated_beds_from_one_square_to_twelve_by_four() -> None:
    shapes = [layout.bed for layout, _view, _tags in maps("generated", upright=False)]
    assert len(shapes) == 20
    assert {(1, 1), (12, 4), (4, 12)} <= {(bed.columns, bed.rows) for bed in shapes}
    assert sum(bool(bed.omitted) for bed in shapes) == 8


@SOURCES
@pytest.mark.parametrize("page", PAGES)
def test_letters_have_one_size_in_every_bed(source: str, page: int) -> None:
    upright, room = PAGES[page]
    sizes = [layout.text * pixels(layout, room) for layout, _view, _tags in maps(source, upright)]
    assert min(sizes) >= 11
    assert max(sizes) - min(sizes) < 0.1


@SOURCES
@pytest.mark.parametrize("page", PAGES)
def test_textures_are_seen_at_any_width(source: str, page: int) -> None:
    """Our bounds: strokes of a pixel and more, repeated three times and more in 24 pixels."""
    upright, room = PAGES[page]
    for layout, _view, _tags in maps(source, upright):
        for tile in textures("m", Stage, layout.grain):
            scale = float(tile.attribs["patternTransform"].removeprefix("scale(").removesuffix(")"))
            (strokes,) = tile.elements
            side = scale * float(tile.attribs["width"]) * pixels(layout, room)
            assert float(strokes.attribs["stroke-width"]) * side >= 1
            assert 24 / side >= 3


@SOURCES
@TURNS
def test_tags_lie_within_their_squares_and_clear_of_each_other(source: str, upright: bool) -> None:
    for layout, _view, placed in maps(source, upright):
        boxes = []
        for each, tag in placed:
            left, top = layout.at(0, 0) if not layout.turned else layout.at(0, layout.breadth)
            right, bottom = layout.at(layout.length, layout.breadth if not layout.turned else 0)
            assert left <= tag.x < tag.x + tag.width <= right + 0.01, (each.drawn.planting, tag.lines)
            assert top <= tag.y < tag.y + tag.height <= bottom + 0.01, (each.drawn.planting, tag.lines)
            for number, line in enumerate(tag.lines):
                name, _seam, beside = line.partition("\t")
                wide = width_of(name, layout.text, bold=not number) + width_of(beside, layout.text)
                assert wide <= tag.width
            boxes.append((tag.x, tag.y, tag.x + tag.width, tag.y + tag.height))
        for one, other in combinations(boxes, 2):
            across = one[0] < other[2] and other[0] < one[2]
            assert not (across and one[1] < other[3] and other[1] < one[3])


@SOURCES
@TURNS
def test_a_name_stands_where_it_has_room_and_letters_never_mean_two_crops(source: str, upright: bool) -> None:
    for layout, view, placed in maps(source, upright):
        meant: dict[str, set[str]] = {}
        for each, tag in placed:
            first = tag.lines[0].partition("\t")[0]
            name = everyday(each.drawn.name, each.drawn.kind)
            if not name.startswith(first):
                meant.setdefault(first.casefold(), set()).add(each.drawn.crop)
            alone = set(filter(view.alone, each.squares))
            runs = [square for square in alone if _right(layout, square) in alone]
            if runs and len(name) <= SHORT:
                assert first == name, (each.drawn.planting, tag.lines)
        assert all(len(crops) == 1 for crops in meant.values()), meant


def _right(layout: Layout, square: Square) -> Square:
    """Return the square to the right of another as drawn."""
    if layout.turned:
        return Square(square.bed, square.column, square.row - 1)
    return Square(square.bed, square.column + 1, square.row)


@SOURCES
@TURNS
def test_a_tag_leaves_two_thirds_of_the_plant_of_a_single_square_to_be_seen(
    source: str, upright: bool
) -> None:
    seen = 0
    for layout, _view, placed in maps(source, upright):
        for each, tag in placed:
            if len(each.squares) == 1 and len(each.spots) == 1 and not each.shares:
                x, y = layout.at(float(each.spots[0].x), float(each.spots[0].y))
                radius = each.drawn.spread * look.PER_INCH / 2
                assert not _covers(tag, x, y), "the heart of the plant"
                assert _hidden(tag, x, y, radius) <= 1 / 3, (each.drawn.planting, tag)
                seen += 1
    assert seen


def _hidden(tag: MapTag, x: float, y: float, radius: float) -> float:
    """Return the share of a plant that lies under a tag, from 1,600 points around its middle."""
    steps = [(step + 0.5) / 20 - 1 for step in range(40)]
    points = [(x + dx * radius, y + dy * radius) for dx in steps for dy in steps if dx * dx + dy * dy <= 1]
    return sum(_covers(tag, *point) for point in points) / len(points)


def _covers(tag: MapTag, x: float, y: float) -> bool:
    """Return whether a place lies under a tag."""
    return tag.x < x < tag.x + tag.width and tag.y < y < tag.y + tag.height


@SOURCES
def test_a_bed_lies_flat_or_stands_and_so_do_all_its_drawings(source: str) -> None:
    for layout, _view, _tags in maps(source, upright=False):
        assert not layout.turned
    for layout, _view, _tags in maps(source, upright=True):
        assert layout.turned is (layout.bed.columns > layout.bed.rows)
