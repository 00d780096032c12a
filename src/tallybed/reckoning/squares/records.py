"""What the records of one planting say of each of its squares, day by day."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from enum import Enum
from fractions import Fraction

from tallybed.garden.records.log import STARTING, TAKING_SOME, Event, Verb
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.drafts import takes_all
from tallybed.reckoning.plantings.plantings import Planting


class RecordKind(Enum):
    """What a record says of a planting in a square."""

    START = "start"
    END = "end"
    MENTION = "mention"


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """One record as it bears on one square."""

    day: date
    kind: RecordKind
    named: bool = False
    """A line of the log names the square."""
    spread: bool = False
    """The record names no square: it counts wherever the planting stands on the day."""
    slight: bool = False
    """Care that bare ground gets too."""
    at_large: bool = False
    """The square was empty by then, and the record concerns others beside it that were not."""
    adds: bool = False
    """A sowing that names no square: no new start where the planting stands already."""


def traces(planting: Planting) -> dict[Square, list[Record]]:
    """Return the records of a planting by square, each square's by day."""
    told: list[tuple[Iterable[Square], Record]] = []
    plants = _Plants(planting)
    everywhere = planting.squares
    for event, squares in planting.lines:
        kind, all_gone = _kind(event, squares, plants)
        named = bool(squares)
        home = planting.home if kind is RecordKind.START else frozenset()
        where = squares or home or everywhere.difference(event.to)
        one = Record(
            day=event.day,
            kind=kind,
            named=named,
            spread=not named,
            slight=event.verb.meaning.tends_ground,
            adds=not named and event.verb is not Verb.RESOW,
        )
        told.append((where, one))
        if all_gone and named:
            spread = Record(day=event.day, kind=RecordKind.END, spread=True)
            told.append((everywhere.difference(squares), spread))
        told.append((event.to, Record(day=event.day, kind=RecordKind.START, named=True)))
    for weighing, squares in zip(planting.weighings, planting.picked, strict=True):
        one = Record(day=weighing.day, kind=RecordKind.MENTION, spread=not squares)
        told.append((squares or everywhere, one))
    return _by_square(sorted(told, key=lambda each: each[1].day))


def _by_square(told: Iterable[tuple[Iterable[Square], Record]]) -> dict[Square, list[Record]]:
    """Return by square the records told with their squares; of an empty one a record may say nothing."""
    found: dict[Square, list[Record]] = {}
    empty: dict[Square, date] = {}
    for squares, one in told:
        where = tuple(squares)
        gone = {square for square in where if empty.get(square, one.day) < one.day}
        for square in where:
            at_large = square in gone and len(gone) < len(where)
            found.setdefault(square, []).append(replace(one, at_large=True) if at_large else one)
            if one.kind is RecordKind.START:
                empty.pop(square, None)
            elif one.kind is RecordKind.END:
                empty.setdefault(square, one.day)
    return found


def _kind(event: Event, squares: tuple[Square, ...], plants: _Plants) -> tuple[RecordKind, bool]:
    """Return what a line says of its squares, and whether nothing of the planting is left anywhere else."""
    if event.verb in STARTING:
        plants.start(event, squares)
        return RecordKind.START, False
    if event.verb is Verb.THIN and event.leaving is not None:
        plants.thin(event.leaving, squares)
    if takes_all(event):
        plants.clear(event, squares)
        return RecordKind.END, False
    if event.verb in TAKING_SOME:
        here, all_gone = plants.take(event, squares)
        return (RecordKind.END if here else RecordKind.MENTION), all_gone
    return RecordKind.MENTION, False


class _Plants:
    """How many plants stand, as far as anybody counted; in several squares they count as spread evenly.

    Needed only to tell whether plants lost, cleared or moved were all there were.
    """

    def __init__(self, planting: Planting) -> None:
        """Begin with what the plan counts."""
        self.by_square: dict[Square, Fraction | None] = {}
        self.uncounted: set[Square] = set()
        self.told = False
        planned = planting.planned
        if planned is not None and planned.plants is not None:
            self._put(planned.plants, planting.home or planting.squares)

    def start(self, event: Event, squares: tuple[Square, ...]) -> None:
        """Take a sowing or setting out; the first that is counted replaces what was planned.

        One that is not counted stands for what was planned there, if nothing else is counted.
        """
        if event.verb is Verb.RESOW:
            self.by_square.update(dict.fromkeys(squares or tuple(self.by_square), None))
        elif event.plants is not None:
            if not self.told:
                self.by_square = dict.fromkeys(squares, Fraction(0)) | dict.fromkeys(self.uncounted)
            self.told = True
            self._put(event.plants, squares)
        else:
            self.uncounted.update(squares)
            where = squares or tuple(self.by_square)
            self.by_square |= dict.fromkeys(
                square for square in where if self.told or square not in self.by_square
            )

    def thin(self, leaving: int, squares: tuple[Square, ...]) -> None:
        """Take a thinning that says how many plants are left."""
        where = squares or tuple(self.by_square)
        self.by_square.update(dict.fromkeys(where, Fraction(0)))
        self._put(leaving, where)

    def clear(self, event: Event, squares: tuple[Square, ...]) -> None:
        """Take a line that empties its squares, perhaps by moving all plants to others."""
        where = squares or tuple(self.by_square)
        moved = self._sum(where)
        self.by_square.update(dict.fromkeys(where, Fraction(0)))
        for square in event.to:
            self.by_square[square] = None if moved is None else moved / len(event.to)

    def take(self, event: Event, squares: tuple[Square, ...]) -> tuple[bool, bool]:
        """Take plants lost, cleared or moved: whether they were all there, and all there were anywhere."""
        number = event.plants or 0
        where = squares or tuple(self.by_square)
        here, everywhere = self._sum(where), self._sum(self.by_square)
        counts = [self.by_square.get(square) for square in where]
        whole = all(count is not None and count.denominator == 1 for count in counts)
        all_gone = everywhere is not None and bool(self.by_square) and number >= everywhere
        gone = here is not None and bool(where) and whole and number >= here
        for square in where:
            count = self.by_square.get(square)
            if count is not None:
                lost = count if gone or not here else min(count, number * count / here)
                self.by_square[square] = count - lost
        self._put(number, event.to)
        return gone or all_gone, all_gone and event.verb is not Verb.MOVE

    def _put(self, number: int, squares: Iterable[Square]) -> None:
        """Add plants to squares, spread evenly; where a count is unknown it stays so."""
        where = sorted(set(squares))
        each = Fraction(number, len(where) or 1)
        for square in where:
            before = self.by_square.get(square, 0)
            self.by_square[square] = None if before is None else before + each

    def _sum(self, squares: Iterable[Square]) -> Fraction | None:
        """Return the plants in some squares; None where a count is unknown."""
        total = Fraction(0)
        for square in squares:
            count = self.by_square.get(square)
            if count is None:
                return None
            total += count
        return total
