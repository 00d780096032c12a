"""The numbers of a column: which sign stands before decimals, and what they add up to either way."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.garden.units import WEIGHT_UNITS
from tallybed.reading.scale.numbers import COMMA, POINT
from tallybed.reading.spreadsheet.figures import decimal_sign, summed, without_groups

UNITS = {unit.symbol: unit for unit in WEIGHT_UNITS}


@pytest.mark.parametrize(
    ("texts", "sign", "needed"),
    [
        (("1.250", "0.34"), POINT, True),
        (("1,250", "0,34"), COMMA, True),
        (("1.250", ".5"), POINT, True),
        # A nothing before the sign: three digits behind it are decimals.
        (("0,250", "1,250"), COMMA, True),
        # Four digits on one side of the sign are no group of thousands.
        (("1,250", "12.5000"), POINT, True),
        (("1.250", "1250,5"), COMMA, True),
        # A sign that repeats is of thousands, and of two signs the last is before decimals.
        (("1.250", "1.250.000"), COMMA, True),
        (("1.250", "1,250.5"), POINT, True),
        (("1,250", "1.250,5"), COMMA, True),
        (("2.5 kg", "1.250 kg"), POINT, True),
        (("2.5kg", "3"), POINT, False),
        # Nothing shows it, or both.
        (("1.250", "3"), "", True),
        (("1.250", "2.5", "3,5"), "", True),
        (("12", "3 lb 4 oz"), "", False),
    ],
)
def test_a_column_shows_the_sign_before_its_decimals(texts: tuple[str, ...], sign: str, needed: bool) -> None:
    assert decimal_sign(texts) == (sign, needed)
    assert decimal_sign(reversed(texts)) == (sign, needed)


@pytest.mark.parametrize(
    ("typed", "plain"),
    [
        ("1 250", "1250"),
        ("12\u202f345,5 g", "12345,5 g"),
        ("1'250 500", "1250500"),
        ("1 1/2", "1 1/2"),
        ("1 25", "1 25"),
        ("1234 567", "1234 567"),
        ("2 lb 250", "2 lb 250"),
    ],
)
def test_spaces_between_thousands_are_left_out(typed: str, plain: str) -> None:
    assert without_groups(typed) == plain


def test_a_column_is_summed_under_both_readings_in_its_commonest_unit() -> None:
    oz, g = UNITS["oz"], UNITS["g"]
    column = [("1,250", g), ("2", oz), ("2 000 g", g), ("none", g), ("1.5.2", g)]
    ounces = 2 * oz.size
    # 1 oz = 28.349523125 g.
    assert summed(column, POINT) == (3250 * g.size + ounces, "3,306.699046 g")
    assert summed(column, COMMA) == (Fraction(200125, 100) * g.size + ounces, "2,057.949046 g")
    assert summed([], POINT) == (0, "0")
