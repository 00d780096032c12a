"""The log of a season: its list of entries."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tallybed.garden.days import Month
from tallybed.garden.records.log import Entry, Event
from tallybed.garden.records.people import withdrawn_from
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.tables import done
from tallybed.pages.wording.dated import in_season
from tallybed.pages.wording.sentences import EMPTY_LOG, WITHDRAWN, Day, counted, plain_day
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryItem:
    """An entry in a list."""

    title: str
    to: str
    day: Day
    by: str
    gist: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryMonth:
    """The entries of one month."""

    name: str
    ident: str
    entries: tuple[EntryItem, ...]


def pages(year: Year) -> Iterator[Page]:
    """Yield the log of a season that has one."""
    if year.season.log is not None:
        yield _page(year, year.entries)


def entry_item(year: Year, entry: Entry, about: Iterable[Event] | None = None) -> EntryItem:
    """Return an entry for a list, with all that was done; or with what it is ``about`` there alone."""
    return EntryItem(
        title=entry.title,
        to=addresses.entry(year, entry),
        day=plain_day(entry.day),
        by=entry.by,
        gist=done.gist(year.garden, entry.done if about is None else about),
    )


def _page(year: Year, entries: tuple[Entry, ...]) -> Page:
    """Return a season's log as a page, month by month."""
    months: dict[Month, list[EntryItem]] = {}
    for entry in reversed(entries):
        months.setdefault(Month.of(entry.day), []).append(entry_item(year, entry))
    return Page(
        path=addresses.log(year),
        template="log.html",
        title=f"Log of {year.name}",
        description=f"Every visit to the beds {in_season(year)}, newest first, and what was done.",
        kind="log",
        data={
            "trail": below_season(year, here="Log"),
            "said": EMPTY_LOG if not entries else "",
            "withdrawn": WITHDRAWN if withdrawn_from(year.name, year.garden.withdrawn) else "",
            "lead": f"{counted(len(entries), 'visit').capitalize()}, newest first." if entries else "",
            "months": tuple(
                EntryMonth(name=str(month), ident=f"m-{month.year}-{month.month:02d}", entries=tuple(items))
                for month, items in months.items()
            ),
            **seasons_beside(year, _link),
        },
    )


def _link(year: Year) -> Link | None:
    """Return the link to a season's log; None where it has none."""
    return Link(f"Log of {year.name}", addresses.log(year)) if year.season.log is not None else None
