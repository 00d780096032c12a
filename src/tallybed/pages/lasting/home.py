"""The first page: the beds today, the running tally, the newest entry and the week ahead."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import timedelta

from markupsafe import Markup

from tallybed.garden.days import in_full, without_year
from tallybed.garden.squares import Bed
from tallybed.pages.care.notices import concerning
from tallybed.pages.drawings.maps import BedMaps, month_maps
from tallybed.pages.drawings.months import BedMonths, bed_months, shown_month
from tallybed.pages.frame import addresses, linked
from tallybed.pages.frame.downloads import season_downloads
from tallybed.pages.frame.links import resolver
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.waits_shown import open_notices
from tallybed.pages.rows.answer import short_answer
from tallybed.pages.season import log
from tallybed.pages.season.plan import summary
from tallybed.pages.season.season import missing_papers
from tallybed.pages.season.tally import tally_head
from tallybed.pages.wording import names
from tallybed.pages.wording.prose import first_paragraph
from tallybed.pages.wording.sentences import (
    EMPTY_LEDGER,
    NO_BEDS,
    NO_SEASON,
    NOTHING_DUE,
    Day,
    days_words,
    first_words,
    plain_day,
    span_words,
)
from tallybed.reckoning.calendar.ahead import HARVEST
from tallybed.reckoning.calendar.due import Due
from tallybed.reckoning.year import Year, Years

_AHEAD = timedelta(days=6)
_WHAT = {HARVEST: "first harvest of"}
"""Jobs that are called otherwise on the page than in the log."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BedToday:
    """A bed as it stands on the page's day."""

    name: str
    """It ends the id of its heading, which signs lead to."""
    title: str
    to: str
    maps: BedMaps
    months: BedMonths


@dataclass(frozen=True, slots=True, kw_only=True)
class DueItem:
    """One job that falls due."""

    day: Day
    what: str
    crop: Link
    squares: str
    note: str
    overdue: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekAhead:
    """The week ahead."""

    days: str
    items: tuple[DueItem, ...]
    nothing: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonToCome:
    """The season to come."""

    name: str
    to: str
    words: str
    plan: str
    plan_to: str
    beds: tuple[BedMonths, ...]


def paths(years: Years) -> Iterator[str]:
    """Yield where the first page lies."""
    del years
    yield addresses.HOME


def pages(years: Years) -> Iterator[Page]:
    """Yield the first page."""
    year = years.foremost
    garden = years.garden
    data: dict[str, object] = {
        "trail": (),
        "about": garden.about,
        "heading": _heading(years),
        "nothing": "" if year else NO_SEASON,
        "no_beds": "" if garden.beds else NO_BEDS,
        "coming": _coming(years),
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
    "season": None,
    "standing": None,
    "beside": None,
    "tally_words": "",
    "ledger": "",
    "missing": (),
    "beds": (),
    "newest": None,
    "excerpt": Markup(""),
    "ahead": None,
    "take": (),
}


def _heading(years: Years) -> str:
    """Return the page's heading: today's beds, or where between the seasons it is."""
    if years.running:
        beds = "bed" if len(years.garden.beds) == 1 else "beds"
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
    entries = year.entries
    newest = entries[-1] if entries else None
    return {
        "season": Link(f"Season {year.name}", addresses.season(year)),
        "standing": tally_head(year),
        "beside": short_answer(year),
        "tally_words": f"picked so far in {year.name}" if running else f"picked in {year.name}, in all",
        "ledger": EMPTY_LEDGER if season.ledger is not None and not season.ledger else "",
        "missing": missing_papers(season),
        "beds": tuple(_bed(year, bed) for bed in year.garden.beds),
        "newest": log.entry_item(year, newest) if newest else None,
        "excerpt": (
            first_paragraph(newest.prose, ident="newest", resolve=resolver(year.years, addresses.HOME))
            if newest
            else Markup("")
        ),
        "ahead": _ahead(year) if running and season.plan is not None else None,
        "take": season_downloads(year),
    }


def _bed(year: Year, bed: Bed) -> BedToday:
    """Return a bed as it stands today."""
    month = shown_month(year)
    reckoned = year.month(bed, month)
    return BedToday(
        name=bed.name,
        title=bed.title,
        to=addresses.bed_month(year, bed, month),
        maps=month_maps(year.garden, reckoned, addresses.HOME, ident=f"map-{bed.name}"),
        months=bed_months(year, bed),
    )


def _ahead(year: Year) -> WeekAhead:
    """Return the jobs of the seven days from today on."""
    first, last = year.today, year.today + _AHEAD
    items = tuple(_due(year, one) for one in year.ahead(first, last))
    return WeekAhead(days=days_words(first, last), items=items, nothing="" if items else NOTHING_DUE)


def _due(year: Year, one: Due) -> DueItem:
    """Return one job as the page shows it, with what waits in its squares."""
    years = year.years
    waiting = concerning(open_notices(years), one.squares, one.planting)
    note = " ".join(filter(None, [one.note, *(notice.text for notice in waiting)]))
    return DueItem(
        day=plain_day(one.day),
        what=_WHAT.get(one.verb, one.verb),
        crop=names.named(years.garden, one.crop),
        squares=names.place_words(years.garden, one.squares),
        note=note,
        overdue=one.overdue,
    )


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
        else f"It begins on {in_full(span.first)} and ends on {without_year(span.last)} {span.last.year}.",
        plan=summary(year.season.plan) if year.season.plan is not None else "",
        plan_to=addresses.plan(year) if year.season.plan is not None else "",
        beds=tuple(bed_months(year, bed) for bed in years.garden.beds),
    )
