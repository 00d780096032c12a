"""Small invented gardens on disk, and their sites, for the tests of pages."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache
from pathlib import Path

from bs4 import BeautifulSoup, SoupStrainer, Tag
from lxml.html import document_fromstring

from tallybed.garden.findings import has_errors, worded
from tallybed.pages.catalogue import KINDS, framed, pages_of_site, pages_of_year
from tallybed.pages.frame.page import Page
from tallybed.pictures.photos import pictures
from tallybed.publishing.assets import layouts
from tallybed.publishing.rendering import Rendering
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.year import Year, Years
from tallybed.tasks.build import make
from tallybed.tasks.site.reckoned import reckoned
from tests.small_garden import ABOUT as ABOUT
from tests.small_garden import GARDEN as GARDEN
from tests.small_garden import LEDGER as LEDGER
from tests.small_garden import LOG as LOG
from tests.small_garden import PLAN as PLAN
from tests.small_garden import QUESTION as QUESTION
from tests.small_garden import folder as folder
from tests.small_garden import written as written


def site_of(root: Path) -> Years:
    """Return the garden read and reckoned."""
    found = read(root)
    assert not has_errors(found.findings), [worded(finding) for finding in found.findings]
    assert found.garden is not None
    return reckoned(found.garden)


def every_page(years: Years) -> tuple[Page, ...]:
    """Return the pages of a site, as a build makes them."""
    of_years = (page for year in years.all for page in pages_of_year(years, year))
    return (*pages_of_site(years), *of_years)


class Pages(Mapping[str, str]):
    """The text of each page of a garden's site by its path, made when it is first asked for.

    Of a kind of page as many are made as it takes to come to that one; to go through the paths
    makes them all.
    """

    def __init__(self, root: Path) -> None:
        self._years = site_of(root)
        self._rendering = Rendering(layouts(root), pictures(root, self._years.garden).by_name)
        self._kind_of = {path: kind for kind in KINDS for path in kind.paths(self._years)}
        self._ahead = {kind.name: iter(kind.every(self._years)) for kind in KINDS}
        self._made: dict[str, Page] = {}
        self._text = cache(self._rendered)

    def __getitem__(self, path: str) -> str:
        kind = self._kind_of[path]
        while path not in self._made:
            page = next(self._ahead[kind.name], None)
            assert page is not None, f"no page of the kind {kind.name} is {path}"
            self._made[page.path] = page
        return self._text(path)

    def __iter__(self) -> Iterator[str]:
        return iter(self._kind_of)

    def __len__(self) -> int:
        return len(self._kind_of)

    def _rendered(self, path: str) -> str:
        return self._rendering.page(framed(self._years, self._made[path])).decode("utf-8")


def every(pages: Callable[[Year], Iterable[Page]], years: Years) -> list[Page]:
    """Every page of a kind that is of one season each."""
    return [page for year in years.all for page in pages(year)]


class Parsed(Mapping[str, BeautifulSoup]):
    """Pages, each parsed when it is first asked for."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        self.texts = texts
        self._of = cache(lambda path: parsed(texts[path]))

    def __getitem__(self, path: str) -> BeautifulSoup:
        return self._of(path)

    def __iter__(self) -> Iterator[str]:
        return iter(self.texts)

    def __contains__(self, path: object) -> bool:
        return path in self.texts

    def __len__(self) -> int:
        return len(self.texts)


def built_pages(root: Path) -> dict[str, str]:
    """Return the text of every page of the garden's site, as a build makes them."""
    made = make(root)
    assert made.files, [worded(finding) for finding in made.findings]
    texts = {path: data.decode("utf-8") for path, data in made.files.items() if path.endswith(".html")}
    return {path: text for path, text in texts.items() if not leads_on(text)}


def leads_on(text: str) -> bool:
    """Whether a page is the small one of an address that leads on, which counts as none."""
    return '<meta http-equiv="refresh"' in text


def pages_of(root: Path) -> Pages:
    """Return the text of each page of the garden's site; none is made before it is asked for."""
    return Pages(root)


def html_of(root: Path) -> Parsed:
    """Return each page of the garden's site, made and parsed when it is asked for."""
    return Parsed(Pages(root))


def only(page: BeautifulSoup | Tag, selector: str) -> Tag:
    """Return the first element of a selector; fail where there is none."""
    found = page.select_one(selector)
    assert found is not None, f"no {selector}"
    return found


def said(element: Tag) -> str:
    """Return an element's text with single spaces."""
    return " ".join(element.get_text(" ").split())


def rows(page: BeautifulSoup, ident: str, *, heads: bool = False) -> list[list[str]]:
    """Return the texts of a table's cells, row by row, without its heads or with them."""
    found = only(page, f"table#{ident}").select("tr" if heads else "tbody tr, tfoot tr")
    return [[said(cell) for cell in row.find_all(["th", "td"])] for row in found]


def parsed(text: str, *elements: str) -> BeautifulSoup:
    """Return a page, parsed; the elements of these names alone are there in a quarter of the time."""
    return BeautifulSoup(text, "lxml", parse_only=SoupStrainer(elements) if elements else None)


class Links:
    """The links and the ids of a page; much faster than a tree that can be searched."""

    def __init__(self, text: str) -> None:
        page = document_fromstring(text)
        self.links = [str(one.get("href") or "") for one in page.iter("a")]
        self.ids = {str(one.get("id")) for one in page.iterfind(".//*[@id]")}
