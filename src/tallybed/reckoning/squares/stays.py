"""Stays: the days on end that one planting holds one square, whatever they are known by."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from tallybed.garden.days import ONE_DAY
from tallybed.garden.grouping import grouped
from tallybed.garden.records.log import LEAVING, Event, Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Square, by_row
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Grade, Hold, Holding

_TELLING = {Verb.FAILED: 0, Verb.LOST: 1, Verb.CLEAR: 2, Verb.MOVE: 3}
"""Of several ends recorded in the same days, the one that says most of why."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stay:
    """One planting in one square, without a gap; both days included."""

    planting: str
    square: Square
    holds: tuple[Hold, ...]
    """Its days by how they are known, in order."""
    end: Event | None
    """The log's line by which it left, if there is one."""
    gone_by: date | None = None
    """The day by which a record says that it had left: its own, or another planting's start in the square.

    Later than ``left`` where the plan had it gone before; None where no record says so.
    """
    carried: bool
    """Whether it stood there before the season began."""
    open_ended: bool
    """Whether nothing says that it goes: it is there on the season's last day, or on the last day known."""

    @property
    def first(self) -> date:
        """First day."""
        return self.holds[0].first

    @property
    def last(self) -> date:
        """Last day."""
        return max(hold.last for hold in self.holds)

    @property
    def came(self) -> date | None:
        """The day it took the square; None where it came with the season."""
        return None if self.carried else self.first

    @property
    def left(self) -> date | None:
        """The day it left the square, the square being free that day; None where nothing says it does."""
        if self.open_ended:
            return None
        return self.end.day if self.end else self.last + ONE_DAY

    def end_grade(self, today: date, others: Iterable[Stay]) -> Grade | None:
        """Return how well it is known that it left on ``left``; None where nothing says that it leaves.

        A line of the log tells it. Another planting recorded in the square from that very day
        implies it. The plan alone lets it be supposed, until a record shows it.
        """
        left = self.left
        if left is None:
            return None
        if self.end is not None:
            return Grade.SEEN
        if left > today:
            return Grade.PLANNED
        follows = (
            other.holds[0].grade <= Grade.IMPLIED
            for other in others
            if other.square == self.square and other.planting != self.planting and other.first == left
        )
        return Grade.IMPLIED if any(follows) else Grade.SUPPOSED

    def grade(self, first: date, last: date) -> Grade:
        """Return the best knowledge of it within some days, or of its nearest days outside them."""
        within = [hold.grade for hold in self.holds if hold.first <= last and hold.last >= first]
        return min(within, default=self.holds[-1].grade)


def stays(holding: Holding, bed: str) -> tuple[Stay, ...]:
    """Return the stays in a bed, square by square (row by row), in order of their first days."""
    squares = (square for square in holding.squares if square.bed == bed)
    return _stays(holding, (hold for square in squares for hold in holding.of_square(square)))


def stays_of(holding: Holding, planting: str) -> tuple[Stay, ...]:
    """Return the stays of one planting, bed by bed, likewise."""
    return _stays(holding, holding.of_planting(planting))


def ending(planting: Planting, square: Square, last: date) -> Event | None:
    """Return the log's line by which a planting left a square it held until ``last``, if there is one.

    A line of the day after, on which the square is free: one of the day itself took some plants and left
    others, or it stood there again that day. One that takes all the plants comes before one that takes some.
    """
    found = [
        event
        for event, own in planting.lines
        if event.verb in LEAVING and event.day == last + ONE_DAY and (not own or square in own)
    ]
    return min(found, key=lambda event: (event.plants is not None, _TELLING[event.verb]), default=None)


def _stays(holding: Holding, holds: Iterable[Hold]) -> tuple[Stay, ...]:
    """Return holds put together: those of one planting and square with no day between them are one stay."""
    apart: dict[tuple[Square, str], list[list[Hold]]] = {}
    for hold in sorted(holds, key=lambda hold: (hold.first, hold.last, hold.grade)):
        groups = apart.setdefault((hold.square, hold.planting), [])
        if groups and hold.first <= max(each.last for each in groups[-1]) + ONE_DAY:
            groups[-1].append(hold)
        else:
            groups.append([hold])
    found = [
        _stay(holding, square, planting, tuple(group))
        for (square, planting), groups in apart.items()
        for group in groups
    ]
    return tuple(sorted(found, key=_in_bed_order))


def _in_bed_order(stay: Stay) -> tuple[str, int, int, date, str]:
    """Order stays by bed, row, column and first day."""
    return *by_row(stay.square), stay.first, stay.planting


def _stay(holding: Holding, square: Square, key: str, holds: tuple[Hold, ...]) -> Stay:
    """Return some holds without a gap as one stay."""
    planting = holding.planting(key)
    last = max(hold.last for hold in holds)
    planned = planting.planned
    end = ending(planting, square, last)
    return Stay(
        planting=key,
        square=square,
        holds=holds,
        end=end,
        gone_by=holding.departures.get(holds[-1]),
        carried=planned is not None
        and planned.start is Start.CARRIED
        and holds[0].first <= holding.span.first,
        open_ended=end is None and _goes_on(holding, square, last, planned),
    )


def _goes_on(holding: Holding, square: Square, last: date, planned: PlanRow | None) -> bool:
    """Return whether a stay without a recorded end reaches the season's last day, or the last one known."""
    if last >= holding.span.last:
        return True
    free = last + ONE_DAY
    ends_by_plan = planned is not None and min(planned.until, planned.dropped or planned.until) == free
    followed = any(hold.first == free for hold in holding.at(square, free))
    return last == holding.today and not ends_by_plan and not followed


def by_square(every: Iterable[Stay]) -> Mapping[Square, Sequence[Stay]]:
    """Return stays by the square they are in, their order kept."""
    return grouped(every, lambda stay: stay.square)
