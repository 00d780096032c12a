"""How many plants of a planting stand in each of its squares on a day.

The log's counts come first, then the plan's, then the room that the spacing
leaves, which nobody counted. Seeds are no plants.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import TypeVar

from tallybed.garden.crops import Crop
from tallybed.garden.garden import Garden
from tallybed.garden.naming import variety_of
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import Length
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.room.counting import RANK, Book, in_order
from tallybed.reckoning.room.spacing import Packing, Spot, beside, most, place
from tallybed.reckoning.squares.occupancy import Holding

_T = TypeVar("_T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Plants:
    """The plants of a planting that stand on a day."""

    by_square: Mapping[Square, int]
    """Each square held that day, in bed order; a crop wider than a square stands in some of its squares."""
    told_in: frozenset[Square] = frozenset()
    """The squares whose count log or plan gives."""
    once: Mapping[Square, int] = field(default_factory=dict)
    """As many stood in each square before any were lost or taken out, since the last sowing or thinning."""


def crop_of(garden: Garden, planting: Planting) -> Crop | None:
    """Return the crop of a planting, or None where its name is general and nobody said which is meant."""
    slug = planting.crop.slug
    return garden.crop(slug) if slug else None


def crops_meant(garden: Garden, planting: Planting) -> tuple[Crop, ...]:
    """Return the crops that a planting may be of: its own, or each that a general name stands for."""
    return tuple(map(garden.crop, planting.crop.slugs))


def in_common(values: Iterable[_T]) -> _T | None:
    """Return what all the values are; None where they differ, or there is none."""
    found = set(values)
    return found.pop() if len(found) == 1 else None


def spacing_of(garden: Garden, planting: Planting) -> Length | None:
    """Return the spacing meant for a planting: its own, else its variety's, else its crop's."""
    told = planting.planned.spacing if planting.planned else None
    crop = crop_of(garden, planting)
    return told or (usual_spacing(crop, planting.variety) if crop else None)


def usual_spacing(crop: Crop, variety: str) -> Length | None:
    """Return the spacing of a crop where its planting tells none: its variety's, else its own."""
    own = variety_of(crop, variety)
    return (own.spacing if own else None) or crop.spacing


def room_for(garden: Garden, squares: Iterable[Square], spacing: Length) -> int:
    """Return how many plants keep a spacing in some squares, which may lie in several beds."""
    where = tuple(squares)
    return sum(len(most(garden.bed(bed), where, spacing)) for bed in {square.bed for square in where})


def plants(garden: Garden, holding: Holding, planting_key: str, day: date) -> Plants:
    """Return the plants of a planting that stand at the end of ``day``.

    Raises KeyError for an unknown key.
    """
    planting = holding.planting(planting_key)
    holds = [hold for hold in holding.of_planting(planting_key) if hold.first <= day]
    held = in_order(garden, {hold.square for hold in holds if day <= hold.last})
    if not held:
        return Plants(by_square={})
    spacing = spacing_of(garden, planting)
    if spacing is None:
        return Plants(by_square={})
    lines = sorted(
        (line for line in planting.lines if line[0].day <= day and line[0].verb in RANK),
        key=lambda line: (line[0].day, RANK[line[0].verb]),
    )
    first_days: dict[Square, date] = {}
    for hold in sorted(holds, key=lambda hold: hold.first):
        first_days.setdefault(hold.square, hold.first)
    book = Book(garden, spacing)
    book.begin(holding, planting, first_days, lines)
    for event, own in lines:
        book.enter(event, own)
    return Plants(
        by_square={square: book.now.get(square, 0) for square in held},
        told_in=frozenset(square for square in held if square in book.told),
        once={square: max(book.once.get(square, 0), book.now.get(square, 0)) for square in held},
    )


def spots(
    garden: Garden,
    holding: Holding,
    planting_key: str,
    day: date,
    bed: Bed,
    others: Iterable[Spot] = (),
    standing: Plants | None = None,
) -> Packing | None:
    """Return where the plants of a planting stand in a bed, clear of ``others`` in the same squares.

    ``standing``: its plants on that day, where they are counted already. None where the
    crop, and so its spacing, is not known.
    """
    spacing = spacing_of(garden, holding.planting(planting_key))
    if spacing is None:
        return None
    standing = standing or plants(garden, holding, planting_key, day)
    counts = {square: number for square, number in standing.by_square.items() if square.bed == bed.name}
    near = tuple(others)
    if near:
        return beside(bed, counts, spacing, counts, near)
    return place(bed, counts, spacing, counts, of=standing.once)
