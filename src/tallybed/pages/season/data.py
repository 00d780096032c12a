"""The page that explains a season's files for reuse, column by column."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.days import in_full
from tallybed.garden.garden import Garden
from tallybed.pages.files.data_columns import Column, ColumnType
from tallybed.pages.files.data_rows import Dataset, datasets
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.tables.tables import Row, Table, heads, text
from tallybed.pages.wording.sentences import listed

NOTES = (
    "A cell is empty where nothing was told. Nothing is filled in: a picking that nobody weighed has no "
    "weight, and the sum of a column is then at least as much as was picked.",
    "Weights are exact to a milligram, lengths are in millimetres. Dates are written year-month-day, truth "
    "as true and false, decimals with a point.",
    "In the CSV files a text that begins with = + - @ or an apostrophe has one more apostrophe before it, so "
    "that no spreadsheet takes it for a formula. Take that one off, and the text is as it was written. "
    "The JSON files have no such sign.",
    "CSV files are in UTF-8, their lines ended as RFC 4180 asks. The description for programs is a Data "
    "Package with a Table Schema for each file.",
)
_TYPES = {
    ColumnType.STRING: "text",
    ColumnType.INTEGER: "whole number",
    ColumnType.NUMBER: "number",
    ColumnType.BOOLEAN: "true or false",
    ColumnType.DATE: "date",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class DataPart:
    """A table to take along: where its files lie, and what its columns hold."""

    ident: str
    title: str
    meaning: str
    rows: str
    files: tuple[Link, ...]
    columns: Table


def has_data(view: SeasonView) -> bool:
    """Return whether a season has a paper to make a table of."""
    season = view.season
    return any(paper is not None for paper in (season.plan, season.log, season.ledger))


def citation(garden: Garden, view: SeasonView, day: str) -> str:
    """Return the sentence by which a season's data are cited, as of a day in words."""
    where = addresses.data(view)
    address = f" {addresses.absolute(garden.address, where)}" if garden.address else ""
    return f"{garden.name}: plan, log and ledger of {view.name}, as of {day}.{address}"


def pages(site: Site) -> Iterator[Page]:
    """Yield the page of each season that has data."""
    for view in site.seasons:
        if has_data(view):
            yield _page(site, view)


def _page(site: Site, view: SeasonView) -> Page:
    found = datasets(site.garden, view)
    papers = listed(one.name for one in found)
    return Page(
        path=addresses.data(view),
        template="data.html",
        title=f"Data of {view.name}",
        description=f"The {papers} of {view.name} as files for spreadsheets and programs, "
        "every column explained.",
        kind="data",
        data={
            "trail": (Link(f"Season {view.name}", addresses.season(view)), Link("Data", "")),
            "lead": f"The {papers} of {view.name} as files, to count again or to go on with.",
            "cite": citation(site.garden, view, in_full(site.today)),
            "licence": site.garden.licence or site.garden.licence_address,
            "package": addresses.data_file(view, "datapackage.json"),
            "parts": tuple(_part(view, one) for one in found),
            "notes": NOTES,
            **seasons_beside(site, view, _link),
        },
    )


def _link(view: SeasonView) -> Link | None:
    return Link(f"Data of {view.name}", addresses.data(view)) if has_data(view) else None


def _part(view: SeasonView, one: Dataset) -> DataPart:
    number = len(one.rows)
    return DataPart(
        ident=one.name,
        title=one.title,
        meaning=one.meaning,
        rows=f"{number:,} {'row' if number == 1 else 'rows'}",
        files=tuple(
            Link(f"{one.name}.{ending}", addresses.data_file(view, f"{one.name}.{ending}"))
            for ending in ("csv", "json")
        ),
        columns=Table(
            ident=f"t-{one.name}",
            caption=f"Columns of {one.name}.csv",
            heads=heads("Column", "Holds"),
            rows=tuple(_row(column) for column in one.columns),
        ),
    )


def _row(column: Column) -> Row:
    said = (
        _TYPES[column.kind],
        f"in {column.unit}" if column.unit else "",
        f"one of: {', '.join(column.choices)}" if column.choices else "",
        "never empty" if column.required else "",
    )
    return Row(cells=(text(column.name), text(column.meaning, "; ".join(filter(None, said)))))
