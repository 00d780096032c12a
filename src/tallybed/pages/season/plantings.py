"""A season's plan and its plantings, one list: what was meant, what stood, and what it gave."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date

from tallybed.garden.days import ONE_DAY, without_year
from tallybed.garden.findings import joined
from tallybed.garden.squares import Square
from tallybed.pages.care.outlook import outlook
from tallybed.pages.care.plan_notes import plan_notes
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.frame.which_pages import has_list
from tallybed.pages.tables.picked import lines_of
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, link, text, without_empty_columns
from tallybed.pages.tables.tally_tables import weight_and_cured
from tallybed.pages.wording import names
from tallybed.pages.wording.planned import besides, meant, summary
from tallybed.pages.wording.sentences import END_SUPPOSED, counted, number_word, sentence
from tallybed.reckoning.beds import histories_of
from tallybed.reckoning.calendar.history import PlantingHistory
from tallybed.reckoning.harvest.tally import Total, added
from tallybed.reckoning.squares.occupancy import Grade
from tallybed.reckoning.year import Year, Years

LEAD = (
    "A planting is one crop in some squares over one span of days. They are listed in the order in which "
    "they came into the bed. Where two shared a square, it counts whole for each."
)


def pages(year: Year) -> Iterator[Page]:
    """Yield the list of a season's plantings; nothing without a plan and any planting."""
    if has_list(year):
        yield _page(year, by_first_day(year))


def by_first_day(year: Year) -> list[PlantingHistory]:
    """Return what is known of each planting, in the order in which they came into the bed."""
    return sorted(histories_of(year).values(), key=_order)


def plantings_link(year: Year) -> Link | None:
    """Return the link to a season's plantings, or None where there is no list of them."""
    return Link(f"Plantings of {year.name}", addresses.plantings(year)) if has_list(year) else None


def _order(history: PlantingHistory) -> tuple[date, str]:
    """Return what plantings are put in order by: their first day, then their key."""
    return history.began or history.planting.first_day, history.planting.key


def _page(year: Year, found: list[PlantingHistory]) -> Page:
    """Return a season's plantings as a page."""
    return Page(
        path=addresses.plantings(year),
        template="plantings.html",
        title=f"Plantings of {year.name}",
        description=f"Every planting of {year.name}: what was planned, where it stood, from when until when, "
        "and what it gave.",
        kind="plantings",
        data={
            "trail": below_season(year, here="Plantings"),
            "lead": _lead(year, found),
            "explained": LEAD if found else "",
            "table": _list_table(year, found) if found else None,
            "plan": _plan_table(year, found),
            "season": Link(f"Season {year.name}, square by square", addresses.season(year)),
            "seeds": Link(f"Seeds and plants for {year.name}", addresses.seeds(year))
            if year.season.plan
            else None,
            "outlook": outlook(year),
            "told": plan_notes(year),
            **seasons_beside(year, plantings_link),
        },
    )


def _lead(year: Year, found: list[PlantingHistory]) -> str:
    """Return how many plantings there are, and how many were planned."""
    if year.season.plan is None:
        return f"{counted(len(found), 'planting').capitalize()}, without a plan."
    planned = summary(year.season.plan)
    beside = len(found) - sum(history.planting.planned is not None for history in found)
    return f"{planned} {sentence(f'{number_word(beside)} more not in the plan')}" if beside else planned


def _list_table(year: Year, found: list[PlantingHistory]) -> Table:
    """Return where and when each planting stood, and what it gave."""
    showing = year.garden.showing
    columns = (f"Weight, {showing.unit}", f"Over its squares, {showing.per_area_unit}")
    rows = []
    for history in found:
        squares = squares_of(history)
        lines = lines_of(year, history.planting.key)
        total = added(lines)
        over = over_squares(year.years, total, squares)
        rows.append(
            Row(
                cells=(
                    link(
                        names.listed_planting(year.garden, history.planting),
                        names.place_words(year.garden, squares),
                    ),
                    text(*in_bed(year, history)),
                    weight_and_cured(showing, total) if lines else figure(""),
                    Cell(text=over, number=True, note="at least" if over and total.at_least else ""),
                ),
                mark=_mark(history),
            )
        )
    return without_empty_columns(
        Table(
            ident="plantings",
            caption="What stood, and what it gave",
            heads=heads("Planting", "In the bed", *columns, numbers=columns),
            rows=tuple(rows),
        )
    )


def _plan_table(year: Year, found: list[PlantingHistory]) -> Table | None:
    """Return what the plan has of each planting, in the same order; None where it has nothing."""
    rows = tuple(
        Row(
            cells=(
                link(names.listed_planting(year.garden, history.planting)),
                text(meant(planned), besides(year.garden, planned)),
            ),
            mark=_mark(history),
        )
        for history in found
        if (planned := history.planting.planned) is not None
    )
    columns = heads("Planting", "By the plan")
    return Table(ident="meant", caption="What the plan has", heads=columns, rows=rows) if rows else None


def _mark(history: PlantingHistory) -> str:
    """Return what sets a planting's row apart: that it was dropped, or is still to come."""
    planned = history.planting.planned
    if planned is not None and planned.dropped is not None:
        return "dropped"
    return "" if history.began else "planned"


def over_squares(years: Years, total: Total, squares: Collection[Square]) -> str:
    """Return a weight over squares without its unit; empty where nothing was weighed."""
    area = years.garden.area_of(squares)
    if not (total.weight and area):
        return ""
    return years.garden.showing.per_area_number(total.weight, area)


def squares_of(history: PlantingHistory) -> list[Square]:
    """Return the squares a planting has had, or those it is meant to have where it has had none."""
    past = {hold.square for hold in history.holds if history.began and hold.grade.word != "planned"}
    planned = history.planting.planned.squares if history.planting.planned else ()
    return sorted(past or {hold.square for hold in history.holds} or planned)


def in_bed(year: Year, history: PlantingHistory) -> tuple[str, str]:
    """Return from when to when a planting was in the bed, in words, and how far that is known."""
    planned = history.planting.planned
    if history.began is None:
        if planned is not None and planned.dropped is not None:
            return f"dropped {without_year(planned.dropped)}", ""
        return (f"from {without_year(planned.begins)}", "planned") if planned else ("", "")
    if history.gone is not None:
        days = f"{without_year(history.began)} to {without_year(history.gone)}"
        return f"{days}{but_not(history)}", ended_by(history)
    last = max(hold.last for hold in history.holds)
    until = ""
    if last > year.today:
        ends = last >= year.season.span.last
        until = "planned to the season’s end" if ends else f"planned until {without_year(last + ONE_DAY)}"
    return f"since {without_year(history.began)}{but_not(history)}", until


def but_not(history: PlantingHistory) -> str:
    """Return from when to when a planting had no square of the bed between its days there; mostly nothing."""
    days = [f"from {without_year(one.first)} to {without_year(one.last + ONE_DAY)}" for one in history.away]
    return f", but not {joined(days, 'and')}" if days else ""


def ended_by(history: PlantingHistory) -> str:
    """Return what is said beside an end that nobody recorded; empty beside any other."""
    return END_SUPPOSED if history.gone_by is Grade.SUPPOSED else ""
