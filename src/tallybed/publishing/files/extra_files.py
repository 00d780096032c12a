"""Files that lie beside the pages: feed, list of pages, pictures shown with addresses, calendars, data."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from tallybed.garden.findings import Finding
from tallybed.pages.files.feed import feed
from tallybed.pages.files.season_card import cards
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pictures.cache import CardCache
from tallybed.publishing.files.calendars import calendar_files
from tallybed.publishing.files.crawlers import robots, sitemap
from tallybed.publishing.files.data_package import data_files
from tallybed.publishing.files.feeds import atom
from tallybed.publishing.rendering import Rendering, render
from tallybed.reckoning.year import Years


def files_beside(
    years: Years,
    pages: Sequence[Page],
    rendering: Rendering,
    tell: Callable[[Finding], None],
    kept: Path | None = None,
) -> Iterator[tuple[str, bytes]]:
    """Yield path and bytes of each of these files; those that need the garden's address only with one.

    ``kept`` is a folder where pictures are kept for the next build.
    """
    base = years.garden.address
    yield addresses.ROBOTS, robots(base)
    yield from calendar_files(years).items()
    yield from data_files(years).items()
    pictures = CardCache(kept)
    if base:
        yield addresses.SITEMAP, sitemap(base, (page.path for page in pages))
        # Only an absolute address can lead to a picture.
        own = (page.card for page in pages if page.card)
        yield from ((card.path, pictures.drawn(card)) for card in (*cards(years), *own))
    pictures.tidy()
    told = feed(years, pages)
    if told:
        found = dict(render((item.content for item in told.items), rendering, tell))
        if len(found) == len(told.items):
            texts = (found[item.content.path].decode().strip() for item in told.items)
            yield addresses.FEED, atom(told, texts)
