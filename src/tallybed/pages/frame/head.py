"""What the head of a page says of it: to search engines, to those who pass it on, to feed readers."""

from __future__ import annotations

from dataclasses import dataclass

from tallybed.pages.care.notices import Notice, longest
from tallybed.pages.files.card import HEIGHT, WIDTH
from tallybed.pages.frame import addresses, titles
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.surround import Surround
from tallybed.pages.wording.sentences import Day, first_words

SHORTEST, LONGEST = 50, 160
"""Characters of a description: fewer say little, more are cut by those who show them.

Common practice, no source.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageHead:
    """The head of one page. What needs the garden's web address is empty where that is not told."""

    title: str
    """The page's title with the garden's name, short enough to be shown whole."""
    short_title: str
    """The page's title alone, as short."""
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


def head(around: Surround, page: Page, waits: tuple[Notice, ...] = ()) -> PageHead:
    """Return the head of a page; ``waits``: the notices that stand on it."""
    picture, words, size = _picture(around, page)
    return PageHead(
        title=titles.with_garden(around.garden, page.title),
        short_title=titles.fitted(page.title),
        base=around.base,
        address=addresses.absolute(around.base, page.path) if around.base and not page.top else "",
        kind="article" if page.kind == "entry" else "website",
        picture=picture,
        picture_words=". ".join((words, *_first_notice(page, waits))) if words else "",
        picture_size=size,
        feed=around.feed,
    )


def described(around: Surround, page: Page, day: Day | None, waits: tuple[Notice, ...] = ()) -> str:
    """Return a page's description in 50 to 160 characters: cut after a word, or made longer.

    ``day``: the one the page speaks as of, if there is one. ``waits``: the notices that stand on it; that
    of a planting or crop that waits begins its description, which is shown where the page is passed on.
    """
    words = " ".join(" ".join((*_first_notice(page, waits), page.description)).split())
    if len(words) < SHORTEST:
        stop = "" if words.endswith((".", "!", "?", "…")) else "."
        where = f", {around.place}" if around.place else ""
        as_of = f" as of {day.text}" if day else ""
        words = (
            f"{words}{stop} A page of {around.garden}{where}, made from its own plan, log and ledger{as_of}."
        )
    cut = first_words(words, LONGEST - 2)
    # A name without a space can be longer than a description.
    return cut if SHORTEST <= len(cut) <= LONGEST else f"{words[: LONGEST - 2]} …"


def _first_notice(page: Page, waits: tuple[Notice, ...]) -> tuple[str, ...]:
    """Return the first notice of what a page is about and must not be picked; none for other pages."""
    told = (one.plain for one in longest(waits) if one.planting)
    return tuple(told)[:1] if page.kind in ("planting", "crop") else ()


def _picture(around: Surround, page: Page) -> tuple[str, str, tuple[int, int]]:
    """Return path, words and size of the picture shown with a page's address: its own, else its season's.

    A page of no season, or of one without a picture, has that of the season a visitor means.
    """
    if not around.base:
        return "", "", (0, 0)
    if page.card:
        return page.card.path, page.card.alt, page.card.size
    own = page.path.split("/")[0]
    for season, path in sorted(around.pictures, key=lambda one: one[0] != own)[:1]:
        return path, f"{around.garden}: season {season} in figures", (WIDTH, HEIGHT)
    return "", "", (0, 0)
