"""Days of a planting in a square, graded by how well they are known."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date
from enum import IntEnum

from tallybed.garden.days import ONE_DAY, Span
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.conflicts import SettledStretch


class Grade(IntEnum):
    """How well it is known that a planting holds a square; the lowest is the best."""

    SEEN = 0
    IMPLIED = 1
    SUPPOSED = 2
    PLANNED = 3

    @property
    def word(self) -> str:
        """``seen``, ``implied``, ``supposed`` or ``planned``."""
        return self.name.lower()


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """A planting in a square over days of one grade, both days included."""

    planting: str
    square: Square
    first: date
    last: date
    grade: Grade

    @property
    def order(self) -> tuple[Square, date, str]:
        """Sort key."""
        return (self.square, self.first, self.planting)


def graded(settled: SettledStretch, square: Square, today: date) -> Iterator[Hold]:
    """Yield the days of a settled stretch, cut where the grade changes."""
    grades = [(first, last, grade) for first, last, grade in _graded_spans(settled, today) if first <= last]
    merged: list[tuple[date, date, Grade]] = []
    for first, last, grade in grades:
        if merged and merged[-1][2] is grade:
            first = merged.pop()[0]
        merged.append((first, last, grade))
    for first, last, grade in merged:
        yield Hold(planting=settled.planting.key, square=square, first=first, last=last, grade=grade)


def _graded_spans(settled: SettledStretch, today: date) -> Iterator[tuple[date, date, Grade]]:
    """Yield (first day, last day, grade) in order; a stretch that ends before it begins is none."""
    day, named = settled.first, dict.fromkeys((record for record, _named in settled.stretch.recorded), False)
    for record, line in settled.stretch.recorded:
        named[record] = named[record] or line
    grade = Grade.SUPPOSED
    for record in named:
        yield (day, min(record - ONE_DAY, settled.last), grade)
        yield (record, min(record, settled.last), Grade.SEEN if named[record] else Grade.IMPLIED)
        day, grade = record + ONE_DAY, Grade.IMPLIED
    if named and settled.stretch.free is not None:
        yield (day, settled.last, Grade.IMPLIED)
    else:
        yield (day, min(today, settled.last), Grade.SUPPOSED)
        yield (max(day, today + ONE_DAY), settled.last, Grade.PLANNED)


def clipped(holds: Iterable[Hold], span: Span) -> Iterator[Hold]:
    """Yield holds without the days outside the season."""
    for one in holds:
        first, last = max(one.first, span.first), min(one.last, span.last)
        if first <= last:
            yield replace(one, first=first, last=last) if (first, last) != (one.first, one.last) else one


def planned_days(every: Iterable[Planting], span: Span) -> Iterator[Hold]:
    """Yield what the plan alone says of the plantings, dropped ones up to the day they were dropped.

    One dropped before it began ends before its first day; ``clipped`` leaves it out.
    """
    for planting in every:
        planned = planting.planned
        if planned is None:
            continue
        first = span.first if planned.start is Start.CARRIED else planned.begins
        last = min(planned.until, planned.dropped or planned.until) - ONE_DAY
        for square in frozenset(planned.squares):
            yield Hold(planting=planting.key, square=square, first=first, last=last, grade=Grade.PLANNED)
