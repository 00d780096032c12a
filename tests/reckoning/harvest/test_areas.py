"""The areas that a weight may be told over, by what the garden and the plan tell of ground."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from tallybed.garden.squares import Bed, BedPath, RunOut, Square
from tallybed.garden.units import FOOT, OUNCE, Length, Weight
from tallybed.reckoning.harvest.areas import grounds, is_known
from tallybed.reckoning.harvest.tally import TallyLine
from tests.reckoning.byhand import LED_OUT, day, plan_row, squares
from tests.reckoning.byhand import season as empty

# Six squares of a foot; half of a path of 2 ft along their length is 6 sq ft, the run-out before F1 5 sq ft.
BED = Bed(name="long", title="The long bed", columns=6, rows=1)
PATH = (BedPath(side="1", width=Length.of(2, FOOT)),)
RUN_OUT = (RunOut(side="F", squares=squares("F1"), reach=Length.of(5, FOOT)),)
VINE = plan_row("squash", "F1", day(5, 20), led_out=LED_OUT)
NO_VINE = plan_row("carrot", "F1", day(5, 20))


@pytest.mark.parametrize(
    ("path", "run_out", "row", "told"),
    [
        (False, False, NO_VINE, ["the squares 6"]),
        (True, False, NO_VINE, ["the squares 6", "the squares and their share of path 12"]),
        (False, True, NO_VINE, ["the squares 6"]),
        (False, True, VINE, ["the squares 6", "the squares and their run-outs 11"]),
        (
            True,
            True,
            VINE,
            [
                "the squares 6",
                "the squares and their run-outs 11",
                "the squares and their share of path 12",
                "the squares, their run-outs and their share of path 17",
            ],
        ),
    ],
)
def test_each_area_is_told_with_what_it_is_of(path: bool, run_out: bool, row, told: list[str]) -> None:
    bed = replace(BED, paths=PATH if path else (), run_outs=RUN_OUT if run_out else ())
    found = grounds([bed], replace(empty(), plan=(row,)))
    assert [f"{one.of} {one.square_feet}" for one in found] == told


def test_a_bed_where_no_vine_is_led_out_has_no_run_out_ground() -> None:
    other = replace(BED, name="short", run_outs=RUN_OUT)
    found = grounds([replace(BED, run_outs=RUN_OUT), other], replace(empty(), plan=(VINE,)))
    assert found[-1].square_feet == Fraction(6 + 6 + 5)
    assert len(grounds([other], empty())) == 1, "nor without a plan"


def test_a_vine_is_led_out_of_the_bed_that_has_that_side() -> None:
    """One in two beds, led out over side F: a bed of three squares has none."""
    short = Bed(name="short", title="Short", columns=3, rows=1, run_outs=(replace(RUN_OUT[0], side="C"),))
    row = replace(VINE, squares=(*VINE.squares, Square("short", 2, 0)))
    found = grounds([replace(BED, run_outs=RUN_OUT), short], replace(empty(), plan=(row,)))
    assert found[-1].square_feet == Fraction(6 + 3 + 5)


def weighed(bed: str, *, counts: bool = True, weighed: bool = True) -> TallyLine:
    return TallyLine(
        weighing=0,
        season="2026",
        day=date(2026, 7, 1),
        crop="carrot",
        bed=bed,
        weight=Weight.of(5, OUNCE),
        weighed=weighed,
        counts=counts,
    )


@pytest.mark.parametrize(
    ("lines", "known"),
    [
        ([weighed("long")], True),
        ([weighed("long"), weighed("")], False),
        # What joins no total, or has no weight, needs no ground.
        ([weighed("long"), weighed("", counts=False)], True),
        ([weighed("long"), weighed("", weighed=False)], True),
    ],
)
def test_without_a_plan_each_weight_must_name_its_ground(lines: list[TallyLine], known: bool) -> None:
    assert is_known(empty(), lines) is known
    assert is_known(replace(empty(), plan=(NO_VINE,)), lines)
