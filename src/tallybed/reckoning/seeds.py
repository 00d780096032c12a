"""Seeds to sow, plants to have, stakes and trellis: what a plan needs before it begins.

Seeds are plants ÷ the share of seed that comes up, rounded up. That share is the
packet's own where the garden tells it, else the least that the United States let
be sold without a mark, 7 CFR 201.31, from the crop library.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import ceil

from tallybed.garden.crops import Beginning, Crop, Figure, Footing, Habit
from tallybed.garden.facts import RATE
from tallybed.garden.garden import Garden, Season
from tallybed.garden.grouping import grouped
from tallybed.garden.naming import variety_of
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Square
from tallybed.garden.units import Length
from tallybed.reckoning.room.plants import room_for, usual_spacing

ALLOWANCE = Fraction(1, 10)
"""Seeds sown over what the germination rate asks for. Our choice, stated on the list."""
SEED = "seed"
"""What a sown planting begins as; others as ``plants``, ``sets``, ``tubers``, ``slips``, ``cloves``."""


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
    """None where it begins from sets, tubers, slips, cloves or bought plants, or no rate is known."""
    begins_as: str
    """``seed``, ``plants``, ``sets``, ``tubers``, ``slips``, ``cloves``."""
    germination: Figure | None
    """The share of seed that comes up, in percent: the packet's own before the library's."""
    indoors: date | None
    begins: date
    start: Start
    """Whether it is sown in the bed or set out."""
    stakes: int
    trellis: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class CropNeed:
    """What all plantings of one crop need together."""

    crop: str
    """Slug."""
    plantings: int
    plants: int
    seeds: int
    """For the plantings from seed whose rate is known, each rounded up by itself as it is sown by itself."""
    unknown: int
    """Plants from seed of which no rate is known."""
    others: tuple[tuple[str, int], ...]
    """What does not begin as seed: kind and number, sorted by kind."""
    first: date
    """The first day on which some of it is needed."""
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


def by_crop(found: Iterable[Need]) -> tuple[CropNeed, ...]:
    """Return the needs added up crop by crop, in order of the slugs."""
    crops = grouped(found, lambda need: need.crop)
    return tuple(_together(slug, crops[slug]) for slug in sorted(crops))


def _together(slug: str, found: list[Need]) -> CropNeed:
    """Return what the plantings of one crop need together."""
    others: dict[str, int] = {}
    for need in found:
        if need.begins_as != SEED:
            others[need.begins_as] = others.get(need.begins_as, 0) + need.plants
    return CropNeed(
        crop=slug,
        plantings=len(found),
        plants=sum(need.plants for need in found),
        seeds=sum(need.seeds or 0 for need in found),
        unknown=sum(need.plants for need in found if need.begins_as == SEED and need.seeds is None),
        others=tuple(sorted(others.items())),
        first=min(need.indoors or need.begins for need in found),
        stakes=sum(need.stakes for need in found),
        trellis=sum((need.trellis for need in found), Length()),
    )


def _need(garden: Garden, row: PlanRow, allowance: Fraction) -> Need:
    """Return what one row of the plan needs."""
    crop = garden.crop(row.crop)
    plants = row.plants if row.plants is not None else _capacity(garden, crop, row)
    begins_as = _begins_as(crop, row)
    germination = _germination(crop, row.variety)
    rate = germination.low / 100 if germination and germination.low else None
    trellis = _trellis(garden, crop, row)
    return Need(
        tag=row.tag,
        crop=row.crop,
        variety=row.variety,
        squares=row.squares,
        plants=plants,
        told=row.plants is not None,
        seeds=seeds_for(plants, rate, allowance) if begins_as == SEED and rate else None,
        begins_as=begins_as,
        germination=germination if begins_as == SEED else None,
        indoors=row.sow_indoors,
        begins=row.begins,
        start=row.start,
        stakes=0 if trellis or not crop.all_of("support height") else plants,
        trellis=trellis,
    )


def _germination(crop: Crop, variety: str) -> Figure | None:
    """Return the packet's own rate of a variety, else the crop's."""
    own = variety_of(crop, variety)
    if own and own.germination is not None:
        rate = own.germination * 100
        return Figure(fact=RATE, low=rate, high=rate, unit="%", kind=Footing.GARDEN, note=own.source)
    return crop.used(RATE)


def _capacity(garden: Garden, crop: Crop, row: PlanRow) -> int:
    """Return as many plants as keep the spacing, or the planting's share of them; at least one."""
    spacing = row.spacing or usual_spacing(crop, row.variety)
    fit = room_for(garden, row.squares, spacing) if spacing else 1
    return max(1, int(fit * (row.share or 1)))


def _begins_as(crop: Crop, row: PlanRow) -> str:
    """Return what a planting is begun from: ``seed``, ``sets`` and the like, or bought ``plants``.

    Onions and their like are sown as seed or set out as sets; tubers, slips and cloves are laid, whatever
    a row calls it.
    """
    laid = crop.start in (Beginning.TUBERS, Beginning.SLIPS, Beginning.CLOVES)
    if row.sow_indoors or (row.start is Start.SOW and not laid):
        return SEED
    return str(crop.start) if laid or crop.start is Beginning.SETS else "plants"


def _trellis(garden: Garden, crop: Crop, row: PlanRow) -> Length:
    """Return the length of trellis a climbing planting takes up: its squares at one, in each of its beds."""
    if crop.habit is not Habit.CLIMBING:
        return Length()
    found = Length()
    for bed in garden.beds:
        supported = {square for trellis in bed.trellises for square in trellis.squares}
        found += bed.side * len(supported.intersection(row.squares))
    return found
