"""A bed over a season: its months side by side, and a page for each month."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.days import Month, in_full, without_year
from tallybed.garden.squares import Bed, in_words
from tallybed.pages.drawings.contact_sheets import contact_sheet
from tallybed.pages.drawings.maps import legend_parts, month_maps
from tallybed.pages.drawings.months import PLANNED, RECORDED, RUNNING, MonthItem, bed_months, month_name
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.tables.holders_table import changes_table, groups
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text, without_empty_columns
from tallybed.pages.wording.sentences import (
    END_COUNTED,
    NO_LOG,
    NO_PLAN,
    NOTHING_ON_RECORD,
    PLANNED_MONTH,
    RUNNING_MONTH,
    figured,
    span_words,
)
from tallybed.reckoning.calendar.month import BedMonth, over_by_plan
from tallybed.reckoning.year import Year, Years

_WINDS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")


def pages(years: Years) -> Iterator[Page]:
    """Yield each bed's pages in each season."""
    for year in years.all:
        for bed in years.garden.beds:
            months = year.months(bed)
            yield _bed(year, bed, months)
            for month in months:
                yield _month(year, bed, month)


def unknown(year: Year) -> tuple[str, ...]:
    """Return what cannot be said of the beds for want of a plan or a log."""
    found = []
    if year.season.plan is None:
        found.append(NO_PLAN)
    if year.season.log is None:
        found.append(NO_LOG)
    return tuple(found)


def _bed(year: Year, bed: Bed, months: tuple[BedMonth, ...]) -> Page:
    items = bed_months(year, bed).months
    return Page(
        path=addresses.bed(year, bed),
        template="bed.html",
        title=f"{bed.title} in {year.name}",
        description=f"{bed.title} month by month in {year.name}: what stood in each square.",
        kind="bed",
        data={
            "trail": (Link(f"Season {year.name}", addresses.season(year)), Link(bed.title, "")),
            "bed": bed.title,
            "note": bed.note,
            "unknown": unknown(year),
            "contact": contact_sheet(year, bed),
            "months": _month_table(items, months, bed),
            "facts": bed_facts(year.years, bed),
            "sheet": Link("A sheet for marking it out", addresses.marking(bed)),
            **seasons_beside(year, lambda one: Link(f"{bed.title} in {one.name}", addresses.bed(one, bed))),
        },
    )


def _month_table(items: tuple[MonthItem, ...], months: tuple[BedMonth, ...], bed: Bed) -> Table:
    """Return how full the bed is in each month, on the day its map shows."""
    columns = ("Plantings", "Squares held", "Over, end supposed", "Bare", "Changes")
    rows = []
    for item, month in zip(items, months, strict=True):
        held = {one.square for one in month.holders if one.first <= month.as_of <= one.last}
        over = len(over_by_plan(month))
        rows.append(
            Row(
                cells=(
                    Cell(text=item.name, to=item.to, note=item.said),
                    text(without_year(month.as_of)),
                    figure(f"{len({one.planting for one in month.holders}):,}"),
                    figure(f"{len(held):,}"),
                    figure(f"{over:,}" if over else ""),
                    figure(f"{len(bed.squares) - len(held) - over:,}"),
                    figure(f"{len(month.changes):,}"),
                ),
                mark="planned" if item.kind == "planned" else "",
            )
        )
    notes = ["Squares are counted on the day of the map, plantings and changes in the whole month."]
    if any(row.cells[4].text for row in rows):
        notes.append(END_COUNTED)
    return without_empty_columns(
        Table(
            ident="months-table",
            caption=f"{bed.title} month by month",
            heads=heads("Month", "Map of", *columns, numbers=columns),
            rows=tuple(rows),
            notes=tuple(notes),
        )
    )


def bed_facts(years: Years, bed: Bed) -> Table:
    """Return a bed's measures as a table."""
    showing = years.garden.showing
    rows = [
        ("Size", f"{showing.length(bed.side * bed.columns)} by {showing.length(bed.side * bed.rows)}"),
        ("Squares", f"{figured(len(bed.squares), 'square')} of {showing.length(bed.side)} each way"),
        ("Area", showing.area(bed.square_feet)),
        ("Direction", _lie(bed)),
    ]
    for trellis in bed.trellises:
        where = in_words(trellis.squares, with_bed=False)
        rows.append(("Trellis", f"{showing.length(trellis.height)} high along {where}"))
    for path in bed.paths:
        share = "all" if path.share == 1 else str(path.share)
        words = f"{showing.length(path.width)} wide along side {path.side}; {share} of it counts to this bed"
        rows.append(("Path", words))
    for ground in bed.run_outs:
        where = in_words(ground.squares, with_bed=False)
        words = f"vines may be led {showing.length(ground.reach)} out before {where}"
        rows.append(("Run-out", words))
    return Table(
        ident="facts",
        caption=f"Measures of {bed.title[0].lower()}{bed.title[1:]}" if bed.title else "Measures",
        heads=heads("Measure", "Value"),
        rows=tuple(Row(cells=(text(name), text(words))) for name, words in rows),
    )


def _lie(bed: Bed) -> str:
    along = _wind(int(bed.bearing))
    across = _wind(int(bed.bearing) + 90)
    return f"from the marked corner the letters run {along}, the row numbers {across}"


def _wind(bearing: int) -> str:
    return _WINDS[round(bearing % 360 / 45) % 8]


def _month(year: Year, bed: Bed, month: BedMonth) -> Page:
    name = f"{bed.title} in {month.month}"
    plantings = {planting.key: planting for planting in year.plantings}
    here = addresses.bed_month(year, bed, month.month)
    return Page(
        path=here,
        template="bed_month.html",
        title=name,
        description=f"{name}: a map of what stands in each square, the same in a table, and what changed.",
        kind="bed month",
        data={
            "trail": (
                Link(f"Season {year.name}", addresses.season(year)),
                Link(bed.title, addresses.bed(year, bed)),
                Link(month_name(year, month.month), ""),
            ),
            "kind": month.kind,
            "lead": _lead(month),
            "unknown": unknown(year),
            "maps": month_maps(year.garden, month, here, ident="map"),
            "legend": legend_parts(year.garden, month),
            "nothing": NOTHING_ON_RECORD,
            "groups": tuple(groups(year.years, bed, month, plantings)),
            "changes": changes_table(year, month, plantings) if month.changes else None,
            "months": bed_months(year, bed, month.month),
            "others": tuple(_others(year, bed, month.month)),
            "before": _neighbour(year, bed, month.month, -1),
            "after": _neighbour(year, bed, month.month, 1),
        },
    )


def _lead(month: BedMonth) -> str:
    shown = f"The map shows the bed on {without_year(month.as_of)}."
    whole = month.first == month.month.first and month.last == month.month.last
    season = "" if whole else f"The season has {span_words(month.first, month.last)} of it."
    said = {
        PLANNED: f"{PLANNED_MONTH} {shown}",
        RUNNING: f"As of {in_full(month.as_of)}. {RUNNING_MONTH.format(day=without_year(month.as_of))}",
        RECORDED: shown,
    }
    return " ".join(part for part in (said[month.kind], season) if part)


def _others(year: Year, bed: Bed, month: Month) -> Iterator[Link]:
    """Yield the other beds in this month, and this bed in the same month of other seasons."""
    for other in year.garden.beds:
        if other.name != bed.name:
            yield Link(f"{other.title} in {month.name}", addresses.bed_month(year, other, month))
    for season in reversed(year.years.all):
        for same in season.season.span.months:
            if season.name != year.name and same.month == month.month:
                yield Link(f"{bed.title} in {same}", addresses.bed_month(season, bed, same))


def _neighbour(year: Year, bed: Bed, month: Month, step: int) -> Link | None:
    months = year.season.span.months
    place = months.index(month) + step
    if not 0 <= place < len(months):
        return None
    return Link(month_name(year, months[place]), addresses.bed_month(year, bed, months[place]))
