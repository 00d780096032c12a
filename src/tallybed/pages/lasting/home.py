"""The first page: the beds today, what they gave, the week's jobs and the newest entry."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from tallybed.garden.days import in_full
from tallybed.garden.records.log import Entry
from tallybed.garden.squares import Bed
from tallybed.pages.drawings.maps import BedMaps, joint_key, month_maps
from tallybed.pages.drawings.months import BedMonths, bed_months, shown_month
from tallybed.pages.drawings.photographs import PhotoItem, photo_items
from tallybed.pages.frame import addresses, linked
from tallybed.pages.frame.downloads import season_downloads
from tallybed.pages.frame.links import resolver
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.lasting.jobs import week_ahead
from tallybed.pages.lasting.label import label
from tallybed.pages.rows.answer import answer_figures
from tallybed.pages.season import log
from tallybed.pages.season.log import EntryItem
from tallybed.pages.season.plantings import plantings_link
from tallybed.pages.season.tally import TallyHead, tally_head
from tallybed.pages.wording.dated import in_season
from tallybed.pages.wording.planned import summary
from tallybed.pages.wording.prose import first_paragraph, prose
from tallybed.pages.wording.sentences import (
    NO_BEDS,
    NO_SEASON,
    empty_ledger,
    first_words,
    missing_papers,
    span_words,
)
from tallybed.reckoning.beds import month_of
from tallybed.reckoning.year import Year, Years

_WHOLE = 120
"""Words up to which the newest entry stands here whole; of a longer one its first paragraph."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BedToday:
    """A bed as it stands on the page's day."""

    name: str
    """It ends the id of its heading, which signs lead to."""
    title: str
    to: str
    maps: BedMaps | None
    """None where no record tells of any square."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NewestEntry:
    """The newest entry, whole or its first part."""

    item: EntryItem
    prose: Markup
    more: bool
    """Whether the entry goes on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NewestPhotograph:
    """The newest photograph of the season, and the visit it was taken on."""

    photo: PhotoItem
    visit: EntryItem


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonToCome:
    """The season to come."""

    name: str
    to: str
    words: str
    plan: str
    plantings: Link | None
    beds: tuple[BedMonths, ...]


def pages(years: Years) -> Iterator[Page]:
    """Yield the first page."""
    year = years.foremost
    garden = years.garden
    data: dict[str, object] = {
        "trail": (),
        "about": garden.about,
        "heading": _heading(years),
        "nothing": "" if year else NO_SEASON,
        "no_beds": "" if years.present.beds else NO_BEDS,
        "coming": _coming(years),
        "onward": tuple(_onward(years)),
    }
    data |= _of_season(year) if year else _EMPTY
    yield Page(
        path=addresses.HOME,
        template="home.html",
        title=garden.name,
        description=first_words(garden.about or f"{garden.name}: what a small bed on show really gives."),
        kind="home",
        linked=linked.home(years),
        data=data,
    )


_EMPTY: Mapping[str, object] = {
    "label": "",
    "standing": None,
    "answer": None,
    "tally_words": "",
    "ledger": "",
    "missing": (),
    "beds": (),
    "key": None,
    "newest": None,
    "picture": None,
    "ahead": None,
    "take": (),
}


def _heading(years: Years) -> str:
    """Return the page's heading: today's beds, or where between the seasons it is."""
    if years.running:
        beds = "bed" if len(years.present.beds) == 1 else "beds"
        return f"The {beds} on {in_full(years.today)}"
    if years.ended:
        return f"Season {years.ended.name} is over"
    if years.coming:
        return f"Season {years.coming.name} is still to come"
    return years.garden.name


def _of_season(year: Year) -> Mapping[str, object]:
    """Return what the page tells of the season a visitor means, as the template names it."""
    season = year.season
    running = year is year.years.running
    standing = tally_head(year)
    beds = tuple(_bed(year, bed) for bed in year.garden.beds)
    return {
        "label": label(year),
        "standing": standing,
        "answer": answer_figures(year),
        "tally_words": _tally_words(year, standing, running=running),
        "ledger": empty_ledger(season),
        "missing": missing_papers(season, ahead=year.is_ahead),
        "beds": beds,
        "key": joint_key(bed.maps.key for bed in beds if bed.maps),
        "newest": _newest(year, year.entries[-1]) if year.entries else None,
        "picture": _picture(year),
        "ahead": week_ahead(year) if running and season.plan is not None else None,
        "take": season_downloads(year),
    }


def _tally_words(year: Year, standing: TallyHead | None, *, running: bool) -> str:
    """Return whose the large total is, and from how much ground: a weight alone answers no visitor."""
    words = f"picked so far {in_season(year)}" if running else f"picked {in_season(year)}, in all"
    over = standing.over if standing else ()
    return f"{words}, from {over[0].area} of squares" if over else words


def _bed(year: Year, bed: Bed) -> BedToday:
    """Return a bed as it stands today."""
    month = shown_month(year)
    return BedToday(
        name=bed.name,
        title=bed.title,
        to=addresses.bed_month(year, bed, month),
        maps=None
        if year.is_only_weighed
        else month_maps(year.years, month_of(year, bed, month), addresses.HOME, ident=f"map-{bed.name}"),
    )


def _newest(year: Year, entry: Entry) -> NewestEntry:
    """Return the newest entry, whole where it is short."""
    resolve = resolver(year.years, addresses.HOME)
    if len(entry.prose.split()) <= _WHOLE:
        whole = prose(entry.prose, ident="newest", below=2, resolve=resolve)
        return NewestEntry(item=log.entry_item(year, entry), prose=whole, more=False)
    first = first_paragraph(entry.prose, ident="newest", resolve=resolve)
    return NewestEntry(item=log.entry_item(year, entry), prose=first, more=True)


def _picture(year: Year) -> NewestPhotograph | None:
    """Return the season's newest photograph that may be shown; None where there is none."""
    for entry in reversed(year.entries):
        for photo in photo_items(year.name, entry)[:1]:
            return NewestPhotograph(photo=photo, visit=log.entry_item(year, entry))
    return None


def _onward(years: Years) -> Iterator[Link]:
    """Yield where the public's next questions are answered."""
    year = years.foremost
    if year:
        yield Link(f"Season {year.name}, square by square", addresses.season(year))
        if plantings_link(year):
            yield Link(f"Plantings of {year.name}, and what came of them", addresses.plantings(year))
        before = year.beside(-1)
        if before and plantings_link(before):
            yield Link(f"Plantings of {before.name}, and what came of them", addresses.plantings(before))
    if years.present.beds:
        yield Link("Can I do this at my place?", addresses.YOUR_PLACE)


def _coming(years: Years) -> SeasonToCome | None:
    """Return the next season, where one is still to begin."""
    year = years.coming
    if year is None:
        return None
    span = year.season.span
    return SeasonToCome(
        name=f"Season {year.name}",
        to=addresses.season(year),
        words=f"It runs from {span_words(span.first, span.last)}."
        if span.first.year == span.last.year
        else f"It begins on {in_full(span.first)} and ends on {in_full(span.last)}.",
        plan=summary(year.season.plan) if year.season.plan is not None else "",
        plantings=plantings_link(year) if year.season.plan is not None else None,
        beds=tuple(bed_months(year, bed) for bed in year.garden.beds),
    )
