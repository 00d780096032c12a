"""What stood where, up to a day: a planting in a square over days with one grade and one share of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from tallybed.garden.days import ONE_DAY
from tallybed.garden.squares import Square
from tallybed.reckoning.squares.occupancy import Grade, Hold, Holding
from tallybed.reckoning.squares.shares import shares


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """A planting in a square over some days, both included, known alike and with the same share."""

    planting: str
    square: Square
    first: date
    last: date
    grade: Grade
    """Never ``planned``."""
    share: Fraction
    """Its part of the square, from 0 to 1."""


def stood(holding: Holding, until: date) -> tuple[Stood, ...]:
    """Return what stood in each square up to and with ``until``, by planting, square and first day.

    A planting's days in a square are cut where another comes to share it or leaves, and
    where they begin to be known better or worse.
    """
    found = [one for square in holding.squares for one in _in_square(holding, square, until)]
    return tuple(sorted(found, key=lambda one: (one.planting, one.square, one.first)))


def _in_square(holding: Holding, square: Square, until: date) -> Iterator[Stood]:
    known = [hold for hold in holding.of_square(square) if hold.grade is not Grade.PLANNED]
    holds = [replace(hold, last=min(hold.last, until)) for hold in known if hold.first <= until]
    edges = sorted({day for hold in holds for day in (hold.first, hold.last + ONE_DAY)})
    for hold in holds:
        spans = [_span(holding, hold, day) for day in edges if hold.first <= day <= hold.last]
        yield from _without_seams(spans, hold.last)


def _span(holding: Holding, hold: Hold, first: date) -> Stood:
    """Return a hold from one of its days on, with the share it has that day."""
    share = shares(holding, hold.square, first)[hold.planting]
    return Stood(
        planting=hold.planting,
        square=hold.square,
        first=first,
        last=hold.last,
        grade=hold.grade,
        share=share,
    )


def _without_seams(spans: list[Stood], last: date) -> Iterator[Stood]:
    """Yield spans of one hold, each ended the day before the next, those of the same share as one."""
    kept = [one for place, one in enumerate(spans) if not place or one.share != spans[place - 1].share]
    ends = [one.first - ONE_DAY for one in kept[1:]]
    for one, end in zip(kept, [*ends, last], strict=True):
        yield replace(one, last=end)
