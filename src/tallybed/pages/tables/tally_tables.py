"""The tally's cuts as tables: by crop and month, by week, by square, and by whatever else a line knows."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from typing import cast

from tallybed.garden.days import Month, Week
from tallybed.garden.squares import Bed, Square, column_letters
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
    without_empty_columns,
)
from tallybed.pages.wording import names, sums
from tallybed.pages.wording.sentences import NOT_TOLD, days_words
from tallybed.reckoning.harvest.tally import BY, TallyLine, Total, added, running, tally
from tallybed.reckoning.year import Year, Years

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
            heads=heads(of, *columns, numbers=columns),
            rows=tuple(_row(showing, called(key), total) for key, total in totals.items()),
        )
    )


def weight(showing: Showing, total: Total) -> Cell:
    """Return a total as a figure without its unit, with ``at least`` or ``not weighed`` below it."""
    if total.pickings and total.unweighed == total.pickings:
        return Cell(number=True, note="not weighed")
    words = sums.fine_weight(showing, total.weight)
    return Cell(text=words, number=True, note="at least" if total.at_least else "")


def _row(showing: Showing, name: Link, total: Total, mark: str = "") -> Row:
    """Return one line of a cut of the tally."""
    return Row(
        cells=(
            link(name),
            weight(showing, total),
            figure(sums.pieces(total.count)),
            figure(f"{total.pickings:,}"),
            figure(f"{total.unweighed:,}" if total.unweighed else ""),
            figure(sums.fine_weight(showing, total.estimated) if total.estimated else ""),
        ),
        mark=mark,
    )


def crop_month_table(year: Year, *, ident: str) -> Table:
    """Return each crop's weight in each month, with totals, and the running total below."""
    showing = year.garden.showing
    months = _months(year.lines)
    by_crop = _grouped(year.lines, BY["crop"])
    rows = [
        _month_row(showing, names.key_link(year.garden, str(key)), by_crop[key], months)
        for key in sorted(by_crop, key=lambda key: _crop_order(year.years, str(key)))
    ]
    whole = _month_row(showing, Link("All crops", ""), year.lines, months, mark="total")
    so_far = running([line for line in year.lines if line.counts], BY["month"])
    cells = [weight(showing, so_far[month]) for month in months]
    total = _month_row(showing, Link("Running total", ""), year.lines, months).cells[-1]
    run = Row(cells=(text("Running total"), *cells, total), mark="total")
    return Table(
        ident=ident,
        caption=f"Weight of each crop in each month of {year.name}, in {showing.unit}",
        heads=(
            ColumnHead(text="Crop"),
            *(ColumnHead(text=_month_word(year, month), number=True) for month in months),
            ColumnHead(text="Season", number=True),
        ),
        rows=tuple(rows),
        foot=(whole, run),
    )


def _month_row(
    showing: Showing, name: Link, lines: Sequence[TallyLine], months: Sequence[Month], mark: str = ""
) -> Row:
    """Return a line of weights month by month, and their sum."""
    by_month = tally(lines, BY["month"])
    cells = [weight(showing, by_month[month]) if month in by_month else figure("") for month in months]
    return Row(cells=(link(name), *cells, weight(showing, added(lines))), mark=mark)


def _months(lines: Iterable[TallyLine]) -> list[Month]:
    """Return each month from the first picking to the last."""
    found = sorted({Month.of(line.day) for line in lines if line.counts})
    every = [found[0]] if found else []
    while every and every[-1] < found[-1]:
        every.append(every[-1].following)
    return every


def _month_word(year: Year, month: Month) -> str:
    """Return a month's short name, with its year where that is not the season's first."""
    word = month.name[:3]
    return word if month.year == year.season.span.first.year else f"{word} {month.year}"


def _grouped(
    lines: Iterable[TallyLine], cut: Callable[[TallyLine], Hashable]
) -> dict[Hashable, list[TallyLine]]:
    """Return the lines that count, by what ``cut`` tells of each."""
    groups: dict[Hashable, list[TallyLine]] = {}
    for line in lines:
        if line.counts:
            groups.setdefault(cut(line), []).append(line)
    return groups


def _crop_order(years: Years, key: str) -> tuple[bool, str]:
    """Return what crops are put in order by: their name, what was not told last."""
    return (not key, names.key_link(years.garden, key).text.casefold())


def week_table(year: Year, *, ident: str) -> Table:
    """Return each week's weight and the running total with it; weeks of no picking are left out."""
    showing = year.garden.showing
    by_week = year.sums("week")
    so_far = running([line for line in year.lines if line.counts], BY["week"])
    columns = (f"Weight, {showing.unit}", f"Running total, {showing.unit}", "Pickings", "Not weighed")
    rows = []
    for key, total in by_week.items():
        week = cast("Week", key)
        rows.append(
            Row(
                cells=(
                    Cell(
                        text=days_words(week.first, week.last),
                        to=addresses.bulletin(year, week),
                        note=f"week {week.number}",
                    ),
                    weight(showing, total),
                    weight(showing, so_far[week]),
                    figure(f"{total.pickings:,}"),
                    figure(f"{total.unweighed:,}" if total.unweighed else ""),
                )
            )
        )
    table = Table(
        ident=ident,
        caption=f"Weight of each week, {year.name}",
        heads=heads("Week", *columns, numbers=columns),
        rows=tuple(rows),
        notes=(
            "Weeks run from Monday to Sunday and are numbered as ISO 8601 does; each leads to its bulletin.",
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
    )


def _square_cell(showing: Showing, bed: Bed, square: Square, totals: Mapping[Hashable, Total]) -> Cell:
    """Return what one square gave, or that there is no such square."""
    if not bed.has(square):
        return Cell(text="no square", number=True)
    if square not in totals:
        return Cell(text="–", number=True)
    return weight(showing, totals[square])


def plain_name(key: Hashable) -> Link:
    """Call a key by its own text, or say that it was not told."""
    return Link(str(key) or NOT_TOLD, "")


def again_weighed(year: Year) -> tuple[Weight, int]:
    """Return weight and number of the cured and dried weighings that join no total."""
    kept = [line for line in year.lines if not line.counts]
    return summed(line.weight for line in kept), len({line.weighing for line in kept})
