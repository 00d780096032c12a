"""A bed in a season: its chief month's map, its months side by side, and its measures."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.days import without_year
from tallybed.garden.plurals import figured
from tallybed.garden.squares import Bed, in_words
from tallybed.pages.drawings.contact_sheets import contact_sheet
from tallybed.pages.drawings.months import MonthItem, bed_months
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import months_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.season.bed_month import month_data
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text, without_empty_columns
from tallybed.pages.wording.dated import in_season, month_name
from tallybed.pages.wording.lying import untold
from tallybed.pages.wording.sentences import END_COUNTED
from tallybed.reckoning.beds import month_of, months_of
from tallybed.reckoning.calendar.month import BedMonth, over_by_plan
from tallybed.reckoning.calendar.month_state import MonthState
from tallybed.reckoning.year import Year, Years

_WINDS = ("north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west")


def pages(year: Year, only: str | None = None) -> Iterator[Page]:
    """Yield each bed's page in a season, or the one at ``only``."""
    wanted = (bed for bed in year.garden.beds if only in (None, addresses.bed(year, bed)))
    return (_page(year, bed, months_of(year, bed)) for bed in wanted)


def _page(year: Year, bed: Bed, months: tuple[BedMonth, ...]) -> Page:
    """Return a bed's page in a season."""
    items = bed_months(year, bed).months
    chief = year.chief_month
    return Page(
        path=addresses.bed(year, bed),
        template="bed.html",
        title=f"{bed.title} {in_season(year)}",
        description=f"{bed.title} {in_season(year)}: a map of what stands in each square, and every month.",
        kind="bed",
        data={
            "trail": below_season(year, here=bed.title),
            "note": bed.note,
            "month": month_name(year, chief),
            **month_data(year, bed, month_of(year, bed, chief)),
            "contact": contact_sheet(year, bed),
            "month_table": _month_table(items, months, bed),
            "facts": bed_facts(year.years, bed),
            "sheet": Link("A sheet for marking it out", addresses.marking(bed)),
            **months_beside(year, bed, chief, addresses.bed_month),
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
                mark="planned" if item.state is MonthState.PLANNED else "",
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
        counted = f"{share} of it is counted with this bed"
        rows.append(("Path", f"{showing.length(path.width)} wide along side {path.side}; {counted}"))
    for ground in bed.run_outs:
        where = in_words(ground.squares, with_bed=False)
        words = f"vines may be led {showing.length(ground.reach)} out before {where}"
        rows.append(("Run-out", words))
    return Table(
        ident="facts",
        caption=f"Measures of {bed.called}",
        heads=heads("Measure", "Value"),
        rows=tuple(Row(cells=(text(name), text(words))) for name, words in rows),
    )


def _lie(bed: Bed) -> str:
    """Return which way the bed's letters and numbers run."""
    along = _wind(int(bed.bearing))
    across = _wind(int(bed.bearing) + 90)
    taken = "" if bed.bearing_told else f"; that is taken: {untold(bed)}"
    return f"from the marked corner the letters run {along}, the row numbers {across}{taken}"


def _wind(bearing: int) -> str:
    """Return the direction of a bearing in degrees, to the nearest of eight."""
    return _WINDS[round(bearing % 360 / 45) % 8]
