"""The tally's cuts as tables: by crop and month, by week, by square, and by whatever else a line knows."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import cast

from tallybed.garden.days import Month, Week, months_between, weeks_between
from tallybed.garden.squares import Bed, Square, column_letters, in_words
from tallybed.garden.units import Showing, Weight
from tallybed.garden.units import total as summed
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.tables.tables import (
    Cell,
    ColumnHead,
    Row,
    Table,
    figure,
    heads,
    link,
    text,
    without_column,
    without_empty_columns,
)
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.dated import short_month_name
from tallybed.pages.wording.sentences import NOT_TOLD, days_words
from tallybed.reckoning.harvest.tally import (
    BY,
    TallyLine,
    Total,
    added,
    counted_by,
    heaviest_first,
    running,
    tally,
)
from tallybed.reckoning.year import Year

OF_IT = "Of it cured or dried"
Called = Callable[[Hashable], Link]
"""What a key of a cut is called."""


def cut_table(
    showing: Showing, totals: Mapping[Hashable, Total], called: Called, *, ident: str, caption: str, of: str
) -> Table:
    """Return totals as rows: weight, pieces, pickings, and what was estimated or not weighed."""
    columns = (f"Weight, {showing.unit}", "Pieces", "Pickings", "Not weighed", "Of it estimated")
    return without_empty_columns(
        Table(
            ident=ident,
            caption=caption,
            heads=heads(of, *columns, OF_IT, numbers=columns),
            rows=tuple(_row(showing, called(key), total) for key, total in totals.items()),
        )
    )


def weight(showing: Showing, total: Total) -> Cell:
    """Return a total as a figure without its unit, with ``at least`` or ``not weighed`` below it."""
    if total.pickings and total.unknown:
        return Cell(number=True, note="not weighed")
    return weight_cell(showing, total.weight, at_least=total.at_least)


def weight_and_cured(showing: Showing, total: Total) -> Cell:
    """Return the same, and below it too what of it was weighed cured or dried: a column less."""
    cell = weight(showing, total)
    notes = (cell.note, sums.cured_part(showing, total, sums.FINE))
    return replace(cell, note=", ".join(filter(None, notes)))


def weight_cell(showing: Showing, amount: Weight, *, at_least: bool) -> Cell:
    """Return a weight as a figure without its unit, with ``at least`` below it where more was picked."""
    before, number = sums.large(sums.fine_weight(showing, amount), at_least=at_least)
    return Cell(text=number, number=True, note=before)


def signed(showing: Showing, total: Total) -> Cell:
    """Return a total as a figure without its unit, with ``≥`` before it where the true figure is more.

    The page says once what the sign means (``AT_LEAST``).
    """
    if total.pickings and total.unknown:
        return Cell(number=True, note="not weighed")
    return figure(sums.signed(showing, total))


def cured(showing: Showing, total: Total) -> Cell:
    """Return what of a total was weighed cured or dried, as words beside its figure."""
    return text(sums.cured_part(showing, total, sums.FINE))


def crop_seasons_table(
    views: Sequence[Year], rows: Sequence[Row], *, ident: str, caption: str, notes: tuple[str, ...] = ()
) -> Table:
    """Return rows of crops with a weight for each season and, in the last cell, what of it was cured."""
    table = Table(
        ident=ident,
        caption=caption,
        heads=(
            ColumnHead(text="Crop"),
            *(ColumnHead(text=year.name, number=True) for year in views),
            ColumnHead(text=OF_IT),
        ),
        rows=tuple(rows),
        notes=notes,
    )
    return table if any(row.cells[-1].text for row in rows) else without_column(table, OF_IT)


def by_season(showing: Showing, totals: Iterable[tuple[str, Total]]) -> str:
    """Return ``2024: 2.50 lb cured; 2025: …`` for the seasons of which something was."""
    told = ((name, sums.cured_part(showing, total, sums.FINE)) for name, total in totals)
    return "; ".join(f"{name}: {words}" for name, words in told if words)


def _row(showing: Showing, name: Link, total: Total) -> Row:
    """Return one line of a cut of the tally."""
    return Row(
        cells=(
            link(name),
            signed(showing, total),
            figure(sums.pieces(total.count)),
            figure(f"{total.pickings:,}"),
            figure(f"{total.unweighed:,}" if total.unweighed else ""),
            figure(sums.fine_weight(showing, total.estimated) if total.estimated else ""),
            cured(showing, total),
        ),
    )


def crop_month_table(year: Year) -> Table:
    """Return each crop's weight in each month, heaviest first, with totals and the running total below."""
    showing = year.garden.showing
    months = _months(year.lines)
    by_crop = counted_by(BY["crop"], year.lines)
    rows = [
        _month_row(showing, names.listed_key(year.garden, str(key)), by_crop[key], months)
        for key in heaviest_first(year.sums("crop"))
    ]
    whole = _month_row(showing, Link("All crops", ""), year.lines, months, mark="total")
    so_far = running(year.lines, BY["month"], months)
    cells = [signed(showing, so_far[month]) for month in months]
    run = Row(cells=(text("Running total"), *cells, *whole.cells[-2:]), mark="total")
    by_month = tally(year.lines, BY["month"])
    parts = (
        _of_it(showing, "All crops", [by_month.get(month, Total()) for month in months]),
        _of_it(showing, "Running total", [so_far[month] for month in months]),
    )
    table = Table(
        ident="t-crops",
        caption=f"Weight of each crop in each month of {year.name}, in {showing.unit}",
        heads=(
            ColumnHead(text="Crop"),
            *(ColumnHead(text=short_month_name(year, month), number=True) for month in months),
            ColumnHead(text="Season", number=True),
            ColumnHead(text=OF_IT),
        ),
        rows=tuple(rows),
        foot=tuple(row for row in (whole, parts[0], run, parts[1]) if row),
    )
    return without_column(table, OF_IT) if parts == (None, None) else table


def _of_it(showing: Showing, name: str, totals: Sequence[Total]) -> Row | None:
    """Return what of each month's total was weighed cured or dried, as a row; None where nothing was."""
    cells = [cured(showing, total) for total in totals]
    if not any(cell.text for cell in cells):
        return None
    return Row(cells=(text(f"{name}: {OF_IT.lower()}"), *cells, Cell(), Cell()), mark="total")


def _month_row(
    showing: Showing, name: Link, lines: Sequence[TallyLine], months: Sequence[Month], mark: str = ""
) -> Row:
    """Return a line of weights month by month, and their sum."""
    by_month = tally(lines, BY["month"])
    cells = [signed(showing, by_month[month]) if month in by_month else figure("") for month in months]
    total = added(lines)
    return Row(cells=(link(name), *cells, signed(showing, total), cured(showing, total)), mark=mark)


def _months(lines: Iterable[TallyLine]) -> tuple[Month, ...]:
    """Return the months from the first picking to the last, those without one too."""
    days = sorted({line.day for line in lines if line.counts})
    return months_between(days[0], days[-1]) if days else ()


def week_table(year: Year) -> Table:
    """Return each week's weight and the running total with it, from the first picking to the last.

    A week in between without a record stands there too: the ledger is silent of it.
    """
    showing = year.garden.showing
    by_week = year.sums("week")
    told = sorted(cast("Week", week) for week in by_week)
    weeks = weeks_between(told[0].first, told[-1].first) if told else ()
    so_far = running(year.lines, BY["week"], weeks)
    columns = (f"Weight, {showing.unit}", f"Running total, {showing.unit}", "Pickings", "Not weighed")
    rows = []
    for week in weeks:
        total = by_week.get(week)
        recorded = week in year.weeks
        rows.append(
            Row(
                cells=(
                    Cell(
                        text=days_words(week.first, week.last),
                        to=addresses.bulletin(year, week) if recorded else "",
                        note=f"week {week.number}" if recorded else f"week {week.number}, nothing on record",
                    ),
                    signed(showing, total) if total else figure("–"),
                    signed(showing, so_far[week]),
                    figure(f"{total.pickings:,}" if total else "–"),
                    figure(f"{total.unweighed:,}" if total and total.unweighed else ""),
                    cured(showing, total or Total()),
                    cured(showing, so_far[week]),
                )
            )
        )
    table = Table(
        ident="t-weeks",
        caption=f"Weight of each week, {year.name}",
        heads=heads("Week", *columns, OF_IT, "Of the running total", numbers=columns),
        rows=tuple(rows),
        notes=(
            "Weeks run from Monday to Sunday and are numbered as ISO 8601 does; each with a record leads to "
            "its bulletin. A line in a cell means that no picking is on record.",
        ),
    )
    return without_empty_columns(table)


def square_table(year: Year, bed: Bed, *, ident: str) -> Table:
    """Return a bed's weights laid out as the bed is: columns by letter, rows by number."""
    showing = year.garden.showing
    totals = year.sums("square")
    rows = []
    for row in range(bed.rows):
        squares = (Square(bed.name, column, row) for column in range(bed.columns))
        cells = (_square_cell(showing, bed, square, totals) for square in squares)
        rows.append(Row(cells=(text(str(row + 1)), *cells)))
    letters = (ColumnHead(text=column_letters(column), number=True) for column in range(bed.columns))
    return Table(
        ident=ident,
        caption=f"{bed.title}: weight from each square, in {showing.unit}",
        heads=(ColumnHead(text="Row"), *letters),
        rows=tuple(rows),
        notes=tuple(_cured_squares(showing, bed, totals)),
    )


def _cured_squares(showing: Showing, bed: Bed, totals: Mapping[Hashable, Total]) -> Iterator[str]:
    """Yield in sentences what of the squares' weights was weighed cured or dried."""
    alike: dict[str, list[Square]] = {}
    for square in bed.squares:
        words = sums.cured(showing, totals[square], sums.FINE) if square in totals else ""
        if words:
            alike.setdefault(words, []).append(square)
    for words, squares in alike.items():
        each = " in each" if len(squares) > 1 and not words.startswith("all of it") else ""
        yield f"{in_words(squares, with_bed=False)}: {words}{each}."


def _square_cell(showing: Showing, bed: Bed, square: Square, totals: Mapping[Hashable, Total]) -> Cell:
    """Return what one square gave, or that there is no such square."""
    if not bed.has(square):
        return Cell(text="no square", number=True)
    if square not in totals:
        return Cell(text="–", number=True)
    return signed(showing, totals[square])


def plain_name(key: Hashable) -> Link:
    """Call a key by its own text, or say that it was not told."""
    return Link(str(key) or NOT_TOLD, "")


def again_weighed(year: Year) -> tuple[Weight, int]:
    """Return weight and number of the weighings that join no total: their picking counts by another."""
    kept = [line for line in year.lines if not line.counts and line.weighed]
    return summed(line.weight for line in kept), len({line.weighing for line in kept})
