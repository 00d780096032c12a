"""What waits and is not published yet: unfinished entries and answers, and those held until a day."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from tallybed.checks.results import CheckResult, advice
from tallybed.garden.days import in_full
from tallybed.garden.findings import Finding
from tallybed.garden.garden import Garden, Question
from tallybed.garden.records.log import Entry
from tallybed.reckoning.unpublished import waits
from tallybed.reckoning.year import Year

_COUNTS = "its lines of `done` count all the same"


def unfinished(year: Year) -> Iterator[CheckResult]:
    """Find entries that are still being written."""
    for entry in year.season.log or ():
        if entry.unfinished:
            counts = f", {_COUNTS}" if entry.done else ""
            yield None, _unfinished(entry, f"the entry is unfinished: its page is not published{counts}")


def held(year: Year) -> Iterator[CheckResult]:
    """Find entries that are held until a day that has not come."""
    for entry in year.season.log or ():
        if not entry.unfinished and waits(entry, year.today):
            yield None, _held(entry, "the entry", _COUNTS if entry.done else "")


def answers(garden: Garden, today: date) -> Iterator[Finding]:
    """Find questions whose answer waits."""
    for question in garden.questions:
        if question.unfinished:
            yield _unfinished(question, "the answer is unfinished: the question is not published")
        elif waits(question, today):
            yield _held(question, "the question")


def _unfinished(record: Entry | Question, found: str) -> Finding:
    """Return the finding that a record waits to be finished."""
    return advice(record.place, "unfinished", found, remedy="take `unfinished: yes` out once it may be read")


def _held(record: Entry | Question, what: str, more: str = "") -> Finding:
    """Return the finding that a record waits for a day; ``more`` follows after a colon."""
    assert record.hold_until is not None  # it would not wait
    found = f"{what} is held until a record of {in_full(record.hold_until)} or later is there"
    return advice(
        record.place,
        "held",
        f"{found}: {more}" if more else found,
        remedy="nothing; or take `hold until` out to publish it now",
    )
