"""Plantings while they are being put together.

Log and ledger are matched to the plan record by record; until the last record is
placed a planting is a draft that grows. Nothing here leaves ``reckoning``.
"""

from __future__ import annotations

from bisect import insort
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date

from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import INDOORS, LEAVING, STARTING, TAKING_SOME, Event
from tallybed.garden.records.plan import PlanRow
from tallybed.garden.squares import Square


@dataclass(slots=True, kw_only=True, eq=False)
class PlantingDraft:
    """A planting in the making. Days of records are kept by square, sorted."""

    rank: int
    """Planned ones first, in the plan's order; then those the records alone know."""
    slugs: frozenset[str]
    names: tuple[CropName, ...] = ()
    tag: str = ""
    planned: PlanRow | None = None
    home: frozenset[Square] = frozenset()
    """The planned squares."""
    lines: list[tuple[Event, tuple[Square, ...]]] = field(default_factory=list)
    """Log lines, each with those of its squares that are this planting's."""
    picks: list[tuple[Weighing, tuple[Square, ...]]] = field(default_factory=list)
    starts: dict[Square, list[date]] = field(default_factory=dict)
    ends: dict[Square, list[date]] = field(default_factory=dict)
    met: dict[Square, list[date]] = field(default_factory=dict)
    """Every day with a record that names the square."""
    planted: set[Square] = field(default_factory=set)
    """Squares with a recorded sowing or setting out (not those it was moved to)."""

    @property
    def moved_house(self) -> bool:
        """Whether it was planted, and in none of its planned squares."""
        return bool(self.planted) and self.home.isdisjoint(self.planted)

    @property
    def squares(self) -> frozenset[Square]:
        """Squares it may stand in, as far as is known by now."""
        home = frozenset() if self.moved_house else self.home
        return home.union(self.met, self.starts)

    @property
    def until(self) -> date | None:
        """The day the plan lets it go; None where the plan does not know it."""
        if self.planned is None:
            return None
        return min(self.planned.until, self.planned.dropped or self.planned.until)

    def add(self, event: Event, squares: Iterable[Square]) -> None:
        """Take a log line with the squares of it that are this planting's.

        A line that names none of its own counts for all the squares known.
        """
        told = in_order(squares)
        self.lines.append((event, told))
        if event.verb in INDOORS:
            return
        for square in told:
            _note(self.met, square, event.day)
        if event.verb in STARTING:
            self.planted.update(told or self.home)
            for square in told or self.squares:
                _note(self.starts, square, event.day)
        elif takes_all(event):
            for square in told or self.squares:
                _note(self.ends, square, event.day)
        for square in event.to:
            _note(self.met, square, event.day)
            _note(self.starts, square, event.day)

    def pick(self, weighing: Weighing, squares: Iterable[Square]) -> None:
        """Take a weighing with the squares of it that are this planting's."""
        told = in_order(squares)
        self.picks.append((weighing, told))
        for square in told:
            _note(self.met, square, weighing.day)


def in_order(squares: Iterable[Square]) -> tuple[Square, ...]:
    """Return squares sorted and without repeats."""
    return tuple(sorted(set(squares)))


def takes_all(event: Event) -> bool:
    """Return whether a line ends a planting in its squares, as far as the line alone tells."""
    return event.verb in LEAVING and not (event.verb in TAKING_SOME and event.plants is not None)


def _note(days: dict[Square, list[date]], square: Square, day: date) -> None:
    """Keep a day of a square, the days in order."""
    insort(days.setdefault(square, []), day)
