"""How a chart writes a weight."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.drawing.charts.figures import NOT_WEIGHED, weight_figure
from tallybed.garden.units import AT_LEAST_WORDS


@pytest.mark.parametrize(
    ("thousandths", "words"),
    [
        (80_660, "80.7 lb"),
        (1_000, "1.0 lb"),
        (650, "0.7 lb"),
        (100, "0.1 lb"),
        (80, "0.08 lb"),
        (50, "0.05 lb"),
        (5, "0.01 lb"),
        (4, "under 0.01 lb"),
        (0, "0.0 lb"),
    ],
)
def test_a_small_weight_has_two_decimals(thousandths: int, words: str) -> None:
    """Fails where "0.1 lb" stands above an axis that ends at 0.08."""
    assert weight_figure(Fraction(thousandths, 1000), "lb") == words


@pytest.mark.parametrize(
    ("amount", "words", "read_out"),
    [
        ("2", "≥ 2.0 lb", "at least 2.0 lb"),
        ("0.004", "> 0 lb", "more than 0 lb"),
        ("0", NOT_WEIGHED, NOT_WEIGHED),
    ],
)
def test_a_weight_with_unweighed_pickings_says_so(amount: str, words: str, read_out: str) -> None:
    """Fails where "under" stands after a sign that says more."""
    assert weight_figure(Fraction(amount), "lb", at_least=True) == words
    assert weight_figure(Fraction(amount), "lb", at_least=True, sign=AT_LEAST_WORDS) == read_out
