"""What stands around every page of a site, worked out once for all of them."""

from __future__ import annotations

from dataclasses import dataclass

from tallybed.garden.garden import Garden
from tallybed.pages.care.notices import DEFERS
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.frame.trails import season_link
from tallybed.pages.frame.which_pages import has_ledger
from tallybed.reckoning.year import Year, Years


@dataclass(frozen=True, slots=True, kw_only=True)
class Surround:
    """What all pages have around them, whatever they say. Two that are equal make equal pages."""

    garden: str
    place: str
    language: str
    base: str
    """The garden's web address, with a closing slash; empty where it is not told."""
    nav: tuple[Link, ...]
    supporters: tuple[Link, ...]
    """Supporters' wordings, to the letter, that are shown on the site's day."""
    licence: Link | None
    feed: Link | None
    pictures: tuple[tuple[str, str], ...]
    """Season and path of each picture of a season's figures, that of the season a visitor means first."""
    defers: str = DEFERS
    """The sentence that puts the label above the site."""


def surround(years: Years) -> Surround:
    """Return what stands around every page of a site, once for a site."""
    return years.kept("surround", lambda: _surround(years))


def _surround(years: Years) -> Surround:
    """Return what stands around every page of a site."""
    garden = years.garden
    shown = [year for year in reversed(years.all) if has_card(year)]
    shown.sort(key=lambda year: year is not years.foremost)
    return Surround(
        garden=garden.name,
        place=garden.where,
        language=garden.language,
        base=garden.address,
        nav=navigation(years),
        supporters=tuple(Link(one.words, one.address) for one in garden.supporters if one.shown(years.today)),
        licence=_licence(garden),
        feed=Link(f"Log of {garden.name}", addresses.FEED) if has_feed(years) else None,
        pictures=tuple((year.name, addresses.card(year)) for year in shown) if garden.address else (),
    )


def has_feed(years: Years) -> bool:
    """Return whether there is a feed: it needs the garden's address, and an entry to tell."""
    return bool(years.garden.address) and any(year.entries for year in years.all)


def has_card(year: Year) -> bool:
    """Return whether a season has figures to make a picture of."""
    return any(line.counts for line in year.lines)


def navigation(years: Years) -> tuple[Link, ...]:
    """Return the site's navigation: the season a visitor means, crops, seasons, the garden's own pages."""
    found = [Link("Today" if years.running else "First page", addresses.HOME)]
    year = years.foremost
    if year:
        found.append(season_link(year))
        if has_ledger(year):
            found.append(Link("Tally", addresses.tally(year)))
        if year.season.log is not None:
            found.append(Link("Log", addresses.log(year)))
    found += [Link("Crops", addresses.CROPS), Link("All seasons", addresses.SEASONS)]
    if years.garden.questions:
        found.append(Link("Questions", addresses.QUESTIONS))
    if years.present.beds:
        found += [Link("At your place", addresses.YOUR_PLACE), Link("Sheets", addresses.SHEETS)]
    own = sorted(years.garden.leaves, key=lambda leaf: (leaf.order, leaf.title.casefold(), leaf.slug))
    found += [Link(leaf.title, addresses.leaf(years, leaf)) for leaf in own]
    return tuple(found)


def _licence(garden: Garden) -> Link | None:
    """Return the terms of use by name, leading to where they can be read; None where not told."""
    words = garden.licence or garden.licence_address
    return Link(words, garden.licence_address) if words else None
