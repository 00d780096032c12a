"""A planting's life as tables: what happened, how long it took, and where it stood."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from tallybed.garden.crops import Footing
from tallybed.garden.days import without_year
from tallybed.garden.findings import capital
from tallybed.garden.garden import Garden
from tallybed.garden.grouping import grouped
from tallybed.garden.naming import variety_of
from tallybed.garden.plurals import figured
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Square, by_row
from tallybed.pages.care import figures
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text, without_empty_columns
from tallybed.pages.wording import names
from tallybed.pages.wording.planned import BEGINS
from tallybed.pages.wording.sentences import days_words, sentence
from tallybed.reckoning.calendar.changes import Change
from tallybed.reckoning.calendar.history import Duration, PlantingHistory
from tallybed.reckoning.calendar.milestones import FIRST_PICKED, LAST_PICKED, Milestone
from tallybed.reckoning.squares.occupancy import Grade, Holding
from tallybed.reckoning.year import Year

_PICKED = frozenset({FIRST_PICKED, LAST_PICKED})


def milestones_table(year: Year, history: PlantingHistory, visits: Mapping[date, str]) -> Table:
    """Return what happened to a planting and what is still meant to, day by day.

    ``visits``: for a day the page of a visit that tells of the planting.
    """
    rows = tuple(_milestone_row(year, history, milestone, visits) for milestone in history.milestones)
    return without_empty_columns(
        Table(
            ident="moments",
            caption="Day by day, as far as it was written down",
            heads=heads("Day", "What", "Squares", "How known"),
            rows=rows,
        )
    )


def _milestone_row(
    year: Year, history: PlantingHistory, milestone: Milestone, visits: Mapping[date, str]
) -> Row:
    """Return one day in a planting's life."""
    what = milestone.what.capitalize()
    stands_on = milestone.what == LAST_PICKED and history.gone is None
    planned = history.planting.planned
    carried = milestone.what in _PICKED and planned is not None and planned.start is Start.CARRIED
    if stands_on and not year.is_over:
        what += " so far"
    if carried or (stands_on and year.is_over):
        what += " this season"  # it may have been picked in another one as well
    return Row(
        cells=(
            Cell(text=without_year(milestone.day), to=visits.get(milestone.day, "")),
            text(what, change_details(year, milestone)),
            text(names.place_words(year.garden, milestone.squares)),
            text("in the ledger" if milestone.what in _PICKED else milestone.grade.word),
        ),
        mark="planned" if milestone.grade is Grade.PLANNED else "",
    )


def change_details(year: Year, told: Milestone | Change) -> str:
    """Return how many plants something happened to, or are left by it, where they went, and its cause."""
    parts = []
    if told.plants is not None:
        parts.append(f"{told.plants:,} left" if told.what == "thinned" else figured(told.plants, "plant"))
    if told.to:
        parts.append(f"to {names.place_words(year.garden, told.to)}")
    if told.why:
        parts.append(told.why)
    return "; ".join(parts)


def durations_table(year: Year, history: PlantingHistory) -> Table:
    """Return how long each part of a life took, beside the days printed for it and where they come from."""
    crop = year.crop_of(history.planting)
    variety = variety_of(crop, history.planting.variety) if crop else None
    unended = "to the season’s end" if year.is_over else "so far"
    columns = ("Here", "Variety", "Crop")
    return without_empty_columns(
        Table(
            ident="stretches",
            caption="How many days each part took, and usually takes",
            heads=heads("Part", *columns, numbers=columns),
            rows=tuple(
                Row(
                    cells=(
                        text(capital(one.of), "" if one.grade is Grade.SEEN else one.grade.word),
                        Cell(text=f"{one.days:,}", number=True, note="" if one.ended else unended),
                        Cell(
                            text="" if one.variety is None else f"{one.variety:,}",
                            number=True,
                            note=variety.source if variety and one.variety is not None else "",
                        ),
                        figure(_days_of(one)),
                    )
                )
                for one in history.durations
            ),
            notes=tuple(_rests_on(year.garden, one) for one in history.durations if one.figure),
        )
    )


def _days_of(duration: Duration) -> str:
    """Return the days that care notes give for a span; empty where they give none."""
    return figures.value_words(duration.figure).removesuffix(" days") if duration.figure else ""


def _rests_on(garden: Garden, duration: Duration) -> str:
    """Return what a crop's figure rests on: its publication, or that there is none."""
    used = duration.figure
    if used is None:
        return ""
    source = next((one for one in garden.sources if one.id == used.source), None)
    parts = [figures.origin_words(used), figures.source_words(source) if source else used.source]
    ground = "; ".join(part for part in parts if part) or "published"
    between = ":" if used.kind is Footing.GARDEN else "."  # the gardener's own words begin small
    words = f"The crop’s {_days_of(duration)} days: {ground.removesuffix('.')}"
    return f"{words}{between} {used.note}" if used.note else f"{words}."


def stood_table(garden: Garden, holding: Holding, history: PlantingHistory) -> Table:
    """Return the squares a planting had, from when to when, and how well that is known."""
    squares = sorted({hold.square for hold in history.holds}, key=by_row)
    spells = grouped(squares, lambda square: _spells(history, square))
    seen: dict[Square, set[date]] = {}
    for square, day, key in holding.sightings:
        if key == history.planting.key:
            seen.setdefault(square, set()).add(day)
    rows = [
        Row(
            cells=(
                text(names.place_words(garden, together)),
                text(days_words(first, last)),
                text(grade.word, _sighted(together, seen, first, last) if grade is Grade.IMPLIED else ""),
            ),
            mark="planned" if grade is Grade.PLANNED else "",
        )
        for alike, together in spells.items()
        for first, last, grade in alike
    ]
    return Table(
        ident="stood",
        caption="Squares it had, and how that is known",
        heads=heads("Squares", "Days", "How known"),
        rows=tuple(rows),
    )


def _spells(history: PlantingHistory, square: Square) -> tuple[tuple[date, date, Grade], ...]:
    """Return a square's days in spells; single days of sight join the days around them."""
    found: list[tuple[date, date, Grade]] = []
    for hold in history.holds:
        if hold.square != square:
            continue
        grade = max(hold.grade, Grade.IMPLIED)
        if found and found[-1][2] is grade and (hold.first - found[-1][1]).days == 1:
            found[-1] = (found[-1][0], hold.last, grade)
        else:
            found.append((hold.first, hold.last, grade))
    return tuple(found)


def _sighted(squares: Iterable[Square], seen: Mapping[Square, set[date]], first: date, last: date) -> str:
    """Return on how many of these days the log names the planting in the squares."""
    days = {day for square in squares for day in seen.get(square, ()) if first <= day <= last}
    return f"seen on {figured(len(days), 'day')}" if days else ""


def plan_words(garden: Garden, planned: PlanRow | None) -> str:
    """Return in one sentence what the plan meant for a planting."""
    if planned is None:
        return "It is not in the plan; the log or the ledger tells of it."
    parts = []
    if planned.sow_indoors:
        parts.append(f"sow indoors {without_year(planned.sow_indoors)}")
    if planned.pot_up:
        parts.append(f"pot up {without_year(planned.pot_up)}")
    where = names.place_words(garden, planned.squares)
    if planned.start is Start.CARRIED:
        parts.append(f"left standing from {planned.carried_from} in {where}")
    else:
        parts.append(f"{BEGINS[planned.start]} {without_year(planned.begins)} in {where}")
    until = f"clear {without_year(planned.until)}" if planned.until_told else "there to the season’s end"
    said = sentence(f"by the plan: {', '.join(parts)}", until)
    if planned.dropped:
        why = f": {planned.because}" if planned.because else ""
        said += f" {sentence(f'it was dropped on {without_year(planned.dropped)}{why}')}"
    return said
