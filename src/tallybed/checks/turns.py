"""What held each square before, by family, and which families may not go in yet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from tallybed.checks.results import called
from tallybed.garden.crops import Crop
from tallybed.garden.squares import Square
from tallybed.reckoning.year import Year

SLACK = 2
"""Months by which a family may come back sooner: a crop goes in earlier one year than another. Our choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Past:
    """A planting that held a square before."""

    season: str
    key: str
    crop: str
    name: str
    first: date
    """The day it went in, also where that was in the season before."""
    last: date
    carried: bool = False
    """Whether it stood there from an earlier season on."""


def out_of_turn(year: Year, squares: Sequence[Square], crop: Crop, day: date) -> bool:
    """Return whether a crop begun on a day would bring a family back too soon into one of some squares.

    Also where what the plan puts there later is of the family.
    """
    for square in squares:
        for past in history(year).get((square, crop.family), ()):
            if past.season == year.season.name:
                if past.crop != crop.slug:
                    return True
            elif too_soon(year, past.first, day):
                return True
    return False


def history(year: Year) -> Mapping[tuple[Square, str], Sequence[Past]]:
    """Return what held each square, worked out once a year."""
    return year.kept("families before", lambda: _history(year))


def _history(year: Year) -> dict[tuple[Square, str], list[Past]]:
    """Return, for square and family, what held it: first the earlier seasons, then the plan's own."""
    found: dict[tuple[Square, str], list[Past]] = {}
    past = [(one.season, one.holding, one.holding.holds) for one in year.earlier]
    past.append((year.season, year.holding, year.holding.by_plan))
    for place, (season, holding, holds) in enumerate(past):
        before = past[place - 1][0].name if place else ""
        days: dict[tuple[Square, str], list[date]] = {}
        for hold in holds:
            days.setdefault((hold.square, hold.planting), []).extend((hold.first, hold.last))
        for (square, key), own in sorted(days.items()):
            planting = holding.planting(key)
            if planting.crop.slug is None:
                continue
            crop = year.garden.crop(planting.crop.slug)
            here = found.setdefault((square, crop.family), [])
            since = planting.planned.carried_from if planting.planned else ""
            went_in = _went_in(here, crop, since) if since and since == before else None
            here.append(
                Past(
                    season=season.name,
                    key=key,
                    crop=crop.slug,
                    name=called(year, planting),
                    first=went_in or min(own),
                    last=max(own),
                    carried=bool(since),
                )
            )
    return found


def _went_in(here: Sequence[Past], crop: Crop, season: str) -> date | None:
    """Return the day on which a crop went in that was carried over from a season; None where nobody told.

    None too where it stood over several winters: such a one counts from its last spring.
    """
    days = [one.first for one in here if (one.season, one.crop, one.carried) == (season, crop.slug, False)]
    return max(days, default=None)


def too_soon(year: Year, earlier: date, later: date) -> bool:
    """Return whether fewer months lie between two plantings than the garden's years have."""
    months = (later.year - earlier.year) * 12 + later.month - earlier.month - (later.day < earlier.day)
    return months + SLACK < 12 * year.garden.rotation
