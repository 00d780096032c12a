"""One planting in one square: from its records to the times it stood there.

A ``Stretch`` is such a time while it is being made out; it is known within ``squares`` alone.
What the other rooms ask for is a ``Hold`` or a ``Stay``.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from itertools import groupby

from tallybed.reckoning.squares.records import Record, RecordKind


@dataclass(slots=True, kw_only=True)
class Stretch:
    """One time that a planting stood in a square, as its own records and the plan's beginning tell."""

    first: date
    """The day it took the square: by the log, or supposed."""
    recorded: list[tuple[date, bool]] = field(default_factory=list)
    """Days with a record, in order; whether a line of the log names the square that day."""
    start: date | None = None
    """The day the log has it started here."""
    free: date | None = None
    """The day a record empties the square; it is free that day."""
    again: date | None = None
    """The day the log has it started anew here, with no end between."""
    told: bool = False
    """Whether some record of it names the square; else they are by its tag alone."""
    stray: bool = False
    """Met after it was recorded as gone: it stood on the days of records, and that is all."""

    @property
    def last_record(self) -> date | None:
        """The last day it is known to have stood here."""
        return self.recorded[-1][0] if self.recorded else None


def walk(records: Iterable[Record], supposed: date | None, *, carried: bool = False) -> list[Stretch]:
    """Return the stretches of a planting in a square from its records, which are sorted by day.

    ``supposed`` is the day from which it stands there by the plan, None where the plan
    does not say. Without any record that is its one stretch. ``carried``: it stands from that
    day even where a start is recorded later.
    """
    way = _Way(list(records), supposed, carried)
    for day, group in groupby(way.records, key=lambda one: one.day):
        way.go(day, list(group))
    if supposed is not None and not way.stretches and not way.gone:
        way.stretches.append(Stretch(first=supposed))
    return way.stretches


class _Way:
    """The state of the walk: what stands, and whether it was recorded as gone."""

    def __init__(self, records: list[Record], supposed: date | None, carried: bool) -> None:
        """Begin before the first record."""
        self.records = records
        self.supposed = supposed
        self.carried = carried
        self.starts = [one.day for one in records if one.kind is RecordKind.START]
        self.stretches: list[Stretch] = []
        self.now: Stretch | None = None
        self.gone = False

    def go(self, day: date, records: list[Record]) -> None:
        """Take the records of one day. If it stands an end comes before a start, else after it."""
        bearing = [one for one in records if self._bears(one)]
        if not bearing:
            return
        named = any(one.named for one in bearing)
        ends = any(one.kind is RecordKind.END for one in bearing)
        standing = self._standing()
        starts = [one for one in bearing if one.kind is RecordKind.START and not (standing and one.adds)]
        if self._stands_by_plan(day, ends=ends, starts=bool(starts)):
            self._open(Stretch(first=self.supposed or day))
        stood = self.now is not None
        if ends:
            if self.now is not None:
                self.now.free = day
            self.now, self.gone = None, True
        if starts and (stood or not ends):
            self._start(day, named)
        elif not ends:
            self._meet(day, named)
        if self.stretches and any(not one.spread for one in bearing):
            self.stretches[-1].told = True

    def _bears(self, one: Record) -> bool:
        """Return whether a record says anything of this square."""
        if self._standing() or one.kind is RecordKind.START:
            return True
        if one.at_large and self.gone:
            return False
        started_later = bool(self.starts) and self.starts[-1] > one.day and one.day not in self.starts
        early = self.supposed is None or self.supposed > one.day
        if one.kind is RecordKind.END:
            return not one.spread or not self.gone
        if one.spread:
            return not (self.gone or self.stretches or started_later or early)
        if one.slight:
            not_yet = (started_later and not self.carried) or (early and self.supposed is not None)
            return not (self.gone or not_yet)
        return True

    def _standing(self) -> bool:
        """Return whether it stands, and not merely met again after it was gone."""
        return self.now is not None and not self.now.stray

    def _stands_by_plan(self, day: date, *, ends: bool, starts: bool) -> bool:
        """Return whether its first record finds it standing since the plan's beginning."""
        fresh = self.now is None and not self.gone and not self.stretches
        if not fresh or self.supposed is None or self.supposed >= day:
            return False
        return self.carried or ends or not starts

    def _start(self, day: date, named: bool) -> None:
        """Begin a stretch by a recorded start; one that still stood is marked as begun anew."""
        if self.now is not None:
            self.now.again = day
        self._open(Stretch(first=day, start=day, recorded=[(day, named)]))

    def _meet(self, day: date, named: bool) -> None:
        """Note a day on which it was met; it begins a stretch where nothing stood."""
        if self.now is None:
            self._open(Stretch(first=day, stray=self.gone))
        if self.now is not None:
            self.now.recorded.append((day, named))

    def _open(self, stretch: Stretch) -> None:
        """Make a stretch the one that stands."""
        self.stretches.append(stretch)
        self.now = stretch
