"""Whether a staked bed is square: distances that can be measured on the ground, and enough of them.

A side may be too short for a triangle of 3, 4 and 5 feet, and a bed that is not a rectangle has
no two diagonals. The stakes beside a corner always are there: where both sides of a corner have
their length, the corner is square when the stakes at their far ends are as far apart as Pythagoras
has it. With every side and every corner the whole outline is fixed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tallybed.garden.squares import Bed
from tallybed.garden.units import CENTIMETRE, INCH, Length
from tallybed.reckoning.marking_out import Corner, Stakes, diagonal

TRIPLES = {
    False: tuple(Length.of(size, INCH) for size in (12, 8, 6, 4, 3, 2, 1)),
    True: tuple(Length.of(size, CENTIMETRE) for size in (30, 20, 15, 10, 5, 3)),
}
"""One part of a triangle of three, four and five parts, the largest first: sizes that a tape reads well."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerCheck:
    """A distance between two stakes that shows whether a corner between them is square."""

    corner: Corner
    start: Corner
    end: Corner
    length: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Tie:
    """A distance between stakes of two outlines that shows where the second lies."""

    start: Corner
    end: Corner
    length: Length


def corner_checks(bed: Bed, staked: Stakes) -> tuple[CornerCheck, ...]:
    """Return for each corner of a bed the distance of the two stakes beside it."""
    return tuple(
        CornerCheck(corner=ring[place], start=before, end=after, length=_apart(bed, before, after))
        for ring in staked.rings
        for place, (before, after) in enumerate(_beside(ring))
    )


def ties(bed: Bed, staked: Stakes) -> tuple[Tie, ...]:
    """Return what fixes any further outline of a bed, a hole in it or a part of its own, to the first.

    Two corners of it, each measured from the same two stakes of the first.
    """
    if not staked.rings:
        return ()
    base = staked.rings[0][:2]
    return tuple(
        Tie(start=start, end=end, length=_apart(bed, start, end))
        for ring in staked.rings[1:]
        for end in ring[:2]
        for start in base
    )


def triple(bed: Bed, staked: Stakes, *, metric: bool) -> Length | None:
    """Return one part of a triangle of 3, 4 and 5 parts that fits every corner; None where none does."""
    room = [
        sorted((_apart(bed, corner, before), _apart(bed, corner, after)))
        for ring in staked.rings
        for corner, (before, after) in zip(ring, _beside(ring), strict=True)
    ]
    return next(
        (
            part
            for part in TRIPLES[metric]
            if all(part * 3 <= short and part * 4 <= long for short, long in room)
        ),
        None,
    )


def _beside(ring: Sequence[Corner]) -> Iterator[tuple[Corner, Corner]]:
    """Yield for each corner of an outline the ones before and after it."""
    for place in range(len(ring)):
        yield ring[place - 1], ring[(place + 1) % len(ring)]


def _apart(bed: Bed, one: Corner, other: Corner) -> Length:
    """Return how far apart two stakes are."""
    across, down = abs(one.at[0] - other.at[0]), abs(one.at[1] - other.at[1])
    if not (across and down):
        return bed.side * (across + down)
    return diagonal(bed.side * across, bed.side * down)
