"""What may be said of a crop, and of a season, beside printed row yields: by rule, never by eye.

Plots of one size in one field, all treated alike, differed by a coefficient of variation of
8 to 34 percent: pole beans in Washington 8.0 (plots of 50 sq ft), carrots there 33.5 (7.5 sq
ft), tomatoes in Kashmir 33.6 (43 sq ft), computed from the plots' own data in the R package
agridat (K. Wright, 2026; R. Moore and J. Darroch 1956, S. Shafi and others 2007).
A difference within the largest of these is
no difference, so what counts as more or less lies beyond it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from enum import StrEnum
from fractions import Fraction
from math import inf

from tallybed.reckoning.medians import median
from tallybed.reckoning.rows.land import Range
from tallybed.reckoning.rows.planting_yields import PlantingYield
from tallybed.reckoning.rows.printed import Printed

NOISE = Fraction(134, 100)
"""By how much two equal plots may differ: the largest variation above, 34 percent."""
LEAST = 3
"""Plantings that a verdict on a crop needs."""
COVERED = Fraction(1, 2)
"""The least share of a season's weight that must have a printed yield."""


class Verdict(StrEnum):
    """What may be said."""

    MORE = "more"
    SAME = "about the same"
    LESS = "less"
    UNKNOWN = "too little to tell"


def of_crop(plantings: Iterable[PlantingYield], printed: Printed) -> Verdict:
    """Return the verdict on a crop from its plantings over all seasons, on like-for-like ground.

    Only plantings that have ended, and of which something was weighed or all was lost, count. One
    of which more was picked than weighed lies somewhere at or above its figure: for *more* the
    figure itself is taken, for *less* there is no telling how high it lies, so it can never make a
    crop *less*.
    """
    kept = [one for one in plantings if one.counts]
    if len(kept) < LEAST:
        return Verdict.UNKNOWN
    at_least = median([one.like_for_like for one in kept])
    if at_least > NOISE * printed.high:
        return Verdict.MORE
    at_most = _median_or_none([None if one.at_least else one.like_for_like for one in kept])
    if at_most is not None and at_most < printed.low / NOISE:
        return Verdict.LESS
    return Verdict.SAME


def of_season(
    row_ground: Range, ground: Fraction, covered: Fraction, *, over: bool, at_least: bool
) -> Verdict:
    """Return the verdict on a season: its row ground beside its ground, both in square feet.

    ``covered``: the share of the weight with a printed yield; ``over``: whether the season is; ``at_least``:
    whether more was picked than was weighed, which can never make a season *less*. Nor can weight
    without a printed yield, which took ground as well: for *less* it is taken to need as much as the rest.
    """
    if covered < COVERED:
        return Verdict.UNKNOWN
    if row_ground.low > NOISE * ground:
        return Verdict.MORE
    if over and not at_least and row_ground.high / covered * NOISE < ground:
        return Verdict.LESS
    if ground / NOISE <= row_ground.middle <= ground * NOISE:
        return Verdict.SAME
    return Verdict.UNKNOWN


def _median_or_none(values: Sequence[Fraction | None]) -> Fraction | None:
    """Return the median where None lies above every number; None where it is not bounded."""
    ordered = sorted(values, key=lambda one: inf if one is None else one)
    middle = len(ordered) // 2
    needed = ordered[middle : middle + 1] if len(ordered) % 2 else ordered[middle - 1 : middle + 1]
    known = [one for one in needed if one is not None]
    return sum(known, Fraction(0)) / len(known) if len(known) == len(needed) else None
