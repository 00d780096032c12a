"""What stands around the beds, as it is written."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from tallybed.garden.garden import Garden
from tallybed.garden.surroundings import ThingKind
from tallybed.garden.units import FOOT, INCH, Length
from tallybed.reading.folder.garden_folder import read
from tallybed.reading.text.dates import months
from tests.small_garden import written

GARDEN = """\
name: Tiny
beds:
  - {name: long, length: 4 squares, width: 2 squares, trellis: [{side: 1, height: 4 ft, lean: LEAN}]}
surroundings:
  - {tree: the ash, bearing: 360, distance: 12 m, width: 25 ft, height: 50 ft, leafless: Nov–Mar, bed: Long}
  - {wall: the hall, bearing: 182.5, distance: 6 ft, width: 30 ft, height: 12 ft}
"""


def _read(root: Path, lean: str) -> Garden:
    found = read(written(root, {"garden.yaml": GARDEN.replace("LEAN", lean)}))
    assert found.findings == ()
    assert found.garden is not None
    return found.garden


def test_things_are_read_with_their_months_and_their_bed(tmp_path: Path) -> None:
    tree, wall = _read(tmp_path, "6 in").surroundings
    assert (tree.kind, tree.name, tree.bearing, tree.bed) == (ThingKind.TREE, "the ash", 0, "long")
    assert tree.leafless == {11, 12, 1, 2, 3}
    assert (wall.kind, wall.bearing, wall.bed) == (ThingKind.WALL, Fraction(365, 2), "")
    assert wall.height == Length.of(12, FOOT)
    assert wall.leafless == frozenset()


@pytest.mark.parametrize(("lean", "inches"), [("6 in", 6), ("6 in outward", -6), ("1/2 ft inward", 6)])
def test_a_trellis_leans_in_over_the_bed_or_out_from_it(tmp_path: Path, lean: str, inches: int) -> None:
    (trellis,) = _read(tmp_path, lean).beds[0].trellises
    assert trellis.lean == Length.of(inches, INCH)


def test_months_may_be_one_or_run_over_new_year() -> None:
    assert months("Dec") == {12}
    assert months("November to March") == months("Nov. – Mar") == {11, 12, 1, 2, 3}
    assert months("Mar until May") == {3, 4, 5}
