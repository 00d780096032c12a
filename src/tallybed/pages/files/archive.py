"""The page with which a season's archive begins: what is in it, and what is not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tallybed.garden.days import in_full
from tallybed.pages.catalogue import framed
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.wording import names

INDEX = "index.html"
OUTSIDE = "outside"
"""Anchor of what the archive leaves out."""


def archive_page(site: Site, view: SeasonView, kept: Iterable[str]) -> Page:
    """Return the first page of an archive that holds the paths ``kept``."""
    there = frozenset(kept)
    page = Page(
        path=INDEX,
        template="archive.html",
        title=f"Season {view.name} in one folder",
        description=f"Season {view.name} of {site.garden.name} in one folder that opens without the web.",
        kind="archive",
        data={
            "trail": (),
            "lead": f"Season {view.name} of {site.garden.name}, as of {in_full(site.today)}. "
            "It opens without the web.",
            "season": tuple(one for one in _season(site, view) if one.to in there),
            "crops": tuple(
                names.crop_link(site.garden, crop.slug)
                for crop in sorted(site.garden.crops, key=lambda crop: crop.plural.casefold())
                if addresses.crop(crop) in there
            ),
            "more": tuple(one for one in _more(site) if one.to in there),
            "address": site.garden.address,
            "ident": OUTSIDE,
        },
    )
    # The ways about are those of this season, not of the one the whole site is about.
    return framed(Site(garden=site.garden, today=site.today, seasons=(view,)), page)


def _season(site: Site, view: SeasonView) -> Iterator[Link]:
    yield Link(f"Season {view.name}", addresses.season(view))
    yield Link("Tally", addresses.tally(view))
    yield Link("Log", addresses.log(view))
    yield Link("Plan", addresses.plan(view))
    for bed in site.garden.beds:
        yield Link(bed.title, addresses.bed(view, bed))
    yield Link("Bulletins", addresses.bulletins(view))
    yield Link("Data", addresses.data(view))


def _more(site: Site) -> Iterator[Link]:
    yield Link("Questions", addresses.QUESTIONS)
    for leaf in site.garden.leaves:
        yield Link(leaf.title, addresses.leaf(site, leaf))
