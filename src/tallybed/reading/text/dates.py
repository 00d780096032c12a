"""Dates as people type them, whatever the machine's language.

The form is gated by pattern first; the calendar is Python's. All-number forms
other than ISO 8601 (``4/12``, ``12.4.2026``) are refused: half the world reads
them the other way round.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache

from babel import Locale

from tallybed.garden.days import MONTH_NUMBERS, MONTHS, Span, in_full
from tallybed.garden.naming import nearest
from tallybed.reading.base.problems import Misread, quoted

DATE = "a date such as Apr 12 or 2026-04-12"
WITH_YEAR = "a date with its year, such as 2026-10-01"
EVERY_YEAR = "the day without its year, such as Apr 22"
YEAR = "a year such as 2026"
SEASON_NAME = re.compile(r"[12][0-9]{3}")
"""A year from 1000 to 2999."""
SOME_MONTHS = "months such as Nov to Mar"
IN_WORDS = "the month as a word, or year-month-day as in 2026-04-12"
_ISO = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_NUMBERS = re.compile(r"[0-9]{1,4}(\s*[-./]\s*[0-9]{1,4}){1,2}\.?")
_DAY_AND_MONTH = re.compile(r"([0-9]{1,2})\s*[-./]\s*([0-9]{1,2})(?:\s*[-./]\s*([0-9]{4})|\.)?")
_YEAR_FIRST = re.compile(r"([0-9]{4})\s*[-./]\s*([0-9]{1,2})\s*[-./]\s*([0-9]{1,2})")
_MONTH_FIRST = re.compile(r"([^\W\d_]+)\.? ([0-9]{1,2})(?:st|nd|rd|th)?(?:,? ([0-9]{4}))?", re.IGNORECASE)
_DAY_FIRST = re.compile(r"([0-9]{1,2})(?:st|nd|rd|th)?\.? ([^\W\d_]+)\.?(?:,? ([0-9]{4}))?", re.IGNORECASE)
LONGEST_AFTER = 366
"""Days after its season within which a picking may still be weighed, cured or dried. Our choice."""
_LEAP_YEAR = 2024
"""Any leap year: without a year, 29 February may exist."""


@dataclass(frozen=True, slots=True)
class DayName:
    """A date as typed, with or without its year. The day exists in that year, or in a leap year."""

    year: int | None
    month: int
    day: int


MEND_BOUNDS = "correct the date, or the season’s bounds in content/garden.yaml"
"""What helps where a date lies outside its season."""


def to_begin(span: Span, day: date) -> str:
    """Return how the season that a day in none is meant for is begun, by the bounds of another."""
    year = span.begins_for(day)
    return f"; to begin season {year}, make the folder content/{year}" if year else ""


def day_name(text: str) -> DayName:
    """Read the form of a date. Raises Misread."""
    words = " ".join(text.split())
    iso = _ISO.fullmatch(words)
    if iso is not None:
        year, month, day = (int(part) for part in iso.groups())
        return _checked(DayName(year, month, day), text)
    year_first = _YEAR_FIRST.fullmatch(words)
    if year_first is not None:
        year, month, day = (int(part) for part in year_first.groups())
        close = f"{year}-{month:02d}-{day:02d}" if _exists(DayName(year, month, day)) else ""
        raise Misread("date", f"the date {quoted(text)} is not written in full", DATE, close)
    if _NUMBERS.fullmatch(words):
        close = _one_way(words)
        if close:
            raise Misread("date", f"the date {quoted(text)} is all numbers", IN_WORDS, close)
        raise Misread(
            "ambiguous-date", f"the date {quoted(text)} is all numbers, and may be read two ways", IN_WORDS
        )
    for form, order in ((_MONTH_FIRST, (1, 2)), (_DAY_FIRST, (2, 1))):
        match = form.fullmatch(words)
        if match is not None:
            given = int(match.group(3)) if match.group(3) else None
            name = DayName(given, _month(match.group(order[0]), text), int(match.group(order[1])))
            return _checked(name, text)
    raise Misread("date", f"the date {quoted(text)} cannot be read", DATE)


def _one_way(words: str) -> str:
    """Return a date in numbers as it is to be written, where one of the two is no month: ``24.12.2026``.

    Raises Misread where the calendar has no such day.
    """
    match = _DAY_AND_MONTH.fullmatch(words)
    if match is None:
        return ""
    month, day = sorted((int(match.group(1)), int(match.group(2))))
    if not 0 < month <= len(MONTHS) < day:
        return ""
    _checked(DayName(int(match.group(3)) if match.group(3) else None, month, day), words)
    return f"{match.group(3)}-{month:02d}-{day:02d}" if match.group(3) else f"{MONTHS[month - 1][:3]} {day}"


def _month(word: str, text: str) -> int:
    """Return the number of a month by its name, from 1. Raises Misread."""
    number = MONTH_NUMBERS.get(word.casefold())
    if number is None:
        close = month_elsewhere(word) or nearest(word, MONTHS)
        meant = " ".join(text.split()).replace(f"{word}.", word).replace(word, close) if close else ""
        raise Misread("date", f"the date {quoted(text)} does not name a month in English", DATE, meant)
    return number


def month_elsewhere(word: str) -> str:
    """Return the English name of a month that is told in another language, or an empty text."""
    return _months_elsewhere().get(word.rstrip(".").casefold(), "")


@lru_cache(maxsize=1)
def _months_elsewhere() -> dict[str, str]:
    """Return the English months by their names in a few languages, as CLDR has them (babel); looked up late.

    Of the short names, only those that are no English words.
    """
    told = [Locale(language).months["format"] for language in ("de", "fr", "es", "it", "nl", "pt")]
    lists = [*(forms["wide"] for forms in told), *(forms["abbreviated"] for forms in told[:2])]
    named = {
        names[at + 1].rstrip(".").casefold(): month for names in lists for at, month in enumerate(MONTHS)
    }
    return {name: month for name, month in named.items() if name not in MONTH_NUMBERS}


def _checked(name: DayName, text: str) -> DayName:
    """Return the same date where the calendar has it. Raises Misread."""
    if not _exists(name):
        raise Misread("no-such-day", f"the calendar has no day {quoted(text)}", DATE)
    return name


def _exists(name: DayName) -> bool:
    """Return whether the calendar has a day: in its year, or in a leap year where none is told."""
    try:
        date(_LEAP_YEAR if name.year is None else name.year, name.month, name.day)
    except ValueError:
        return False
    return True


def in_season(
    text: str, span: Span, *, day_after: bool = False, bounded: bool = True, remedy: str = MEND_BOUNDS
) -> date:
    """Read a date that must lie within a season; without a year it falls inside.

    ``day_after`` also lets the day after the season's last one pass (a square is
    free on the day it is cleared). ``bounded`` False: the bounds are not known. ``remedy``:
    what helps where it lies outside.
    """
    name = day_name(text)
    day: date | None
    day = span.day_of(name.month, name.day) if name.year is None else date(name.year, name.month, name.day)
    if day is None:
        raise Misread("no-such-day", f"the season has no day {quoted(text)}", DATE)
    inside = day in span or (day_after and (day - span.last).days == 1)
    if bounded and not inside:
        raise Misread(
            "date-outside-season",
            f"the date {quoted(text)} lies outside the season",
            f"a day from {in_full(span.first)} to {in_full(span.last)}",
            remedy=remedy,
        )
    return day


def within_a_year(text: str, span: Span, *, bounded: bool = True) -> date:
    """Read the day of what may come up to a year after its season, as the weighing of what hung to dry.

    Without a year it falls inside the season; where it cannot, in the year after. ``bounded`` as above.
    """
    longer = Span(first=span.first, last=span.last + timedelta(days=LONGEST_AFTER))
    name = day_name(text)
    here = span.day_of(name.month, name.day) if name.year is None else None
    if name.year is None and (here is None or here not in span):
        found = longer.day_of(name.month, name.day)
        if found is not None and found in longer:
            return found
    return in_season(text, longer if name.year is not None else span, bounded=bounded)


def _names_year(meant: str) -> bool:
    """Return whether a date that is offered has its year."""
    return re.search(r"[0-9]{4}", meant) is not None


def with_year(text: str) -> date:
    """Read a date that must name its year. Raises Misread."""
    try:
        name = day_name(text)
    except Misread as misread:  # what it expects would do elsewhere, but not here
        if misread.expected == DATE or not _names_year(text):
            misread.expected = WITH_YEAR
        misread.nearest = misread.nearest if _names_year(misread.nearest) else ""
        raise
    if name.year is None:
        # No comma stands before the year: within braces it would end the value.
        year = _LEAP_YEAR if (name.month, name.day) == (2, 29) else 2026
        expected = f"the date with its year, such as {' '.join(text.split())} {year}"
        raise Misread("date-without-year", f"the date {quoted(text)} has no year", expected)
    return date(name.year, name.month, name.day)


def every_year(text: str) -> tuple[int, int]:
    """Read a date that holds for every year, as (month, day). Raises Misread."""
    try:
        name = day_name(text)
    except Misread as misread:  # as above
        misread.expected = EVERY_YEAR
        misread.nearest = "" if _names_year(misread.nearest) else misread.nearest
        raise
    if name.year is not None:
        found = f"the date {quoted(text)} has a year, and is meant for every year"
        raise Misread("date-with-year", found, EVERY_YEAR)
    if (name.month, name.day) == (2, 29):
        raise Misread("no-such-day", "29 February is not in every year", "28 February or 1 March")
    return name.month, name.day


def months(text: str) -> frozenset[int]:
    """Read a month, or the months from one to another, both included, over new year too."""
    words = re.split(r"\s+(?:to|until)\s+|\s*[–-]\s*", " ".join(text.split()), flags=re.IGNORECASE)
    if len(words) > 2:
        raise Misread("date", f"the months {quoted(text)} cannot be read", SOME_MONTHS)
    numbers = []
    for word in words:
        number = MONTH_NUMBERS.get(word.rstrip(".").casefold())
        if number is None:
            raise Misread(
                "date",
                f"{quoted(word)} is not a month",
                SOME_MONTHS,
                month_elsewhere(word) or nearest(word, MONTHS),
            )
        numbers.append(number)
    first, last = numbers[0], numbers[-1]
    return frozenset((first - 1 + step) % 12 + 1 for step in range((last - first) % 12 + 1))


def year(text: str) -> str:
    """Read a year from 1000 to 2999, which names a season. Raises Misread."""
    name = text.strip()
    if not SEASON_NAME.fullmatch(name):
        raise Misread("not-a-year", f"{quoted(text)} is not a year", YEAR)
    return name
