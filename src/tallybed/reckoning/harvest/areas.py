"""What a weight is divided by when it is told per square foot: always say of what."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.garden import Garden, Season
from tallybed.garden.records.plan import LedOut
from tallybed.garden.squares import Bed, Square, by_bed
from tallybed.garden.units import FOOT
from tallybed.reckoning.harvest.tally import TallyLine


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """An area in square feet, and the words for it."""

    of: str
    square_feet: Fraction


def is_known(season: Season, lines: Iterable[TallyLine]) -> bool:
    """Return whether it is known what ground a season's weights came from.

    It is by the plan, or where each weight names its squares. Without either nobody can say
    over what a total is to be told.
    """
    return bool(season.plan) or all(line.bed for line in lines if line.counts and line.weighed)


def in_no_record(beds: Iterable[Bed], season: Season) -> tuple[Bed, ...]:
    """Return the beds that plan, log and ledger of a season never name: they may not have been there yet.

    Those that tell since or until when they are there are known to have been.
    """
    named = {square.bed for row in season.plan or () for square in row.squares}
    named |= {square.bed for entry in season.log or () for event in entry.done for square in event.squares}
    named |= {square.bed for row in season.ledger or () for square in row.squares}
    return tuple(bed for bed in beds if bed.name not in named and not bed.there)


def run_out(garden: Garden, squares: Iterable[Square], led_out: LedOut | None) -> Fraction:
    """Return the square feet that vines are led out over: before the squares at that side, as far as told.

    A planting with no square of a bed at the side is led out of it through one square of the side.
    """
    area = Fraction(0)
    if led_out is None:
        return area
    for name, held in by_bed(squares).items():
        bed = garden.bed(name)
        if led_out.leaves(bed):
            edge = bed.along(led_out.side)
            front = set(held).intersection(edge) or set(edge[:1])
            area += bed.side.within(FOOT) * len(front) * led_out.reach.within(FOOT)
    return area


def run_out_used(bed: Bed, season: Season) -> Fraction:
    """Return the square feet of a bed's run-outs; nothing where no vine of the season's plan is led out."""
    used = any(
        row.led_out and row.led_out.leaves(bed) and bed.name in by_bed(row.squares)
        for row in season.plan or ()
    )
    return bed.run_out_square_feet if used else Fraction(0)


def grounds(beds: Iterable[Bed], season: Season) -> tuple[Ground, ...]:
    """Return the areas that a season's yield of these beds may be told over.

    The squares of the beds; with the run-out ground, if any vine was led out; with
    the beds' share of their paths, if a path is told; with both, if there are both.
    """
    beds = tuple(beds)
    squares = sum((bed.square_feet for bed in beds), Fraction(0))
    found = [Ground(of="the squares", square_feet=squares)]
    run_out = sum((run_out_used(bed, season) for bed in beds), Fraction(0))
    path = sum((bed.path_square_feet for bed in beds), Fraction(0))
    if run_out:
        found.append(Ground(of="the squares and their run-outs", square_feet=squares + run_out))
    if path:
        found.append(Ground(of="the squares and their share of path", square_feet=squares + path))
    if run_out and path:
        of = "the squares, their run-outs and their share of path"
        found.append(Ground(of=of, square_feet=squares + run_out + path))
    return tuple(found)
