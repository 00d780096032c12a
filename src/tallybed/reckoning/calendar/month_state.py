"""Whether a month of a season is past, holds today, or is still to come: decided here alone."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from enum import StrEnum

from tallybed.garden.days import Month, Span
from tallybed.garden.squares import Square

Marked = Callable[[str, date], tuple[tuple[Square, ...], tuple[Square, ...]]]
"""Given a bed's name and a day: the squares that wait, and those that people keep off."""


class MonthState(StrEnum):
    """How far a month of a season has gone, as seen from one day."""

    RECORDED = "recorded"
    """Its last day in the season is there: all of it is on record."""
    RUNNING = "running"
    """It has begun, and days of it are still to come."""
    PLANNED = "planned"
    """Its first day in the season is still to come."""


def days_within(span: Span, month: Month) -> tuple[date, date]:
    """Return the first and last day of a month that lie in a season; the first is later where none does."""
    return max(month.first, span.first), min(month.last, span.last)


def month_state(span: Span, month: Month, today: date) -> MonthState:
    """Return how far a month has gone. Only its days in the season count, and today is on record."""
    first, last = days_within(span, month)
    if last <= today:
        return MonthState.RECORDED
    return MonthState.RUNNING if first <= today else MonthState.PLANNED
