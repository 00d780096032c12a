"""The way to a page from above, as its head shows it; every page has one, which may be empty."""

from __future__ import annotations

from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.reckoning.year import Year

Trail = tuple[Link, ...]
"""From the top down; the last is the page itself and leads nowhere."""


def season_link(year: Year) -> Link:
    """Return the link to a season's home."""
    return Link(f"Season {year.name}", addresses.season(year))


def below_season(year: Year, *between: Link, here: str) -> Trail:
    """Return the way to a page called ``here`` from its season's home."""
    return (season_link(year), *between, Link(here, ""))


def below_sheets(here: str) -> Trail:
    """Return the way to a sheet to print called ``here`` from the list of sheets."""
    return (Link("Sheets to print", addresses.SHEETS), Link(here, ""))
