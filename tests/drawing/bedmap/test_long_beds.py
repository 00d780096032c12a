"""Signs of long beds: words keep apart from each other, on their sheet and off the bed."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.garden.squares import Bed, BedPath, RunOut, Trellis
from tallybed.garden.units import CENTIMETRE, FOOT, Length, Showing
from tests.drawing import months
from tests.drawing.bedmaps import bed_map
from tests.drawing.markup import SVG, of_class, parsed

_ANCHORS = {"start": 0.0, "middle": 0.5, "end": 1.0}
Box = tuple[float, float, float, float]


def box(one: Tree.Element) -> Box:
    """Return left, top, right and bottom of a level text: its small letters and capitals, without tails."""
    size = float(one.get("font-size", "0"))
    bold = one.get("class") in ("d-name", "d-title")
    wide = width_of("".join(one.itertext()), size, bold=bold)
    left = float(one.get("x", "0")) - wide * _ANCHORS[one.get("text-anchor", "start")]
    base = float(one.get("y", "0"))
    return left, base - 0.72 * size, left + wide, base


def meet(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def bed(columns: int, rows: int) -> Bed:
    width = Length.of(3, FOOT)
    sides = ("1", str(rows), "A") if rows > 1 else ("1", "A")
    return replace(
        months.LONG,
        columns=columns,
        rows=rows,
        trellises=(),
        run_outs=(),
        paths=tuple(BedPath(side=side, width=width) for side in sides),
    )


@pytest.mark.parametrize(("columns", "rows"), [(10, 3), (24, 2), (30, 1), (16, 4), (40, 2), (3, 3)])
def test_words_on_a_sign_keep_apart_and_on_the_sheet(columns: int, rows: int) -> None:
    month = months.month_of(bed(columns, rows), ())
    root = parsed(bed_map(month, ident="m", links={}, smallest=look.SIGN_TEXT))
    _left, _top, width, height = map(float, root.get("viewBox", "").split())
    texts = [one for one in root.iter(f"{SVG}text") if not one.get("transform")]
    boxes = [("".join(one.itertext()), box(one)) for one in texts]
    assert {"N", "A", "1"} <= {words for words, _box in boxes}
    for words, (left, top, right, bottom) in boxes:
        assert left >= -0.5, words
        assert top >= -0.5, words
        assert (right <= width + 0.5, bottom <= height) == (True, True), words
    met = [(one, other) for (one, a), (other, b) in combinations(boxes, 2) if meet(a, b)]
    assert met == []


@pytest.mark.parametrize(("columns", "rows", "part"), [(6, 5, "D1:F1"), (6, 5, "A1:F1"), (10, 3, "A1:F1")])
def test_path_trellis_and_run_out_of_a_sign_keep_their_words_apart(
    columns: int, rows: int, part: str
) -> None:
    """A path behind a trellis, and a run-out that has no vines: fails where the words lie in each other."""
    plain = bed(columns, rows)
    trellis = Trellis(side="1", squares=months.squares(part, plain.name), height=Length.of(5, FOOT))
    ground = RunOut(side=str(rows), squares=plain.along(str(rows)), reach=Length.of(5, FOOT))
    path = BedPath(side="1", width=Length.of(2, FOOT))
    full = replace(plain, paths=(path,), trellises=(trellis,), run_outs=(ground,))
    root = parsed(bed_map(months.month_of(full, ()), ident="m", links={}, smallest=look.SIGN_TEXT))
    level = [one for one in root.iter(f"{SVG}text") if not one.get("transform")]
    boxes = {"".join(one.itertext()): box(one) for one in level}
    assert {"path 2 ft", "trellis 5 ft", "run-out 5 ft"} <= boxes.keys()
    assert not meet(boxes["path 2 ft"], boxes["trellis 5 ft"])
    (outside,) = of_class(root, "d-run-out")
    (rect,) = outside.iter(f"{SVG}rect")
    assert boxes["run-out 5 ft"][1] >= float(rect.get("y", "")) + look.BOARD, "its words lie on the boards"


@pytest.mark.parametrize(("columns", "rows"), [(24, 2), (30, 1), (30, 2)])
def test_the_words_of_a_path_do_not_reach_into_the_bed(columns: int, rows: int) -> None:
    root = parsed(
        bed_map(months.month_of(bed(columns, rows), ()), ident="m", links={}, smallest=look.SIGN_TEXT)
    )
    papers = [paper for ground in of_class(root, "d-path") for paper in ground.iter(f"{SVG}rect")]
    spans = [(y := float(one.get("y", "")), y + float(one.get("height", ""))) for one in papers]
    level = [one for one in of_class(root, "d-path-words") if not one.get("transform")]
    assert level
    for one in level:
        _left, top, _right, base = box(one)
        assert any(above <= top < base <= below for above, below in spans), "".join(one.itertext())


def test_a_name_has_room_on_the_sign_of_a_long_bed() -> None:
    long = bed(24, 2)
    row = months.plan_row(long, "CA1", "A1:D2", crop="carrot", spacing=3)
    root = parsed(bed_map(months.month_of(long, (row,)), ident="m", links={}, smallest=look.SIGN_TEXT))
    (tag,) = of_class(root, "d-tag")
    assert "carrot" in "".join(tag.itertext())


@pytest.mark.parametrize(("columns", "rows"), [(1, 3), (1, 1), (2, 1), (1, 8), (3, 1)])
@pytest.mark.parametrize("upright", [False, True])
def test_the_title_of_a_narrow_bed_is_whole_and_apart_from_the_compass(
    columns: int, rows: int, upright: bool
) -> None:
    """Fails where the title is cut to the width of the bed though the sheet beside it is empty."""
    narrow = replace(bed(columns, rows), title="The slim bed by the balcony", paths=())
    root = parsed(bed_map(months.month_of(narrow, ()), ident="m", links={}, upright=upright))
    _left, _top, width, _height = map(float, root.get("viewBox", "").split())
    (title,) = of_class(root, "d-title")
    (north,) = (one for one in root.iter(f"{SVG}text") if one.text == "N")
    assert title.text == narrow.title
    assert not meet(box(title), box(north))
    assert box(title)[2] <= box(north)[0] <= box(north)[2] <= width


@pytest.mark.parametrize(("columns", "rows"), [(1, 1), (1, 2), (2, 1), (2, 2), (4, 2), (5, 3), (4, 8)])
@pytest.mark.parametrize("metric", [False, True])
def test_the_words_on_the_sign_of_a_small_bed_are_whole_and_keep_apart(
    columns: int, rows: int, metric: bool
) -> None:
    """Fails where title and day are cut short, and where two dimension lines meet with their units."""
    side = Length.of(30, CENTIMETRE) if metric else Length.of(1, FOOT)
    small = replace(bed(columns, rows), title="The bed by the balcony", side=side, paths=())
    month, showing = months.month_of(small, ()), Showing(metric=metric)
    root = parsed(bed_map(month, ident="m", links={}, smallest=look.SIGN_TEXT, showing=showing))
    texts = [one for one in root.iter(f"{SVG}text") if not one.get("transform")]
    boxes = [("".join(one.itertext()), box(one)) for one in texts]
    assert small.title in dict(boxes)
    assert not any("…" in words for words, _box in boxes)
    assert [(one, other) for (one, a), (other, b) in combinations(boxes, 2) if meet(a, b)] == []


@pytest.mark.parametrize(("columns", "rows"), [(1, 1), (1, 8), (2, 2)])
def test_the_sign_of_a_small_bed_has_words_for_a_reader_at_two_feet(columns: int, rows: int) -> None:
    """A sign lies flat on paper: a narrow bed's map is as wide as high, and its title has that room."""
    small = replace(bed(columns, rows), title="The bed by the balcony", paths=())
    root = parsed(bed_map(months.month_of(small, ()), ident="m", links={}, smallest=look.SIGN_TEXT))
    _left, _top, width, height = map(float, root.get("viewBox", "").split())
    assert width >= height
    names = max(float(one.get("font-size", "")) for one in of_class(root, "d-name"))
    for one in (*of_class(root, "d-title"), *(each for each in root.iter(f"{SVG}text") if each.text)):
        # The rule of the style sheet: names are read at six feet, so a third of their size at two.
        assert float(one.get("font-size", "")) >= names / 3, one.text


@pytest.mark.parametrize(("columns", "rows"), [(20, 3), (30, 2), (30, 1)])
def test_a_planting_of_one_square_has_its_letters_whole_on_the_sign_of_a_long_bed(
    columns: int, rows: int
) -> None:
    """The list beside the map says what they mean: fails where a tag says "C…", which is in no list."""
    long = bed(columns, rows)
    planted = [
        months.plan_row(long, "carrot-1", "A1", crop="carrot", spacing=3),
        months.plan_row(long, "onion-1", "B1", crop="onion-bulb", spacing=4),
    ]
    root = parsed(bed_map(months.month_of(long, planted), ident="m", links={}, smallest=look.SIGN_TEXT))
    said = ["".join(tag.itertext()).strip() for tag in of_class(root, "d-tag")]
    assert sorted(said) == ["Ca", "On"]
    for tag in of_class(root, "d-tag"):
        (shape,) = tag.iter(f"{SVG}path")
        (words,) = tag.iter(f"{SVG}text")
        wide = width_of("".join(words.itertext()).strip(), float(words.get("font-size", "")), bold=True)
        room = float(shape.get("d", "").split("h")[1].split("v")[0])
        assert wide <= room
