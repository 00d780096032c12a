"""The log of a season: its list of entries, and a page for each visit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from tallybed.garden.days import Month
from tallybed.garden.log import Entry, Event
from tallybed.garden.people import withdrawn_from
from tallybed.garden.squares import Square, in_words
from tallybed.pages.drawings import photographs
from tallybed.pages.drawings.maps import touched_map
from tallybed.pages.frame import addresses, linked
from tallybed.pages.frame.links import resolver
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.tables import done
from tallybed.pages.tables.pickings_table import weighings_table
from tallybed.pages.wording import names
from tallybed.pages.wording.prose import outside, prose
from tallybed.pages.wording.sentences import (
    EMPTY_LOG,
    WITHDRAWN,
    Day,
    counted,
    first_words,
    full_day,
    plain_day,
)


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


@dataclass(frozen=True, slots=True, kw_only=True)
class TouchedBed:
    """A bed's small map of the squares a visit touched."""

    title: str
    picture: Markup
    words: str


def item(site: Site, view: SeasonView, entry: Entry) -> EntryItem:
    """Return an entry for a list."""
    return EntryItem(
        title=entry.title,
        to=addresses.entry(view, entry),
        day=plain_day(entry.day),
        by=entry.by,
        gist=done.gist(site.garden, entry.done),
    )


def pages(site: Site) -> Iterator[Page]:
    """Yield the log pages of each season that has a log."""
    for view in site.seasons:
        if view.season.log is None:
            continue
        entries = view.entries
        yield _list(site, view, entries)
        for place, entry in enumerate(entries):
            before = entries[place - 1] if place else None
            after = entries[place + 1] if place + 1 < len(entries) else None
            yield _entry(site, view, entry, before, after)


def _list(site: Site, view: SeasonView, entries: tuple[Entry, ...]) -> Page:
    months: dict[Month, list[EntryItem]] = {}
    for entry in reversed(entries):
        months.setdefault(Month.of(entry.day), []).append(item(site, view, entry))
    return Page(
        path=addresses.log(view),
        template="log.html",
        title=f"Log of {view.name}",
        description=f"Every visit to the beds in {view.name}, newest first, and what was done.",
        kind="log",
        data={
            "trail": (Link(f"Season {view.name}", addresses.season(view)), Link("Log", "")),
            "said": EMPTY_LOG if not entries else "",
            "withdrawn": WITHDRAWN if withdrawn_from(view.name, site.garden.withdrawn) else "",
            "lead": f"{counted(len(entries), 'visit').capitalize()}, newest first." if entries else "",
            "months": tuple(
                EntryMonth(name=str(month), ident=f"m-{month.year}-{month.month:02d}", entries=tuple(items))
                for month, items in months.items()
            ),
            **seasons_beside(site, view, _link),
        },
    )


def _link(view: SeasonView) -> Link | None:
    return Link(f"Log of {view.name}", addresses.log(view)) if view.season.log is not None else None


def _entry(site: Site, view: SeasonView, entry: Entry, before: Entry | None, after: Entry | None) -> Page:
    path = addresses.entry(view, entry)
    ledger = view.season.ledger or ()
    picked = [number for number, weighing in enumerate(ledger) if weighing.day == entry.day]
    weighed = weighings_table(site.garden, view, picked, ident="weighed", caption="Picked that day")
    gist = done.gist(site.garden, entry.done)
    description = first_words(f"Log entry of {full_day(entry.day).text}: {gist or entry.title}.")
    return Page(
        path=path,
        template="entry.html",
        title=entry.title,
        description=description,
        kind="entry",
        linked=linked.entry(site, view, entry, description),
        data={
            "trail": (
                Link(f"Season {view.name}", addresses.season(view)),
                Link("Log", addresses.log(view)),
                Link(entry.title, ""),
            ),
            "day": full_day(entry.day),
            "by": entry.by,
            "prose": prose(entry.prose, ident="prose", resolve=resolver(site, path)),
            "done": done.done_table(site.garden, entry.done, view.plantings_of) if entry.done else None,
            "work": done.minutes_words(entry.done),
            "cautions": done.cautions(entry.done),
            "touched": tuple(_touched(site, entry)),
            "weighed": weighed if picked else None,
            "tally": addresses.tally(view) if view.season.ledger is not None else "",
            "photos": photographs.shown(view.name, entry),
            "further": tuple(Link(one.title, one.address) for one in entry.further if outside(one.address)),
            "before": Link(before.title, addresses.entry(view, before)) if before else None,
            "after": Link(after.title, addresses.entry(view, after)) if after else None,
        },
    )


def _touched(site: Site, entry: Entry) -> Iterator[TouchedBed]:
    for number, bed in enumerate(site.garden.beds):
        letters: dict[Square, list[str]] = {}
        for event in entry.done:
            for square in (*event.squares, *event.to):
                if square.bed == bed.name:
                    letters.setdefault(square, []).append(_letters(site, event))
        if letters:
            yield TouchedBed(
                title=bed.title,
                picture=touched_map(
                    bed,
                    {
                        square: " ".join(dict.fromkeys(filter(None, found)))
                        for square, found in letters.items()
                    },
                    ident=f"touched-{number}",
                ),
                words=in_words(letters, with_bed=False),
            )


def _letters(site: Site, event: Event) -> str:
    slug = event.crop.slug if event.crop else None
    crop = names.crop(site.garden, slug) if slug else None
    return crop.letters if crop else ""
