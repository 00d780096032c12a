"""The page with which a season's archive begins: what is in it, and what is not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from tallybed.garden.days import in_full
from tallybed.pages.catalogue import framed
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import season_link
from tallybed.pages.wording import names
from tallybed.reckoning.year import Year, Years

INDEX = "index.html"
OUTSIDE = "outside"
"""Anchor of what the archive leaves out."""


def archive_page(year: Year, kept: Iterable[str]) -> Page:
    """Return the first page of an archive that holds the paths ``kept``."""
    there = frozenset(kept)
    page = Page(
        path=INDEX,
        template="archive.html",
        title=f"Season {year.name} in one folder",
        description=f"Season {year.name} of {year.garden.name} in one folder that opens without the web.",
        kind="archive",
        data={
            "trail": (),
            "lead": f"Season {year.name} of {year.garden.name}, as of {in_full(year.as_of)}. "
            "It opens without the web.",
            "season": tuple(one for one in _season(year) if one.to in there),
            "crops": tuple(
                names.listed_crop(year.garden, crop.slug)
                for crop in sorted(year.garden.crops, key=lambda crop: crop.listed.casefold())
                if addresses.crop(crop) in there
            ),
            "more": tuple(one for one in _more(year.years) if one.to in there),
            "address": year.garden.address,
            "ident": OUTSIDE,
        },
    )
    # The ways about are those of this season, not of the one the whole site is about.
    return framed(Years(garden=replace(year.garden, seasons=(year.season,)), today=year.today), page)


def _season(year: Year) -> Iterator[Link]:
    """Yield the links to the season's own pages."""
    yield season_link(year)
    yield Link("Tally", addresses.tally(year))
    yield Link("Log", addresses.log(year))
    yield Link("Plan and plantings", addresses.plantings(year))
    for bed in year.garden.beds:
        yield Link(bed.title, addresses.bed(year, bed))
    yield Link("Bulletins", addresses.bulletins(year))
    yield Link("Data", addresses.data(year))


def _more(years: Years) -> Iterator[Link]:
    """Yield the links to the pages that belong to no season."""
    yield Link("Questions", addresses.QUESTIONS)
    for leaf in years.garden.leaves:
        yield Link(leaf.title, addresses.leaf(years, leaf))
