"""Which notices stand on which page: what waits today, wherever its planting or its squares are offered."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial
from typing import cast

from tallybed.garden.squares import Bed, Square, in_words
from tallybed.pages.care.few_notices import by_bed, in_few
from tallybed.pages.care.notices import Notice, concerning, longest, notices
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pages.wording.names import place_words
from tallybed.reckoning.squares.occupancy import Hold
from tallybed.reckoning.year import Year, Years

ELSEWHERE = frozenset({"marking out", "not found", "questions", "seasons", "your place"})
"""Kinds of page that offer nothing to pick and no square to work in."""
ON_A_SIGN, ON_A_POSTER = 2, 6
"""Notices that such a sheet tells one by one: with more of them, its map and its key would have no room."""
ON_A_PAGE = 6
"""Notices that a page tells one by one at its head: more would stand before all that it is read for."""
ONE_BY_ONE = frozenset({"taking care", "volunteers"})
"""Kinds of page that tell every planting's own, however many there are."""
BY_LINKS = frozenset({"leaf", "question"})
"""Kinds of page that offer the plantings they lead to, and no others."""


def open_notices(years: Years) -> tuple[Notice, ...]:
    """Return what waits on the site's day, in the season a visitor means."""
    year = years.foremost
    return () if year is None else year.kept("notices", lambda: notices(year, years.today))


def told_with_pictures(year: Year, plantings: Iterable[str]) -> tuple[str, ...]:
    """Return what is said under photographs of plantings, by their keys, that wait on the site's day.

    Nothing in a closed season, whose pages speak as of its close.
    """
    wanted = frozenset(plantings)
    found = open_notices(year.years) if year is year.years.foremost and not year.season.closed else ()
    return tuple(one.plain for one in longest(found) if one.planting and one.planting in wanted)


def shown_on(years: Years, page: Page) -> tuple[Notice, ...]:
    """Return the notices for one page: those of its bed, planting or crop, where it is of one.

    Many are told bed by bed, where the page does not exist to tell each.
    """
    found = _of_page(years, page)
    return found if page.kind in ONE_BY_ONE else few(years, found)


def few(years: Years, found: Iterable[Notice]) -> tuple[Notice, ...]:
    """Return notices as a page that is read for something else tells them: many of them bed by bed."""
    return by_bed(found, ON_A_PAGE, partial(place_words, years.present))


def _of_page(years: Years, page: Page) -> tuple[Notice, ...]:
    """Return the notices that concern what a page offers."""
    found, year = open_notices(years), years.foremost
    if not found or year is None or page.kind in ELSEWHERE:
        return ()
    if page.kind in BY_LINKS:
        return _of_links(year, found, page)
    if page.kind == "crop":
        return _of_crop(year, found, page.path)
    if any(is_of(one, page.path) for one in years.all if one is not year):
        return ()
    if page.kind == "planting":
        own = next((one for one in year.plantings if addresses.planting(one) == page.path), None)
        return concerning(found, own.squares, own.key) if own else ()
    for bed in year.garden.beds:
        if page.path == addresses.sign(bed):
            return in_few(concerning(found, bed.squares), ON_A_SIGN, partial(_inside, bed))
        if page.path.startswith(f"{year.name}/beds/{bed.name}/"):
            return concerning(found, bed.squares)
    if page.path == addresses.poster(year):
        return in_few(found, ON_A_POSTER, partial(place_words, year.garden))
    return found


def _inside(bed: Bed, squares: Iterable[Square]) -> str:
    """Return the squares that lie in a bed, without its name."""
    return in_words((square for square in squares if square.bed == bed.name), with_bed=False)


def is_of(year: Year, path: str) -> bool:
    """Return whether a page is one of a season's own, its poster among them."""
    return path.startswith(f"{year.name}/") or path == addresses.poster(year)


def _of_links(year: Year, found: tuple[Notice, ...], page: Page) -> tuple[Notice, ...]:
    """Return the notices of the plantings that a page of the garden's own leads to."""
    leads = frozenset(cast("Iterable[str]", page.data["leads"]))
    own = [one for one in year.plantings if addresses.planting(one) in leads]
    told = (notice for one in own for notice in concerning(found, one.squares, one.key))
    return tuple(dict.fromkeys(told))


def _of_crop(year: Year, found: tuple[Notice, ...], path: str) -> tuple[Notice, ...]:
    """Return the notices of plantings that may be of a crop, and of the squares they stand in."""
    slug = path.split("/")[1]
    own = [one for one in year.plantings if slug in one.crop.slugs]
    keys = {one.key for one in own}
    squares = {hold.square for key in keys for hold in year.holding.of_planting(key) if _now(year, hold)}
    return tuple(
        one
        for one in found
        if one.planting in keys or (not one.planting and not squares.isdisjoint(one.squares))
    )


def _now(year: Year, hold: Hold) -> bool:
    """Return whether a hold is of the site's day."""
    return hold.first <= year.today <= hold.last
