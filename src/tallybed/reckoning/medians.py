"""The middle of a few values, and how sure it is: no law of chance is supposed of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import comb

FEWEST = 5
"""Values below which no interval is told."""
WANTED = Fraction(95, 100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """Several values of one quantity: their median, their range, and an interval of the median."""

    median: Fraction
    low: Fraction
    high: Fraction
    interval: tuple[Fraction, Fraction] | None
    """None where there are fewer than five values."""
    coverage: Fraction
    """The chance that such an interval holds the median; 0 where there is none."""


def median(values: Sequence[Fraction]) -> Fraction:
    """Return the median; of an even number the mean of the two in the middle. Raises ValueError for none."""
    if not values:
        raise ValueError("no value has no median")
    ordered = sorted(values)
    middle = len(ordered) // 2
    return ordered[middle] if len(ordered) % 2 else (ordered[middle - 1] + ordered[middle]) / 2


def coverage(number: int, rank: int) -> Fraction:
    """Return the chance that the ``rank``-th value from below and from above enclose the median.

    Source: the sign test turned round; 1 - 2 times the sum of binomial chances below ``rank``.
    """
    return 1 - 2 * Fraction(sum(comb(number, below) for below in range(rank)), 2**number)


def spread(values: Sequence[Fraction]) -> Spread | None:
    """Return the spread of values; None where there are none.

    The interval is the narrowest that covers the median with 95 in 100; of five values no
    interval does, so the widest there is stands with its own coverage.
    """
    if not values:
        return None
    ordered, number = sorted(values), len(values)
    interval, chance = None, Fraction(0)
    if number >= FEWEST:
        ranks = [rank for rank in range(1, number // 2 + 1) if coverage(number, rank) >= WANTED]
        rank = max(ranks, default=1)
        interval, chance = (ordered[rank - 1], ordered[number - rank]), coverage(number, rank)
    return Spread(
        median=median(ordered),
        low=ordered[0],
        high=ordered[-1],
        interval=interval,
        coverage=chance,
    )
