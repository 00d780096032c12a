"""Dates in spreadsheets: as in the garden's files, and those that are all numbers.

``4/12/2026`` may be read two ways; it is, only once somebody has said which number
comes first. Dates that can be read one way alone (``4/25/2026``, ``4/4/2026``) need no word.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from contextlib import suppress
from datetime import date
from enum import StrEnum

from tallybed.garden.days import MONTHS, WEEKDAY_NUMBERS, Span, in_full
from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.text import dates

AS_DATES = "a date; format the column as dates"
AMBIGUOUS = "ambiguous-date"
NO_YEAR = "date-without-year"
CENTURY = 2000
"""Added to years of two digits: nobody has a spreadsheet of an earlier harvest."""


class DateOrder(StrEnum):
    """Which number comes first in a date that is all numbers."""

    MONTH_FIRST = "month-first"
    DAY_FIRST = "day-first"


ENOUGH = 3
"""Dates that must show which number comes first before it is taken for their whole column. Our choice."""
WEEKDAY = re.compile(r"(?:mon|tue|tues|wed|thu|thur|thurs|fri|sat|sun)(?:[a-z]*day)?\.?,?\s+", re.IGNORECASE)
"""A day of the week before a date, in English."""
_TIME = re.compile(r"[ T][0-9]{1,2}:[0-9]{2}(?::[0-9]{2}(?:\.[0-9]+)?)?(?:\s?[ap]m)?Z?$", re.IGNORECASE)
_NUMBERS = re.compile(r"([0-9]{1,4})\s*([-/.])\s*([0-9]{1,2})(?:\s*\2\s*([0-9]{4}|[0-9]{1,2}))?\.?")
_SEVERAL = re.compile(r"[^\W\d_]+\.?\s+[0-9]{1,2}\s*[-–/]\s*[0-9]{1,2}")
"""Days from one to another: ``Jul 25-26`` is not the 25th of 2026."""
_SHORT_YEAR = re.compile(r"(.*[^\W\d_].*?[ ,]\s?)'?([0-9]{2})")


def day(text: str, order: DateOrder | None, span: Span | None) -> date:
    """Return the day a text names. Raises Misread.

    ``span`` is the season that a date without a year falls into; None where that is not known.
    A day of the week tells which number comes first where ``order`` does not.
    """
    weekday, words = _parted(text)
    if weekday and order is None:
        may_be = {found for one in DateOrder if (found := _on(weekday, words, text, one, span))}
        if len(may_be) == 1:
            return may_be.pop()
    found = _without_weekday(words, text, order, span)
    if weekday and not _is_on(weekday, found):
        raise Misread("date", f"{in_full(found)} is not the day of the week in {quoted(text)}", dates.DATE)
    return found


def _parted(text: str) -> tuple[str, str]:
    """Return the first letters of a date's day of the week, empty where none is told, and the rest of it."""
    words = _TIME.sub("", " ".join(text.split()))
    weekday = WEEKDAY.match(words)
    return (weekday.group()[:3].casefold(), words[weekday.end() :]) if weekday else ("", words)


def _is_on(weekday: str, found: date) -> bool:
    """Return whether a day is that day of the week."""
    return WEEKDAY_NUMBERS[weekday] == found.weekday()


def _on(weekday: str, words: str, text: str, order: DateOrder, span: Span | None) -> date | None:
    """Return the day that words name in an order, or None where there is none on that day of the week."""
    with suppress(Misread):
        found = _without_weekday(words, text, order, span)
        return found if _is_on(weekday, found) else None
    return None


def _without_weekday(words: str, text: str, order: DateOrder | None, span: Span | None) -> date:
    """Return the day that words without a day of the week name. Raises Misread."""
    numbers = _NUMBERS.fullmatch(words)
    if numbers is not None:
        return _by_numbers(text, numbers, order, span)
    if _SEVERAL.fullmatch(words):
        raise Misread("date", f"the date {quoted(text)} may be several days", dates.DATE)
    if re.fullmatch(r"[0-9]+(\.[0-9]+)?", words):
        raise Misread("date", f"{quoted(text)} is a bare number", AS_DATES)
    words = re.sub(r"(?<=\w)[-/](?=\w)", " ", words) if re.search(r"[^\W\d_]", words) else words
    name = _named(words, text)
    if name.year is None:
        return _within(name.month, name.day, text, span)
    return date(name.year, name.month, name.day)


def order_shown(texts: Iterable[str]) -> DateOrder | None:
    """Return the order that a column's dates show, as ``25/4/2026`` does; None where too few do."""
    shown = dict.fromkeys(DateOrder, 0)
    for text in texts:
        _weekday, words = _parted(text)
        match = _NUMBERS.fullmatch(words)
        if match is None or len(match.group(1)) > 2:
            continue
        first, second = int(match.group(1)), int(match.group(3))
        if first > 12 >= second:
            shown[DateOrder.DAY_FIRST] += 1
        elif second > 12 >= first:
            shown[DateOrder.MONTH_FIRST] += 1
    found = [order for order, times in shown.items() if times]
    return found[0] if len(found) == 1 and shown[found[0]] >= ENOUGH else None


def _named(words: str, text: str) -> dates.DayName:
    """Read a date with the month as a word; a year of two digits is one of this century."""
    try:
        return dates.day_name(words)
    except Misread:
        short = _SHORT_YEAR.fullmatch(words)
        if short is None:
            raise _unread(text) from None
    try:
        return dates.day_name(f"{short.group(1).strip(' ,')} {CENTURY + int(short.group(2))}")
    except Misread:
        raise _unread(text) from None


def _unread(text: str) -> Misread:
    """Return the Misread of a date that cannot be read."""
    return Misread("date", f"the date {quoted(text)} cannot be read", dates.DATE)


def _by_numbers(text: str, match: re.Match[str], order: DateOrder | None, span: Span | None) -> date:
    """Return the day of a date that is all numbers. Raises Misread."""
    first, second = match.group(1), int(match.group(3))
    last = match.group(4)
    if len(first) == 4 and last is not None:
        return _made(int(first), second, int(last), text)
    if len(first) > 2:
        raise _unread(text)
    month, number = _month_and_day(int(first), second, text, order)
    if last is None:
        return _within(month, number, text, span)
    return _made(int(last) + (CENTURY if len(last) < 4 else 0), month, number, text)


def _month_and_day(first: int, second: int, text: str, order: DateOrder | None) -> tuple[int, int]:
    """Return month and day from two numbers. Raises Misread where both readings are possible, or neither."""
    if order is DateOrder.MONTH_FIRST:
        return first, second
    if order is DateOrder.DAY_FIRST:
        return second, first
    readings = {(month, number) for month, number in ((first, second), (second, first)) if month <= 12}
    if len(readings) == 1:
        return readings.pop()
    if not readings:
        raise Misread("no-such-day", f"the calendar has no day {quoted(text)}", dates.DATE)
    one, other = (MONTHS[month - 1] for month in sorted((first, second)))
    raise Misread(
        AMBIGUOUS,
        f"the date {quoted(text)} may be in {one} or in {other}",
        "--dates month-first or --dates day-first",
    )


def _made(year: int, month: int, number: int, text: str) -> date:
    """Return the day of a year, a month and a number. Raises Misread where there is none."""
    try:
        return date(year, month, number)
    except ValueError:
        raise Misread("no-such-day", f"the calendar has no day {quoted(text)}", dates.DATE) from None


def _within(month: int, number: int, text: str, span: Span | None) -> date:
    """Return the day of the season that a date without a year means. Raises Misread where there is none."""
    if span is None:
        raise Misread(NO_YEAR, f"the date {quoted(text)} has no year", "its year, or --season YEAR")
    found = span.day_of(month, number)
    if found is None:
        raise Misread("no-such-day", f"the season has no day {quoted(text)}", dates.DATE)
    if found not in span:
        bounds = f"a day from {in_full(span.first)} to {in_full(span.last)}"
        raise Misread("date-outside-season", f"the date {quoted(text)} lies outside the season", bounds)
    return found
