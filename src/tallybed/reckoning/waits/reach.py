"""What a line of the log reaches: squares, and the plantings that may stand in them.

Whoever may still stand is reached: the plan's end alone says nothing. A planting has left
a square when its own line of the log says so, or another's recorded start there does.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from itertools import zip_longest

from tallybed.garden.naming import folded
from tallybed.garden.records.log import ENDING, STARTING, Event, Verb
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import Bed, Square
from tallybed.reckoning.plantings.drafts import takes_all
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Holding
from tallybed.reckoning.squares.stays import Stay, stays_of


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantedSquare:
    """A planting in a square, for as long as it may stand there."""

    planting: str
    square: Square
    first: date
    cleared: date | None
    """The day by which its own line of the log has it out; None where none does."""
    gone: date | None
    """The day by which any record has it out; None where none does: it may stand."""

    def on(self, day: date) -> bool:
        """Return whether it may stand there on some of a day; the day it went is one."""
        return self.first <= day and (self.gone is None or day <= self.gone)


def standings(holding: Holding) -> tuple[PlantedSquare, ...]:
    """Return every planting in its squares, with how long it may stand there."""
    return tuple(
        one
        for planting in holding.plantings
        for stay in stays_of(holding, planting.key)
        for one in _standings(planting, stay)
    )


def _standings(planting: Planting, stay: Stay) -> Iterator[PlantedSquare]:
    """Yield a stay as long as it may have lasted, its recorded end and not the plan's.

    One that was cleared and begun again on one day is two: other plants.
    """
    ends = _ends(planting, stay.square)
    firsts = [stay.first, *(day for day in ends if stay.first < day < stay.last)]
    for first, following in zip_longest(firsts, firsts[1:]):
        cleared = following or next((day for day in ends if day >= stay.last), None)
        gone = [day for day in (cleared, None if following else stay.gone_by) if day is not None]
        yield PlantedSquare(
            planting=stay.planting,
            square=stay.square,
            first=first,
            cleared=cleared,
            gone=min(gone, default=None),
        )


def reached_squares(
    event: Event, beds: Iterable[Bed], plantings: Iterable[Planting], every: Iterable[PlantedSquare]
) -> frozenset[Square]:
    """Return the squares of a line: those named; else those of its tag or crop on its day; else all.

    A line whose tag or crop nobody knows to stand anywhere reaches every square: nothing says where not.
    """
    if event.squares:
        return frozenset(event.squares)
    named = frozenset(_named(event, plantings))
    if event.tag or event.crop:
        found = frozenset(one.square for one in every if one.planting in named and one.on(event.day))
        if found:
            return found
    return frozenset(square for bed in beds for square in bed.squares)


def _named(event: Event, plantings: Iterable[Planting]) -> Iterator[str]:
    """Yield the keys of the plantings that a line names by tag, else by crop."""
    for one in plantings:
        if event.tag:
            if folded(one.tag) == folded(event.tag):
                yield one.key
        elif event.crop and event.crop.may_be(one.crop):
            yield one.key


def led_on(planting: Planting, squares: Iterable[Square], since: date) -> Iterator[tuple[Square, date]]:
    """Yield the squares that treated plants stand in, each with its first day: moved plants take it along."""
    found = dict.fromkeys(squares, since)
    yield from found.items()
    for event, own in sorted(planting.lines, key=lambda line: line[0].day):
        if event.verb is not Verb.MOVE or event.day < since:
            continue
        if own and found.keys().isdisjoint(own):
            continue
        for square in event.to:
            if square not in found:
                found[square] = event.day
                yield square, event.day


def cleared_by(planting: Planting, square: Square, since: date, *, anew: bool = False) -> date | None:
    """Return the day by which a planting's own lines have it out of a square, at or after a day.

    ``anew``: of plants that began on that very day, which a clearing of that day was before.
    """
    ends = _ends(planting, square)
    return next((day for day in ends if day > since or (day == since and not anew)), None)


def _ends(planting: Planting, square: Square) -> list[date]:
    """Return the days on which a planting's own lines take all of it out of a square, in order."""
    told = {
        event.day
        for event, own in planting.lines
        if takes_all(event)
        and (not own or square in own)
        and not (event.verb is Verb.MOVE and square in event.to)
    }
    return sorted(told.union(day for day, squares in _counted_out(planting) if square in squares))


def _counted_out(planting: Planting) -> Iterator[tuple[date, frozenset[Square]]]:
    """Yield the days on which the log's lines have taken as many plants as they had put in, and from where.

    The plan's count says nothing of what stood. Where a line is not counted, or more are taken than were
    counted, nobody knows whether any is left, and no day is told from there on.
    """
    left: int | None = None if planting.planned and planting.planned.start is Start.CARRIED else 0
    squares: set[Square] = set()
    for event, own in planting.lines:
        if left is None:
            return
        if event.verb in STARTING:
            whole = own and set(event.squares) <= set(own) and event.verb is not Verb.RESOW
            left = left + event.plants if whole and event.plants is not None else None
            squares.update(own)
        elif event.verb is Verb.MOVE:
            squares.update(event.to)
        elif event.verb is Verb.THIN and event.leaving is not None:
            left = event.leaving if not own or squares <= set(own) else None
        elif takes_all(event):
            left = 0 if not own or squares <= set(own) else None
        elif event.verb in ENDING and event.plants is not None:
            left = left - event.plants if event.plants <= left else None
            if left == 0:
                yield event.day, frozenset(squares)
