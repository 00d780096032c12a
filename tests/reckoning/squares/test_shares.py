"""Shares of squares, square-days and utilisation, against sums done day by day and by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.garden.garden import Garden
from tallybed.garden.squares import Bed
from tallybed.reckoning.squares.occupancy import Holding, hold
from tallybed.reckoning.squares.shares import shares, square_days, utilisation
from tests.reckoning.growing import SPAN, day, days_between, line, plan_row, season, squares

GARDEN = Garden(name="Test", beds=(Bed(name="b", title="b", columns=4, rows=1),))


def growing(*tellings: tuple[str, str, str, str]) -> Holding:
    """Hold plantings of A1 told as (crop, first day, until, share)."""
    plan = [plan_row(slug, "A1", first, until, share=share) for slug, first, until, share in tellings]
    return hold(season(plan), day("Mar 1"))


@pytest.mark.parametrize(
    ("told", "expected"),
    [
        (("",), {"a": "1"}),
        (("", ""), {"a": "1/2", "b": "1/2"}),
        (("", "", ""), {"a": "1/3", "b": "1/3", "c": "1/3"}),
        (("1/3", ""), {"a": "1/3", "b": "2/3"}),
        (("1/3", "", ""), {"a": "1/3", "b": "1/3", "c": "1/3"}),
        (("1/4", "1/4"), {"a": "1/4", "b": "1/4"}),
        (("3/4", "3/4"), {"a": "3/4", "b": "3/4"}),
        (("3/4", "3/4", ""), {"a": "3/4", "b": "3/4", "c": "0"}),
        (("1/3",), {"a": "1/3"}),
    ],
)
def test_told_shares_are_kept_and_the_rest_is_divided_equally(
    told: tuple[str, ...], expected: dict[str, str]
) -> None:
    found = growing(*((name, "Apr 1", "May 1", share) for name, share in zip("abc", told, strict=False)))
    (a1,) = squares("A1")
    assert {key: str(share) for key, share in shares(found, a1, day("Apr 10")).items()} == expected
    assert shares(found, a1, day("May 1")) == {}


def test_square_days_by_hand() -> None:
    # a: 10 days alone, then 20 with b, which stays 10 more: 10 + 20/2 and 20/2 + 10.
    found = growing(("a", "Apr 1", "May 1", ""), ("b", "Apr 11", "May 11", ""))
    assert square_days(found) == {"a": 20, "b": 20}
    assert square_days(found, day("Apr 12")) == {"a": 11, "b": 1}
    assert square_days(found, day("Apr 11")) == {"a": Fraction(21, 2), "b": Fraction(1, 2)}
    assert square_days(found, day("Apr 1")) == {"a": 1, "b": 0}
    assert square_days(found, day("Mar 31")) == {"a": 0, "b": 0}


def test_utilisation_by_hand() -> None:
    # One square of four held for 40 of the 275 days from 1 March to 30 November.
    found = growing(("a", "Apr 1", "May 1", ""), ("b", "Apr 11", "May 11", "1/4"))
    assert SPAN.days == 275
    assert utilisation(GARDEN, found) == Fraction(40, 4 * 275)
    assert utilisation(GARDEN, found, day("Apr 5")) == Fraction(5, 4 * 36)
    assert utilisation(GARDEN, found, day("Feb 28")) == 0, "no day yet, and none to divide by"
    assert utilisation(GARDEN, found, day("Feb 20")) == 0
    assert utilisation(GARDEN, found, day("Dec 24")) == Fraction(40, 4 * 275)
    assert utilisation(Garden(name="No beds"), found) == 0


def test_square_days_are_the_sum_of_the_shares_of_each_day() -> None:
    plan = (
        plan_row("carrot", "A1 B1", "Apr 10", "Jul 30", tag="CA1"),
        plan_row("radish", "A1", "Apr 10", "May 15", tag="RA1", among="CA1", share="1/3"),
        plan_row("beet", "B1 C1", "Jun 1", "Sep 1", tag="BE1"),
    )
    log = [line("Apr 12", "sow", "carrot", "A1 B1"), line("Jun 20", "sow", "kale", "B1", among="CA1")]
    found = hold(season(plan, log), day("Jun 30"))
    for until in (day("May 1"), day("Aug 1"), SPAN.last):
        summed = dict.fromkeys((planting.key for planting in found.plantings), Fraction(0))
        held = 0
        for when in days_between(SPAN.first, until):
            for square in GARDEN.beds[0].squares:
                parts = shares(found, square, when)
                held += bool(parts)
                for key, share in parts.items():
                    summed[key] += share
        assert square_days(found, until) == summed
        assert utilisation(GARDEN, found, until) == Fraction(held, 4 * ((until - SPAN.first).days + 1))
