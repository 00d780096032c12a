"""A site's files, made one by one and handed out: those of closed seasons, and all others."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from tallybed.garden.findings import Finding
from tallybed.pages.catalogue import pages_of_site, pages_of_year
from tallybed.pages.files.card import Card
from tallybed.pages.files.feed import newest
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pictures.cache import CardCache
from tallybed.pictures.rooms import FOLDER
from tallybed.publishing.files.extra_files import files_of_site, files_of_year
from tallybed.publishing.rendering import Rendering, render
from tallybed.reckoning.year import Year, Years
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


def make_closed(laid: LaidOut, years: Years, put: Put, turns: Iterable[int] | None = None) -> Made:
    """Make every file that is of a season whose books are closed. Raises OSError.

    ``turns`` are the numbers of those seasons whose turn it is here, if not of all.
    """
    making = _Making(laid, years, put)
    closed = years.closed.own if years.closed else ()
    for number in range(len(closed)) if turns is None else turns:
        year = closed[number]
        making.make_year(year)
        year.forget()  # what its pages are made of is many times what other pages ask of it
    return making.done()


def make_rest(laid: LaidOut, years: Years, put: Put) -> Made:
    """Make all other files. Raises OSError."""
    making = _Making(laid, years, put)
    for year in years.own:
        making.make_year(year)
    making.make_site()
    return making.done()


class _Making:
    """Files of a site being made, and handed out one by one."""

    def __init__(self, laid: LaidOut, years: Years, put: Put) -> None:
        self._laid, self._years, self._put = laid, years, put
        self._made = Made()
        self._pictures = CardCache(laid.root / FOLDER)
        self._rendering = Rendering(laid.layouts, laid.photographs.by_name)
        self._fed: dict[str, Page | None] = {addresses.entry(year, one): None for year, one in newest(years)}
        """The pages that the feed tells of, as far as they were made."""

    def make_year(self, year: Year) -> None:
        """Make the pages of one season and its other files."""
        shared: list[Card] = []

        def passing(pages: Iterable[Page]) -> Iterable[Page]:
            for page in pages:
                if page.card:
                    shared.append(page.card)
                if page.path in self._fed:
                    self._fed[page.path] = page
                yield page

        self._make_pages(passing(pages_of_year(self._years, year)))
        self._make_files(files_of_year(year, shared, self._pictures))

    def make_site(self) -> None:
        """Make all that is of no one season."""
        self._make_pages(pages_of_site(self._years))
        fed = {path: page for path, page in self._fed.items() if page}
        self._make_files(files_of_site(self._years, fed, self._rendering, self._made.findings.append))
        self._make_files({**self._laid.layouts.assets, **self._laid.photographs.files}.items())

    def done(self) -> Made:
        """Return what making them brought."""
        self._made.cards = self._pictures.used
        return self._made

    def _make_pages(self, pages: Iterable[Page]) -> None:
        self._make_files(render(pages, self._rendering, self._made.findings.append))

    def _make_files(self, files: Iterable[tuple[str, bytes]]) -> None:
        for path, data in files:
            self._put(path, data)
