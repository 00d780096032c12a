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
from tallybed.pages.rows.answer import short_answer
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
from tallybed.reckoning.year import Year, Years

_NEWEST = 5
"""Entries that a season's home lists."""


def pages(years: Years) -> Iterator[Page]:
    """Yield the home of each season, and the page of all seasons."""
    for year in years.all:
        yield _home(year)
    yield _all(years)


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


def state_words(year: Year) -> str:
    """Return ``closed``, ``over``, ``under way`` or ``still to come``."""
    if year.season.span.first > year.today:
        return "still to come"
    if year.season.closed:
        return "closed"
    return "over" if year.season.span.last < year.today else "under way"


def _home(year: Year) -> Page:
    season = year.season
    entries = year.entries
    return Page(
        path=addresses.season(year),
        template="season.html",
        title=f"Season {year.name}",
        description=f"The beds in {year.name}, {span_words(season.span.first, season.span.last)}: "
        "months, plan, log and tally.",
        kind="season",
        data={
            "trail": (Link("Seasons", addresses.SEASONS), Link(f"Season {year.name}", "")),
            "lead": f"{span_words(season.span.first, season.span.last)}; {_state_sentence(year)}",
            "note": season.note,
            "tally_words": "picked so far" if year is year.years.running else "picked in all",
            "missing": missing(season),
            "standing": standing(year),
            "beside": short_answer(year),
            "ledger": "" if season.ledger or season.ledger is None else EMPTY_LEDGER,
            "strips": season_strips(year, addresses.season(year)),
            "sheets": tuple(contact_sheet(year, bed) for bed in year.garden.beds),
            "plantings": plantings_link(year),
            "plan": "" if season.plan is None else summary(season.plan),
            "plan_to": addresses.plan(year),
            "seeds_to": addresses.seeds(year) if season.plan else "",
            "log": None if season.log is None else _log_words(len(entries)),
            "log_to": addresses.log(year),
            "entries": tuple(log.item(year, entry) for entry in reversed(entries[-_NEWEST:])),
            "tally_to": "" if season.ledger is None else addresses.tally(year),
            "take": takeaway(year),
            **seasons_beside(year, lambda one: Link(f"Season {one.name}", addresses.season(one))),
        },
    )


def _log_words(number: int) -> str:
    if not number:
        return EMPTY_LOG
    return f"{counted(number, 'visit').capitalize()} written up; the newest first."


def _state_sentence(year: Year) -> str:
    state = state_words(year)
    if state == "closed":
        return "the season is closed and its books do not change."
    if state == "under way":
        return f"under way, as of {in_full(year.today)}."
    return f"{state}."


def _all(years: Years) -> Page:
    return Page(
        path=addresses.SEASONS,
        template="seasons.html",
        title="All seasons",
        description=f"Every season of {years.garden.name} side by side: dates, visits, weights.",
        kind="seasons",
        data={
            "trail": (),
            "lead": "" if years.all else NO_SEASON,
            "table": _table(years) if years.all else None,
            "across": tuple(across_seasons(years)),
            "notes": tuple(
                f"{year.name}: {year.season.note}" for year in reversed(years.all) if year.season.note
            ),
        },
    )


def _table(years: Years) -> Table:
    views = tuple(reversed(years.all))
    columns = (ColumnHead(text=year.name, number=True, to=addresses.season(year)) for year in views)
    rows = (
        _row("First day", [Cell(text=_day_words(year, year.season.span.first)) for year in views]),
        _row("Last day", [Cell(text=_day_words(year, year.season.span.last)) for year in views]),
        _row("State", [Cell(text=state_words(year)) for year in views]),
        _row("Plantings planned", [_plan_cell(year) for year in views]),
        _row("Visits written up", [_log_cell(year) for year in views]),
        _row("Pickings weighed in", [_ledger_cell(year) for year in views]),
        _row(f"Weight, {years.garden.showing.unit}", [_weight(year) for year in views]),
        *_over_rows(years, views),
    )
    return Table(
        ident="seasons",
        caption="The seasons side by side, newest first",
        heads=(ColumnHead(text="Measure"), *columns),
        rows=rows,
    )


def _row(name: str, cells: list[Cell]) -> Row:
    return Row(cells=(Cell(text=name), *(replace(one, number=True) for one in cells)))


def _day_words(year: Year, day: date) -> str:
    """Return a day of a season in short, without its year where the season's name is that year."""
    return short(day) if year.name == str(day.year) else f"{short(day)} {day.year}"


def _plan_cell(year: Year) -> Cell:
    if year.season.plan is None:
        return Cell(text="not on record")
    return Cell(text=f"{len(year.season.plan):,}", to=addresses.plan(year))


def _log_cell(year: Year) -> Cell:
    if year.season.log is None:
        return Cell(text="not on record")
    return Cell(text=f"{len(year.entries):,}", to=addresses.log(year))


def _ledger_cell(year: Year) -> Cell:
    if year.season.ledger is None:
        return Cell(text="not on record")
    number = len({line.weighing for line in year.lines})
    return Cell(text=f"{number:,}", to=addresses.tally(year))


def _weight(year: Year) -> Cell:
    if not year.lines:
        return Cell(text="unknown")
    showing, total = year.garden.showing, year.total
    return Cell(text=showing.number(total.weight), note="at least" if total.at_least else "")


def _over_rows(years: Years, views: tuple[Year, ...]) -> Iterator[Row]:
    """Yield a row for each ground that any season is told over; the grounds keep their order."""
    found: dict[str, dict[str, Cell]] = {}
    for year in views:
        for ground in year.grounds:
            if year.lines and ground.square_feet:
                over = years.garden.showing.per_area_number(year.total.weight, ground.square_feet)
                note = "at least" if year.total.at_least else ""
                found.setdefault(ground.of, {})[year.name] = Cell(text=over, note=note)
    for of, by_season in found.items():
        yield _row(
            f"Over {of}, {years.garden.showing.per_area_unit}",
            [by_season.get(year.name, Cell(text="–")) for year in views],
        )
