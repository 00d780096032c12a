"""The log as a feed: the newest visits, each with all that its page tells in words."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import date
from urllib.parse import quote, urljoin, urlsplit

from tallybed.garden.records.log import Entry
from tallybed.pages.frame import addresses
from tallybed.pages.frame.links import resolver
from tallybed.pages.frame.page import Page
from tallybed.pages.frame.surround import has_feed
from tallybed.pages.wording.prose import prose
from tallybed.reckoning.year import Year, Years

NEWEST = 20
"""Visits in the feed; older ones are on the site. Our choice."""
_DAY = len("2026-04-19")


@dataclass(frozen=True, slots=True, kw_only=True)
class FeedItem:
    """One visit."""

    ident: str
    """Stays the same when the title, or anything else told of the visit, changes."""
    title: str
    address: str
    day: date
    changed: date | None
    """The day its words were last changed; None where they stand as first written."""
    by: str
    summary: str
    content: Page
    """What to lay out as the content; its links are absolute."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """The feed of a garden."""

    title: str
    subtitle: str
    ident: str
    address: str
    """The first page's."""
    own_address: str
    author: str
    language: str
    time_zone: str
    """Of the IANA database; empty where not told."""
    rights: str
    items: tuple[FeedItem, ...]
    """Newest first; at least one."""


def feed(years: Years, pages: Iterable[Page]) -> Feed | None:
    """Return the feed, made of the pages of the ``newest`` entries; None without address or entry."""
    if not has_feed(years):
        return None
    garden = years.garden
    by_path = {page.path: page for page in pages}
    home = addresses.absolute(garden.address, addresses.HOME)
    return Feed(
        title=garden.name,
        subtitle=garden.about,
        ident=home,
        address=home,
        own_address=addresses.absolute(garden.address, addresses.FEED),
        author=garden.name,
        language=garden.language,
        time_zone=garden.time_zone,
        rights=" ".join(part for part in (garden.licence, garden.licence_address) if part),
        items=tuple(_item(year, entry, by_path) for year, entry in newest(years)),
    )


def newest(years: Years) -> tuple[tuple[Year, Entry], ...]:
    """Return the entries that the feed tells, newest first."""
    visits = [(year, entry) for year in years.all for entry in year.entries]
    visits.sort(key=lambda visit: (visit[1].day, visit[1].slug, visit[0].name), reverse=True)
    return tuple(visits[:NEWEST])


def _item(year: Year, entry: Entry, pages: dict[str, Page]) -> FeedItem:
    """Return a visit as it stands in the feed."""
    garden = year.garden
    page = pages[addresses.entry(year, entry)]
    words = prose(entry.prose, ident="prose", resolve=_outward(year.years, page.path))
    data = {**page.data, "prose": words, "base": garden.address}
    return FeedItem(
        ident=entry_ident(garden.address, year, entry),
        title=entry.title,
        address=addresses.absolute(garden.address, page.path),
        day=entry.day,
        changed=entry.changed,
        by=entry.by,
        summary=page.description,
        content=replace(page, template="feed_entry.html", data=data),
    )


def _outward(years: Years, here: str) -> Callable[[str], str | None]:
    """Return what turns a link of the site's own into a whole address."""
    inward = resolver(years, here)
    base = years.garden.address

    def resolve(typed: str) -> str | None:
        link = inward(typed)
        return None if link is None else urljoin(base + quote(here), link).removesuffix(addresses.HOME)

    return resolve


def entry_ident(base: str, year: Year, entry: Entry) -> str:
    """Return a name for an entry, for all time: a tag URI of host, date, season and first name.

    Source: RFC 4151, section 2.1. It stays when the title changes, and when the file is called otherwise.
    A host told by its number (an IP address of version 6) gives the entry's address instead.
    """
    parts = urlsplit(base)
    host = parts.hostname or ""
    if not all(sign.isalnum() or sign in "-." for sign in host):
        return addresses.absolute(base, addresses.entry(year, entry))
    day, slug = entry.known_as[:_DAY], entry.known_as[_DAY + 1 :]
    folder = parts.path.strip("/")
    specific = "/".join(part for part in (folder, "log", year.name, quote(slug)) if part)
    return f"tag:{host},{day}:{specific}"
