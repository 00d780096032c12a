"""Dose by area: a label's rate turned to a bed's squares, never above it, held against printed examples."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.garden.units import Showing
from tallybed.reckoning.waits.dose import dose, dose_words

ACRE = Fraction(43_560)
"""In square feet. Source: NIST Handbook 44, appendix C."""
EXAMPLES = (
    # rate, square feet, amount, unit. Worked by hand: rate times area over the label's area.
    ("1 lb per 100 sq ft", Fraction(30), Fraction(3, 10), "lb"),
    ("2 oz per 1,000 sq ft", Fraction(500), Fraction(1), "oz"),
    ("4 fl oz per 1000 square feet", Fraction(2500), Fraction(10), "fl oz"),
    ("1/2 cup per 10 sq ft", Fraction(4), Fraction(1, 5), "cup"),
    ("1 1/2 tbsp per 100 sq. ft.", Fraction(50), Fraction(3, 4), "tbsp"),
    ("3 tsp per sq ft", Fraction(2), Fraction(6), "tsp"),
    (".5 oz / sq yd", Fraction(18), Fraction(1), "oz"),
    ("2 to 4 oz per 1,000 sq ft", Fraction(500), Fraction(2), "oz"),
    ("2-4 oz per 1,000 ft²", Fraction(500), Fraction(2), "oz"),
    ("43560 g an acre", Fraction(1), Fraction(1), "g"),
    ("2.5 ml per 10 sq ft", Fraction(10), Fraction("2.5"), "ml"),
    ("2,5 ml per 10 sq ft", Fraction(10), Fraction("2.5"), "ml"),
    ("0,5-1,5 g per 10 sq ft", Fraction(10), Fraction("1.5"), "g"),
    ("0.125 oz per 10 sq ft", Fraction(10), Fraction("0.125"), "oz"),
    (",125 oz per 1,000 sq ft", Fraction(1000), Fraction("0.125"), "oz"),
    ("1,000,000 g per 1.000.000 sq ft", Fraction(1), Fraction(1), "g"),
    ("1.000,5 g per 12,5 sq ft", Fraction(1), Fraction("1000.5") / Fraction("12.5"), "g"),
    ("2 quarts per acre", ACRE, Fraction(2), "quarts"),
    ("0.3048 ml per m2", Fraction(10), Fraction("0.3048") ** 3 * 10, "ml"),
    ("100 g per 100 m²", Fraction(1), Fraction("0.3048") ** 2, "g"),
    ("10 kg per ha", Fraction(1000), Fraction("0.3048") ** 2, "kg"),
)
PRINTED = (
    # Purdue Landscape Report, "What is an inch of water" (purduelandscapereport.org): an inch of water is
    # 0.62 gallons for a square foot, so a plot of 10 by 20 ft takes 124 gallons.
    ("0.62 gal per sq ft", Fraction(10 * 20), Fraction(124), "gal"),
)
LABEL_TABLE = (
    # A label's rate for an acre, and what it comes to on 1,000 sq ft, with the figures that tables for
    # applicators print beside labels (from memory; an acre is 43.56 times 1,000 sq ft):
    # rate, how many of the smaller unit are in the label's, what is printed.
    ("1 lb per acre", 16, "0.37"),  # ounces
    ("1 pint per acre", 16, "0.37"),  # fluid ounces
    ("1 quart per acre", 32, "0.73"),  # fluid ounces
    ("1 gal per acre", 128, "2.94"),  # fluid ounces
    ("100 gal per acre", 1, "2.3"),  # gallons
)


@pytest.mark.parametrize(("rate", "area", "amount", "unit"), [*PRINTED, *EXAMPLES])
def test_a_rate_by_area_is_turned_to_the_area(rate: str, area: Fraction, amount: Fraction, unit: str) -> None:
    assert dose(rate, area) == (amount, unit)


@pytest.mark.parametrize(("rate", "smaller", "printed"), LABEL_TABLE)
def test_a_labels_rate_for_an_acre_comes_to_what_is_printed_for_1000_sq_ft(
    rate: str, smaller: int, printed: str
) -> None:
    found = dose(rate, Fraction(1000))
    assert found is not None
    places = len(printed.partition(".")[2])
    assert round(float(found[0] * smaller), places) == float(printed)


def test_pounds_an_acre_and_kilograms_a_hectare() -> None:
    """1 lb an acre is 1.12085 kg a hectare: NIST Special Publication 811, appendix B (from memory)."""
    hectare = 10_000 / Fraction("0.3048") ** 2
    found = dose("1 lb per acre", hectare)
    assert found is not None
    assert float(found[0] * Fraction("0.45359237")) == pytest.approx(1.12085, abs=5e-6)


@pytest.mark.parametrize(
    "rate",
    [
        "2 fl oz per gal",
        "as the label says",
        "",
        "1 lb per 0 sq ft",
        "1 lb per 100 ft",
        "1 lb per 10 am",
        "1/0 lb per sq ft",
        # A thousand times as much one way as the other.
        "1,250 g per ha",
        "2.500 g per ha",
        "1 to 1,250 g per ha",
        "5 kg per 1.000 sq ft",
        "1,25.5 g per ha",
        "1.2.3 g per ha",
        "2 500 g per ha",
        "5 g per 1 000 sq ft",
        f"{'9' * 5000} lb per sq ft",
    ],
)
def test_a_rate_that_is_not_by_area_is_left_alone(rate: str) -> None:
    assert dose(rate, Fraction(10)) is None
    assert dose_words(rate, Fraction(10), Showing(metric=False)) == ""


def test_it_is_rounded_down_and_never_above_the_rate() -> None:
    pounds = Showing(metric=False)
    assert dose_words("1 lb per 300 sq ft", Fraction(200), pounds) == "0.666 lb at most for 200 sq ft"
    for feet in range(1, 60):
        words = dose_words("7 oz per 1000 sq ft", Fraction(feet), pounds)
        assert Fraction(words.split()[0]) <= Fraction(7 * feet, 1000)


def test_nothing_is_never_told_as_a_dose() -> None:
    assert dose_words("1 oz per acre", Fraction(3), Showing(metric=False)) == "less than 0.001 oz for 3 sq ft"


def test_the_area_is_told_in_the_gardens_own_units() -> None:
    square_metre = 1 / Fraction("0.3048") ** 2
    assert dose_words("40 g per m²", 2 * square_metre, Showing(metric=True)) == "80 g at most for 2 m²"
