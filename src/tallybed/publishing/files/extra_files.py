"""What lies beside the pages: feed, list of pages, pictures, calendars, data, and addresses that lead on."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping

from tallybed.garden.findings import Finding
from tallybed.pages.catalogue import framed, tables_of
from tallybed.pages.files.card import Card
from tallybed.pages.files.feed import feed, newest
from tallybed.pages.files.season_card import cards
from tallybed.pages.frame import addresses
from tallybed.pages.frame.moved import moved_pages
from tallybed.pages.frame.page import Page
from tallybed.pages.season import entry
from tallybed.pictures.cache import CardCache
from tallybed.publishing.files.calendars import calendar_files
from tallybed.publishing.files.crawlers import robots, sitemap
from tallybed.publishing.files.csv_text import written
from tallybed.publishing.files.data_package import data_files
from tallybed.publishing.files.feeds import atom
from tallybed.publishing.rendering import Rendering, render
from tallybed.reckoning.year import Year, Years


def files_of_year(year: Year, shared: Iterable[Card], pictures: CardCache) -> Iterator[tuple[str, bytes]]:
    """Yield path and bytes of each file of a season besides its pages.

    ``shared``: the pictures that its pages are shown with.
    """
    yield from ((one.path, written(one)) for one in tables_of(year))
    yield from data_files(year).items()
    # Only an absolute address can lead to a picture.
    if year.garden.address:
        yield from ((card.path, pictures.drawn(card)) for card in (*cards(year), *shared))


def files_of_site(
    years: Years, pages: Mapping[str, Page], rendering: Rendering, tell: Callable[[Finding], None]
) -> Iterator[tuple[str, bytes]]:
    """Yield path and bytes of each file that is of the whole site; those that need its address only with one.

    ``pages``: those of entries of the log that were made already, by path.
    """
    base = years.garden.address
    yield addresses.ROBOTS, robots(base)
    yield from calendar_files(years).items()
    yield from render(moved_pages(years), rendering, tell)
    if base:
        yield addresses.SITEMAP, sitemap(base, (path for path in years.paths if path != addresses.NOT_FOUND))
    fed = (
        pages.get(addresses.entry(year, one)) or framed(years, entry.page(year, one))
        for year, one in newest(years)
    )
    told = feed(years, fed)
    if told:
        found = dict(render((item.content for item in told.items), rendering, tell))
        if len(found) == len(told.items):
            texts = (found[item.content.path].decode().strip() for item in told.items)
            yield addresses.FEED, atom(told, texts)
