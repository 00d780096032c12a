"""All seasons side by side."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

from tallybed.garden.days import short
from tallybed.pages.drawings.season_charts import across_seasons
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Page
from tallybed.pages.season.season import state_words
from tallybed.pages.tables.tables import Cell, ColumnHead, Row, Table
from tallybed.pages.tables.tally_tables import OF_IT
from tallybed.pages.wording import sums
from tallybed.pages.wording.sentences import NO_SEASON, TO_COME
from tallybed.reckoning.year import Year, Years


def pages(years: Years) -> Iterator[Page]:
    """Yield the page of all seasons."""
    yield _page(years)


def _page(years: Years) -> Page:
    """Return all seasons side by side as a page."""
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
    """Return the seasons' dates, papers and weights, a column a season."""
    views = tuple(reversed(years.all))
    columns = (ColumnHead(text=year.name, number=True, to=addresses.season(year)) for year in views)
    rows = (
        _row("First day", [Cell(text=_day_words(year, year.season.span.first)) for year in views]),
        _row("Last day", [Cell(text=_day_words(year, year.season.span.last)) for year in views]),
        _row("State", [Cell(text=state_words(year)) for year in views]),
        _row("Plantings planned", [_plan_cell(year) for year in views]),
        _row("Visits written up", [_log_cell(year) for year in views]),
        _row("Pickings on record", [_ledger_cell(year) for year in views]),
        _row(f"Weight, {years.garden.showing.unit}", [_weight(year) for year in views]),
        *_cured_row(views),
        *_over_rows(years, views),
    )
    return Table(
        ident="seasons",
        caption="The seasons side by side, newest first",
        heads=(ColumnHead(text="Measure"), *columns),
        rows=rows,
    )


def _row(name: str, cells: list[Cell]) -> Row:
    """Return one measure of every season."""
    return Row(cells=(Cell(text=name), *(replace(one, number=True) for one in cells)))


def _day_words(year: Year, day: date) -> str:
    """Return a day of a season in short, without its year where the season's name is that year."""
    return short(day) if year.name == str(day.year) else f"{short(day)} {day.year}"


def _untold(year: Year) -> str:
    """Return why there is no log or ledger: it is still to come, or not on record."""
    return TO_COME if year.is_ahead else "not on record"


def _plan_cell(year: Year) -> Cell:
    """Return how many plantings were planned, leading to the plan."""
    if year.season.plan is None:
        return Cell(text="not on record")
    return Cell(text=f"{len(year.season.plan):,}", to=addresses.plantings(year))


def _log_cell(year: Year) -> Cell:
    """Return how many visits were written up, leading to the log."""
    if year.season.log is None or (year.is_ahead and not year.entries):
        return Cell(text=_untold(year))
    return Cell(text=f"{len(year.entries):,}", to=addresses.log(year))


def _ledger_cell(year: Year) -> Cell:
    """Return how many pickings are on record, leading to the tally."""
    if year.season.ledger is None:
        return Cell(text=_untold(year))
    return Cell(text=f"{year.total.pickings:,}", to=addresses.tally(year))


def _weight(year: Year) -> Cell:
    """Return what a season gave."""
    if not year.lines:
        untold = TO_COME if year.is_ahead else "unknown"
        return Cell(text=untold if year.season.ledger is None else "no weighing")
    total = sums.summed(year.garden.showing, year.total)
    return Cell(text=total.number or "not weighed", note=total.before)


def _cured_row(views: tuple[Year, ...]) -> Iterator[Row]:
    """Yield a row that says what of the weights was weighed cured or dried, where some was."""
    words = [sums.cured_part(year.garden.showing, year.total) for year in views]
    if any(words):
        yield Row(cells=(Cell(text=OF_IT), *(Cell(note=one, number=True) for one in words)))


def _over_rows(years: Years, views: tuple[Year, ...]) -> Iterator[Row]:
    """Yield a row for each ground that any season is told over; the grounds keep their order."""
    found: dict[str, dict[str, Cell]] = {}
    for year in views:
        for ground in year.grounds:
            if year.lines and ground.square_feet and not year.total.unknown:
                over = years.garden.showing.per_area_number(year.total.weight, ground.square_feet)
                note = "at least" if year.total.at_least else ""
                found.setdefault(ground.of, {})[year.name] = Cell(text=over, note=note)
    for of, by_season in found.items():
        yield _row(
            f"Over {of}, {years.garden.showing.per_area_unit}",
            [by_season.get(year.name, Cell(text="–")) for year in views],
        )
