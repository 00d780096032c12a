"""When people may work in a treated square again, by the label's hours as the gardener wrote them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from fractions import Fraction

from tallybed.garden.days import ONE_DAY
from tallybed.garden.records.treatment import Treatment

_SECONDS = 3600


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepOff:
    """How long nobody works in a square."""

    first_day: date | None
    """The first day on which anybody may be there all day; None where it is not known."""
    until: datetime | None = None
    """The hour it ends, where the hour of the treatment was noted."""
    until_dry: bool = False
    """Whether the label says until it has dried."""


def keep_off(day: date, treatment: Treatment) -> KeepOff | None:
    """Return how long to keep off after a treatment of a day; None where there is no label to say so.

    Hours count from the time noted. Without a time they count from the end of the day and are
    rounded up to whole days. "Until dry" is taken as some hours without a time: when it dried,
    nobody knows who was not there.
    """
    if treatment.reentry is None:
        return KeepOff(first_day=None) if treatment.has_label else None
    hours = treatment.reentry.hours
    if hours is None:
        return KeepOff(first_day=day + 2 * ONE_DAY, until_dry=True)
    if treatment.at is not None:
        end = datetime.combine(day, treatment.at) + _span(hours)
        return KeepOff(first_day=_whole_day(end), until=end)
    return KeepOff(first_day=_whole_day(datetime.combine(day + ONE_DAY, time()) + _span(hours)))


def _span(hours: Fraction) -> timedelta:
    """Return hours as a span, rounded up to a whole second."""
    return timedelta(seconds=-(-hours * _SECONDS // 1))


def _whole_day(end: datetime) -> date:
    """Return the first day that is free from its beginning."""
    return end.date() if end.time() == time() else end.date() + ONE_DAY
