"""Days that a line tells roughly, or maybe not at all: ``the other day``, ``Monday last week``, ``sun``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import date, timedelta

from tallybed.garden.days import in_full
from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.scale.claims import Kind, Line
from tallybed.reading.scale.days import MONTH_WORDS, DaysKnown, claim_day
from tallybed.reading.scale.numbers import IN_WORDS, figure
from tallybed.reading.scale.questions import DAY, Answers, Choice, LineQuestion, answered

_VAGUE = re.compile(
    r"(?<!since )(?<!than )(?<!as )(?<!like )\b(?:"
    r"(?P<some>the\s+other\s+day|(?:a\s+few|few|some|several|(?:a\s+)?couple(?:\s+of)?)\s+days\s+(?:ago|back))|(?P<week>last\s+(?:week|wk))|(?P<this>(?:earlier\s+)?this\s+(?:week|wk))"
    r"|(?P<end>(?:(?P<before>last)\s+|this\s+|the\s+)?weekend))\b(?:['’]s)?",
    re.IGNORECASE,
)
"""What tells days and not which of them."""
_LONG_AGO = re.compile(
    rf"(?<![\w.,/:-])(?:(?P<days>[0-9]{{1,2}}|{IN_WORDS})\s+days"
    rf"|(?:(?P<weeks>[0-9]{{1,2}}|{IN_WORDS})|(?:a\s+)?couple(?:\s+of)?)\s+(?:weeks|wks)"
    r"|(?:an?\s+|one\s+)?fortnight)\s+(?:ago|back)\b",
    re.IGNORECASE,
)
"""A day further back than people tell a picking by; two weeks where it says no number."""
_OF_OTHER_WORK = re.compile(
    r"\b(?:sown|sowed|seeded|planted|out|up|thinned|fed|from|since|than|until|till)\s+(?:(?:about|around|in|at|the)\s+)*$",
    re.IGNORECASE,
)
"""What before a day of long ago says that it is none of picking."""
_ANOTHER_WEEK = re.compile(
    r"\b(?:(?:of\s+)?last\s+(?:week|wk)|the\s+week\s+before|before\s+last|(?:a\s+)?week)\b",
    re.IGNORECASE,
)
"""What beside a day of the week may put it a week further back."""
_WORDS_TOO = frozenset({"sun", "sat"})
"""Short names of days that are words of their own: ``sun dried``, ``sat overnight``."""
_ORDINAL = (
    r"(?:first|second|third|four(?:teen)?th|fif(?:teen)?th|six(?:teen)?th|seven(?:teen)?th|eigh(?:teen)?th"
    r"|nin(?:e?teen)?th|tenth|eleventh|twelfth|thirteenth|twentieth|thirtieth)"
)
_NUMBER_WORD = rf"(?:{_ORDINAL}|{IN_WORDS})"
_MONTH = "|".join(sorted(MONTH_WORDS))
_DAY_IN_WORDS = re.compile(
    rf"\b(?:{_NUMBER_WORD}\s+(?:of\s+)?(?:{_MONTH})|(?:{_MONTH})\s+(?:the\s+)?{_NUMBER_WORD})\b",
    re.IGNORECASE,
)
"""A day told in words alone: ``fourth of July``, ``july twenty first``."""
_PART_OF_YEAR = re.compile(
    r"\b(?:(?:early|late|mid|(?:the\s+)?(?:end|middle|beginning|start)\s+of|some\s?time)[\s-]+"
    rf"(?:in\s+)?(?:{_MONTH}|may)|(?:last|earlier\s+this)\s+month)\b",
    re.IGNORECASE,
)
"""What tells a part of the year."""
_SUN = re.compile(r"\b(?:full|hot|strong|much|of|no|in)\s+$", re.IGNORECASE)


def ask_of_vague_days(line: Line, known: DaysKnown, answers: Answers) -> None:
    """Ask which day is meant where a line tells it roughly, and claim it. Raises LineQuestion; Misread."""
    _ask_of_another_week(line, known, answers)
    _ask_of_long_ago(line, known, answers)
    for match in line.free(_VAGUE) if not line.of(Kind.DAY) else ():
        said = quoted(match.group())
        days = [day for day in _about(match, known.today) if day in known.span]
        if not days:
            expected = "the day that is meant, such as Thu or 7/14"
            raise Misread("date", f"{said} does not say which day it was", expected)
        choices = (*map(_choice, days), Choice(f"none of these; {said} is a remark", ""))
        _ask(line, match, f"{said} does not say which day it was", choices, answers)


def _choice(day: date) -> Choice:
    """Return a day as what may be answered."""
    return Choice(f"{day:%A}, {in_full(day)}", day.isoformat())


def _ask(line: Line, match: re.Match[str], words: str, choices: tuple[Choice, ...], answers: Answers) -> None:
    """Ask which day a match tells, and claim it, else its words as a remark. Raises LineQuestion."""
    question = LineQuestion(DAY, words, choices, key=f"{DAY} {match.group().casefold()}")
    answer = answered(answers, question)
    if answer:
        claim_day(line, match, date.fromisoformat(answer))
    else:
        line.claim(Kind.NOTE, match.start(), match.end(), match.group())


def _ask_of_long_ago(line: Line, known: DaysKnown, answers: Answers) -> None:
    """Ask whether a day further back is that of picking, and claim it. Raises LineQuestion; Misread."""
    if line.of(Kind.DAY):
        return
    for match in line.free(_LONG_AGO):
        said = quoted(match.group())
        day = known.today - timedelta(days=_days_back(match))
        if day not in known.span or _OF_OTHER_WORK.search(line.text[: match.start()]):
            continue
        choices = (_choice(day), Choice(f"{said} is a remark", ""))
        _ask(line, match, f"{said} may be the day of picking", choices, answers)
    for match in line.free(_PART_OF_YEAR):
        if not _OF_OTHER_WORK.search(line.text[: match.start()]):
            found = f"{quoted(match.group())} does not say which day it was"
            raise Misread("date", found, "the day, such as Thu or 7/14, or “note” before a remark")


def _days_back(match: re.Match[str]) -> int:
    """Return how many days ago a match of ``_LONG_AGO`` tells."""
    number = figure(match.group("days") or match.group("weeks") or "2")
    return number if match.group("days") else number * 7


def _ask_of_another_week(line: Line, known: DaysKnown, answers: Answers) -> None:
    weekdays = {one.value % 7 for one in line.of(Kind.DAY) if isinstance(one.value, int)}
    match = next(line.free(_ANOTHER_WEEK), None)
    if match is None or len(weekdays) != 1 or len(line.of(Kind.DAY)) > 1:
        return
    (told,) = line.of(Kind.DAY)
    near = known.today - timedelta(days=(known.today.weekday() - weekdays.pop() - 1) % 7 + 1)
    days = [near, near - timedelta(days=7)]
    typed = line.text[min(told.start, match.start()) : max(told.end, match.end())].strip()
    question = LineQuestion(
        DAY,
        f"{quoted(typed)} may be either of two days",
        tuple(_choice(day) for day in days if day in known.span),
        key=f"{DAY} {typed.casefold()}",
    )
    claim_day(line, match, date.fromisoformat(answered(answers, question)))


def _about(match: re.Match[str], today: date) -> tuple[date, ...]:
    """Return the days that may be meant, the latest first."""
    monday = today - timedelta(days=today.weekday())
    if match.group("some"):
        first, number = today - timedelta(days=6), 6
    elif match.group("week"):
        first, number = monday - timedelta(days=7), 7
    elif match.group("this"):
        first, number = monday, today.weekday() + 1
    else:
        saturday = today - timedelta(days=(today.weekday() - 5) % 7)
        if match.group("before") and today.weekday() >= 5:
            saturday -= timedelta(days=7)
        first, number = saturday, min(2, (today - saturday).days + 1)
    return tuple(first + timedelta(days=day) for day in reversed(range(number)))


def refuse_words_like_days(line: Line, strange: Sequence[re.Match[str]]) -> None:
    """Raise Misread where the short name of a day is likely part of a remark: ``sun dried``, ``full sun``."""
    for match in line.free(_DAY_IN_WORDS):
        raise Misread(
            "date", f"{quoted(match.group())} is a day in words", "the day in figures, as in July 4"
        )
    words = {one.start() for one in strange} | {one.start for one in line.of(Kind.STATE)}
    for one in line.of(Kind.DAY):
        name = line.text[one.start : one.end].strip()
        if name.casefold() not in _WORDS_TOO:
            continue
        gap = line.text[one.end :]
        behind = one.end + len(gap) - len(gap.lstrip())
        before = _SUN.search(line.text[: one.start])
        if before or behind in words:
            found = f"{quoted(name)} may be a day or part of a remark"
            raise Misread("date", found, "the day in full, or “note” before what is only a remark")
