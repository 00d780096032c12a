"""What a year's beds looked like, each view worked out once for a year and kept with it.

Apart from ``Year``, so that a command that asks for none of them does not load what they need.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from tallybed.garden.days import Month
from tallybed.garden.squares import Bed
from tallybed.reckoning.calendar.bed_season import BedSeason, bed_seasons
from tallybed.reckoning.calendar.history import PlantingHistory, histories
from tallybed.reckoning.calendar.map_letters import map_letters
from tallybed.reckoning.calendar.month import BedMonth, bed_month
from tallybed.reckoning.calendar.strips import PlantingStrip, planting_strips
from tallybed.reckoning.squares.stays import Stay
from tallybed.reckoning.year import Year


def season_of(year: Year, bed: Bed) -> BedSeason:
    """Return a bed's stays, changes and counts of plants."""
    return _beds(year)[bed.name]


def _beds(year: Year) -> Mapping[str, BedSeason]:
    """Return each bed's season, by the bed's name."""
    return year.kept("beds", lambda: {one.bed.name: one for one in bed_seasons(year.garden, year.holding)})


def stays_of(year: Year, bed: Bed) -> tuple[Stay, ...]:
    """Return who stood in a bed without a gap, square by square (row by row), then by first day."""
    return season_of(year, bed).stays


def month_of(year: Year, bed: Bed, month: Month) -> BedMonth:
    """Return one bed's month. Raises ValueError for a month outside the season."""
    work = partial(bed_month, season_of(year, bed), month, year.waiting.marked)
    return year.kept(("month", bed.name, month), work)


def months_of(year: Year, bed: Bed) -> tuple[BedMonth, ...]:
    """Return a bed's months of the season, in order."""
    return tuple(month_of(year, bed, month) for month in year.season.span.months)


def strips_of(year: Year, bed: Bed) -> tuple[PlantingStrip, ...]:
    """Return every planting's time in a bed, by key."""
    return year.kept(("strips", bed.name), lambda: planting_strips(season_of(year, bed)))


def histories_of(year: Year) -> Mapping[str, PlantingHistory]:
    """Return what is known of each planting, from sowing to clearing, by key."""
    beds = _beds(year).values()
    return year.kept("histories", lambda: histories(year.garden, year.holding, beds, year.without_planting))


def letters_of(year: Year) -> Mapping[str, str]:
    """Return what stands for each planting where a drawing has no room for its name, by key."""
    return year.kept("letters", lambda: map_letters(year.garden, year.plantings))
