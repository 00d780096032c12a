"""Seasons, months and weeks. Nothing here asks the clock."""

from __future__ import annotations

from calendar import monthrange
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
"""Names written here, not taken from the locale, so that pages never change with the machine."""
MONTH_NUMBERS = {
    name.casefold(): number for number, month in enumerate(MONTHS, start=1) for name in (month, month[:3])
} | {"sept": 9}
"""Months by their English names and what people shorten these to, in small letters."""
WEEKDAY_NUMBERS = {
    name: number
    for number, names in enumerate(
        (
            ("mon", "monday"),
            ("tue", "tues", "tuesday"),
            ("wed", "weds", "wednesday"),
            ("thu", "thur", "thurs", "thursday"),
            ("fri", "friday"),
            ("sat", "saturday"),
            ("sun", "sunday"),
        )
    )
    for name in names
}
"""Days of the week likewise, from 0 for Monday as ``date.weekday`` counts them."""

LONG_AGO = date(1999, 12, 31)
"""The day of a garden that has no season; it is told nowhere."""
ONE_DAY = timedelta(days=1)
_MOST_DAYS = 10_000
"""Days whose month and week are remembered: those of twenty seasons, asked for again and again."""
FIRST_YEAR, LAST_YEAR = 1000, 2999
"""The years that a season can be of; days are reckoned with for some years around them."""


def in_full(day: date) -> str:
    """Return ``14 September 2026``."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def without_year(day: date) -> str:
    """Return ``14 September``."""
    return f"{day.day} {MONTHS[day.month - 1]}"


def short(day: date) -> str:
    """Return ``14 Sep``."""
    return f"{day.day} {MONTHS[day.month - 1][:3]}"


def hours_words(hours: float) -> str:
    """Return ``6.4 hours``, ``1 hour``, to a tenth."""
    words = f"{hours:.1f}".removesuffix(".0")
    return f"{words} hour" if words == "1" else f"{words} hours"


@dataclass(frozen=True, slots=True, order=True)
class Month:
    """A calendar month."""

    year: int
    month: int

    @staticmethod
    @lru_cache(maxsize=_MOST_DAYS)
    def of(day: date) -> Month:
        """Return the month a day lies in."""
        return Month(day.year, day.month)

    @property
    def first(self) -> date:
        """First day of the month."""
        return date(self.year, self.month, 1)

    @property
    def last(self) -> date:
        """Last day of the month."""
        return date(self.year, self.month, monthrange(self.year, self.month)[1])

    @property
    def name(self) -> str:
        """``May``."""
        return MONTHS[self.month - 1]

    def __str__(self) -> str:
        """Return the month as ``June 2026``."""
        return f"{self.name} {self.year}"


@dataclass(frozen=True, slots=True, order=True)
class Week:
    """An ISO 8601 week: Monday to Sunday, numbered in the year that holds its Thursday."""

    year: int
    number: int

    @staticmethod
    @lru_cache(maxsize=_MOST_DAYS)
    def of(day: date) -> Week:
        """Return the ISO week a day lies in."""
        year, number, _weekday = day.isocalendar()
        return Week(year, number)

    @property
    def first(self) -> date:
        """The Monday."""
        return date.fromisocalendar(self.year, self.number, 1)

    @property
    def last(self) -> date:
        """The Sunday."""
        return self.first + timedelta(days=6)

    def __str__(self) -> str:
        """Return the week as ISO 8601 writes it: ``2026-W05``."""
        return f"{self.year}-W{self.number:02d}"


def months_between(first: date, last: date) -> tuple[Month, ...]:
    """Return each calendar month from one day to another, in order; none where the first is the later."""
    if first > last:
        return ()
    numbers = range(first.year * 12 + first.month - 1, last.year * 12 + last.month)
    return tuple(Month(number // 12, number % 12 + 1) for number in numbers)


def weeks_between(first: date, last: date) -> tuple[Week, ...]:
    """Return each ISO week from one day to another, in order; none where the first is the later."""
    if first > last:
        return ()
    monday = first.toordinal() - first.weekday()
    return tuple(Week.of(date.fromordinal(day)) for day in range(monday, last.toordinal() + 1, 7))


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Span:
    """A season's bounds, both days included; it may cross the new year."""

    first: date
    last: date

    def __contains__(self, day: date) -> bool:
        """Return whether a day lies in the span, its first and last day inside."""
        return self.first <= day <= self.last

    @property
    def days(self) -> int:
        """Number of days."""
        return (self.last - self.first).days + 1

    @property
    def months(self) -> tuple[Month, ...]:
        """Each calendar month the span touches, in order."""
        return months_between(self.first, self.last)

    def day_of(self, month: int, day: int) -> date | None:
        """Return the day of that name within the span, or None if there is no such day.

        A date typed without a year falls inside its season; where it cannot, the
        one in the span's first year is returned so that the message can name it.
        """
        found: list[date] = []
        for year in range(self.first.year, self.last.year + 1):
            with suppress(ValueError):
                found.append(date(year, month, day))
        return next((day for day in found if day in self), found[0] if found else None)

    def begins_for(self, day: date) -> int | None:
        """Return the year in which a season of such bounds begins that holds a day, or None."""
        there = self.day_of(day.month, day.day)
        return day.year - (there.year - self.first.year) if there and there in self else None
