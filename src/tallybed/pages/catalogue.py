"""Every page of a site. A page is a function of the records: one row here for each kind."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from tallybed.garden.garden import Garden
from tallybed.pages.frame import addresses
from tallybed.pages.frame.head import PageHead, described, head
from tallybed.pages.frame.page import DataFile, Link, Page
from tallybed.pages.lasting import crops, home, own_pages, seasons
from tallybed.pages.paper import marking_out, plant_tags, posters, signs, tally_sheet
from tallybed.pages.season import beds, bulletins, data, log, plan, plantings, rows, seeds, tally
from tallybed.pages.wording.sentences import GRADES, Day, full_day
from tallybed.reckoning.year import Years

__all__ = ["KINDS", "Frame", "NavItem", "Page", "every_file", "every_page", "navigation"]

KINDS: tuple[Callable[[Years], Iterator[Page]], ...] = (
    home.pages,
    seasons.pages,
    plan.pages,
    seeds.pages,
    log.pages,
    plantings.pages,
    beds.pages,
    tally.pages,
    rows.pages,
    bulletins.pages,
    data.pages,
    crops.pages,
    marking_out.pages,
    signs.pages,
    tally_sheet.pages,
    plant_tags.pages,
    posters.pages,
    own_pages.pages,
)
"""Add a page here: a function that yields the pages of its kind."""
FILES: tuple[Callable[[Years], Iterator[DataFile]], ...] = (seeds.files,)
"""Add a file for spreadsheets here: a function that yields the files of its kind."""


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
    as_of: Day
    sheet: str
    """The page's own place in the site, as a reader would cite it: ``2026 / beds / long / 05``."""
    grades: tuple[tuple[str, str], ...]
    """How sure a map or table is, on pages that tell it; empty elsewhere."""
    supporters: tuple[Link, ...]
    """Supporters' wordings, to the letter, that are shown on the site's day."""
    licence: Link | None
    """Terms on which others may use what the site says; None where not told."""
    head: PageHead


_GRADED = frozenset({"home", "season", "bed", "bed month", "planting", "bed sign", "poster"})
"""Kinds of page with a map or table that says how it is known who holds a square."""


def every_page(years: Years) -> tuple[Page, ...]:
    """Return every page of the site, each within the frame, in a settled order."""
    found = (page for kind in KINDS for page in kind(years))
    return tuple(framed(years, page) for page in found)


def every_file(years: Years) -> tuple[DataFile, ...]:
    """Return every file for spreadsheets, in a settled order."""
    return tuple(file for kind in FILES for file in kind(years))


def navigation(years: Years) -> tuple[Link, ...]:
    """Return the site's navigation: the season a visitor means, crops, seasons, the garden's own pages."""
    found = [Link("Today" if years.running else "First page", addresses.HOME)]
    year = years.foremost
    if year:
        found.append(Link(f"Season {year.name}", addresses.season(year)))
        if year.season.ledger is not None:
            found.append(Link("Tally", addresses.tally(year)))
        if year.season.log is not None:
            found.append(Link("Log", addresses.log(year)))
    found += [Link("Crops", addresses.CROPS), Link("All seasons", addresses.SEASONS)]
    if years.garden.questions:
        found.append(Link("Questions", addresses.QUESTIONS))
    if years.garden.beds:
        found.append(Link("Sheets", addresses.SHEETS))
    own = sorted(years.garden.leaves, key=lambda leaf: (leaf.order, leaf.title.casefold(), leaf.slug))
    found += [Link(leaf.title, addresses.leaf(years, leaf)) for leaf in own]
    return tuple(found)


def framed(years: Years, page: Page) -> Page:
    """Return a page of the site within the frame."""
    data = {**page.data, "frame": _frame(years, page)}
    return replace(page, description=described(years, page), data=data)


def _frame(years: Years, page: Page) -> Frame:
    items = navigation(years)
    return Frame(
        garden=years.garden.name,
        place=years.garden.where,
        language=years.garden.language,
        nav=tuple(NavItem(text=one.text, to=one.to, here=_here(one.to, page.path, items)) for one in items),
        as_of=full_day(years.today),
        sheet=" / ".join(page.path.split("/")[:-1]) or "first page",
        grades=GRADES if page.kind in _GRADED else (),
        supporters=tuple(
            Link(one.words, one.address) for one in years.garden.supporters if one.shown(years.today)
        ),
        licence=_licence(years.garden),
        head=head(years, page),
    )


def _licence(garden: Garden) -> Link | None:
    words = garden.licence or garden.licence_address
    return Link(words, garden.licence_address) if words else None


def _here(to: str, path: str, items: tuple[Link, ...]) -> str:
    """Return whether a navigation item is the page itself, or the nearest one above it."""
    if to == path:
        return "page"
    above = [one.to for one in items if one.to != addresses.HOME and path.startswith(_folder(one.to))]
    nearest = max(above, key=len, default="")
    return "true" if to == nearest else ""


def _folder(path: str) -> str:
    return path.removesuffix("index.html")
