"""How far a month has gone: the answer on each day on which it turns."""

from __future__ import annotations

from datetime import date

import pytest

from tallybed.garden.days import Month, Span
from tallybed.reckoning.calendar.month_state import MonthState, days_within, month_state

SPAN = Span(first=date(2026, 4, 15), last=date(2026, 10, 15))
APRIL, MAY, OCTOBER = Month(2026, 4), Month(2026, 5), Month(2026, 10)
RECORDED, RUNNING, PLANNED = MonthState


@pytest.mark.parametrize(
    ("month", "day", "state"),
    [
        (APRIL, date(2026, 4, 14), PLANNED),  # the month has begun, the season has not
        (APRIL, date(2026, 4, 15), RUNNING),
        (APRIL, date(2026, 4, 29), RUNNING),
        (APRIL, date(2026, 4, 30), RECORDED),
        (MAY, date(2026, 4, 30), PLANNED),
        (MAY, date(2026, 5, 1), RUNNING),
        (OCTOBER, date(2026, 10, 14), RUNNING),
        (OCTOBER, date(2026, 10, 15), RECORDED),  # the season is over, the month is not
    ],
)
def test_a_month_turns_with_its_days_in_the_season(month: Month, day: date, state: MonthState) -> None:
    assert month_state(SPAN, month, day) is state


def test_only_days_of_the_season_are_its_own() -> None:
    assert days_within(SPAN, OCTOBER) == (date(2026, 10, 1), date(2026, 10, 15))
    first, last = days_within(SPAN, Month(2026, 11))
    assert first > last
