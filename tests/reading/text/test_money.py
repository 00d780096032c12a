"""Amounts of money whose point may set thousands apart, and those in which it cannot."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.reading.base.problems import Misread
from tallybed.reading.text import money


@pytest.mark.parametrize("currency", ["", "EUR", "JPY"])
def test_a_point_before_three_digits_is_refused_where_it_may_mean_thousands(currency: str) -> None:
    with pytest.raises(Misread) as refused:
        money.amount("1.250", currency)
    assert refused.value.found == "the amount “1.250” may be 1250 or 1.25"


@pytest.mark.parametrize(
    ("typed", "currency"),
    [("1.250", "KWD"), ("0.125", "EUR"), ("1250", "EUR"), ("1.25", "EUR"), ("1000.125", "EUR"), ("12.5", "")],
)
def test_other_points_stand_before_decimals(typed: str, currency: str) -> None:
    assert money.amount(typed, currency) == Fraction(typed)


@pytest.mark.parametrize(
    ("typed", "near"),
    [
        ("6,40", "6.40"),
        ("6,40 €", "6.40"),
        ("€6,4", "6.4"),
        ("$6.40", "6.40"),
        ("$1,250.50", "1250.50"),
        ("EUR 1,250,000", "1250000"),
        ("1.250,50", ""),
        ("6,40,2", ""),
        ("five", ""),
    ],
)
def test_an_amount_that_is_refused_is_offered_as_it_was_meant_or_not_at_all(typed: str, near: str) -> None:
    """Fails where 640 is offered to somebody who wrote 6,40 with its sign."""
    with pytest.raises(Misread) as refused:
        money.amount(typed, "EUR")
    assert refused.value.nearest == near


@pytest.mark.parametrize(("typed", "near"), [("lv", "lb"), ("a pund", "pound"), ("bunch", "")])
def test_what_a_price_is_for_is_offered_where_it_is_like_a_unit(typed: str, near: str) -> None:
    with pytest.raises(Misread) as refused:
        money.per(typed)
    assert refused.value.nearest == near
