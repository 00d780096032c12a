"""Days and months as a season's pages name them: with their year where that is not the season's first."""

from __future__ import annotations

from datetime import date

from tallybed.garden.days import Month, in_full, short, without_year
from tallybed.reckoning.year import Year


def in_season(year: Year) -> str:
    """Return ``in 2026``, or ``in season 2026`` where a part of it lies in the year after."""
    span = year.season.span
    return f"in {year.name}" if span.first.year == span.last.year else f"in season {year.name}"


def day_name(year: Year, day: date | None) -> str:
    """Return ``14 September``, or ``8 March 2027`` in a season that began in 2026; nothing for no day."""
    if day is None:
        return ""
    return without_year(day) if _needs_no_year(year, day) else in_full(day)


def short_day_name(year: Year, day: date | None) -> str:
    """Return ``14 Sep``, or ``8 Mar 2027`` in a season that began in 2026; nothing for no day."""
    if day is None:
        return ""
    return short(day) if _needs_no_year(year, day) else f"{short(day)} {day.year}"


def month_name(year: Year, month: Month) -> str:
    """Return ``September``, or ``March 2027`` in a season that began in 2026."""
    return month.name if _needs_no_year(year, month) else str(month)


def short_month_name(year: Year, month: Month) -> str:
    """Return ``Sep``, or ``Mar 2027`` in a season that began in 2026."""
    word = month.name[:3]
    return word if _needs_no_year(year, month) else f"{word} {month.year}"


def _needs_no_year(year: Year, when: date | Month) -> bool:
    """Return whether a day or month is in the season's first calendar year."""
    return when.year == year.season.span.first.year
