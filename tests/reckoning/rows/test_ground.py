"""The ground a planting lives on: its squares, the ground its vines take, its squares' part of the path."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tallybed.garden.garden import Garden
from tallybed.garden.records.plan import LedOut
from tallybed.garden.squares import Bed, BedPath
from tallybed.garden.units import FOOT, Length
from tallybed.reckoning.rows.ground import planting_ground
from tests.reckoning.byhand import squares

# 18 squares of half a foot are 4.5 sq ft; half of 2 ft of path along 3 ft are 3 sq ft, 1/6 for each square.
LONG = Bed(
    name="long",
    title="The long bed",
    columns=6,
    rows=3,
    side=Length.of(Fraction(1, 2), FOOT),
    paths=(BedPath(side="1", width=Length.of(2, FOOT)),),
)
ELBOW = Bed(name="elbow", title="The elbow", columns=3, rows=3)
GARDEN = Garden(name="Two beds", beds=(LONG, ELBOW))
OUT = LedOut(side="F", reach=Length.of(4, FOOT))

CASES = (
    # squares, whether vines are led out before column F, square feet of squares, run-out and path
    ("A1", False, "1/4", "0", "1/6"),
    ("A1 A1", False, "1/4", "0", "1/6"),
    ("A1 B1 elbow/A1", False, "3/2", "0", "1/3"),
    # Before each square at the side half a foot by four; through one of it where none is at the side.
    ("F1", True, "1/4", "2", "1/6"),
    ("E1 F1 F2", True, "3/4", "4", "1/2"),
    ("A1 B1", True, "1/2", "2", "1/3"),
    ("", True, "0", "0", "0"),
    # The elbow has no side F, so vines there are not led out.
    ("F1 elbow/A1", True, "5/4", "2", "1/6"),
)


@pytest.mark.parametrize(("where", "led_out", "own", "run_out", "path"), CASES)
def test_the_ground_of_a_planting(where: str, led_out: bool, own: str, run_out: str, path: str) -> None:
    found = planting_ground(GARDEN, squares(where), OUT if led_out else None)
    told = (found.squares, found.run_out, found.path)
    assert told == (Fraction(own), Fraction(run_out), Fraction(path))
    assert found.whole == sum(told)


def test_a_bed_with_squares_left_out_divides_its_path_among_those_there() -> None:
    bed = replace(LONG, omitted=frozenset(squares("A1 A2 A3")))
    found = planting_ground(replace(GARDEN, beds=(bed, ELBOW)), squares("B1"), None)
    assert found.path == bed.path_square_feet / 15
