"""Marking out: published worked examples and exact geometry."""

from fractions import Fraction
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import FOOT, INCH, Length
from tallybed.reckoning.marking_out import Fill, Stakes, diagonal, fill, marks, stakes


def bed(columns: int, rows: int, omitted: tuple[tuple[int, int], ...] = ()) -> Bed:
    gone = frozenset(Square("b", column, row) for column, row in omitted)
    return Bed(name="b", title="b", columns=columns, rows=rows, omitted=gone)


@pytest.mark.parametrize(
    ("columns", "rows", "bare", "tied"),
    [
        # Lines of a one-foot grid counted on paper; one extra foot of twine for each line.
        (4, 4, 24, 30),
        (8, 4, 52, 62),
        (6, 3, 27, 34),
        (8, 2, 22, 30),
    ],
)
def test_twine_for_the_inner_lines(columns: int, rows: int, bare: int, tied: int) -> None:
    grid = bed(columns, rows)
    found = marks(grid)
    assert sum((line.length for line in found.lines), Length()).within(FOOT) == bare
    assert found.twine.within(FOOT) == tied
    assert marks(grid).staples == 2 * (columns - 1 + rows - 1)


def test_lines_stop_at_omitted_squares() -> None:
    # An L of three squares has two lines of one foot.
    ell = marks(bed(2, 2, ((1, 1),)))
    assert [(line.start, line.end) for line in ell.lines] == [((1, 0), (1, 1)), ((0, 1), (1, 1))]
    assert ell.staples == 4


def test_a_hole_cuts_a_line_in_two() -> None:
    ring = marks(bed(3, 3, ((1, 1),)))
    assert sum(line.length.within(FOOT) for line in ring.lines) == 8
    assert len(ring.lines) == 8


@pytest.mark.parametrize(
    ("length", "width", "depth", "feet", "yards", "litres"),
    [
        # Exact arithmetic, agreed with pint 0.24; yards and litres to the places shown.
        (4, 4, 6, "8", 0.2963, 226.5),
        (8, 4, 12, "32", 1.1852, 906.1),
        (8, 4, 6, "16", 0.5926, 453.1),
        (6, 3, 10, "15", 0.5556, 424.8),
        (4, 4, 8, "32/3", 0.3951, 302.0),
        # Better Homes and Gardens, worked answer: 10 x 8 ft, 6 in deep: 40 cubic feet, about 1.5 yards.
        (10, 8, 6, "40", 1.48, 1132.7),
        # Coast Aggregates, question page, worked example: 5 x 4 ft, 2 ft deep: 40 cubic feet, 1.48 yards.
        (5, 4, 24, "40", 1.48, 1132.7),
        # Compost layers: area times depth.
        (4, 4, 1, "4/3", 0.0494, 37.8),
        (8, 4, 2, "16/3", 0.1975, 151.0),
    ],
)
def test_volumes(length: int, width: int, depth: int, feet: str, yards: float, litres: float) -> None:
    layer = fill(bed(length, width), Length.of(depth, INCH))
    assert layer.cubic_feet == Fraction(feet)
    assert float(layer.cubic_yards) == pytest.approx(yards, abs=0.002)
    assert float(layer.litres) == pytest.approx(litres, abs=0.06)


def test_published_compost_examples() -> None:
    # Deschutes Recycling: 2,000 sq ft at a quarter inch is about 1.6 cubic yards (rounded factor).
    assert float(Fill(cubic_feet=Fraction(2000, 48)).cubic_yards) == pytest.approx(1.6, abs=0.06)
    # Cornell Waste Management Institute's example, 350 x 200 ft at 2 in: by the exact factor 1/324, 432.1.
    assert float(Fill(cubic_feet=Fraction(70_000, 6)).cubic_yards) == pytest.approx(432.10, abs=0.01)


def test_whole_bags() -> None:
    assert Fill(cubic_feet=Fraction(8)).bags(Fraction(3, 2)) == 6
    assert Fill(cubic_feet=Fraction(8)).bags(Fraction(2)) == 4


@pytest.mark.parametrize(("length", "width"), [(4, 3), (10, 3), (6, 5), (8, 4)])
def test_diagonal_is_that_of_pythagoras(length: int, width: int) -> None:
    reckoned = diagonal(Length.of(length, FOOT), Length.of(width, FOOT))
    assert float(reckoned.within(FOOT)) == pytest.approx(hypot(length, width), abs=0.001)
    if (length, width) == (4, 3):
        assert reckoned == Length.of(5, FOOT)


def sides(found: Stakes) -> list[tuple[str, int, list[int]]]:
    """Each side as its two corners, its length and its marks, in feet."""
    return [
        (
            f"{edge.start.name}{edge.end.name}",
            int(edge.length.within(FOOT)),
            [int(mark.within(FOOT)) for mark in edge.marks],
        )
        for edge in found.edges
    ]


def test_a_rectangle_has_four_stakes_and_two_equal_diagonals() -> None:
    found = stakes(bed(4, 3))
    assert [(corner.name, corner.at) for corner in found.corners] == [
        ("P", (0, 0)),
        ("Q", (4, 0)),
        ("R", (4, 3)),
        ("S", (0, 3)),
    ]
    assert sides(found) == [("PQ", 4, [1, 2, 3]), ("QR", 3, [1, 2]), ("SR", 4, [1, 2, 3]), ("PS", 3, [1, 2])]
    assert [(one.start.name + one.end.name, int(one.length.within(FOOT))) for one in found.diagonals] == [
        ("PR", 5),
        ("QS", 5),
    ]
    assert found.tied == ()


def test_a_bent_bed_is_measured_side_by_side_and_squared_by_the_diagonal_it_has() -> None:
    # Six by five feet, the far corner of three by three left out; drawn and counted on paper.
    gone = tuple((column, row) for column in (3, 4, 5) for row in (2, 3, 4))
    found = stakes(bed(6, 5, gone))
    assert sides(found) == [
        ("PQ", 6, [1, 2, 3, 4, 5]),
        ("QR", 2, [1]),
        ("SR", 3, [1, 2]),
        ("ST", 3, [1, 2]),
        ("UT", 3, [1, 2]),
        ("PU", 5, [1, 2, 3, 4]),
    ]
    (only,) = found.diagonals
    assert only.start.name + only.end.name == "QU"
    assert float(only.length.within(FOOT)) == pytest.approx(hypot(6, 5), abs=0.001)
    assert [corner.name for corner in found.tied] == ["S"], "two lines end at the inner corner"


def test_no_mark_where_no_line_ends() -> None:
    # A T lying on its side: rows 1 and 3 are one square long, row 2 has two.
    found = stakes(bed(2, 3, ((1, 0), (1, 2))))
    by_name = {name: found_marks for name, _length, found_marks in sides(found)}
    assert by_name["PQ"] == []
    assert sum(len(edge.marks) for edge in found.edges) + len(found.tied) == 4


@given(
    st.integers(1, 7), st.integers(1, 7), st.sets(st.tuples(st.integers(0, 6), st.integers(0, 6)), max_size=9)
)
def test_every_end_of_a_line_is_marked_on_a_side_or_stands_at_a_corner(
    columns: int, rows: int, gone: set[tuple[int, int]]
) -> None:
    grid = bed(columns, rows, tuple(gone))
    if not grid.squares:
        return
    found, lines = stakes(grid), marks(grid).lines
    ends = {end for line in lines for end in (line.start, line.end)}
    marked = set()
    for edge in found.edges:
        along = edge.start.at[1] == edge.end.at[1]
        for mark in edge.marks:
            step = int(mark.within(FOOT))
            x, y = edge.start.at
            marked.add((x + step, y) if along else (x, y + step))
    assert ends == marked | {corner.at for corner in found.tied}
    around = sum(edge.length.within(FOOT) for edge in found.edges)
    there = {(square.column, square.row) for square in grid.squares}
    open_sides = sum(
        (column + dx, row + dy) not in there
        for column, row in there
        for dx, dy in ((1, 0), (-1, 0), (0, 1), (0, -1))
    )
    assert around == open_sides, "the sides together are as long as the squares' open sides"


def test_names_of_corners_never_run_out_or_repeat() -> None:
    comb = bed(12, 2, tuple((column, 0) for column in range(1, 12, 2)))
    names = [corner.name for corner in stakes(comb).corners]
    assert names[:2] + names[10:13] == ["P", "Q", "Z", "P2", "Q2"]
    assert len(set(names)) == len(names)
