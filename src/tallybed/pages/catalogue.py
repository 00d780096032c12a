"""Every page of a site. A page is a function of the records: one row here for each kind."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from tallybed.pages.care.notices import Notice
from tallybed.pages.frame import addresses
from tallybed.pages.frame.head import PageHead, described, head
from tallybed.pages.frame.page import DataFile, Link, Page
from tallybed.pages.frame.surround import Surround, surround
from tallybed.pages.frame.waits_shown import is_of, shown_on
from tallybed.pages.frame.which_pages import PATHS
from tallybed.pages.lasting import (
    crop,
    crops,
    home,
    leaf,
    not_found,
    question,
    questions,
    seasons,
    taking_care,
    your_place,
)
from tallybed.pages.paper import bed_sign, marking_out, plant_tags, poster, sheets, tally_sheet, volunteers
from tallybed.pages.season import (
    bed,
    bed_month,
    bulletins,
    data,
    entry,
    log,
    planting,
    plantings,
    rows,
    season,
    seeds,
    sun,
    tally,
    weather,
    week_bulletin,
)
from tallybed.pages.wording.sentences import GRADES, Day, full_day
from tallybed.reckoning.closed import closing_day
from tallybed.reckoning.year import Year, Years


@dataclass(frozen=True, slots=True, kw_only=True)
class PageKind:
    """One kind of page."""

    name: str
    """``bed month``. Its module is called so, and its template: ``bed_month.py``, ``bed_month.html``."""
    pages: Callable[..., Iterable[Page]]
    """Yields its pages, of ``Years`` or, where they are yearly, of a ``Year``."""
    alone: bool = False
    """Whether it takes a path besides, and then yields that page without making the others."""
    graded: bool = False
    """Whether a map or table on it says how it is known who holds a square."""
    yearly: bool = False
    """Whether each of its pages is of one season."""

    def paths(self, years: Years) -> Iterable[str]:
        """Return the path of each of its pages without making the page."""
        return PATHS[self.name](years)

    @property
    def template(self) -> str:
        """The template its pages are laid out by."""
        return f"{self.name.replace(' ', '_')}.html"

    def every(self, years: Years) -> Iterator[Page]:
        """Yield its pages, those of earlier seasons first."""
        for whose in years.all if self.yearly else (years,):
            yield from self.pages(whose)


KINDS: tuple[PageKind, ...] = (
    PageKind(name="home", pages=home.pages, graded=True),
    PageKind(name="season", pages=season.pages, graded=True, yearly=True),
    PageKind(name="seasons", pages=seasons.pages),
    PageKind(name="seeds", pages=seeds.pages, yearly=True),
    PageKind(name="log", pages=log.pages, yearly=True),
    PageKind(name="entry", pages=entry.pages, alone=True, yearly=True),
    PageKind(name="plantings", pages=plantings.pages, yearly=True),
    PageKind(name="planting", pages=planting.pages, alone=True, graded=True, yearly=True),
    PageKind(name="bed", pages=bed.pages, alone=True, graded=True, yearly=True),
    PageKind(name="bed month", pages=bed_month.pages, alone=True, graded=True, yearly=True),
    PageKind(name="sun", pages=sun.pages, alone=True, yearly=True),
    PageKind(name="weather", pages=weather.pages, yearly=True),
    PageKind(name="tally", pages=tally.pages, yearly=True),
    PageKind(name="rows", pages=rows.pages, yearly=True),
    PageKind(name="bulletins", pages=bulletins.pages, yearly=True),
    PageKind(name="week bulletin", pages=week_bulletin.pages, alone=True, yearly=True),
    PageKind(name="data", pages=data.pages, yearly=True),
    PageKind(name="crops", pages=crops.pages),
    PageKind(name="crop", pages=crop.pages, alone=True),
    PageKind(name="your place", pages=your_place.pages),
    PageKind(name="taking care", pages=taking_care.pages),
    PageKind(name="sheets", pages=sheets.pages),
    PageKind(name="marking out", pages=marking_out.pages),
    PageKind(name="bed sign", pages=bed_sign.pages, graded=True),
    PageKind(name="tally sheet", pages=tally_sheet.pages),
    PageKind(name="volunteers", pages=volunteers.pages),
    PageKind(name="plant tags", pages=plant_tags.pages),
    PageKind(name="poster", pages=poster.pages, graded=True, yearly=True),
    PageKind(name="leaf", pages=leaf.pages, alone=True),
    PageKind(name="questions", pages=questions.pages),
    PageKind(name="question", pages=question.pages, alone=True),
    PageKind(name="not found", pages=not_found.pages),
)
"""Add a kind of page here and its paths to ``PATHS``: links typed to its pages lead to them by themselves."""


FILES: tuple[Callable[[Year], Iterable[DataFile]], ...] = (seeds.files,)
"""What yields a season's files for spreadsheets, one for each kind of them.

Add a kind here, and its paths to ``every_file_path``.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class NavItem:
    """An item of the site's navigation."""

    text: str
    to: str
    here: str
    """``page`` on the page itself, ``true`` below it, else empty (as ``aria-current`` has it)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What stands around every page."""

    garden: str
    place: str
    language: str
    nav: tuple[NavItem, ...]
    as_of: Day | None
    """The day the page speaks as of; None in a garden without a season."""
    place_in_site: str
    """The page's own place in the site, as a reader would cite it: ``2026 / beds / long / 05``."""
    grades: tuple[tuple[str, str], ...]
    """How sure a map or table is, on pages that tell it; empty elsewhere."""
    supporters: tuple[Link, ...]
    """Supporters' wordings, to the letter, that are shown on the site's day."""
    licence: Link | None
    """Terms on which others may use what the site says; None where not told."""
    waits: tuple[Notice, ...]
    """What is not to be picked or touched on the site's day, where the page offers it."""
    waits_to: str
    """Where all of it is told; empty on that page itself."""
    care: str
    """Where the cautions are."""
    defers: str
    """The sentence that puts the label above the site."""
    head: PageHead


_GRADED = frozenset(kind.name for kind in KINDS if kind.graded)


def page_at(years: Years, path: str) -> Page | None:
    """Return the page of one path within the frame, without making others; None where there is none.

    It is the page that ``pages_of_site`` or ``pages_of_year`` has at that path.
    """
    for kind in KINDS:
        if path in kind.paths(years):
            whose = next(year for year in years.all if is_of(year, path)) if kind.yearly else years
            made = kind.pages(whose, path) if kind.alone else kind.pages(whose)
            return next((framed(years, page) for page in made if page.path == path), None)
    return None


def pages_of_year(whole: Years, year: Year) -> Iterator[Page]:
    """Yield the pages of one season, one by one, each within the frame of the whole site."""
    return (framed(whole, page) for kind in KINDS if kind.yearly for page in kind.pages(year))


def pages_of_site(whole: Years) -> Iterator[Page]:
    """Yield the pages that are of no one season, one by one, each within the frame."""
    return (framed(whole, page) for kind in KINDS if not kind.yearly for page in kind.pages(whole))


def tables_of(year: Year) -> Iterator[DataFile]:
    """Yield a season's files for spreadsheets, in a settled order."""
    return (file for files in FILES for file in files(year))


def framed(years: Years, page: Page) -> Page:
    """Return a page of the site within the frame."""
    day = _day(years, page)
    around, waits = surround(years), shown_on(years, page)
    data = {**page.data, "frame": _frame(around, page, day, waits)}
    return replace(page, description=described(around, page, day, waits), data=data)


def _day(years: Years, page: Page) -> Day | None:
    """Return the day a page speaks as of: that of its season, if the season's books are closed.

    None in a garden without a season.
    """
    if not years.garden.seasons:
        return None
    own = (year.season for year in (years.closed.all if years.closed else ()) if is_of(year, page.path))
    return full_day(next((min(closing_day(season), years.today) for season in own), years.today))


def _frame(around: Surround, page: Page, day: Day | None, waits: tuple[Notice, ...]) -> Frame:
    """Return what stands around one page."""
    return Frame(
        garden=around.garden,
        place=around.place,
        language=around.language,
        nav=tuple(
            NavItem(text=one.text, to=one.to, here=_here(one.to, page.path, around.nav)) for one in around.nav
        ),
        as_of=day,
        place_in_site=_place_in_site(page),
        grades=GRADES if page.kind in _GRADED else (),
        supporters=around.supporters,
        licence=around.licence,
        waits=waits,
        waits_to=addresses.CAUTIONS if page.path != addresses.CAUTIONS else "",
        care=addresses.CAUTIONS,
        defers=around.defers,
        head=head(around, page, waits),
    )


def _place_in_site(page: Page) -> str:
    """Return a page's own place in the site, as a reader would cite it."""
    if page.path == addresses.HOME:
        return "first page"
    return " / ".join(page.path.split("/")[:-1]) or "none"


def _here(to: str, path: str, items: tuple[Link, ...]) -> str:
    """Return whether a navigation item is the page itself, or the nearest one above it."""
    if to == path:
        return "page"
    above = [one.to for one in items if one.to != addresses.HOME and path.startswith(_folder(one.to))]
    nearest = max(above, key=len, default="")
    return "true" if to == nearest else ""


def _folder(path: str) -> str:
    """Return the folder a page lies in, with its slash."""
    return path.removesuffix("index.html")
