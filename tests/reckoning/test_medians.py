"""Medians and their intervals against binomial sums and the sign test turned round.

Coverages: binomial sums as tabled for n = 5 to 12. Interval of 15 differences of maize
heights, in eighths of an inch: SciPy 1.17.1, ``quantile_test``, gives 8 and 49.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.reckoning.medians import coverage, median, spread

MAIZE = (6, 8, 14, 16, 23, 24, 28, 29, 41, -48, 49, 56, 60, -67, 75)
TEN = (4, 4, -3, 5, -1, 5, 6, 5, 6, 2)


@pytest.mark.parametrize(
    ("number", "rank", "printed"),
    [
        (5, 1, 0.937500),
        (6, 1, 0.968750),
        (7, 1, 0.984375),
        (8, 1, 0.992188),
        (8, 2, 0.929688),
        (9, 2, 0.960938),
        (10, 2, 0.978516),
        (11, 2, 0.988281),
        (11, 3, 0.934570),
        (12, 3, 0.961426),
        (15, 4, 0.96484375),
        (17, 5, 0.950958),
    ],
)
def test_the_coverage_of_an_interval_between_ordered_values(number: int, rank: int, printed: float):
    assert float(coverage(number, rank)) == pytest.approx(printed, abs=1e-6)


def test_the_interval_is_the_narrowest_that_covers_95_in_100():
    found = spread([Fraction(one) for one in MAIZE])
    assert found is not None
    assert found.interval == (8, 49)
    assert (found.median, found.low, found.high) == (24, -67, 75)
    seventeen = spread([Fraction(one) for one in range(1, 18)])
    assert seventeen is not None
    assert seventeen.interval == (5, 13)
    ten = spread([Fraction(one) for one in TEN])
    assert ten is not None
    assert ten.interval == (-1, 6)
    assert ten.median == Fraction("4.5")


def test_no_interval_under_five_values_and_the_widest_for_five():
    assert spread([]) is None
    four = spread([Fraction(one) for one in (1, 2, 3, 4)])
    assert four is not None
    assert (four.interval, four.coverage) == (None, 0)
    assert four.median == Fraction("2.5")
    five = spread([Fraction(one) for one in (5, 1, 4, 2, 3)])
    assert five is not None
    assert five.interval == (1, 5)
    assert five.coverage == Fraction(15, 16), "no interval of five values reaches 95 in 100"


def test_nothing_has_no_median():
    with pytest.raises(ValueError, match="median"):
        median([])
