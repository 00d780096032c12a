"""A corner check can be made on the ground at every corner, and all together square the whole bed.

Distances are by Pythagoras; that a triangle of 3, 4 and 5 is square is its converse (Euclid,
Elements I.47 and I.48).
"""

from __future__ import annotations

from math import acos, degrees, hypot, isclose

import pytest

from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import CENTIMETRE, FOOT, INCH, Length
from tallybed.reckoning.marking_out import stakes
from tallybed.reckoning.squaring import corner_checks, ties, triple

ONE_FOOT = Length.of(1, FOOT)


def bed(columns: int, rows: int, *omitted: tuple[int, int], side: Length = ONE_FOOT) -> Bed:
    gone = frozenset(Square("b", *place) for place in omitted)
    return Bed(name="b", title="", columns=columns, rows=rows, omitted=gone, side=side)


ELBOW = bed(6, 5, *((x, y) for x in (3, 4, 5) for y in (2, 3, 4)))
BEDS = {
    "a rectangle": bed(10, 3),
    "an elbow": ELBOW,
    "an elbow with a leg of one square": bed(3, 3, (1, 1), (2, 1), (1, 2), (2, 2)),
    "a staircase": bed(3, 3, (1, 0), (2, 0), (2, 1)),
    "a T": bed(3, 2, (0, 1), (2, 1)),
    "a frame around a hole": bed(3, 3, (1, 1)),
    "two parts": bed(3, 1, (1, 0)),
    "one square of 30 cm": bed(1, 1, side=Length.of(30, CENTIMETRE)),
}


@pytest.mark.parametrize("name", BEDS)
def test_every_corner_has_a_distance_between_stakes_that_are_there(name: str):
    staked = stakes(BEDS[name])
    checks = corner_checks(BEDS[name], staked)
    assert [one.corner for one in checks] == list(staked.corners)
    for one in checks:
        assert {one.start, one.end} <= set(staked.corners)
        feet = float(BEDS[name].side.within(FOOT))
        apart = hypot(one.start.at[0] - one.end.at[0], one.start.at[1] - one.end.at[1]) * feet
        assert isclose(float(one.length.within(FOOT)), apart, abs_tol=0.001)


@pytest.mark.parametrize("name", BEDS)
def test_by_sides_and_distances_alone_every_corner_is_a_right_angle(name: str):
    """The law of cosines, from what is measured and nothing else."""
    found = BEDS[name]
    staked = stakes(found)
    lengths = {frozenset((edge.start, edge.end)): float(edge.length.within(FOOT)) for edge in staked.edges}
    for one in corner_checks(found, staked):
        left = lengths[frozenset((one.corner, one.start))]
        right = lengths[frozenset((one.corner, one.end))]
        across = float(one.length.within(FOOT))
        angle = degrees(acos((left**2 + right**2 - across**2) / (2 * left * right)))
        assert isclose(angle, 90, abs_tol=0.05), one


@pytest.mark.parametrize("name", BEDS)
def test_the_triangle_fits_both_sides_of_every_corner(name: str):
    found = BEDS[name]
    staked = stakes(found)
    for metric in (False, True):
        part = triple(found, staked, metric=metric)
        assert part is not None
        for corner in staked.corners:
            sides = sorted(edge.length for edge in staked.edges if corner in (edge.start, edge.end))
            assert part * 3 <= sides[0]
            assert part * 4 <= sides[-1]


def test_a_triangle_by_hand():
    # The shortest corner of the elbow has sides of 2 ft and 3 ft: 3 parts of 8 in are 2 ft, 4 are 2 ft 8 in.
    assert triple(ELBOW, stakes(ELBOW), metric=False) == Length.of(8, INCH)


def test_a_hole_and_a_part_of_its_own_are_tied_to_the_first_outline():
    assert not ties(ELBOW, stakes(ELBOW))
    assert len(ties(BEDS["two parts"], stakes(BEDS["two parts"]))) == 4
    assert len(ties(BEDS["a frame around a hole"], stakes(BEDS["a frame around a hole"]))) == 4
