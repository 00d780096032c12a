"""Seasons whose books are closed: what they were when they were closed, and stay."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from itertools import takewhile

from tallybed.garden.days import ONE_DAY
from tallybed.garden.garden import Garden, Season


def closed_garden(garden: Garden) -> Garden | None:
    """Return a garden with its closed seasons alone, up to the first that is not; None without any.

    A closed season after one that is still open can change with it, and is left out.
    """
    seasons = tuple(takewhile(lambda season: season.closed, garden.seasons))
    return replace(garden, seasons=seasons) if seasons else None


def closing_day(season: Season) -> date:
    """Return the day a closed season's pages speak as of: its last, or that of a record that came later."""
    return max(season.span.last, season.newest or season.span.last)


def seen_from(season: Season) -> date:
    """Return the day a closed season is seen from: the first on which all of it is past."""
    return closing_day(season) + ONE_DAY


def season_after(garden: Garden, whole: Garden | None) -> str:
    """Return the name of the season after a garden's closed ones; empty without one."""
    later = whole.seasons[len(garden.seasons) :] if whole else ()
    return next((season.name for season in later), "")
