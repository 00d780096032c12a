"""What was worked out of a garden's years, carried over to those of the same garden a moment later.

A process that follows a garden while it is written meets the same seasons again and again.
"""

from __future__ import annotations

from tallybed.reckoning.year import Year, Years

OF_SEASON = (
    "holding",
    "planned",
    "rows",
    "plan_of",
    "entries",
    "plantings_of",
    "owners",
    "weighings",
    "owned",
    "without_planting",
    "lines",
    "total",
    "weeks",
)
"""What ``Year`` works out of its season and its day, and of nothing else."""


def carry(before: Years, now: Years) -> None:
    """Give each year what was worked out of the very same season, seen from the same day."""
    known = {year.name: year for year in before.all}
    for year in now.all:
        old = known.get(year.name)
        if old is not None and old.season is year.season and old.today == year.today:
            _give(old, year)


def _give(old: Year, year: Year) -> None:
    """Give a year what another has worked out so far: ``cached_property`` keeps it in the instance."""
    found = vars(old)
    vars(year).update({name: found[name] for name in OF_SEASON if name in found})
