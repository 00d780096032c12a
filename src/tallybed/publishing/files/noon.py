"""Noon of a day in the garden: the hour that feed and calendars give a record, which tells only its day.

Midnight would fall on the day before for everybody west of the garden; noon falls on the
same day wherever a clock is less than twelve hours off. The clock of the machine is never asked.
"""

from __future__ import annotations

from contextlib import suppress
from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

_NOON = time(12)


def noon(day: date, time_zone: str) -> datetime:
    """Return noon of a day by a time zone of the IANA database; by universal time where none is told."""
    if time_zone:
        with suppress(ZoneInfoNotFoundError):
            return datetime.combine(day, _NOON, tzinfo=ZoneInfo(time_zone))
    return datetime.combine(day, _NOON, tzinfo=UTC)
