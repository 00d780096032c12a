"""A bed's whole season: each planting's time in each square, stage by stage, and what the plan meant."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from tallybed.garden.crops import Crop, Habit
from tallybed.garden.grouping import grouped
from tallybed.garden.squares import Square
from tallybed.reckoning.calendar.bed_season import BedSeason
from tallybed.reckoning.calendar.phases import Phase, phases_of
from tallybed.reckoning.calendar.stages import Stage, after
from tallybed.reckoning.room.plants import crop_of, crops_meant, in_common
from tallybed.reckoning.squares.stays import Stay


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
    name: str
    kind: str = ""
    """Of its crop: what the everyday name leaves out."""
    variety: str
    tag: str
    letters: str
    habit: Habit
    has_fruit: bool = False
    """Whether its fruit is what is picked."""
    courses: tuple[Course, ...]
    """By square (row, column), then first day; none where it never stood here."""
    meant: tuple[Meant, ...]
    """What the plan had meant for days that are past; days to come are in the courses."""


def planting_strips(of: BedSeason) -> tuple[PlantingStrip, ...]:
    """Return every planting that stands in a bed on some day of the season, or was meant to, by key."""
    stays = grouped(of.stays, lambda stay: stay.planting)
    meant: dict[str, list[Meant]] = {}
    for one in of.holding.by_plan:
        if one.square.bed == of.bed.name and one.first <= of.holding.today:
            last = min(one.last, of.holding.today)
            meant.setdefault(one.planting, []).append(Meant(square=one.square, first=one.first, last=last))
    return tuple(
        _planting_strip(of, key, stays.get(key, ()), meant.get(key, ()))
        for key in sorted(stays.keys() | meant.keys())
    )


def _planting_strip(of: BedSeason, key: str, stays: Iterable[Stay], meant: Iterable[Meant]) -> PlantingStrip:
    """Return one planting in the bed, from its stays there and what was meant."""
    planting = of.holding.planting(key)
    crop = crop_of(of.garden, planting)
    may_be = crops_meant(of.garden, planting)
    return PlantingStrip(
        planting=key,
        name=crop.name if crop else planting.crop.typed,
        kind=crop.kind if crop else "",
        variety=planting.variety,
        tag=planting.tag,
        letters=of.letters[key],
        habit=in_common(each.habit for each in may_be if each.habit) or Habit.UPRIGHT,
        has_fruit=any(each.has_fruit for each in may_be),
        courses=tuple(_course(of, stay, crop) for stay in stays),
        meant=tuple(meant),
    )


def _course(of: BedSeason, stay: Stay, crop: Crop | None) -> Course:
    """Return a stay as its course of phases."""
    return Course(
        square=stay.square,
        phases=phases_of(of.holding, stay, crop, of.bearing),
        lost=after(stay.end) is Stage.LOST,
    )
