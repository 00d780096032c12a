"""How much of the bed is used: shares of squares, square-days, and utilisation.

A square-day is one square held for one day. Two crops in a square have equal shares of
it unless plan or log tells otherwise.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from fractions import Fraction
from itertools import pairwise

from tallybed.garden.days import ONE_DAY
from tallybed.garden.garden import Garden
from tallybed.garden.squares import Square
from tallybed.reckoning.squares.occupancy import Holding


def shares(holding: Holding, square: Square, day: date) -> dict[str, Fraction]:
    """Return what share of a square each planting has on a day, by planting key, in their order.

    Told shares are kept as told, also where they come to more than the square; the
    others divide what is left equally.
    """
    return _divided(holding, square, (hold.planting for hold in holding.at(square, day)))


def told_shares(holding: Holding, square: Square, keys: Iterable[str]) -> dict[str, Fraction]:
    """Return the shares of a square that plan or log tell of some plantings, by key; they may exceed 1."""
    told = {key: holding.planting(key).share_in(square) for key in keys}
    return {key: share for key, share in told.items() if share is not None}


def square_days(holding: Holding, until: date | None = None) -> dict[str, Fraction]:
    """Return the square-days of each planting, up to and with ``until`` (by default the season's end).

    Every planting has an entry, in the order of their keys. Days to come count as planned.
    """
    found = {planting.key: Fraction(0) for planting in holding.plantings}
    for square in holding.squares:
        for days, keys in _steps(holding, square, until):
            for key, share in _divided(holding, square, keys).items():
                found[key] += share * days
    return found


def utilisation(garden: Garden, holding: Holding, until: date | None = None) -> Fraction:
    """Return the squares held ÷ (squares of all beds × days), from the season's first day to ``until``.

    A square held by several plantings, or by one with a part of it, is one square held.
    Nothing where there are no squares or no days.
    """
    squares = [square for bed in garden.beds for square in bed.squares]
    days = (_last(holding, until) - holding.span.first).days + 1
    if not squares or days <= 0:
        return Fraction(0)
    held = sum(days for square in squares for days, keys in _steps(holding, square, until) if keys)
    return Fraction(held, len(squares) * days)


def _last(holding: Holding, until: date | None) -> date:
    """Return the last day that counts."""
    return holding.span.last if until is None else min(until, holding.span.last)


def _steps(holding: Holding, square: Square, until: date | None) -> Iterator[tuple[int, tuple[str, ...]]]:
    """Yield the days on end on which the same plantings hold a square: how many, and which plantings."""
    last = _last(holding, until)
    holds = [hold for hold in holding.of_square(square) if hold.first <= last]
    edges = sorted({day for hold in holds for day in (hold.first, min(hold.last, last) + ONE_DAY)})
    for first, following in pairwise(edges):
        keys = tuple(hold.planting for hold in holding.at(square, first))
        yield (following - first).days, keys


def _divided(holding: Holding, square: Square, keys: Iterable[str]) -> dict[str, Fraction]:
    """Return each planting's share: as told, or an equal part of what is left."""
    every = sorted(keys)
    told = told_shares(holding, square, every)
    untold = len(every) - len(told)
    equal = Fraction(max(1 - sum(told.values()), 0), untold) if untold else Fraction(0)
    return {key: told.get(key, equal) for key in every}
