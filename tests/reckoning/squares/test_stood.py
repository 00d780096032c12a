"""What stood where, held day by day against who holds a square and what share of it each has."""

from __future__ import annotations

from itertools import pairwise

import pytest

from tallybed.garden.days import ONE_DAY
from tallybed.reckoning.squares.grades import Grade
from tallybed.reckoning.squares.occupancy import hold
from tallybed.reckoning.squares.shares import shares
from tallybed.reckoning.squares.stood import stood
from tests.reckoning.growing import SPAN, day, days_between, line, plan_row, season

PLAN = (
    plan_row("carrot", "A1 B1", "Apr 10", "Jul 30", tag="CA1"),
    plan_row("radish", "A1", "Apr 20", "May 15", tag="RA1", among="CA1", share="1/3"),
    plan_row("beet", "B1", "Aug 1", "Sep 1", tag="BE1"),
)
LOG = (line("Apr 12", "sow", "carrot", "A1 B1"), line("May 1", "up", "carrot", "A1"))
BY_HAND = """
    CA1 A1 Apr 12 - Apr 12 seen 1
    CA1 A1 Apr 13 - Apr 19 implied 1
    CA1 A1 Apr 20 - Apr 30 implied 2/3
    CA1 A1 May 1 - May 1 seen 2/3
    CA1 A1 May 2 - May 14 supposed 2/3
    CA1 A1 May 15 - May 20 supposed 1
    CA1 B1 Apr 12 - Apr 12 seen 1
    CA1 B1 Apr 13 - May 20 supposed 1
    RA1 A1 Apr 20 - May 14 supposed 1/3
"""


def test_spans_are_cut_where_a_share_changes_and_nowhere_else() -> None:
    found = stood(hold(season(PLAN, LOG), day("May 20")), day("Jun 30"))
    rows = [
        f"{one.planting} {one.square.label} {one.first:%b} {one.first.day} - {one.last:%b} {one.last.day} "
        f"{one.grade.word} {one.share}"
        for one in found
    ]
    assert rows == [row.strip() for row in BY_HAND.strip().splitlines()]


@pytest.mark.parametrize("until", ["Apr 11", "Apr 12", "May 14", "Aug 1", "Nov 30"])
def test_each_day_is_told_once_with_the_share_it_has(until: str) -> None:
    holding = hold(season(PLAN, LOG), day("Nov 30"))
    found = stood(holding, day(until))
    told = [
        (one.planting, one.square, when, one.share)
        for one in found
        for when in days_between(one.first, one.last)
    ]
    known = [
        (one.planting, square, when, shares(holding, square, when)[one.planting])
        for square in holding.squares
        for when in days_between(SPAN.first, day(until))
        for one in holding.at(square, when)
        if one.grade is not Grade.PLANNED
    ]
    assert sorted(told) == sorted(known)
    assert list(found) == sorted(found, key=lambda one: (one.planting, one.square, one.first))
    for before, after in pairwise(found):
        same = (before.planting, before.square, before.grade, before.share)
        joined = before.last + ONE_DAY == after.first
        assert not (joined and same == (after.planting, after.square, after.grade, after.share))
