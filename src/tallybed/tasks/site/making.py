"""A site's files, made one by one and handed out: first those of closed seasons, then all others."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from tallybed.garden.findings import Finding
from tallybed.pages.catalogue import pages_of
from tallybed.pages.files.card import Card
from tallybed.pages.files.feed import newest
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pictures.cache import CardCache
from tallybed.pictures.rooms import FOLDER
from tallybed.publishing.files.extra_files import files_of_seasons, files_of_site
from tallybed.publishing.rendering import Rendering, render
from tallybed.reckoning.year import Years
from tallybed.tasks.site.laid_out import LaidOut

Put = Callable[[str, bytes], None]
"""Takes path and bytes of a file of the site."""


@dataclass(kw_only=True)
class Made:
    """What making some files brought, besides the files."""

    findings: list[Finding] = field(default_factory=list)
    """What a garden's own templates get wrong."""
    cards: frozenset[str] = frozenset()
    """The kept pictures that were used, by name."""


def make_closed(laid: LaidOut, years: Years, put: Put) -> Made:
    """Make every file that is of a season whose books are closed. Raises OSError."""
    made, pictures = Made(), CardCache(laid.root / FOLDER)
    if years.closed:
        _of_seasons(laid, years.closed, years, made, pictures, put)
    made.cards = pictures.used
    return made


def make_rest(laid: LaidOut, years: Years, put: Put) -> Made:
    """Make all other files. Raises OSError."""
    made, pictures = Made(), CardCache(laid.root / FOLDER)
    feeds = frozenset(addresses.entry(year, one) for year, one in newest(years))
    entries = _of_seasons(laid, years, years, made, pictures, put, feeds=feeds)
    rendering = Rendering(laid.layouts, laid.photographs.by_name)
    for path, data in files_of_site(years, entries, rendering, made.findings.append):
        put(path, data)
    for path, data in {**laid.layouts.assets, **laid.photographs.files}.items():
        put(path, data)
    made.cards = pictures.used
    return made


def _of_seasons(
    laid: LaidOut,
    years: Years,
    whole: Years,
    made: Made,
    pictures: CardCache,
    put: Put,
    *,
    feeds: frozenset[str] = frozenset(),
) -> dict[str, Page]:
    """Make the pages of some years and the files of their seasons; return the pages of ``feeds``."""
    rendering = Rendering(laid.layouts, laid.photographs.by_name)
    shared: list[Card] = []
    kept: dict[str, Page] = {}

    def passing(pages: Iterable[Page]) -> Iterable[Page]:
        for page in pages:
            if page.card:
                shared.append(page.card)
            if page.path in feeds:
                kept[page.path] = page
            yield page

    for path, data in render(passing(pages_of(years, whole)), rendering, made.findings.append):
        put(path, data)
    for path, data in files_of_seasons(years, shared, pictures):
        put(path, data)
    return kept
