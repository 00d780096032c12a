"""Marking out: published worked examples and exact geometry."""

from fractions import Fraction
from math import hypot

import pytest

from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import FOOT, INCH, Length
from tallybed.reckoning.marking import Fill, diagonal, fill, marks


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
def test_twine_for_the_inner_lines(columns: int, rows: int, bare: int, tied: int):
    grid = bed(columns, rows)
    assert marks(grid, Length()).twine.within(FOOT) == bare
    assert marks(grid).twine.within(FOOT) == tied
    assert marks(grid).staples == 2 * (columns - 1 + rows - 1)


def test_lines_stop_at_omitted_squares():
    # An L of three squares has two lines of one foot.
    ell = marks(bed(2, 2, ((1, 1),)))
    assert [(line.start, line.end) for line in ell.lines] == [((1, 0), (1, 1)), ((0, 1), (1, 1))]
    assert ell.staples == 4


def test_a_hole_cuts_a_line_in_two():
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
def test_volumes(length: int, width: int, depth: int, feet: str, yards: float, litres: float):
    layer = fill(bed(length, width), Length.of(depth, INCH))
    assert layer.cubic_feet == Fraction(feet)
    assert float(layer.cubic_yards) == pytest.approx(yards, abs=0.002)
    assert float(layer.litres) == pytest.approx(litres, abs=0.06)


def test_published_compost_examples():
    # Deschutes Recycling: 2,000 sq ft at a quarter inch is about 1.6 cubic yards (rounded factor).
    assert float(Fill(cubic_feet=Fraction(2000, 48)).cubic_yards) == pytest.approx(1.6, abs=0.06)
    # Cornell Waste Management Institute's example, 350 x 200 ft at 2 in: by the exact factor 1/324, 432.1.
    assert float(Fill(cubic_feet=Fraction(70_000, 6)).cubic_yards) == pytest.approx(432.10, abs=0.01)


def test_whole_bags():
    assert Fill(cubic_feet=Fraction(8)).bags(Fraction(3, 2)) == 6
    assert Fill(cubic_feet=Fraction(8)).bags_of_litres(Fraction(40)) == 6
    assert Fill(cubic_feet=Fraction(8)).bags(Fraction(2)) == 4


@pytest.mark.parametrize(("length", "width"), [(4, 3), (10, 3), (6, 5), (8, 4)])
def test_diagonal_is_that_of_pythagoras(length: int, width: int):
    reckoned = diagonal(Length.of(length, FOOT), Length.of(width, FOOT))
    assert float(reckoned.within(FOOT)) == pytest.approx(hypot(length, width), abs=0.001)
    if (length, width) == (4, 3):
        assert reckoned == Length.of(5, FOOT)


def test_marks_along_each_side():
    found = marks(bed(10, 3))
    assert [mark.within(FOOT) for mark in found.along] == list(range(1, 10))
    assert [mark.within(FOOT) for mark in found.across] == [1, 2]
