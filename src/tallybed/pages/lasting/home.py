"""The first page: the beds today, the running tally, the newest entry and the week ahead."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import timedelta

from markupsafe import Markup

from tallybed.garden.days import in_full, without_year
from tallybed.garden.squares import Bed
from tallybed.pages.drawings.maps import Maps, month_maps
from tallybed.pages.drawings.months import BedMonths, bed_months, shown_month
from tallybed.pages.frame import addresses, linked
from tallybed.pages.frame.downloads import takeaway
from tallybed.pages.frame.links import resolver
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.lasting.seasons import missing
from tallybed.pages.season import log
from tallybed.pages.season.plan import summary
from tallybed.pages.season.tally import standing
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
from tallybed.reckoning.calendar.ahead import HARVEST, ahead
from tallybed.reckoning.calendar.due import Due
from tallybed.reckoning.calendar.month import bed_month

_AHEAD = timedelta(days=6)
_WHAT = {HARVEST: "first harvest of"}
"""Jobs that are called otherwise on the page than in the log."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BedToday:
    """A bed as it stands on the page's day."""

    title: str
    to: str
    maps: Maps
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
class Ahead:
    """The week ahead."""

    days: str
    items: tuple[DueItem, ...]
    nothing: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Coming:
    """The season to come."""

    name: str
    to: str
    words: str
    plan: str
    plan_to: str
    beds: tuple[BedMonths, ...]


def pages(site: Site) -> Iterator[Page]:
    """Yield the first page."""
    view = site.foremost
    garden = site.garden
    data: dict[str, object] = {
        "trail": (),
        "about": garden.about,
        "heading": _heading(site),
        "nothing": "" if view else NO_SEASON,
        "no_beds": "" if garden.beds else NO_BEDS,
        "coming": _coming(site),
    }
    data |= _of_season(site, view) if view else _EMPTY
    yield Page(
        path=addresses.HOME,
        template="home.html",
        title=garden.name,
        description=first_words(garden.about or f"{garden.name}: what a small bed on show really gives."),
        kind="home",
        linked=linked.home(site),
        data=data,
    )


_EMPTY: Mapping[str, object] = {
    "season": None,
    "standing": None,
    "tally_words": "",
    "ledger": "",
    "missing": (),
    "beds": (),
    "newest": None,
    "excerpt": Markup(""),
    "ahead": None,
    "take": (),
}


def _heading(site: Site) -> str:
    if site.running:
        beds = "bed" if len(site.garden.beds) == 1 else "beds"
        return f"The {beds} on {in_full(site.today)}"
    if site.ended:
        return f"Season {site.ended.name} is over"
    if site.coming:
        return f"Season {site.coming.name} is still to come"
    return site.garden.name


def _of_season(site: Site, view: SeasonView) -> Mapping[str, object]:
    season = view.season
    running = view is site.running
    entries = view.entries
    newest = entries[-1] if entries else None
    return {
        "season": Link(f"Season {view.name}", addresses.season(view)),
        "standing": standing(site, view),
        "tally_words": f"picked so far in {view.name}" if running else f"picked in {view.name}, in all",
        "ledger": EMPTY_LEDGER if season.ledger is not None and not season.ledger else "",
        "missing": missing(season),
        "beds": tuple(_bed(site, view, bed) for bed in site.garden.beds),
        "newest": log.item(site, view, newest) if newest else None,
        "excerpt": (
            first_paragraph(newest.prose, ident="newest", resolve=resolver(site, addresses.HOME))
            if newest
            else Markup("")
        ),
        "ahead": _ahead(site, view) if running and season.plan is not None else None,
        "take": takeaway(site, view),
    }


def _bed(site: Site, view: SeasonView, bed: Bed) -> BedToday:
    month = shown_month(site, view)
    reckoned = bed_month(site.garden, view.season, view.holding, bed, month)
    return BedToday(
        title=bed.title,
        to=addresses.bed_month(view, bed, month),
        maps=month_maps(site.garden, reckoned, addresses.HOME, ident=f"map-{bed.name}"),
        months=bed_months(site, view, bed),
    )


def _ahead(site: Site, view: SeasonView) -> Ahead:
    first, last = site.today, site.today + _AHEAD
    items = tuple(_due(site, one) for one in ahead(site.garden, view.season, view.holding, first, last))
    return Ahead(days=days_words(first, last), items=items, nothing="" if items else NOTHING_DUE)


def _due(site: Site, one: Due) -> DueItem:
    return DueItem(
        day=plain_day(one.day),
        what=_WHAT.get(one.verb, one.verb),
        crop=names.named(site.garden, one.crop),
        squares=names.place_words(site.garden, one.squares),
        note=one.note,
        overdue=one.overdue,
    )


def _coming(site: Site) -> Coming | None:
    view = site.coming
    if view is None:
        return None
    span = view.season.span
    return Coming(
        name=f"Season {view.name}",
        to=addresses.season(view),
        words=f"It runs from {span_words(span.first, span.last)}."
        if span.first.year == span.last.year
        else f"It begins on {in_full(span.first)} and ends on {without_year(span.last)} {span.last.year}.",
        plan=summary(view.season.plan) if view.season.plan is not None else "",
        plan_to=addresses.plan(view) if view.season.plan is not None else "",
        beds=tuple(bed_months(site, view, bed) for bed in site.garden.beds),
    )
