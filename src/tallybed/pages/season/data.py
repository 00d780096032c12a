"""The page that explains a season's files for reuse, column by column."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from tallybed.garden.days import in_full
from tallybed.garden.plurals import figured
from tallybed.pages.files.data.datasets import datasets
from tallybed.pages.files.data.tables import Column, ColumnType, Dataset
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.frame.which_pages import has_data
from tallybed.pages.tables.tables import Row, Table, heads, text
from tallybed.pages.wording.sentences import listed
from tallybed.reckoning.year import Year

NOTES = (
    "A cell is empty where nothing was told. Nothing is filled in: a picking that nobody weighed has no "
    "weight, and the sum of a column is then at least as much as was picked.",
    "Weights are exact to a milligram; lengths are in millimetres where a column’s name tells no unit. Dates "
    "are written year-month-day, truth as true and false, decimals with a point.",
    "In the CSV files a text that begins with = + - @ or an apostrophe has one more apostrophe before it, so "
    "that no spreadsheet takes it for a formula. Take that one off, and the text is as it was written. "
    "The JSON files have no such sign.",
    "A planting has one name in all files: its tag, else the last word of its page’s address. Its area, as "
    "pages reckon with it, counts each square that it ever held (stood.csv) as a whole one.",
    "CSV files are in UTF-8, their lines ended as RFC 4180 asks. A spreadsheet that opens one and guesses "
    "another encoding shows other letters wrongly: import the file instead, and choose Unicode (UTF-8). The "
    "description for programs is a Data Package with a Table Schema for each file.",
)
_PAPERS = frozenset({"ledger", "plan", "log"})
_TYPES = {
    ColumnType.STRING: "text",
    ColumnType.INTEGER: "whole number",
    ColumnType.NUMBER: "number",
    ColumnType.BOOLEAN: "true or false",
    ColumnType.DATE: "date",
}

_UNITS = {"in": "inches"}
"""Units that would be read as another word after "in"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DataPart:
    """A table to take along: where its files lie, and what its columns hold."""

    ident: str
    title: str
    meaning: str
    rows: str
    files: tuple[Link, ...]
    columns: Table


def citation(year: Year, day: str) -> str:
    """Return the sentence by which a season's data are cited, as of a day in words."""
    where = addresses.data(year)
    address = f" {addresses.absolute(year.garden.address, where)}" if year.garden.address else ""
    return f"{year.garden.name}: plan, log and ledger of {year.name}, as of {day}.{address}"


def pages(year: Year) -> Iterator[Page]:
    """Yield the page of a season that has data."""
    if has_data(year):
        yield _page(year)


def _page(year: Year) -> Page:
    """Return the page that explains a season's files."""
    found = datasets(year)
    named = [one.name for one in found if one.name in _PAPERS]
    papers, them = listed(named), "them" if len(named) > 1 else "it"
    return Page(
        path=addresses.data(year),
        template="data.html",
        title=f"Data of {year.name}",
        description=f"The {papers} of {year.name}, and what follows from {them}, as files for spreadsheets "
        "and programs, every column explained.",
        kind="data",
        data={
            "trail": below_season(year, here="Data"),
            "lead": f"The {papers} of {year.name}, and what follows from {them}, as files: to count again or "
            "to go on with.",
            "cite": citation(year, in_full(year.as_of)),
            "licence": year.garden.licence or year.garden.licence_address,
            "package": addresses.data_file(year, "datapackage.json"),
            "parts": tuple(_part(year, one) for one in found),
            "notes": NOTES,
            **seasons_beside(year, _link),
        },
    )


def _link(year: Year) -> Link | None:
    """Return the link to a season's data; None where it has none."""
    return Link(f"Data of {year.name}", addresses.data(year)) if has_data(year) else None


def _part(year: Year, one: Dataset) -> DataPart:
    """Return one table to take along."""
    return DataPart(
        ident=one.name,
        title=one.title,
        meaning=one.meaning,
        rows=figured(len(one.rows), "row"),
        files=tuple(
            Link(f"{one.name}.{ending}", addresses.data_file(year, f"{one.name}.{ending}"))
            for ending in ("csv", "json")
        ),
        columns=Table(
            ident=f"t-{one.name}",
            caption=f"Columns of {one.name}.csv",
            heads=heads("Column", "Holds"),
            rows=tuple(_row(column) for column in one.columns),
        ),
    )


def _row(column: Column[Any]) -> Row:
    """Return a column's name, meaning and type."""
    said = (
        _TYPES[column.kind],
        f"in {_UNITS.get(column.unit, column.unit)}" if column.unit else "",
        f"one of: {', '.join(column.choices)}" if column.choices else "",
        "never empty" if column.required else "",
    )
    return Row(cells=(text(column.name), text(column.meaning, "; ".join(filter(None, said)))))
