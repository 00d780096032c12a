"""What the head of a page says of it: to search engines, to those who pass it on, to feed readers."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from tallybed.garden.days import in_full
from tallybed.pages.files.card import HEIGHT, WIDTH
from tallybed.pages.frame import addresses, linked
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.wording.sentences import first_words
from tallybed.reckoning.year import Year, Years

SHORTEST, LONGEST = 50, 160
"""Characters of a description: fewer say little, more are cut by those who show them.

Common practice, no source.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageHead:
    """The head of one page. What needs the garden's web address is empty where that is not told."""

    base: str
    """The garden's address, with a closing slash."""
    address: str
    """The page's own address, always the same one."""
    kind: str
    """``article`` for an entry of the log, else ``website`` (the Open Graph protocol, types)."""
    picture: str
    """Path of the picture to show with the page's address."""
    picture_words: str
    picture_size: tuple[int, int]
    """Its width and height in pixels."""
    feed: Link | None
    linked: Markup


def head(years: Years, page: Page) -> PageHead:
    """Return the head of a page."""
    garden = years.garden
    picture, words, size = _picture(years, page)
    return PageHead(
        base=garden.address,
        address=addresses.absolute(garden.address, page.path) if garden.address else "",
        kind="article" if page.kind == "entry" else "website",
        picture=picture,
        picture_words=words,
        picture_size=size,
        feed=Link(f"Log of {garden.name}", addresses.FEED) if has_feed(years) else None,
        linked=linked.script(page.linked),
    )


def has_feed(years: Years) -> bool:
    """Return whether there is a feed: it needs the garden's address, and an entry to tell."""
    return bool(years.garden.address) and any(year.entries for year in years.all)


def has_card(year: Year) -> bool:
    """Return whether a season has figures to make a picture of."""
    return any(line.counts for line in year.lines)


def described(years: Years, page: Page) -> str:
    """Return a page's description in 50 to 160 characters: cut after a word, or made longer."""
    words = " ".join(page.description.split())
    if len(words) < SHORTEST:
        stop = "" if words.endswith((".", "!", "?", "…")) else "."
        where = f", {years.garden.where}" if years.garden.where else ""
        words = (
            f"{words}{stop} A page of {years.garden.name}{where}, "
            f"made from its own plan, log and ledger as of {in_full(years.today)}."
        )
    cut = first_words(words, LONGEST - 2)
    # A name without a space can be longer than a description.
    return cut if SHORTEST <= len(cut) <= LONGEST else f"{words[: LONGEST - 2]} …"


def _picture(years: Years, page: Page) -> tuple[str, str, tuple[int, int]]:
    """Return path, words and size of the picture shown with a page's address: its own, else its season's."""
    garden = years.garden
    year = _season(years, page)
    if not garden.address:
        return "", "", (0, 0)
    if page.card:
        return page.card.path, page.card.alt, page.card.size
    if year:
        return addresses.card(year), f"{garden.name}: season {year.name} in figures", (WIDTH, HEIGHT)
    return "", "", (0, 0)


def _season(years: Years, page: Page) -> Year | None:
    """Return the season whose figures a page is shown with: its own, else the one a visitor means."""
    own = page.path.split("/")[0]
    views = [year for year in reversed(years.all) if has_card(year)]
    meant = [year for year in views if year.name == own] or [year for year in views if year is years.foremost]
    return next(iter([*meant, *views]), None)
