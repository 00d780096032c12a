"""Amounts of money in words."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.garden.garden import Garden
from tallybed.pages.wording.money import money


@pytest.mark.parametrize(
    ("language", "currency", "told"),
    [
        ("en", "USD", "$1,169.50"),
        ("en-GB", "NOK", "NOK\u00a01,169.50"),
        ("en", "CAD", "CA$1,169.50"),
        ("de", "EUR", "1.169,50\u00a0€"),
        ("en", "", "1,169.50"),
    ],
)
def test_letters_of_a_currency_stand_apart_from_its_figures(language: str, currency: str, told: str) -> None:
    garden = Garden(name="A", language=language, currency=currency)
    assert money(garden, Fraction(2339, 2)) == told
