"""Waits: for a planting in a square, from which day it may be picked again, and why not before."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from tallybed.garden.records.log import Event
from tallybed.garden.squares import Square
from tallybed.reckoning.waits.reentry import KeepOff


class WaitKind(StrEnum):
    """What a wait is by."""

    LABEL = "label"
    MANURE = "manure"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """One planting in one square, waiting after one line of the log."""

    season: str
    """Of the planting."""
    planting: str
    """Key of the planting; empty for ground that holds none yet, or what was left of the season before."""
    square: Square
    kind: WaitKind
    event: Event
    """The line of the log that began it."""
    begins: date
    """The first day inside: that of the line, or the day the planting came there."""
    first_safe: date | None
    """The first day on which it may be picked; None where the wait is not known: not until it is."""
    left: frozenset[str] = frozenset()
    """Crop slugs of what was left of the season before; none for a planting, and for bare ground."""
    cleared: date | None = None
    """The day by which the log has the planting out of the square; pickings up to that day are inside."""

    def is_inside(self, day: date) -> bool:
        """Return whether what is picked on a day may come from inside the wait."""
        if day < self.begins or (self.cleared is not None and day > self.cleared):
            return False
        return self.first_safe is None or day < self.first_safe

    def is_open(self, day: date) -> bool:
        """Return whether it still stands there on a day and waits; one cleared that day does not."""
        return self.is_inside(day) and (self.cleared is None or day < self.cleared)


@dataclass(frozen=True, slots=True, kw_only=True)
class SquareKeptOff:
    """A square in which nobody works after one line of the log."""

    square: Square
    event: Event
    rule: KeepOff
    cleared: date | None = None
    """The day by which the log has all that was treated there out of it."""

    def is_open(self, day: date) -> bool:
        """Return whether people keep off on some of a day."""
        if day < self.event.day:
            return False
        if self.rule.first_day is None:
            return self.cleared is None or day < self.cleared
        return day < self.rule.first_day


def first_safe(waits: Iterable[Wait]) -> tuple[bool, date | None]:
    """Return whether anything waits, and the latest first safe day; None where one is not known."""
    days = [one.first_safe for one in waits]
    if None in days:
        return True, None
    return bool(days), max((day for day in days if day is not None), default=None)
