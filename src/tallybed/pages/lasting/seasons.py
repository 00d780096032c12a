"""A season's home, and all seasons side by side."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from tallybed.garden.days import in_full, short
from tallybed.garden.garden import Season
from tallybed.pages.drawings.contact_sheets import contact_sheet
from tallybed.pages.drawings.season_charts import across_seasons
from tallybed.pages.drawings.strips import season_strips
from tallybed.pages.frame import addresses
from tallybed.pages.frame.downloads import takeaway
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.season import log
from tallybed.pages.season.plan import summary
from tallybed.pages.season.plantings import plantings_link
from tallybed.pages.season.tally import standing
from tallybed.pages.tables.tables import Cell, ColumnHead, Row, Table
from tallybed.pages.wording.sentences import (
    EMPTY_LEDGER,
    EMPTY_LOG,
    NO_LEDGER,
    NO_LOG,
    NO_PLAN,
    NO_SEASON,
    counted,
    span_words,
)
from tallybed.reckoning.harvest.areas import grounds

_NEWEST = 5
"""Entries that a season's home lists."""


def pages(site: Site) -> Iterator[Page]:
    """Yield the home of each season, and the page of all seasons."""
    for view in site.seasons:
        yield _home(site, view)
    yield _all(site)


def missing(season: Season) -> tuple[str, ...]:
    """Return one sentence for each of plan, log and ledger that is not there."""
    found = []
    if season.plan is None:
        found.append(NO_PLAN)
    if season.log is None:
        found.append(NO_LOG)
    if season.ledger is None:
        found.append(NO_LEDGER)
    return tuple(found)


def state_words(site: Site, view: SeasonView) -> str:
    """Return ``closed``, ``over``, ``under way`` or ``still to come``."""
    if view.season.span.first > site.today:
        return "still to come"
    if view.season.closed:
        return "closed"
    return "over" if view.season.span.last < site.today else "under way"


def _home(site: Site, view: SeasonView) -> Page:
    season = view.season
    entries = view.entries
    return Page(
        path=addresses.season(view),
        template="season.html",
        title=f"Season {view.name}",
        description=f"The beds in {view.name}, {span_words(season.span.first, season.span.last)}: "
        "months, plan, log and tally.",
        kind="season",
        data={
            "trail": (Link("Seasons", addresses.SEASONS), Link(f"Season {view.name}", "")),
            "lead": f"{span_words(season.span.first, season.span.last)}; {_state_sentence(site, view)}",
            "note": season.note,
            "tally_words": "picked so far" if view is site.running else "picked in all",
            "missing": missing(season),
            "standing": standing(site, view),
            "ledger": "" if season.ledger or season.ledger is None else EMPTY_LEDGER,
            "strips": season_strips(site, view, addresses.season(view)),
            "sheets": tuple(contact_sheet(site, view, bed) for bed in site.garden.beds),
            "plantings": plantings_link(view),
            "plan": "" if season.plan is None else summary(season.plan),
            "plan_to": addresses.plan(view),
            "seeds_to": addresses.seeds(view) if season.plan else "",
            "log": None if season.log is None else _log_words(len(entries)),
            "log_to": addresses.log(view),
            "entries": tuple(log.item(site, view, entry) for entry in reversed(entries[-_NEWEST:])),
            "tally_to": "" if season.ledger is None else addresses.tally(view),
            "take": takeaway(site, view),
            **seasons_beside(site, view, lambda one: Link(f"Season {one.name}", addresses.season(one))),
        },
    )


def _log_words(number: int) -> str:
    if not number:
        return EMPTY_LOG
    return f"{counted(number, 'visit').capitalize()} written up; the newest first."


def _state_sentence(site: Site, view: SeasonView) -> str:
    state = state_words(site, view)
    if state == "closed":
        return "the season is closed and its books do not change."
    if state == "under way":
        return f"under way, as of {in_full(site.today)}."
    return f"{state}."


def _all(site: Site) -> Page:
    return Page(
        path=addresses.SEASONS,
        template="seasons.html",
        title="All seasons",
        description=f"Every season of {site.garden.name} side by side: dates, visits, weights.",
        kind="seasons",
        data={
            "trail": (),
            "lead": "" if site.seasons else NO_SEASON,
            "table": _table(site) if site.seasons else None,
            "across": tuple(across_seasons(site)),
            "notes": tuple(
                f"{view.name}: {view.season.note}" for view in reversed(site.seasons) if view.season.note
            ),
        },
    )


def _table(site: Site) -> Table:
    views = tuple(reversed(site.seasons))
    columns = (ColumnHead(text=view.name, number=True, to=addresses.season(view)) for view in views)
    rows = (
        _row("First day", [Cell(text=_day_words(view, view.season.span.first)) for view in views]),
        _row("Last day", [Cell(text=_day_words(view, view.season.span.last)) for view in views]),
        _row("State", [Cell(text=state_words(site, view)) for view in views]),
        _row("Plantings planned", [_plan_cell(view) for view in views]),
        _row("Visits written up", [_log_cell(view) for view in views]),
        _row("Pickings weighed in", [_ledger_cell(view) for view in views]),
        _row(f"Weight, {site.garden.showing.unit}", [_weight(site, view) for view in views]),
        *_over_rows(site, views),
    )
    return Table(
        ident="seasons",
        caption="The seasons side by side, newest first",
        heads=(ColumnHead(text="Measure"), *columns),
        rows=rows,
    )


def _row(name: str, cells: list[Cell]) -> Row:
    return Row(cells=(Cell(text=name), *(replace(one, number=True) for one in cells)))


def _day_words(view: SeasonView, day: date) -> str:
    """Return a day of a season in short, without its year where the season's name is that year."""
    return short(day) if view.name == str(day.year) else f"{short(day)} {day.year}"


def _plan_cell(view: SeasonView) -> Cell:
    if view.season.plan is None:
        return Cell(text="not on record")
    return Cell(text=f"{len(view.season.plan):,}", to=addresses.plan(view))


def _log_cell(view: SeasonView) -> Cell:
    if view.season.log is None:
        return Cell(text="not on record")
    return Cell(text=f"{len(view.entries):,}", to=addresses.log(view))


def _ledger_cell(view: SeasonView) -> Cell:
    if view.season.ledger is None:
        return Cell(text="not on record")
    number = len({line.weighing for line in view.lines})
    return Cell(text=f"{number:,}", to=addresses.tally(view))


def _weight(site: Site, view: SeasonView) -> Cell:
    if not view.lines:
        return Cell(text="unknown")
    showing, total = site.garden.showing, view.total
    return Cell(text=showing.number(total.weight), note="at least" if total.at_least else "")


def _over_rows(site: Site, views: tuple[SeasonView, ...]) -> Iterator[Row]:
    """Yield a row for each ground that any season is told over; the grounds keep their order."""
    found: dict[str, dict[str, Cell]] = {}
    for view in views:
        for ground in grounds(site.garden.beds, view.season):
            if view.lines and ground.square_feet:
                over = site.garden.showing.per_area_number(view.total.weight, ground.square_feet)
                note = "at least" if view.total.at_least else ""
                found.setdefault(ground.of, {})[view.name] = Cell(text=over, note=note)
    for of, by_season in found.items():
        yield _row(
            f"Over {of}, {site.garden.showing.per_area_unit}",
            [by_season.get(view.name, Cell(text="–")) for view in views],
        )
