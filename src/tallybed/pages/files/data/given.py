"""Where a season's pickings went as a table for reuse: one row a weighing and place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tallybed.garden.grouping import grouped
from tallybed.garden.units import Weight, total
from tallybed.pages.files.data.tables import Column, ColumnType, Dataset, grams, number, rows_of, text
from tallybed.reckoning.harvest.tally import NOT_TOLD, TallyLine
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenRecord:
    """What one place got of one weighing."""

    row: int
    to: str
    weight: Weight | None
    """None where it was not weighed."""


COLUMNS: tuple[Column[GivenRecord], ...] = (
    Column(
        name="row",
        kind=ColumnType.INTEGER,
        meaning="Row of the weighing in ledger.csv",
        value=lambda one: one.row,
        required=True,
    ),
    text(
        "to",
        "Where it went; a place written in several ways is called by the most frequent",
        lambda one: one.to,
        required=True,
    ),
    number(
        "grams",
        "Weight that went there, to a milligram; empty where it was not weighed",
        "g",
        lambda one: grams(one.weight),
    ),
)
"""Add a column here."""


def given(year: Year) -> Dataset:
    """Return where a season's pickings went as a table; a weighing that names no place has no row."""
    return Dataset(
        name="given",
        title=f"Where the pickings of {year.name} went",
        meaning="What each place got of each weighing: one row a weighing and place. A weighing that names "
        "no place has none; one that is in no total (in_total in ledger.csv) belongs in no sum of this file.",
        key=("row", "to"),
        columns=COLUMNS,
        rows=rows_of(COLUMNS, _records(year.lines)),
    )


def _records(lines: Iterable[TallyLine]) -> Iterator[GivenRecord]:
    """Yield what each place got of each weighing, in the ledger's order."""
    told = (line for line in lines if line.destination != NOT_TOLD)
    parts = grouped(told, lambda line: (line.weighing, line.destination))
    for (weighing, place), own in parts.items():
        weight = total(line.weight for line in own) if own[0].weighed else None
        yield GivenRecord(row=weighing + 1, to=place, weight=weight)
