"""The day in a line: ``7/14``, ``14.7.``, ``Jul 14``, ``the 14th of July``, ``yesterday``, ``Sat``."""

from __future__ import annotations

import re
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import date, timedelta

from tallybed.garden.days import MONTH_NUMBERS, MONTHS, WEEKDAY_NUMBERS, Span, in_full
from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.scale.claims import Kind, Line
from tallybed.reading.scale.numbers import UNIT, figure
from tallybed.reading.scale.questions import DATE_ORDER, DAY, Answers, Choice, LineQuestion, answered
from tallybed.reading.spreadsheet.dates import CENTURY, DateOrder

_MONTH = "|".join(sorted(MONTH_NUMBERS, key=len, reverse=True))
DAY_WORDS = frozenset(
    ("today", "yesterday", "tomorrow", *(name for name in WEEKDAY_NUMBERS if name.endswith("day")))
)
"""Words that name a day by themselves, in full: a slip in one of them would move a picking to another day."""
MONTH_WORDS = frozenset({month.casefold() for month in MONTHS} - {"may"}) | {"sept"}
"""Words that name a day beside its number; “may” is too short to be told from other words."""
CAPITAL = DAY_WORDS - {"today", "yesterday", "tomorrow"} | MONTH_WORDS
"""Those of them that begin with a capital."""
_FEW = ("one", "two", "three", "four", "five", "six")
"""Days ago that a picking is told by; of more, people speak when they mean the sowing. Our choice."""
_NO_UNIT = rf"(?!\s*(?:{UNIT}|inch(?:es)?|cups?|gal(?:lons?)?|hours?|hrs?)(?![^\W\d_]))"
_ISO = re.compile(r"(?<![\w.-])([0-9]{4})-([0-9]{1,2})-([0-9]{1,2})(?![\w-])")
_MONTH_DAY = re.compile(
    rf"(?<![0-9]-)\b(?P<month>{_MONTH})(?:\.?\s+|-)(?P<day>[0-9]{{1,2}})(?:st|nd|rd|th)?"
    r"(?:(?:,?\s+|-)(?P<year>[12][0-9]{3})\b)?"
    rf"(?![\w/]|[.,:][0-9]){_NO_UNIT}",
    re.IGNORECASE,
)
_DAY_MONTH = re.compile(
    rf"(?<![\w.,/:-])(?:the\s+)?(?P<day>[0-9]{{1,2}})(?:st|nd|rd|th)?(?:\.?\s+(?:of\s+)?|-)(?P<month>{_MONTH})\b\.?"
    r"(?:(?:,?\s+|-)(?P<year>[12][0-9]{3})\b|-(?P<short>[0-9]{2})(?![\w.,:/-]))?",
    re.IGNORECASE,
)
_NUMBERS = re.compile(
    rf"(?<![\w.,/:-])([0-9]{{1,2}})(?:/([0-9]{{1,2}})(?:/([0-9]{{4}}|[0-9]{{2}}))?(?![\w/])"
    rf"|\.\s?([0-9]{{1,2}})\.(?:\s?([0-9]{{4}}|[0-9]{{2}})(?!\w))?){_NO_UNIT}"
)
_NEAR = re.compile(
    r"\b(?:(?P<back2>(?:the\s+)?day\s+before\s+(?:yesterday|y['’-]?day))"
    r"|(?P<back1>(?:yester[ -]?|y['’-]?)day(?:'s)?|ye?st\b\.?|last\s+(?:night|nite|evening|eve)\b)"
    r"|(?P<back0>(?:to|2)day(?:'s)?|tonight|tonite"
    r"|this\s+(?:morning|morn|afternoon|evening|noon|[ap]m|[ap]\.m\.))(?!\w)|(?P<coming>tomorrow|tmrw|2morr?ow?)\b)",
    re.IGNORECASE,
)
_AGO = re.compile(
    rf"(?<![\w.,/:-])(?:(?P<days>[1-6]|{'|'.join(_FEW)})\s+days?|(?P<week>(?:a|one|1)\s+week))\s+(?:ago|back)\b",
    re.IGNORECASE,
)
_DAY_NAME = "|".join(sorted(WEEKDAY_NUMBERS, key=len, reverse=True))
_WEEKDAY = re.compile(
    rf"(?:(?<!the )|(?=[a-z]+day\b))\b(?:on\s+)?(?P<last>last\s+)?(?P<name>{_DAY_NAME})\b(?!-)(?:'s)?\.?"
    r"(?:\s+(?:morning|afternoon|evening|night)\b)?",
    re.IGNORECASE,
)


_OTHER_DAY = re.compile(r"\b(?:next|before|after|since|until|till|every)\s+$", re.IGNORECASE)
"""What before a day of the week tells another day than that."""
_TO_DAY = re.compile(
    rf"\s*(?:[-–—]|\b(?:to|thru|through|until|till|or|and)\b|&)\s*[0-9]{{1,2}}(?:st|nd|rd|th)?(?![\w/:]|[.,][0-9]){_NO_UNIT}",
    re.IGNORECASE,
)
_SHORT_YEAR = re.compile(r",?\s*['’]?([0-9]{2})(?![\w/:%]|[.,][0-9])" + _NO_UNIT, re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class DaysKnown:
    """What is known about the days a line can speak of."""

    today: date
    span: Span
    order: DateOrder | None = None


def find_days(line: Line, known: DaysKnown) -> None:
    """Claim the days that are told with a word: a month's, a weekday's, yesterday. Raises Misread."""
    for match in line.free(_ISO):
        year, month, day = (int(part) for part in match.groups())
        claim_day(line, match, _past(_made(year, month, day, match.group()), known, match.group()))
    for match in line.free(_MONTH_DAY):
        before = _DAY_MONTH.search(line.text)
        both = before is not None and before.start() < match.start() < before.end()
        if both and before is not None and int(before.group("day")) <= 31:
            found = f"{quoted(line.text[before.start() : match.end()])} may be two days"
            raise Misread("date", found, f"the day as in {in_full(known.today)}")
        claim_day(line, match, _named(match, known))
        _refuse_more(line, match, known)
    for match in line.free(_DAY_MONTH):
        claim_day(line, match, _named(match, known))
        _refuse_more(line, match, known)
    for match in line.free(_NEAR):
        if match.group("coming"):
            raise _not_come(quoted(match.group()), known)
        back = next(number for number in (0, 1, 2) if match.group(f"back{number}"))
        claim_day(line, match, known.today - timedelta(days=back))
    for match in line.free(_AGO):
        claim_day(line, match, known.today - timedelta(days=figure(match.group("days") or "7")))
    for match in line.free(_WEEKDAY):
        other = _OTHER_DAY.search(line.text[: match.start()])
        if other:
            found = f"{quoted(other.group() + match.group().strip())} does not say which day it was"
            raise Misread("date", found, f"the day as in {in_full(known.today)}, or “note” before a remark")
        claim_day(
            line, match, WEEKDAY_NUMBERS[match.group("name").casefold()] - 7 * bool(match.group("last"))
        )


def find_number_days(line: Line, known: DaysKnown, answers: Answers) -> None:
    """Claim the days that are all numbers. Raises Misread; LineQuestion where one may be two days."""
    weekdays = [one.value % 7 for one in line.of(Kind.DAY) if isinstance(one.value, int)]
    for match in line.free(_NUMBERS):
        first, second = int(match.group(1)), int(match.group(2) or match.group(4))
        year = match.group(3) or match.group(5)
        claim_day(line, match, _by_numbers(match.group(), (first, second), year, weekdays, known, answers))


def _refuse_more(line: Line, match: re.Match[str], known: DaysKnown) -> None:
    """Raise Misread where a number behind a day and month may be another day, or the year in short."""
    more = _TO_DAY.match(line.text, match.end())
    year = _SHORT_YEAR.match(line.text, match.end())
    if more:
        found = f"{quoted(line.text[match.start() : more.end()].strip())} may be several days"
        raise Misread("date", found, f"one day as in {in_full(known.today)}")
    if year and int(year.group(1)) == known.today.year % 100:
        found = (
            f"the {year.group(1)} in {quoted(line.text[match.start() : year.end()].strip())} may be a year"
        )
        raise Misread("date", found, f"the year in full, as in {in_full(known.today)}")


def _by_numbers(
    text: str,
    pair: tuple[int, int],
    year: str | None,
    weekdays: list[int],
    known: DaysKnown,
    answers: Answers,
) -> date:
    """Return the day that two numbers and perhaps a year mean. Raises Misread, LineQuestion."""
    days = _either_way(text, pair, year, known)
    past = {day: order for day, order in days.items() if day <= known.today}
    inside = {day: order for day, order in past.items() if day in known.span}
    if inside:
        found = _meant(text, inside, weekdays, known, answers)
        may_be_two = max(pair) <= 12 and pair[0] != pair[1]
        if may_be_two and known.order is not None and inside[found] is not known.order:
            raise Misread(
                "date", f"the date {quoted(text)} is a day that has not come if {known.order.value}"
            )
        return found
    if len(past) < len(days):
        raise _not_come(f"the date {quoted(text)}", known)
    if min(pair) > 12 or not 0 < max(pair) <= 31:
        raise _no_such_day(text, "a day such as 7/14 or 14 July")
    raise _outside(text, known, past)


def _either_way(
    text: str, pair: tuple[int, int], year: str | None, known: DaysKnown
) -> dict[date, DateOrder]:
    """Return the days that two numbers can be, with the first order that makes each of them."""
    days: dict[date, DateOrder] = {}
    for order, (month, day) in zip(DateOrder, (pair, pair[::-1]), strict=True):
        with suppress(Misread):
            days.setdefault(_placed(_in_full_year(year), month, day, text, known), order)
    return days


def _meant(
    text: str, readings: dict[date, DateOrder], weekdays: list[int], known: DaysKnown, answers: Answers
) -> date:
    """Return the one meant of some days, by the weekday told, the order known, or the answer.

    Raises LineQuestion where none of them tells.
    """
    if len(readings) > 1 and weekdays:
        readings = {day: order for day, order in readings.items() if day.weekday() in weekdays} or readings
    if len(readings) > 1 and known.order is not None:
        readings = {day: order for day, order in readings.items() if order is known.order}
    if len(readings) > 1:
        question = LineQuestion(
            DATE_ORDER,
            f"the date {quoted(text)} may be either of two days",
            tuple(
                Choice(f"{in_full(day)} ({order.value})", order.value)
                for day, order in sorted(readings.items())
            ),
        )
        first = answered(answers, question)
        readings = {day: one for day, one in readings.items() if one.value == first}
    return next(iter(readings))


def _in_full_year(text: str | None) -> int | None:
    """Return a year as typed, in full or as two digits of this century; None where none is."""
    return int(text) + (CENTURY if len(text) < 4 else 0) if text else None


def _named(match: re.Match[str], known: DaysKnown) -> date:
    """Return the day of a month told by its name. Raises Misread."""
    text = match.group().strip()
    year = _in_full_year(match.groupdict().get("short") or match.group("year"))
    month = MONTH_NUMBERS[match.group("month").casefold()]
    return _past(_placed(year, month, int(match.group("day")), text, known), known, text)


def _placed(year: int | None, month: int, day: int, text: str, known: DaysKnown) -> date:
    """Return a day, in the season where no year is told. Raises Misread where the calendar has none."""
    if year is not None:
        return _made(year, month, day, text)
    found = known.span.day_of(month, day) if 1 <= month <= 12 and 1 <= day <= 31 else None
    if found is None:
        raise _no_such_day(text, "a day such as 7/14 or 14 July")
    return found


def _made(year: int, month: int, day: int, text: str) -> date:
    """Return a day. Raises Misread where the calendar has none."""
    try:
        return date(year, month, day)
    except ValueError:
        raise _no_such_day(text) from None


def _past(day: date, known: DaysKnown, text: str) -> date:
    """Return a day of the season up to today as it is. Raises Misread for any other."""
    if day not in known.span:
        raise _outside(text, known, {day: known.order})
    if day > known.today:
        raise _not_come(f"the date {quoted(text)}", known)
    return day


def _no_such_day(text: str, expected: str = "") -> Misread:
    """Return what is wrong with a date that no calendar has."""
    return Misread("no-such-day", f"the calendar has no day {quoted(text)}", expected)


def _not_come(subject: str, known: DaysKnown) -> Misread:
    """Return what is wrong with a day after today; ``subject`` names it."""
    return Misread("date", f"{subject} is a day that has not come", f"a day up to {in_full(known.today)}")


def _outside(text: str, known: DaysKnown, days: Mapping[date, DateOrder | None]) -> Misread:
    """Return what is wrong with a date outside the season, and how to say the days that it may be."""
    said = " or ".join(f"--date {day}" for day in sorted(days) if known.order in (None, days[day]))
    return Misread(
        "date-outside-season",
        f"the date {quoted(text)} lies outside the season",
        f"a day from {in_full(known.span.first)} to {in_full(known.span.last)}",
        remedy=f"for a day of another season say {said}" if said else "",
    )


def claim_day(line: Line, match: re.Match[str], value: date | int) -> None:
    """Claim words that tell a day, and the word before them that says it is the day of picking."""
    start = match.start()
    picked = re.search(r"\b(?:picked|dug|cut|pulled)(?:\s+on)?:?\s+$", line.text[:start], re.IGNORECASE)
    if picked and line.is_free(picked.start(), start) and picked.group().casefold().startswith("picked"):
        line.claim(Kind.PICKED, picked.start(), start)
    line.claim(Kind.DAY, start, match.end(), value)


def day_typed(text: str, known: DaysKnown) -> date:
    """Return the day that a text of its own names, in any form that a line may. Raises Misread."""
    line = Line(" ".join(text.split()))
    try:
        find_days(line, known)
        find_number_days(line, known, {})
        day = day_told(line, known, {})
    except LineQuestion as question:
        raise Misread("ambiguous-date", question.words.partition(";")[0], "the month as a word") from None
    if day is None or line.words_left():
        raise Misread("date", f"{quoted(text)} is not a date such as 2026-07-01, 1 July, 7/14 or yesterday")
    return day


def day_told(line: Line, known: DaysKnown, answers: Answers) -> date | None:
    """Return the one day that a line tells, or None. Raises Misread; LineQuestion."""
    told = line.of(Kind.DAY)
    days = {one.value for one in told if isinstance(one.value, date)}
    weekdays = [one for one in told if isinstance(one.value, int)]
    if len(days) > 1:
        raise Misread(
            "date", f"the line tells {len(days)} days: {' and '.join(map(in_full, sorted(days)))}", "one day"
        )
    if days:
        (day,) = days
        for one in weekdays:
            if day.weekday() != one.value % 7:
                weekday = line.text[one.start : one.end].strip()
                raise Misread("date", f"{in_full(day)} is not a {quoted(weekday)}", "the day that is meant")
        return day
    found = {_weekday(one.value, line.text[one.start : one.end], known, answers) for one in weekdays}
    if len(found) > 1:
        raise Misread("date", "the line tells several days of the week", "one day")
    return found.pop() if found else None


def _weekday(value: int, text: str, known: DaysKnown, answers: Answers) -> date:
    """Return the last day of that name before today; on a day of that name itself, ask."""
    back = (known.today.weekday() - value % 7) % 7
    if back:
        return known.today - timedelta(days=back)
    week_ago = known.today - timedelta(days=7)
    if value < 0:
        return week_ago
    question = LineQuestion(
        DAY,
        f"{quoted(text.strip())} may be today or a week ago",
        (Choice(in_full(known.today), "today"), Choice(in_full(week_ago), "week ago")),
        key=f"{DAY} {value}",
    )
    return known.today if answered(answers, question) == "today" else week_ago
