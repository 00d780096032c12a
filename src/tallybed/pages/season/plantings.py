"""Plantings: a list of a season's, and for each its life, what it gave, and the visits that tell of it."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction

from tallybed.garden.days import ONE_DAY, in_full, without_year
from tallybed.garden.log import Entry
from tallybed.garden.plan import Start
from tallybed.garden.squares import Square
from tallybed.garden.units import FOOT
from tallybed.pages.drawings import photographs
from tallybed.pages.drawings.strips import strips_of_planting
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.season import log
from tallybed.pages.tables.pickings_table import weighings_table
from tallybed.pages.tables.planting_tables import durations_table, milestones_table, plan_words, stood_table
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, link, text, without_empty_columns
from tallybed.pages.tables.tally_tables import weight
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.sentences import (
    END_NOTE,
    END_SUPPOSED,
    NO_LEDGER,
    NONE_PICKED,
    counted,
    days_words,
    figured,
    listed,
    sentence,
)
from tallybed.reckoning.calendar.history import PlantingHistory
from tallybed.reckoning.harvest.tally import TallyLine, Total, added
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Grade
from tallybed.reckoning.year import Year, Years

_WORD = re.compile(r"\w+")
"""Tags are letters and digits, so a tag in a text is a word of it."""

LEAD = (
    "Each planting is one crop in some squares over one span of days, as plan, log and ledger know it "
    "together. Weight over its squares counts each of them whole."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gave:
    """What a planting gave."""

    total: sums.Sum | None
    said: str
    over: str
    """``0.83 lb per sq ft of its squares (2 sq ft)``; empty where nothing was weighed."""
    shared: str
    """With whom it shared its squares, as a sentence."""
    pickings: Table | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """A photograph of a visit that tells of the planting."""

    photo: photographs.PhotoItem
    visit: Link


def pages(years: Years) -> Iterator[Page]:
    """Yield the list of each season's plantings and a page for each; none for a season without any."""
    for year in years.all:
        if not year.plantings:
            continue
        found = sorted(year.histories.values(), key=_order)
        visits = _visits(year)
        yield _list(year, found)
        for place, history in enumerate(found):
            before = found[place - 1].planting if place else None
            after = found[place + 1].planting if place + 1 < len(found) else None
            yield _planting(year, history, visits.get(history.planting.key, ()), before, after)


def plantings_link(year: Year) -> Link | None:
    """Return the link to a season's plantings, or None where there are none."""
    if not year.plantings:
        return None
    return Link(f"Plantings of {year.name}", addresses.plantings(year))


def square_feet(years: Years, squares: Iterable[Square]) -> Fraction:
    """Return the area of squares in square feet."""
    return sum((years.garden.bed(square.bed).side.within(FOOT) ** 2 for square in squares), Fraction(0))


def _order(history: PlantingHistory) -> tuple[date, str]:
    return history.began or history.planting.first_day, history.planting.key


def _list(year: Year, found: list[PlantingHistory]) -> Page:
    return Page(
        path=addresses.plantings(year),
        template="plantings.html",
        title=f"Plantings of {year.name}",
        description=f"Every planting of {year.name}: where it stood, from when until when, what it gave.",
        kind="plantings",
        data={
            "trail": (Link(f"Season {year.name}", addresses.season(year)), Link("Plantings", "")),
            "lead": f"{counted(len(found), 'planting').capitalize()}, by the day they came into the bed.",
            "explained": LEAD,
            "table": _list_table(year, found),
            **seasons_beside(year, plantings_link),
        },
    )


def _list_table(year: Year, found: list[PlantingHistory]) -> Table:
    showing = year.garden.showing
    columns = (f"Weight, {showing.unit}", f"Over its squares, {showing.per_area_unit}")
    rows = []
    for history in found:
        squares = _squares(history)
        lines = _lines(year, history.planting)
        total = added(lines)
        over = over_squares(year.years, total, squares)
        rows.append(
            Row(
                cells=(
                    link(
                        names.planting_link(year.garden, history.planting),
                        names.place_words(year.garden, squares),
                    ),
                    text(*_in_bed(year.years, history)),
                    weight(showing, total) if lines else figure(""),
                    Cell(text=over, number=True, note="at least" if over and total.at_least else ""),
                ),
                mark="" if history.began else "planned",
            )
        )
    return without_empty_columns(
        Table(
            ident="plantings",
            caption=f"Plantings of {year.name}",
            heads=heads("Planting", "In the bed", *columns, numbers=columns),
            rows=tuple(rows),
        )
    )


def over_squares(years: Years, total: Total, squares: Collection[Square]) -> str:
    """Return a weight over squares without its unit; empty where nothing was weighed."""
    area = square_feet(years, squares)
    if not (total.weight and area):
        return ""
    return years.garden.showing.per_area_number(total.weight, area)


def _lines(year: Year, planting: Planting) -> list[TallyLine]:
    return [line for line in year.lines if line.planting == planting.key and line.counts]


def _squares(history: PlantingHistory) -> list[Square]:
    """Return the squares a planting has had, or those it is meant to have where it has had none."""
    past = {hold.square for hold in history.holds if history.began and hold.grade.word != "planned"}
    planned = history.planting.planned.squares if history.planting.planned else ()
    return sorted(past or {hold.square for hold in history.holds} or planned)


def _in_bed(years: Years, history: PlantingHistory) -> tuple[str, str]:
    """Return from when to when a planting was in the bed, in words, and how far that is known."""
    planned = history.planting.planned
    if history.began is None:
        if planned is not None and planned.dropped is not None:
            return f"dropped {without_year(planned.dropped)}", ""
        return (f"from {without_year(planned.begins)}", "planned") if planned else ("", "")
    if history.gone is not None:
        return f"{without_year(history.began)} to {without_year(history.gone)}", _end(history)
    last = max(hold.last for hold in history.holds)
    until = f"planned until {without_year(last + ONE_DAY)}" if last > years.today else ""
    return f"since {without_year(history.began)}", until


def _end(history: PlantingHistory) -> str:
    return END_SUPPOSED if history.gone_by is Grade.SUPPOSED else ""


def _planting(
    year: Year,
    history: PlantingHistory,
    visits: tuple[Entry, ...],
    before: Planting | None,
    after: Planting | None,
) -> Page:
    planting = history.planting
    words = names.planting_words(year.garden, planting)
    crop = year.crop_of(planting)
    by_day = {entry.day: addresses.entry(year, entry) for entry in visits}
    title = f"{words[0].upper()}{words[1:]} in {year.name}"
    place = names.place_words(year.garden, _squares(history))
    return Page(
        path=addresses.planting(planting),
        template="planting.html",
        title=title,
        description=f"{title}, {place}: from sowing to clearing, day by day, and what it gave.",
        kind="planting",
        data={
            "trail": (
                Link(f"Season {year.name}", addresses.season(year)),
                Link("Plantings", addresses.plantings(year)),
                Link(planting.tag or words, ""),
            ),
            "lead": " ".join(
                part
                for part in (sentence(_lead(year.years, history, place)), END_NOTE if _end(history) else "")
                if part
            ),
            "plan": plan_words(year.garden, planting.planned) if year.season.plan is not None else "",
            "crop": Link(f"Growing {crop.plural}, and what every season gave", addresses.crop(crop))
            if crop
            else None,
            "moments": milestones_table(year.garden, history, by_day) if history.milestones else None,
            "stretches": durations_table(year.garden, history) if history.durations else None,
            "gave": _gave(year, history),
            "strips": strips_of_planting(year, planting),
            "earlier": tuple(_earlier(year.years, planting)),
            "stood": stood_table(year.garden, year.holding, history) if history.holds else None,
            "visits": tuple(log.item(year, entry) for entry in visits),
            "shots": tuple(_shots(year, visits)),
            "before": _neighbour(year.years, before),
            "after": _neighbour(year.years, after),
        },
    )


def _earlier(years: Years, planting: Planting) -> Iterator[Link]:
    """Yield the plantings of the season it was carried over from that had its crop in its squares."""
    planned = planting.planned
    if planned is None or planned.start is not Start.CARRIED:
        return
    squares = set(planned.squares)
    for year in years.all:
        for one in year.plantings if year.name == planned.carried_from else ():
            held = {hold.square for hold in year.holding.of_planting(one.key)}
            if one.crop == planting.crop and squares & held:
                link = names.planting_link(years.garden, one)
                yield Link(f"{link.text} in {year.name}", link.to)


def _neighbour(years: Years, planting: Planting | None) -> Link | None:
    return names.planting_link(years.garden, planting) if planting else None


def _lead(years: Years, history: PlantingHistory, place: str) -> str:
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
        return f"in {place} from {without_year(history.began)} to {in_full(history.gone)}"
    return f"in {place} since {without_year(history.began)}, as of {in_full(years.today)}"


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


def _shots(year: Year, visits: Iterable[Entry]) -> Iterator[Shot]:
    for entry in visits:
        for photo in photographs.shown(year.name, entry):
            yield Shot(
                photo=replace(photo, first=False),
                visit=Link(f"{entry.title}, {without_year(entry.day)}", addresses.entry(year, entry)),
            )


def _gave(year: Year, history: PlantingHistory) -> Gave:
    showing, planting = year.garden.showing, history.planting
    lines = _lines(year, planting)
    rows = sorted({line.weighing for line in year.lines if line.planting == planting.key})
    total, squares = added(lines), _squares(history)
    over = over_squares(year.years, total, squares)
    area = showing.area(square_feet(year.years, squares))
    before = "at least " if total.at_least else ""
    return Gave(
        total=sums.summed(showing, total) if lines else None,
        said=_said(year.years, total) if lines else NO_LEDGER if year.season.ledger is None else NONE_PICKED,
        over=f"{before}{over} {showing.per_area_unit} of its squares ({area})" if over else "",
        shared=_shared(year, history),
        pickings=weighings_table(year, rows, ident="pickings", caption="Every picking of it")
        if rows
        else None,
    )


def _said(years: Years, total: Total) -> str:
    words = f"from {counted(total.pickings, 'picking')}"
    if total.count:
        words += f", {figured(round(total.count), 'piece')} counted"
    return " ".join([f"{words}.", *sums.caveats(years.garden.showing, total)])


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
    return sentence(f"it shared squares with {listed(told)}, which are counted whole all the same")
