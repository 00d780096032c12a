"""The rules of what may be said, at each of their boundaries."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.garden.naming import CropName
from tallybed.garden.units import POUND, Weight
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.rows.ground import PlantingGround
from tallybed.reckoning.rows.land import Range
from tallybed.reckoning.rows.planting_yields import PlantingYield
from tallybed.reckoning.rows.printed import Printed
from tallybed.reckoning.rows.verdicts import Verdict, of_crop, of_season

PRINTED = Printed(low=Fraction("0.67"), middle=Fraction("1.02"), high=Fraction("1.2"), figures=())
TOP = Fraction("1.34") * Fraction("1.2")
FOOT = Fraction("0.67") / Fraction("1.34")
BIT = Fraction(1, 10**9)


def grew(
    value: Fraction,
    *,
    at_least: bool = False,
    ended: bool = True,
    squares: Fraction = Fraction(2),
    lost: bool = False,
) -> PlantingYield:
    """Return a planting that gave ``value`` pounds per square foot of its ground of four square feet."""
    ground = PlantingGround(squares=squares, run_out=Fraction(1), path=3 - squares)
    return PlantingYield(
        season="2026",
        planting=Planting(season="2026", key="CA1", crop=CropName(typed="carrot", slugs=("carrot",))),
        crop="carrot",
        ground=ground,
        weight=Weight.of(value * ground.whole, POUND),
        at_least=at_least,
        ended=ended,
        lost=lost,
    )


def said(*values: Fraction) -> Verdict:
    return of_crop([grew(value, lost=not value) for value in values], PRINTED)


def test_more_only_above_the_highest_times_the_noise():
    assert said(TOP, TOP, TOP) is Verdict.SAME, "exactly 1.34 times the highest is not above it"
    assert said(TOP + BIT, TOP + BIT, TOP + BIT) is Verdict.MORE


def test_less_only_below_the_lowest_over_the_noise():
    assert said(FOOT, FOOT, FOOT) is Verdict.SAME, "exactly the lowest divided by 1.34 is not below it"
    assert said(FOOT - BIT, FOOT - BIT, FOOT - BIT) is Verdict.LESS


def test_the_median_decides_not_the_mean():
    assert said(Fraction(100), Fraction(1), Fraction(1)) is Verdict.SAME
    assert said(Fraction(100), TOP + BIT, Fraction(0)) is Verdict.MORE
    assert said(Fraction(0), Fraction(0), Fraction(100)) is Verdict.LESS
    # Of an even number the mean of the two in the middle: here exactly at the boundary, then above it.
    assert said(Fraction(0), TOP - 1, TOP + 1, Fraction(9)) is Verdict.SAME
    assert said(Fraction(0), TOP - 1, TOP + 1 + BIT, Fraction(9)) is Verdict.MORE
    assert said(Fraction(0), FOOT / 2, FOOT * 3 / 2, Fraction(9)) is Verdict.SAME
    assert said(Fraction(0), FOOT / 2, FOOT * 3 / 2 - BIT, Fraction(9)) is Verdict.LESS


def test_under_three_plantings_there_is_too_little_to_tell():
    assert said() is Verdict.UNKNOWN
    assert said(Fraction(9), Fraction(9)) is Verdict.UNKNOWN
    assert said(Fraction(9), Fraction(9), Fraction(9)) is Verdict.MORE


def test_only_ended_plantings_with_known_squares_count():
    standing = grew(Fraction(9), ended=False)
    nowhere = grew(Fraction(9), squares=Fraction(0))
    two = [grew(Fraction(9)), grew(Fraction(9))]
    assert of_crop([*two, standing], PRINTED) is Verdict.UNKNOWN
    assert of_crop([*two, nowhere], PRINTED) is Verdict.UNKNOWN
    assert of_crop([*two, grew(Fraction(9))], PRINTED) is Verdict.MORE


def test_unweighed_pickings_may_support_more_and_never_less():
    open_ones = [grew(Fraction(9), at_least=True)] * 3
    assert of_crop(open_ones, PRINTED) is Verdict.MORE
    assert of_crop([grew(BIT, at_least=True)] * 3, PRINTED) is Verdict.SAME
    # One open planting, however low, leaves the median bounded by the closed ones above it.
    assert of_crop([grew(BIT), grew(BIT), grew(BIT, at_least=True)], PRINTED) is Verdict.LESS
    assert of_crop([grew(BIT), grew(Fraction(1)), grew(BIT, at_least=True)], PRINTED) is Verdict.SAME
    assert of_crop([grew(BIT), *[grew(BIT, at_least=True)] * 2], PRINTED) is Verdict.SAME
    # Of four with two open ones the median has no upper bound.
    assert of_crop([*[grew(BIT)] * 2, *[grew(BIT, at_least=True)] * 2], PRINTED) is Verdict.SAME


def test_what_nobody_weighed_is_not_known_and_counts_in_no_verdict():
    cleared, handed_out = grew(Fraction(0)), grew(Fraction(0), at_least=True)
    lost, standing = grew(Fraction(0), lost=True), grew(Fraction(0), ended=False)
    assert [one.unknown for one in (cleared, handed_out, lost, standing)] == [True, True, False, False]
    assert [one.counts for one in (cleared, handed_out, lost, standing)] == [False, False, True, False]
    high = [grew(Fraction(9))] * 3
    assert of_crop([cleared] * 3, PRINTED) is Verdict.UNKNOWN, "three times nothing told is nothing told"
    assert of_crop([*high, *[cleared] * 4], PRINTED) is Verdict.MORE, "what is not known pulls nothing down"
    assert of_crop([*high, *[lost] * 4], PRINTED) is Verdict.LESS, "losses count"


def test_like_for_like_ground_is_squares_run_out_and_path():
    one = grew(Fraction(2))
    assert one.ground.whole == 4
    assert (one.like_for_like, one.on_squares) == (2, 4)


GROUND = Fraction(100)


def season(
    low: Fraction,
    middle: Fraction,
    high: Fraction,
    *,
    covered: Fraction = Fraction(1),
    over: bool = True,
    at_least: bool = False,
) -> Verdict:
    rows = Range(low=low, middle=middle, high=high)
    return of_season(rows, GROUND, covered, over=over, at_least=at_least)


@pytest.mark.parametrize(
    ("low", "middle", "high", "verdict"),
    [
        (Fraction(134), Fraction(200), Fraction(300), Verdict.UNKNOWN),  # not above
        (Fraction(134) + BIT, Fraction(200), Fraction(300), Verdict.MORE),
        (Fraction(10), Fraction(20), GROUND / Fraction("1.34"), Verdict.UNKNOWN),  # not below
        (Fraction(10), Fraction(20), GROUND / Fraction("1.34") - BIT, Verdict.LESS),
        (Fraction(10), Fraction(134), Fraction(500), Verdict.SAME),  # ends included
        (Fraction(10), Fraction(134) + BIT, Fraction(500), Verdict.UNKNOWN),
        (Fraction(10), GROUND / Fraction("1.34"), Fraction(500), Verdict.SAME),
        (Fraction(10), GROUND / Fraction("1.34") - BIT, Fraction(500), Verdict.UNKNOWN),
    ],
)
def test_the_season_at_each_boundary(low: Fraction, middle: Fraction, high: Fraction, verdict: Verdict):
    assert season(low, middle, high) is verdict


def test_a_season_is_not_less_before_it_is_over():
    low = (Fraction(10), Fraction(20), Fraction(30))
    assert season(*low, over=True) is Verdict.LESS
    assert season(*low, over=False) is Verdict.UNKNOWN
    assert season(Fraction(200), Fraction(300), Fraction(400), over=False) is Verdict.MORE
    assert season(Fraction(80), Fraction(100), Fraction(120), over=False) is Verdict.SAME


def test_a_season_of_which_more_was_picked_than_weighed_is_never_less():
    low = (Fraction(10), Fraction(20), Fraction(30))
    assert season(*low, at_least=True) is Verdict.UNKNOWN
    assert season(Fraction(200), Fraction(300), Fraction(400), at_least=True) is Verdict.MORE
    assert season(Fraction(80), Fraction(100), Fraction(120), at_least=True) is Verdict.SAME


def test_weight_without_a_printed_yield_took_ground_too():
    """Of 100 sq ft, 50 gave the half that is printed: they must have given less than rows."""
    half = GROUND / 2 / Fraction("1.34")
    assert season(Fraction(10), Fraction(20), half - BIT, covered=Fraction(1, 2)) is Verdict.LESS
    assert season(Fraction(10), Fraction(20), half, covered=Fraction(1, 2)) is Verdict.UNKNOWN


def test_half_the_weight_must_have_a_printed_yield():
    more = (Fraction(200), Fraction(300), Fraction(400))
    assert season(*more, covered=Fraction(1, 2)) is Verdict.MORE, "half of it is enough"
    assert season(*more, covered=Fraction(1, 2) - BIT) is Verdict.UNKNOWN
