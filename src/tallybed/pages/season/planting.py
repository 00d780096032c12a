"""A planting: its days in the bed, what it gave, and the visits that tell of it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import partial

from tallybed.garden.days import in_full, without_year
from tallybed.garden.findings import capital
from tallybed.garden.plurals import figured
from tallybed.garden.records.log import Entry, Photo
from tallybed.garden.records.plan import Start
from tallybed.pages.drawings import photographs
from tallybed.pages.drawings.strips import strips_of_planting
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.frame.waits_shown import told_with_pictures
from tallybed.pages.season import log
from tallybed.pages.season.plantings import (
    but_not,
    by_first_day,
    ended_by,
    over_squares,
    squares_of,
)
from tallybed.pages.season.sun import planting_sun
from tallybed.pages.tables.picked import all_lines_of, lines_of
from tallybed.pages.tables.pickings_table import dated_weighings_table
from tallybed.pages.tables.planting_tables import durations_table, milestones_table, plan_words, stood_table
from tallybed.pages.tables.tables import Table
from tallybed.pages.tables.treatments_table import treatment_lines, treatments_table
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.dated import in_season
from tallybed.pages.wording.sentences import (
    END_NOTE,
    NONE_PICKED,
    counted,
    days_words,
    listed,
    no_ledger,
    sentence,
)
from tallybed.reckoning.calendar.history import PlantingHistory
from tallybed.reckoning.harvest.tally import Total, added
from tallybed.reckoning.onward import goes_on, later_plantings
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year, Years

_WORD = re.compile(r"\w+")
"""Tags are letters and digits, so a tag in a text is a word of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldYield:
    """What a planting gave."""

    total: sums.Sum | None
    said: str
    over: str
    """``0.83 lb per sq ft of its squares (2 sq ft)``; empty where nothing was weighed."""
    shared: str
    """With whom it shared its squares, as a sentence."""
    pickings: Table | None


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitPhoto:
    """A photograph of a visit that tells of the planting."""

    photo: photographs.PhotoItem
    visit: Link


def pages(year: Year, only: str | None = None) -> Iterator[Page]:
    """Yield a page for each planting of a season, by the day it came into the bed, or that at ``only``."""
    found = by_first_day(year)
    visits = _visits(year)
    for place, history in enumerate(found):
        if only not in (None, addresses.planting(history.planting)):
            continue
        before = found[place - 1].planting if place else None
        after = found[place + 1].planting if place + 1 < len(found) else None
        yield _page(year, history, visits.get(history.planting.key, ()), before, after)


def _page(
    year: Year,
    history: PlantingHistory,
    visits: tuple[Entry, ...],
    before: Planting | None,
    after: Planting | None,
) -> Page:
    """Return the page of one planting; ``before`` and ``after`` are its neighbours in the list."""
    planting = history.planting
    words = names.listed_planting(year.garden, planting).text
    crop = year.crop_of(planting)
    by_day = {entry.day: addresses.entry(year, entry) for entry in visits}
    title = f"{capital(words)} {in_season(year)}"
    place = names.place_words(year.garden, squares_of(history))
    return Page(
        path=addresses.planting(planting),
        template="planting.html",
        title=title,
        description=f"{title}, {place}: from sowing to clearing, day by day, and what it gave.",
        kind="planting",
        data={
            "trail": below_season(
                year, Link("Plantings", addresses.plantings(year)), here=planting.tag or words
            ),
            "lead": " ".join(
                part
                for part in (
                    sentence(_lead(year, history, place)),
                    END_NOTE if ended_by(history) else "",
                )
                if part
            ),
            "plan": plan_words(year.garden, planting.planned) if year.season.plan is not None else "",
            "crop": Link(f"Growing {crop.plural}, and what every season gave", addresses.crop(crop))
            if crop
            else None,
            "moments": milestones_table(year, history, by_day) if history.milestones else None,
            "stretches": durations_table(year, history) if history.durations else None,
            "gave": _yield(year, history, by_day),
            "strips": strips_of_planting(year, planting),
            "earlier": tuple(_earlier(year, planting)),
            "later": tuple(_later(year, planting)),
            "sun": planting_sun(year, planting),
            "treated": _treated(year, planting),
            "stood": stood_table(year.garden, year.holding, history) if history.holds else None,
            "visits": tuple(_visit(year, planting, entry) for entry in visits),
            "shots": tuple(_photos(year, planting, visits)),
            "before": _neighbour(year.years, before),
            "after": _neighbour(year.years, after),
        },
    )


def _earlier(year: Year, planting: Planting) -> Iterator[Link]:
    """Yield the plantings of earlier seasons that it was carried over from; if known, as it was planted."""
    found = [
        (before, one)
        for before in year.earlier
        for one in before.plantings
        if goes_on(before, one, year, planting)
    ]
    planted = [(before, one) for before, one in found if not (one.planned and one.planned.carried_from)]
    for before, one in planted or found:
        yield _in_its_season(before, one)


def _later(year: Year, planting: Planting) -> Iterator[Link]:
    """Yield the plantings of later seasons that were carried over from it, open seasons among them."""
    for later, one in later_plantings(year):
        if goes_on(year, planting, later, one):
            yield _in_its_season(later, one)


def _in_its_season(year: Year, planting: Planting) -> Link:
    link = names.planting_link(year.garden, planting)
    return Link(f"{link.text} {in_season(year)}", link.to)


def _treated(year: Year, planting: Planting) -> Table | None:
    """Return the treatments that reached it, with the first day to pick after each; None without any."""
    lines = [one for one in treatment_lines(year) if planting.key in one.plantings]
    return treatments_table(year, lines, ident="treated") if lines else None


def _neighbour(years: Years, planting: Planting | None) -> Link | None:
    """Return the link to a planting, if there is one."""
    return names.listed_planting(years.garden, planting) if planting else None


def _lead(year: Year, history: PlantingHistory, place: str) -> str:
    """Return where the planting stood, and from when until when."""
    planned = history.planting.planned
    if history.began is None:
        if planned is not None and planned.dropped is not None:
            return f"it was meant for {place} and never came into the bed"
        return f"it is still to come, in {place}"
    if planned is not None and planned.start is Start.CARRIED:
        since = f"standing from {planned.carried_from}"
        return (
            f"in {place}, {since}, until {in_full(history.gone)}" if history.gone else f"in {place}, {since}"
        )
    if history.gone is not None:
        days = f"from {_before(history.began, history.gone)} to {in_full(history.gone)}"
        return f"in {place} {days}{but_not(history)}"
    since = f"since {_before(history.began, year.as_of)}{but_not(history)}"
    return f"in {place} {since}, as of {in_full(year.as_of)}"


def _before(day: date, named: date) -> str:
    """Return a day that stands before one with its year, without its own where that is the same."""
    return without_year(day) if day.year == named.year else in_full(day)


def _visits(year: Year) -> Mapping[str, tuple[Entry, ...]]:
    """Return the visits about each planting, by its key: those with work on it, or its tag in their words."""
    tagged: dict[str, list[str]] = {}
    for planting in year.plantings:
        if planting.tag:
            tagged.setdefault(planting.tag, []).append(planting.key)
    found: dict[str, list[Entry]] = {}
    for entry in year.entries:
        work = (event for event in entry.done if event.day == entry.day)
        told = {planting.key for event in work for planting in year.plantings_of.get(event, ())}
        words = set(_WORD.findall(f"{entry.title}\n{entry.prose}"))
        for key in told.union(*(tagged.get(word, ()) for word in words)):
            found.setdefault(key, []).append(entry)
    return {key: tuple(entries) for key, entries in found.items()}


def _visit(year: Year, planting: Planting, entry: Entry) -> log.EntryItem:
    """Return a visit for a planting's list, with what was done to it and not to others."""
    own = [event for event in entry.done if planting in year.plantings_of.get(event, ())]
    return log.entry_item(year, entry, own)


def _photos(year: Year, planting: Planting, visits: Iterable[Entry]) -> Iterator[VisitPhoto]:
    """Yield the photographs that show a planting: by its tag, or by its crop on visits that tell of it.

    Each has its visit, and what waits of the planting.
    """
    waits = told_with_pictures(year, (planting.key,))
    told = {(entry.day, entry.slug) for entry in visits}
    for entry in year.kept("entries with photographs", lambda: _pictured(year)):
        wanted = partial(_shows, planting, (entry.day, entry.slug) in told)
        for photo in photographs.photo_items(year.name, entry, waits, wanted):
            yield VisitPhoto(
                photo=replace(photo, first=False),
                visit=Link(f"{entry.title}, {without_year(entry.day)}", addresses.entry(year, entry)),
            )


def _pictured(year: Year) -> tuple[Entry, ...]:
    """Return the entries that have photographs, oldest first."""
    return tuple(entry for entry in year.entries if entry.photos)


def _shows(planting: Planting, told: bool, photo: Photo) -> bool:
    """Return whether a photograph shows a planting; ``told``: whether its visit tells of the planting."""
    return any(
        one.tag == planting.tag if one.tag else bool(told and one.crop and one.crop.may_be(planting.crop))
        for one in photo.shows
    )


def _yield(year: Year, history: PlantingHistory, visits: Mapping[date, str]) -> ToldYield:
    """Return what the planting gave, in all and picking by picking."""
    showing, planting = year.garden.showing, history.planting
    lines = lines_of(year, planting.key)
    rows = sorted({line.weighing for line in all_lines_of(year, planting.key)})
    total, squares = added(lines), squares_of(history)
    over = over_squares(year.years, total, squares)
    area = showing.area(year.garden.area_of(squares))
    before = "at least " if total.at_least else ""
    return ToldYield(
        total=sums.summed(showing, total) if lines and not total.unknown else None,
        said=_picked_words(year.years, total, len(history.maybe)) if lines else _unpicked(year, history),
        over=f"{before}{over} {showing.per_area_unit} of its squares ({area})" if over else "",
        shared=_shared(year, history),
        pickings=dated_weighings_table(year, rows, visits) if rows else None,
    )


def _unpicked(year: Year, history: PlantingHistory) -> str:
    """Return what is said of a planting that no picking is known to be of."""
    if year.season.ledger is None:
        return no_ledger(year.season, ahead=year.is_ahead)
    number = len(history.maybe)
    if not number:
        return NONE_PICKED
    return f"No picking names this planting. {_maybe(number)}"


def _maybe(number: int, more: str = "") -> str:
    """Return of how many pickings it is not known whether they are of the planting, as a sentence."""
    does, they = ("does", "it") if number == 1 else ("do", "they")
    told = f"{counted(number, f'{more}picking').capitalize()} that may be of it"
    return f"{told} {does} not say which planting {they} came from."


def _picked_words(years: Years, total: Total, maybe: int) -> str:
    """Return how many pickings there were, and what they leave out; ``maybe``: how many more may be of it."""
    words = f"from {counted(total.pickings, 'picking')}"
    if total.unknown:
        words = sums.unweighed(total).removesuffix(".")
    elif total.count:
        words += f", {figured(total.count, 'piece')} counted"
    caveats = () if total.unknown else sums.caveats(years.garden.showing, total)
    return " ".join([f"{words}.", *caveats, *([_maybe(maybe, "more ")] if maybe else [])])


def _shared(year: Year, history: PlantingHistory) -> str:
    """Return with whom a planting shared squares so far, as a sentence."""
    others: dict[str, tuple[date, date]] = {}
    for hold in history.holds:
        last = min(hold.last, year.today)
        for other in year.holding.between(hold.square, hold.first, last):
            if other.planting != history.planting.key:
                first_day, last_day = others.get(other.planting, (other.first, other.last))
                others[other.planting] = min(first_day, other.first), max(last_day, other.last)
    if not others:
        return ""
    told = (
        f"{names.planting_words(year.garden, year.holding.planting(key))} ({days_words(first, last)})"
        for key, (first, last) in sorted(others.items())
    )
    return sentence(f"it shared squares with {listed(told)}, and those count whole")
