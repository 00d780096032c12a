"""What a season gave, found by planting and by day: gathered once for all that ask."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from tallybed.garden.grouping import grouped
from tallybed.reckoning.harvest.tally import TallyLine
from tallybed.reckoning.year import Year


def all_lines_of(year: Year, planting: str) -> tuple[TallyLine, ...]:
    """Return the lines of a season's tally that are of a planting by its key, those too that do not count."""
    return year.kept("lines by planting", lambda: _by_planting(year)).get(planting, ())


def lines_of(year: Year, planting: str) -> list[TallyLine]:
    """Return the lines of a season's tally that count for a planting by its key."""
    return [line for line in all_lines_of(year, planting) if line.counts]


def rows_picked_on(year: Year, day: date) -> tuple[int, ...]:
    """Return the places in a season's ledger of what was picked on a day, in its order."""
    return year.kept("rows by day", lambda: _by_day(year)).get(day, ())


def _by_planting(year: Year) -> Mapping[str, tuple[TallyLine, ...]]:
    """Return the lines of a season's tally by planting, in their order."""
    found = grouped(year.lines, lambda line: line.planting)
    return {key: tuple(lines) for key, lines in found.items()}


def _by_day(year: Year) -> Mapping[date, tuple[int, ...]]:
    """Return the places of a season's weighings by the day they were picked."""
    found: dict[date, list[int]] = {}
    for place, weighing in enumerate(year.season.ledger or ()):
        found.setdefault(weighing.day, []).append(place)
    return {day: tuple(places) for day, places in found.items()}
