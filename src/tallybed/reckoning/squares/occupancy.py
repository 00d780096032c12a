"""Who holds a square, day by day, and how well that is known.

*Seen*: a line of the log of that very day names the crop (or its tag) and the square.
*Implied*: the planting has records on both sides of the day, or a weighing on it, or a line
of the log by its tag alone. *Supposed*: nothing was recorded since, and by the plan (or
for want of anything that says it went) it still stands. *Planned*: a day to come.
Silence never means absence; a square is free on the day it is cleared.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property
from typing import TypeVar

from tallybed.garden.days import ONE_DAY, Span
from tallybed.garden.garden import Season
from tallybed.garden.grouping import grouped
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.order import RecordOrder
from tallybed.reckoning.plantings.plantings import Planting, plantings
from tallybed.reckoning.squares.conflicts import settle
from tallybed.reckoning.squares.grades import Grade as Grade
from tallybed.reckoning.squares.grades import Hold as Hold
from tallybed.reckoning.squares.grades import clipped, graded, planned_days
from tallybed.reckoning.squares.records import Record, RecordKind, traces
from tallybed.reckoning.squares.sharing import Sharing
from tallybed.reckoning.squares.walk import Stretch, walk

_Key = TypeVar("_Key", bound=Hashable)


@dataclass(frozen=True, kw_only=True)
class Holding:
    """Who holds the squares over a season, as of a day."""

    season: str
    span: Span
    today: date
    plantings: tuple[Planting, ...] = ()
    """Sorted by key."""
    holds: tuple[Hold, ...] = ()
    """Log, ledger and plan together; sorted by square, first day, planting. None holds a square twice."""
    departures: Mapping[Hold, date] = field(default_factory=dict)
    """For a hold after which a record says that its planting has left: the day by which it had.

    The day of its own record, or of another planting's start in the square.
    """
    order: RecordOrder | None = field(default=None, compare=False, repr=False)
    """That of the season's records; None where its plantings were known before it was worked out."""

    @cached_property
    def by_plan(self) -> tuple[Hold, ...]:
        """What the plan alone says, all of grade PLANNED; sorted as ``holds`` are."""
        meant = clipped(planned_days(self.plantings, self.span), self.span)
        return tuple(sorted(meant, key=lambda one: one.order))

    @cached_property
    def plan_of(self) -> Mapping[Square, tuple[Hold, ...]]:
        """What the plan alone gives each square, in order of days."""
        in_order = sorted(self.by_plan, key=lambda one: (one.first, one.last, one.planting))
        return _grouped(in_order, lambda one: one.square)

    @cached_property
    def sightings(self) -> frozenset[tuple[Square, date, str]]:
        """Square, day and planting's key of every line of the log that names the square, clearing it too."""
        return frozenset(_sightings(self.plantings))

    def planting(self, key: str) -> Planting:
        """Return the planting of that key. Raises KeyError."""
        return self._by_key[key]

    def at(self, square: Square, day: date) -> tuple[Hold, ...]:
        """Return what holds a square on a day, in the order of ``holds``; each with all its days."""
        days, holds = self._steps.get(square, ([], []))
        place = bisect_right(days, day)
        return holds[place - 1] if place else ()

    def between(self, square: Square, first: date, last: date) -> tuple[Hold, ...]:
        """Return what holds a square from ``first`` to ``last``, both included, clipped to these days."""
        if first > last:
            return ()
        met = (hold for hold in self.of_square(square) if hold.first <= last and hold.last >= first)
        clipped = [replace(hold, first=max(hold.first, first), last=min(hold.last, last)) for hold in met]
        return tuple(sorted(clipped, key=lambda hold: hold.order))

    def of_square(self, square: Square) -> tuple[Hold, ...]:
        """Return every hold of a square, in the order of ``holds``."""
        return self._by_square.get(square, ())

    def of_planting(self, key: str) -> tuple[Hold, ...]:
        """Return every hold of a planting, in the order of ``holds``."""
        return self._by_planting.get(key, ())

    @cached_property
    def squares(self) -> tuple[Square, ...]:
        """Every square that is held on some day, sorted."""
        return tuple(self._by_square)

    @cached_property
    def _by_key(self) -> Mapping[str, Planting]:
        return {planting.key: planting for planting in self.plantings}

    @cached_property
    def _by_square(self) -> Mapping[Square, tuple[Hold, ...]]:
        return _grouped(self.holds, lambda one: one.square)

    @cached_property
    def _by_planting(self) -> Mapping[str, tuple[Hold, ...]]:
        return _grouped(self.holds, lambda one: one.planting)

    @cached_property
    def _steps(self) -> Mapping[Square, tuple[list[date], list[tuple[Hold, ...]]]]:
        """For each square the days on which its holders change, and who holds it from each."""
        return {square: _changes(holds) for square, holds in self._by_square.items()}


def _grouped(holds: Iterable[Hold], key: Callable[[Hold], _Key]) -> Mapping[_Key, tuple[Hold, ...]]:
    """Return holds by what ``key`` tells of each, their order kept."""
    return {name: tuple(own) for name, own in grouped(holds, key).items()}


def hold(
    season: Season,
    today: date,
    *,
    only: Callable[[Planting], bool] | None = None,
    known: tuple[Planting, ...] | None = None,
) -> Holding:
    """Return who holds the squares of a season, as of ``today``.

    Plan, log and ledger may each be missing; records after ``today`` are left out; the
    order of records never matters. Every day lies within the season. ``only``: squares in which
    no such planting can stand are not worked out, and have no holds. ``known``: its plantings as of
    that day, where they were worked out already.
    """
    order = RecordOrder.of(season) if known is None else None
    every = plantings(season, today, order) if known is None else known
    asked = None if only is None else {square for one in every if only(one) for square in one.squares}
    sharing = Sharing(every)
    by_square: dict[Square, list[tuple[Planting, Stretch]]] = {}
    for planting in every:
        if asked is not None and asked.isdisjoint(planting.squares):
            continue
        for square, stretch in _planting_stretches(planting, season.span):
            by_square.setdefault(square, []).append((planting, stretch))
    holds: list[Hold] = []
    departures: dict[Hold, date] = {}
    for square in sorted(by_square if asked is None else asked.intersection(by_square)):
        for settled in settle(by_square[square], today, season.span.last, sharing.declared):
            parts = tuple(clipped(graded(settled, square, today), season.span))
            holds += parts
            if parts and settled.left is not None:
                departures[parts[-1]] = settled.left
    return Holding(
        season=season.name,
        span=season.span,
        today=today,
        plantings=every,
        holds=tuple(sorted(holds, key=lambda one: one.order)),
        departures=departures,
        order=order,
    )


def _planting_stretches(planting: Planting, span: Span) -> Iterator[tuple[Square, Stretch]]:
    """Yield the stretches of a planting, square by square.

    One that was planted is supposed in the rest of its planned squares since it was planted:
    the day the log tells wins over the day planned.
    """
    planned, records = planting.planned, traces(planting)
    carried = planned is not None and planned.start is Start.CARRIED
    never = planned is None or (planned.dropped is not None and planned.dropped <= planned.begins)
    for square in sorted(planting.home.union(records)):
        here: list[Record] = records.get(square, [])
        supposed = None
        if planned is not None and not never:
            started_here = any(one.kind is RecordKind.START for one in here)
            supposed = planned.begins if started_here else (planting.begun or planned.begins)
        for stretch in walk(here, span.first if carried else supposed, carried=carried):
            yield square, stretch


def _sightings(every: Iterable[Planting]) -> Iterator[tuple[Square, date, str]]:
    """Yield square, day and key for each line of the log that names the square."""
    for planting in every:
        for event, squares in planting.lines:
            for square in (*squares, *event.to):
                yield (square, event.day, planting.key)


def _changes(holds: Iterable[Hold]) -> tuple[list[date], list[tuple[Hold, ...]]]:
    """Return the days on which some holds begin or end, and which of them hold from each of these days."""
    kept = tuple(holds)
    days = sorted({day for one in kept for day in (one.first, one.last + ONE_DAY)})
    return days, [tuple(one for one in kept if one.first <= day <= one.last) for day in days]
