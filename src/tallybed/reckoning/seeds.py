"""Seeds to sow, plants to have, stakes and trellis: what a plan needs before it begins."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import ceil

from tallybed.garden.crops import Crop, Figure, Habit
from tallybed.garden.records import Garden, Planting, Season, Start
from tallybed.garden.squares import Square
from tallybed.garden.units import Length
from tallybed.reckoning.spacing import most

ALLOWANCE = Fraction(1, 10)
"""Seeds sown over what the germination rate asks for. Our choice, stated on the list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """What one planting of the plan needs."""

    tag: str
    crop: str
    """Slug."""
    variety: str
    squares: tuple[Square, ...]
    plants: int
    told: bool
    """Whether the plan tells the plants; else as many as keep the spacing."""
    seeds: int | None
    """None where it begins from sets, tubers, slips, cloves or bought plants."""
    begins_as: str
    """``seed``, ``plants``, ``sets``, ``tubers``, ``slips``, ``cloves``."""
    germination: Figure | None
    indoors: date | None
    begins: date
    stakes: int
    trellis: Length


def seeds_for(plants: int, germination: Fraction, allowance: Fraction = Fraction(0)) -> int:
    """Return the seeds to sow: plants ÷ germination rate, with the allowance, rounded up.

    ``germination`` and ``allowance`` are parts of one. Raises ValueError for a rate
    that is not above zero and at most one.
    """
    if not 0 < germination <= 1:
        raise ValueError(f"a germination rate of {germination}")
    return ceil(plants / germination * (1 + allowance))


def needs(garden: Garden, season: Season, allowance: Fraction = ALLOWANCE) -> tuple[Need, ...]:
    """Return what each planting needs, in the order of its first job; dropped and carried ones left out."""
    rows = [row for row in season.plan or () if row.dropped is None and row.start is not Start.CARRIED]
    found = [_need(garden, row, allowance) for row in rows]
    return tuple(
        sorted(found, key=lambda need: (need.indoors or need.begins, need.crop, need.tag, need.squares))
    )


def _need(garden: Garden, row: Planting, allowance: Fraction) -> Need:
    crop = garden.crop(row.crop)
    plants = row.plants if row.plants is not None else _capacity(garden, crop, row)
    begins_as = _begins_as(crop, row)
    germination = crop.used("seed germination min")
    rate = germination.low / 100 if germination and germination.low else None
    return Need(
        tag=row.tag,
        crop=row.crop,
        variety=row.variety,
        squares=row.squares,
        plants=plants,
        told=row.plants is not None,
        seeds=seeds_for(plants, rate, allowance) if begins_as == "seed" and rate else None,
        begins_as=begins_as,
        germination=germination if begins_as == "seed" else None,
        indoors=row.sow_indoors,
        begins=row.begins,
        stakes=plants if _staked(crop) else 0,
        trellis=_trellis(garden, crop, row),
    )


def _capacity(garden: Garden, crop: Crop, row: Planting) -> int:
    """Return as many plants as keep the spacing, or the planting's share of them; at least one."""
    own = next((one.spacing for one in crop.varieties if one.name == row.variety and one.spacing), None)
    bed = garden.bed(row.squares[0].bed)
    fit = len(most(bed, row.squares, row.spacing or own or crop.spacing))
    return max(1, int(fit * (row.share or 1)))


def _begins_as(crop: Crop, row: Planting) -> str:
    if crop.start in ("sets", "tubers", "slips", "cloves"):
        return str(crop.start)
    return "seed" if row.start is Start.SOW or row.sow_indoors else "plants"


def _staked(crop: Crop) -> bool:
    """Return whether each plant needs a stake: a published height of support, and not a climber's trellis."""
    return crop.habit is not Habit.CLIMBING and bool(crop.all_of("support height"))


def _trellis(garden: Garden, crop: Crop, row: Planting) -> Length:
    """Return the length of trellis a climbing planting takes up: its squares at one."""
    if crop.habit is not Habit.CLIMBING:
        return Length()
    bed = garden.bed(row.squares[0].bed)
    supported = {square for trellis in bed.trellises for square in trellis.squares}
    return bed.side * len(supported.intersection(row.squares))
