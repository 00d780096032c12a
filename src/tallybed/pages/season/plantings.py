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
from tallybed.pages.drawings.strips import planting_strips
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.season import log
from tallybed.pages.tables.pickings_table import weighings_table
from tallybed.pages.tables.planting_tables import moments_table, plan_words, stood_table, stretches_table
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, link, text, without_empty_columns
from tallybed.pages.tables.tally_tables import weight
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.sentences import (
    NO_LEDGER,
    NONE_PICKED,
    counted,
    days_words,
    figured,
    listed,
    sentence,
)
from tallybed.reckoning.calendar.history import Life, lives
from tallybed.reckoning.harvest.tally import Line, Total, added
from tallybed.reckoning.plantings.plantings import Stand
from tallybed.reckoning.room.plants import crop_of

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


def pages(site: Site) -> Iterator[Page]:
    """Yield the list of each season's plantings and a page for each; none for a season without any."""
    for view in site.seasons:
        if not view.holding.stands:
            continue
        found = sorted(lives(site.garden, view.holding).values(), key=_order)
        visits = _visits(view)
        yield _list(site, view, found)
        for place, life in enumerate(found):
            before = found[place - 1].stand if place else None
            after = found[place + 1].stand if place + 1 < len(found) else None
            yield _planting(site, view, life, visits.get(life.stand.key, ()), before, after)


def plantings_link(view: SeasonView) -> Link | None:
    """Return the link to a season's plantings, or None where there are none."""
    if not view.holding.stands:
        return None
    return Link(f"Plantings of {view.name}", addresses.plantings(view))


def square_feet(site: Site, squares: Iterable[Square]) -> Fraction:
    """Return the area of squares in square feet."""
    return sum((site.garden.bed(square.bed).side.within(FOOT) ** 2 for square in squares), Fraction(0))


def _order(life: Life) -> tuple[date, str]:
    return life.began or life.stand.first_day, life.stand.key


def _list(site: Site, view: SeasonView, found: list[Life]) -> Page:
    return Page(
        path=addresses.plantings(view),
        template="plantings.html",
        title=f"Plantings of {view.name}",
        description=f"Every planting of {view.name}: where it stood, from when until when, what it gave.",
        kind="plantings",
        data={
            "trail": (Link(f"Season {view.name}", addresses.season(view)), Link("Plantings", "")),
            "lead": f"{counted(len(found), 'planting').capitalize()}, by the day they came into the bed.",
            "explained": LEAD,
            "table": _list_table(site, view, found),
            **seasons_beside(site, view, plantings_link),
        },
    )


def _list_table(site: Site, view: SeasonView, found: list[Life]) -> Table:
    showing = site.garden.showing
    columns = (f"Weight, {showing.unit}", f"Over its squares, {showing.per_area_unit}")
    rows = []
    for life in found:
        squares = _squares(life)
        lines = _lines(view, life.stand)
        total = added(lines)
        over = over_squares(site, total, squares)
        rows.append(
            Row(
                cells=(
                    link(names.stand_link(site.garden, life.stand), names.place_words(site.garden, squares)),
                    text(*_in_bed(site, life)),
                    weight(showing, total) if lines else figure(""),
                    Cell(text=over, number=True, note="at least" if over and total.at_least else ""),
                ),
                mark="" if life.began else "planned",
            )
        )
    return without_empty_columns(
        Table(
            ident="plantings",
            caption=f"Plantings of {view.name}",
            heads=heads("Planting", "In the bed", *columns, numbers=columns),
            rows=tuple(rows),
        )
    )


def over_squares(site: Site, total: Total, squares: Collection[Square]) -> str:
    """Return a weight over squares without its unit; empty where nothing was weighed."""
    area = square_feet(site, squares)
    if not (total.weight and area):
        return ""
    return site.garden.showing.per_area_number(total.weight, area)


def _lines(view: SeasonView, stand: Stand) -> list[Line]:
    return [line for line in view.lines if line.stand == stand.key and line.counts]


def _squares(life: Life) -> list[Square]:
    """Return the squares a planting has had, or those it is meant to have where it has had none."""
    past = {hold.square for hold in life.holds if life.began and hold.grade.word != "planned"}
    planned = life.stand.planned.squares if life.stand.planned else ()
    return sorted(past or {hold.square for hold in life.holds} or planned)


def _in_bed(site: Site, life: Life) -> tuple[str, str]:
    """Return from when to when a planting was in the bed, in words, and how far that is known."""
    planned = life.stand.planned
    if life.began is None:
        if planned is not None and planned.dropped is not None:
            return f"dropped {without_year(planned.dropped)}", ""
        return (f"from {without_year(planned.begins)}", "planned") if planned else ("", "")
    if life.gone is not None:
        return f"{without_year(life.began)} to {without_year(life.gone)}", ""
    last = max(hold.last for hold in life.holds)
    until = f"planned until {without_year(last + ONE_DAY)}" if last > site.today else ""
    return f"since {without_year(life.began)}", until


def _planting(
    site: Site,
    view: SeasonView,
    life: Life,
    visits: tuple[Entry, ...],
    before: Stand | None,
    after: Stand | None,
) -> Page:
    stand = life.stand
    words = names.stand_words(site.garden, stand)
    crop = crop_of(site.garden, stand)
    by_day = {entry.day: addresses.entry(view, entry) for entry in visits}
    title = f"{words[0].upper()}{words[1:]} in {view.name}"
    place = names.place_words(site.garden, _squares(life))
    return Page(
        path=addresses.planting(stand),
        template="planting.html",
        title=title,
        description=f"{title}, {place}: from sowing to clearing, day by day, and what it gave.",
        kind="planting",
        data={
            "trail": (
                Link(f"Season {view.name}", addresses.season(view)),
                Link("Plantings", addresses.plantings(view)),
                Link(stand.tag or words, ""),
            ),
            "lead": sentence(_lead(site, life, place)),
            "plan": plan_words(site.garden, stand.planned) if view.season.plan is not None else "",
            "crop": Link(f"Growing {crop.plural}, and what every season gave", addresses.crop(crop))
            if crop
            else None,
            "moments": moments_table(site.garden, life, by_day) if life.moments else None,
            "stretches": stretches_table(site.garden, life) if life.stretches else None,
            "gave": _gave(site, view, life),
            "strips": planting_strips(site, view, stand),
            "earlier": tuple(_earlier(site, stand)),
            "stood": stood_table(site.garden, view.holding, life) if life.holds else None,
            "visits": tuple(log.item(site, view, entry) for entry in visits),
            "shots": tuple(_shots(view, visits)),
            "before": _neighbour(site, before),
            "after": _neighbour(site, after),
        },
    )


def _earlier(site: Site, stand: Stand) -> Iterator[Link]:
    """Yield the plantings of the season it was carried over from that had its crop in its squares."""
    planned = stand.planned
    if planned is None or planned.start is not Start.CARRIED:
        return
    squares = set(planned.squares)
    for view in site.seasons:
        for one in view.holding.stands if view.name == planned.carried_from else ():
            held = {hold.square for hold in view.holding.of_stand(one.key)}
            if one.crop == stand.crop and squares & held:
                link = names.stand_link(site.garden, one)
                yield Link(f"{link.text} in {view.name}", link.to)


def _neighbour(site: Site, stand: Stand | None) -> Link | None:
    return names.stand_link(site.garden, stand) if stand else None


def _lead(site: Site, life: Life, place: str) -> str:
    planned = life.stand.planned
    if life.began is None:
        if planned is not None and planned.dropped is not None:
            return f"it was meant for {place} and never came into the bed"
        return f"it is still to come, in {place}"
    if planned is not None and planned.start is Start.CARRIED:
        since = f"standing from {planned.carried_from}"
        return f"in {place}, {since}, until {in_full(life.gone)}" if life.gone else f"in {place}, {since}"
    if life.gone is not None:
        return f"in {place} from {without_year(life.began)} to {in_full(life.gone)}"
    return f"in {place} since {without_year(life.began)}, as of {in_full(site.today)}"


def _visits(view: SeasonView) -> Mapping[str, tuple[Entry, ...]]:
    """Return the visits about each planting, by its key: those with work on it, or its tag in their words."""
    tagged: dict[str, list[str]] = {}
    for stand in view.holding.stands:
        if stand.tag:
            tagged.setdefault(stand.tag, []).append(stand.key)
    found: dict[str, list[Entry]] = {}
    for entry in view.entries:
        work = (event for event in entry.done if event.day == entry.day)
        told = {stand.key for event in work for stand in view.stands_of.get(event, ())}
        words = set(_WORD.findall(f"{entry.title}\n{entry.prose}"))
        for key in told.union(*(tagged.get(word, ()) for word in words)):
            found.setdefault(key, []).append(entry)
    return {key: tuple(entries) for key, entries in found.items()}


def _shots(view: SeasonView, visits: Iterable[Entry]) -> Iterator[Shot]:
    for entry in visits:
        for photo in photographs.shown(view.name, entry):
            yield Shot(
                photo=replace(photo, first=False),
                visit=Link(f"{entry.title}, {without_year(entry.day)}", addresses.entry(view, entry)),
            )


def _gave(site: Site, view: SeasonView, life: Life) -> Gave:
    showing, stand = site.garden.showing, life.stand
    lines = _lines(view, stand)
    rows = sorted({line.weighing for line in view.lines if line.stand == stand.key})
    total, squares = added(lines), _squares(life)
    over = over_squares(site, total, squares)
    area = showing.area(square_feet(site, squares))
    before = "at least " if total.at_least else ""
    return Gave(
        total=sums.summed(showing, total) if lines else None,
        said=_said(site, total) if lines else NO_LEDGER if view.season.ledger is None else NONE_PICKED,
        over=f"{before}{over} {showing.per_area_unit} of its squares ({area})" if over else "",
        shared=_shared(site, view, life),
        pickings=weighings_table(site.garden, view, rows, ident="pickings", caption="Every picking of it")
        if rows
        else None,
    )


def _said(site: Site, total: Total) -> str:
    words = f"from {counted(total.pickings, 'picking')}"
    if total.count:
        words += f", {figured(round(total.count), 'piece')} counted"
    return " ".join([f"{words}.", *sums.caveats(site.garden.showing, total)])


def _shared(site: Site, view: SeasonView, life: Life) -> str:
    """Return with whom a planting shared squares so far, as a sentence."""
    others: dict[str, tuple[date, date]] = {}
    for hold in life.holds:
        last = min(hold.last, site.today)
        for other in view.holding.between(hold.square, hold.first, last):
            if other.stand != life.stand.key:
                first_day, last_day = others.get(other.stand, (other.first, other.last))
                others[other.stand] = min(first_day, other.first), max(last_day, other.last)
    if not others:
        return ""
    told = (
        f"{names.stand_words(site.garden, view.holding.stand(key))} ({days_words(first, last)})"
        for key, (first, last) in sorted(others.items())
    )
    return sentence(f"it shared squares with {listed(told)}, which are counted whole all the same")
