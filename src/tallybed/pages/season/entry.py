"""A visit: what was written of it, what was done, and the squares it touched."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.records.log import Entry, Event
from tallybed.garden.squares import Bed, Square, in_words
from tallybed.pages.drawings import photographs
from tallybed.pages.drawings.maps import BedMaps, touched_maps
from tallybed.pages.frame import addresses, linked
from tallybed.pages.frame.links import resolver
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.frame.waits_shown import told_with_pictures
from tallybed.pages.season.tally import tally_link
from tallybed.pages.tables import done
from tallybed.pages.tables.picked import rows_picked_on
from tallybed.pages.tables.pickings_table import weighings_table
from tallybed.pages.wording.prose import outside, prose
from tallybed.pages.wording.sentences import first_words, full_day
from tallybed.reckoning.beds import letters_of
from tallybed.reckoning.harvest.stood import stood_in
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class TouchedBed:
    """A bed's small map of the squares a visit touched."""

    title: str
    maps: BedMaps
    words: str


def pages(year: Year, only: str | None = None) -> Iterator[Page]:
    """Yield a page for each entry of a season that may be read, or the one at ``only``."""
    every = enumerate(year.entries)
    return (_at(year, place) for place, entry in every if only in (None, addresses.entry(year, entry)))


def page(year: Year, entry: Entry) -> Page:
    """Return the page of one visit that may be read."""
    return _at(year, year.entries.index(entry))


def _at(year: Year, place: int) -> Page:
    """Return the page of the visit at that place among those that may be read."""
    entries = year.entries
    before = entries[place - 1] if place else None
    after = entries[place + 1] if place + 1 < len(entries) else None
    return _page(year, entries[place], before, after)


def _page(year: Year, entry: Entry, before: Entry | None, after: Entry | None) -> Page:
    """Return the page of one visit."""
    path = addresses.entry(year, entry)
    picked = rows_picked_on(year, entry.day)
    weighed = weighings_table(year, picked)
    gist = done.gist(year.garden, entry.done)
    description = first_words(f"Log entry of {full_day(entry.day).text}: {gist or entry.title}.")
    photos = photographs.photo_items(year.name, entry, _waits(year, entry))
    return Page(
        path=path,
        template="entry.html",
        title=entry.title,
        description=description,
        kind="entry",
        linked=linked.entry(year, entry, description, photos),
        data={
            "trail": below_season(year, Link("Log", addresses.log(year)), here=entry.title),
            "day": full_day(entry.day),
            "by": entry.by,
            "changed": full_day(entry.changed) if entry.changed else None,
            "prose": prose(entry.prose, ident="prose", resolve=resolver(year.years, path)),
            "done": done.done_table(year.garden, entry.done, year.plantings_of) if entry.done else None,
            "work": done.minutes_words(entry.done),
            "cautions": (*done.waits_of_lines(year, entry.done), *done.cautions(entry.done)),
            "touched": tuple(_touched(year, entry)),
            "weighed": weighed if picked else None,
            "tally": tally_link(year),
            "photos": photos,
            "further": tuple(Link(one.title, one.address) for one in entry.further if outside(one.address)),
            "before": Link(before.title, addresses.entry(year, before)) if before else None,
            "after": Link(after.title, addresses.entry(year, after)) if after else None,
        },
    )


def _waits(year: Year, entry: Entry) -> tuple[str, ...]:
    """Return what waits of the plantings that a visit tells of, for its photographs."""
    return told_with_pictures(
        year, (one.key for event in entry.done for one in year.plantings_of.get(event, ()))
    )


def _touched(year: Year, entry: Entry) -> Iterator[TouchedBed]:
    """Yield each bed that a visit touched, with the letters of the plantings in its squares."""
    day = full_day(entry.day).text
    for number, bed in enumerate(year.garden.beds):
        letters = _letters_in(year, entry, bed)
        if letters:
            yield TouchedBed(
                title=bed.title,
                maps=touched_maps(year.years, bed, letters, when=day, ident=f"touched-{number}"),
                words=f"{in_words(letters, with_bed=False)}, {day}",
            )


def _letters_in(year: Year, entry: Entry, bed: Bed) -> dict[Square, str]:
    """Return the squares of a bed that a visit touched, each with the letters of its plantings, once each."""
    letters: dict[Square, list[str]] = {}
    for event in entry.done:
        own = [letters_of(year)[each.key] for each in year.plantings_of.get(event, ())]
        for square in _squares_of(year, event):
            if square.bed == bed.name:
                letters.setdefault(square, []).extend(own)
    return {square: " ".join(dict.fromkeys(found)) for square, found in letters.items()}


def _squares_of(year: Year, event: Event) -> Iterator[Square]:
    """Yield the squares a line touched; where it tells a tag alone, those its planting held that day."""
    told = (*event.squares, *event.to)
    yield from told
    if event.tag and not told:
        for planting in year.plantings_of.get(event, ()):
            yield from sorted(stood_in(year.holding, planting, event.day))
