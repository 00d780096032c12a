"""A planting's plants by square, counted from record to record."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import date
from fractions import Fraction

from tallybed.garden.garden import Garden
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.squares import Square
from tallybed.garden.units import Length
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.room.spacing import pack, place, wider_than_a_square
from tallybed.reckoning.room.spreading import in_proportion, spread
from tallybed.reckoning.squares.occupancy import Holding
from tallybed.reckoning.squares.shares import shares

Line = tuple[Event, tuple[Square, ...]]
"""A line of the log with the squares of it that are the planting's own; none where it names none."""

RANK = {
    verb: rank
    for rank, verb in enumerate(
        (Verb.SOW, Verb.SET_OUT, Verb.MOVE, Verb.THIN, Verb.LOST, Verb.FAILED, Verb.CLEAR, Verb.RESOW)
    )
}
"""The verbs that change a count, in the order in which those of one day are taken."""


def part_of(garden: Garden, number: int | None, event: Event, own: tuple[Square, ...]) -> int | None:
    """Return the part of a line's number that is of a planting, where it names squares of two.

    ``own``: the planting's squares of the line.
    """
    if number is None or not own or set(event.squares) <= set(own):
        return number
    over = in_order(garden, event.squares)
    return sum(each for square, each in zip(over, spread(number, len(over)), strict=True) if square in own)


class Book:
    """Counts by square, kept from record to record."""

    def __init__(self, garden: Garden, spacing: Length) -> None:
        """Begin an empty book for a crop of that spacing."""
        self.garden = garden
        self.spacing = spacing
        self.now: dict[Square, int] = {}
        self.once: dict[Square, int] = {}
        self.told: set[Square] = set()
        self.counted: set[Square] = set()
        """Squares for which a line of sowing or setting out gave a count."""
        self.sown: set[Square] = set()

    def begin(
        self, holding: Holding, planting: Planting, first_days: Mapping[Square, date], lines: Iterable[Line]
    ) -> None:
        """Enter what the plan, or else the spacing, gives for squares that the log gives no count for."""
        came_by_move = {square for event, _own in lines if event.verb is Verb.MOVE for square in event.to}
        started = {square for event, own in lines if event.verb in (Verb.SOW, Verb.SET_OUT) for square in own}
        planned = planting.planned
        meant = set(planned.squares) if planned else set()
        base = in_order(self.garden, set(first_days) - (came_by_move - started - meant))
        if planned and planned.plants is not None:
            over = planned.squares if meant.issuperset(base) else base
            known = self.spread(planned.plants, over)
            self.now = {square: known.get(square, 0) for square in base}
            self.told = set(base)
        else:
            parts = {square: _share(holding, square, first_days[square], planting.key) for square in base}
            self.now = self.room(base, parts)
        self.once = dict(self.now)

    def spread(self, number: int, squares: Iterable[Square]) -> dict[Square, int]:
        """Return a told number over squares: evenly, or where they stand for a crop wider than a square.

        Such a crop has in each of several beds a part of the number that goes with its ground there.
        """
        ordered = in_order(self.garden, squares)
        beds = {name: self.garden.bed(name) for name in dict.fromkeys(square.bed for square in ordered)}
        if not any(wider_than_a_square(bed, self.spacing) for bed in beds.values()):
            return dict(zip(ordered, spread(number, len(ordered)), strict=True)) if ordered else {}
        inside = {name: tuple(square for square in ordered if square.bed == name) for name in beds}
        areas = [beds[name].square_area * len(inside[name]) for name in beds]
        found: Counter[Square] = Counter()
        for (name, bed), part in zip(beds.items(), in_proportion(number, areas), strict=True):
            if wider_than_a_square(bed, self.spacing):
                found.update(spot.square for spot in place(bed, inside[name], self.spacing, part).spots)
            else:
                found.update(dict(zip(inside[name], spread(part, len(inside[name])), strict=True)))
        return {square: found[square] for square in ordered}

    def room(self, squares: tuple[Square, ...], parts: Mapping[Square, Fraction]) -> dict[Square, int]:
        """Return the plants that the spacing has room for, less its company's share; at least one."""
        found: dict[Square, int] = {}
        for bed in self.garden.beds:
            inside = tuple(square for square in squares if square.bed == bed.name)
            packing = pack(bed, inside, self.spacing)
            full = Counter(spot.square for spot in packing.spots)
            if wider_than_a_square(bed, self.spacing):
                part = min((parts[square] for square in inside), default=Fraction(1))
                if part < 1 and packing.spots:
                    full = Counter(self.spread(max(1, int(len(packing.spots) * part)), inside))
                found |= {square: full[square] for square in inside}
            else:
                found |= {
                    square: max(1, int(full[square] * parts[square])) if full[square] else 0
                    for square in inside
                }
        return found

    def enter(self, event: Event, own: tuple[Square, ...]) -> None:
        """Enter one line of the log, with the squares of it that are this planting's."""
        named = in_order(self.garden, own) or in_order(self.garden, self.now)
        match event.verb:
            case Verb.SOW | Verb.SET_OUT:
                self._start(part_of(self.garden, event.plants, event, own), named)
            case Verb.RESOW:
                self._resow(part_of(self.garden, event.plants, event, own), named)
            case Verb.THIN:
                self._thin(part_of(self.garden, event.leaving, event, own), named)
            case Verb.MOVE:
                self._move(part_of(self.garden, event.plants, event, own), named, event.to)
            case _:
                self._take(part_of(self.garden, event.plants, event, own), named)

    def _start(self, number: int | None, named: tuple[Square, ...]) -> None:
        """Enter a sowing or setting out, counted or not."""
        if number is None:
            for square in named:
                if square in self.sown and not self.now.get(square):
                    self.now[square] = self.once.get(square, 0)
                self.now.setdefault(square, 0)
            self.sown.update(named)
            return
        for square, each in self.spread(number, named).items():
            if square in self.counted:
                self.now[square] += each
            elif square in self.sown:
                self.now[square] = max(self.now.get(square, 0), each)
            else:
                self.now[square] = each
                self.told.add(square)
                self.counted.add(square)
            self.once[square] = self.now[square]
        self.sown.update(named)

    def _resow(self, number: int | None, named: tuple[Square, ...]) -> None:
        """Enter a resowing: without a number as many as stood before."""
        if number is None:
            self.now |= {square: self.once.get(square, 0) for square in named}
        else:
            self._put(self.spread(number, named))

    def _thin(self, leaving: int | None, named: tuple[Square, ...]) -> None:
        """Enter a thinning that says how many are left; they are spread over squares where any grow."""
        if leaving is not None:
            growing = tuple(square for square in named if self.now.get(square)) or named
            self._put(dict.fromkeys(named, 0) | self.spread(leaving, growing))

    def _put(self, counts: Mapping[Square, int]) -> None:
        """Set the counts of some squares as told."""
        self.now |= counts
        self.once |= counts
        self.told |= set(counts)
        self.counted |= set(counts)

    def _move(self, number: int | None, named: tuple[Square, ...], to: tuple[Square, ...]) -> None:
        """Take plants from squares and put them evenly into others."""
        known = number is not None or self.told.issuperset(named)
        moved = sum(self.now.get(square, 0) for square in named) if number is None else number
        self._take(number, named)
        for square, more in self.spread(moved, to).items():
            self.now[square] = self.now.get(square, 0) + more
            self.once[square] = self.now[square]
            if known:
                self.told.add(square)

    def _take(self, number: int | None, named: tuple[Square, ...]) -> None:
        """Take away plants: all that stand in the squares, or so many, first where most stand."""
        if number is None:
            self.now |= dict.fromkeys(named, 0)
            return
        for squares in (named, in_order(self.garden, self.now)):
            while number and any(self.now.get(square) for square in squares):
                fullest = max(squares, key=lambda square: self.now.get(square, 0))
                self.now[fullest] -= 1
                number -= 1


def in_order(garden: Garden, squares: Iterable[Square]) -> tuple[Square, ...]:
    """Return squares in bed order: bed by bed as the garden lists them, row by row."""
    beds = {bed.name: index for index, bed in enumerate(garden.beds)}
    known = {square for square in squares if square.bed in beds}
    return tuple(sorted(known, key=lambda square: (beds[square.bed], square.row, square.column)))


def _share(holding: Holding, square: Square, day: date, key: str) -> Fraction:
    """Return the share a planting had of a square the day it took it: its plants were put in for that."""
    return min(shares(holding, square, day).get(key, Fraction(1)), Fraction(1))
