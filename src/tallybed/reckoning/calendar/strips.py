"""A bed's whole season: each planting's time in each square, stage by stage, and what the plan meant."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from tallybed.garden.days import ONE_DAY
from tallybed.garden.garden import Garden, Season
from tallybed.garden.squares import Bed, Square
from tallybed.reckoning.calendar.phases import Phase, phases_of
from tallybed.reckoning.calendar.stages import Stage, after
from tallybed.reckoning.room.plants import crop_of
from tallybed.reckoning.squares.occupancy import Holding, hold
from tallybed.reckoning.squares.stays import Stay, stays_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """One planting in one square, without a gap."""

    square: Square
    phases: tuple[Phase, ...]
    lost: bool
    """Whether it ended in a loss that is past."""

    @property
    def first(self) -> date:
        """First day."""
        return self.phases[0].first

    @property
    def last(self) -> date:
        """Last day."""
        return self.phases[-1].last


@dataclass(frozen=True, slots=True, kw_only=True)
class Meant:
    """Days on which the plan has a planting in a square, both included."""

    square: Square
    first: date
    last: date


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantingStrip:
    """One planting in one bed over the season."""

    planting: str
    crop: str
    """The crop's slug; empty where a general name leaves it open."""
    name: str
    variety: str
    tag: str
    letters: str
    family: str
    courses: tuple[Course, ...]
    """By square (row, column), then first day; none where it never stood here."""
    meant: tuple[Meant, ...]
    """What the plan had meant for days that are past; days to come are in the spells."""


def planting_strips(garden: Garden, holding: Holding, bed: Bed) -> tuple[PlantingStrip, ...]:
    """Return every planting that stands in a bed on some day of the season, or was meant to, by key."""
    keys = {one.planting for square in bed.squares for one in holding.of_square(square)}
    keys |= {one.planting for one in holding.by_plan if one.square.bed == bed.name}
    found = (planting_strip(garden, holding, bed, key) for key in sorted(keys))
    return tuple(one for one in found if one)


def planting_strip(garden: Garden, holding: Holding, bed: Bed, planting: str) -> PlantingStrip | None:
    """Return one planting in a bed, by its key; None where it is not, nor was meant to be by now."""
    courses = tuple(
        _course(garden, holding, stay) for stay in stays_of(holding, planting) if stay.square.bed == bed.name
    )
    meant = tuple(
        Meant(square=one.square, first=one.first, last=min(one.last, holding.today))
        for one in holding.meant_for(planting)
        if one.square.bed == bed.name and one.first <= holding.today
    )
    return _planting_strip(garden, holding, planting, courses, meant) if courses or meant else None


def as_planned(season: Season) -> Holding:
    """Return who would hold the squares if all went by the plan as it stands: nothing has happened yet."""
    return hold(replace(season, log=None, ledger=None), season.span.first - ONE_DAY)


def _course(garden: Garden, holding: Holding, stay: Stay) -> Course:
    gone = stay.left is not None and stay.left <= holding.today
    return Course(
        square=stay.square,
        phases=phases_of(holding, stay, crop_of(garden, holding.planting(stay.planting))),
        lost=gone and after(stay.end) is Stage.LOST,
    )


def _planting_strip(
    garden: Garden, holding: Holding, key: str, courses: tuple[Course, ...], meant: tuple[Meant, ...]
) -> PlantingStrip:
    planting = holding.planting(key)
    crop = crop_of(garden, planting)
    families = {crop.family} if crop else {garden.crop(slug).family for slug in planting.crop.slugs}
    return PlantingStrip(
        planting=key,
        crop=crop.slug if crop else "",
        name=crop.name if crop else planting.crop.typed,
        variety=planting.variety,
        tag=planting.tag,
        letters=crop.letters if crop else "",
        family=families.pop() if len(families) == 1 else "",
        courses=courses,
        meant=meant,
    )
