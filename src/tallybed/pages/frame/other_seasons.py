"""The seasons and months before and after, from any page of a season."""

from __future__ import annotations

from collections.abc import Callable

from tallybed.garden.days import Month
from tallybed.garden.squares import Bed
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.wording.dated import month_name
from tallybed.reckoning.closed import season_after
from tallybed.reckoning.year import Year

Same = Callable[[Year], Link | None]
"""The page of another season that matches the one at hand, or None where that season has none."""


def open_season_after(year: Year) -> str:
    """Return the name of the season after the closed ones that a closed one is of; empty for others."""
    whole = year.years.whole
    return season_after(year.garden, whole.garden if whole else None)


def seasons_beside(year: Year, same: Same) -> dict[str, Link | None]:
    """Return the links to the matching pages of the seasons before and after, as templates name them.

    A season whose books are closed knows only the name of one that is not: that season's first page.
    """
    before, after = year.beside(-1), year.beside(1)
    follows = open_season_after(year)
    return {
        "before": same(before) if before else None,
        "after": same(after)
        if after
        else (Link(f"Season {follows}", addresses.season_of(follows)) if follows else None),
    }


def months_beside(
    year: Year, bed: Bed, month: Month, address: Callable[[Year, Bed, Month], str]
) -> dict[str, Link | None]:
    """Return the links to a bed's pages of the months before and after, as templates name them."""
    months = year.season.span.months

    def link(at: int) -> Link | None:
        """Return the link to one of the season's months; None outside it."""
        there = 0 <= at < len(months)
        return Link(month_name(year, months[at]), address(year, bed, months[at])) if there else None

    at = months.index(month)
    return {"before": link(at - 1), "after": link(at + 1)}
