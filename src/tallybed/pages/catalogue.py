"""Every page of a site. A page is a function of the records: one row here for each kind."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from tallybed.garden.garden import Garden
from tallybed.pages.frame import addresses
from tallybed.pages.frame.head import PageHead, described, head
from tallybed.pages.frame.page import DataFile, Link, Page
from tallybed.pages.frame.site import Site
from tallybed.pages.lasting import crops, home, own_pages, seasons
from tallybed.pages.paper import marking_out, plant_tags, posters, signs, tally_sheet
from tallybed.pages.season import beds, bulletins, data, log, plan, plantings, seeds, tally
from tallybed.pages.wording.sentences import GRADES, Day, full_day

__all__ = ["KINDS", "Frame", "NavItem", "Page", "every_file", "every_page", "navigation"]

KINDS: tuple[Callable[[Site], Iterator[Page]], ...] = (
    home.pages,
    seasons.pages,
    plan.pages,
    seeds.pages,
    log.pages,
    plantings.pages,
    beds.pages,
    tally.pages,
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
FILES: tuple[Callable[[Site], Iterator[DataFile]], ...] = (seeds.files,)
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


def every_page(site: Site) -> tuple[Page, ...]:
    """Return every page of the site, each within the frame, in a settled order."""
    found = (page for kind in KINDS for page in kind(site))
    return tuple(framed(site, page) for page in found)


def every_file(site: Site) -> tuple[DataFile, ...]:
    """Return every file for spreadsheets, in a settled order."""
    return tuple(file for kind in FILES for file in kind(site))


def navigation(site: Site) -> tuple[Link, ...]:
    """Return the site's navigation: the season a visitor means, crops, seasons, the garden's own pages."""
    found = [Link("Today" if site.running else "First page", addresses.HOME)]
    view = site.foremost
    if view:
        found.append(Link(f"Season {view.name}", addresses.season(view)))
        if view.season.ledger is not None:
            found.append(Link("Tally", addresses.tally(view)))
        if view.season.log is not None:
            found.append(Link("Log", addresses.log(view)))
    found += [Link("Crops", addresses.CROPS), Link("All seasons", addresses.SEASONS)]
    if site.garden.questions:
        found.append(Link("Questions", addresses.QUESTIONS))
    if site.garden.beds:
        found.append(Link("Sheets", addresses.SHEETS))
    own = sorted(site.garden.leaves, key=lambda leaf: (leaf.order, leaf.title.casefold(), leaf.slug))
    found += [Link(leaf.title, addresses.leaf(site, leaf)) for leaf in own]
    return tuple(found)


def framed(site: Site, page: Page) -> Page:
    """Return a page of the site within the frame."""
    data = {**page.data, "frame": _frame(site, page)}
    return replace(page, description=described(site, page), data=data)


def _frame(site: Site, page: Page) -> Frame:
    items = navigation(site)
    return Frame(
        garden=site.garden.name,
        place=site.garden.where,
        language=site.garden.language,
        nav=tuple(NavItem(text=one.text, to=one.to, here=_here(one.to, page.path, items)) for one in items),
        as_of=full_day(site.today),
        sheet=" / ".join(page.path.split("/")[:-1]) or "first page",
        grades=GRADES if page.kind in _GRADED else (),
        supporters=tuple(
            Link(one.words, one.address) for one in site.garden.supporters if one.shown(site.today)
        ),
        licence=_licence(site.garden),
        head=head(site, page),
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
