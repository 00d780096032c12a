"""Dose by area: a label's rate turned to a bed's squares, never above it, held against printed examples."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.reckoning.waits.dose import dose, dose_words

EXAMPLES = (
    # rate, square feet, amount, unit. The way of reckoning (rate times area over the label's area) is that of
    # every worked example of application rates; these figures are from memory.
    ("1 lb per 100 sq ft", Fraction(30), Fraction(3, 10), "lb"),
    ("2 oz per 1,000 sq ft", Fraction(500), Fraction(1), "oz"),
    ("4 fl oz per 1000 square feet", Fraction(2500), Fraction(10), "fl oz"),
    ("1/2 cup per 10 sq ft", Fraction(4), Fraction(1, 5), "cup"),
    ("3 tsp per sq ft", Fraction(2), Fraction(6), "tsp"),
)


PRINTED = (
    # Purdue Landscape Report, "What is an inch of water" (purduelandscapereport.org): an inch of water is
    # 0.62 gallons for a square foot, so a plot of 10 by 20 ft takes 124 gallons. The product of a rate by
    # area and an area, as a label's is; of a label's own rate no printed worked example is at hand.
    ("0.62 gal per sq ft", Fraction(10 * 20), Fraction(124), "gal"),
)


@pytest.mark.parametrize(("rate", "area", "amount", "unit"), [*PRINTED, *EXAMPLES])
def test_a_rate_by_area_is_turned_to_the_area(rate: str, area: Fraction, amount: Fraction, unit: str) -> None:
    assert dose(rate, area) == (amount, unit)


@pytest.mark.parametrize("rate", ["2 fl oz per gal", "as the label says", "", "1 lb per 0 sq ft"])
def test_a_rate_that_is_not_by_area_is_left_alone(rate: str) -> None:
    assert dose(rate, Fraction(10)) is None
    assert dose_words(rate, Fraction(10)) == ""


def test_it_is_rounded_down_and_never_above_the_rate() -> None:
    assert dose_words("1 lb per 300 sq ft", Fraction(200)) == "0.666 lb at most for 200 sq ft"
    for feet in range(1, 60):
        words = dose_words("7 oz per 1000 sq ft", Fraction(feet))
        assert Fraction(words.split()[0]) <= Fraction(7 * feet, 1000)
