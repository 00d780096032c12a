"""Tables as plain data: every one has a caption, and a heading for each column and row."""

from __future__ import annotations

from dataclasses import dataclass

from tallybed.pages.frame.page import Link


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell. ``links`` stand after ``text``, joined by commas."""

    text: str = ""
    to: str = ""
    """Path of the page the text leads to."""
    number: bool = False
    """Whether it is set as a figure, flush right."""
    note: str = ""
    """Smaller words below."""
    links: tuple[Link, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ColumnHead:
    """The heading of a column."""

    text: str
    number: bool = False
    to: str = ""
    """Path of the page the heading leads to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row; its first cell is its heading."""

    cells: tuple[Cell, ...]
    mark: str = ""
    """What sets the row apart: ``planned``, ``dropped``, ``total``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table with its caption."""

    ident: str
    caption: str
    heads: tuple[ColumnHead, ...]
    rows: tuple[Row, ...]
    foot: tuple[Row, ...] = ()
    notes: tuple[str, ...] = ()
    """Sentences below the table."""


def text(words: str, note: str = "") -> Cell:
    """Return a cell of words."""
    return Cell(text=words, note=note)


def figure(words: str) -> Cell:
    """Return a cell of a figure."""
    return Cell(text=words, number=True)


def link(one: Link, note: str = "") -> Cell:
    """Return a cell whose words lead to a page."""
    return Cell(text=one.text, to=one.to, note=note)


def heads(*words: str, numbers: tuple[str, ...] = ()) -> tuple[ColumnHead, ...]:
    """Return column headings; those in ``numbers`` stand over figures."""
    return tuple(ColumnHead(text=word, number=word in numbers) for word in words)


def without_empty_columns(table: Table) -> Table:
    """Return the table without the columns that say nothing in any row."""
    every = (*table.rows, *table.foot)
    kept = [place for place in range(len(table.heads)) if any(_says(row.cells[place]) for row in every)]
    return _of_columns(table, kept)


def _of_columns(table: Table, kept: list[int]) -> Table:
    return Table(
        ident=table.ident,
        caption=table.caption,
        heads=tuple(table.heads[place] for place in kept),
        rows=tuple(_only(row, kept) for row in table.rows),
        foot=tuple(_only(row, kept) for row in table.foot),
        notes=table.notes,
    )


def without_column(table: Table, name: str) -> Table:
    """Return the table without the column of that heading."""
    kept = [place for place, head in enumerate(table.heads) if head.text != name]
    return _of_columns(table, kept)


def _says(cell: Cell) -> bool:
    """Return whether a cell says anything."""
    return bool(cell.text or cell.links or cell.note)


def _only(row: Row, kept: list[int]) -> Row:
    """Return a row with some of its cells."""
    return Row(cells=tuple(row.cells[place] for place in kept), mark=row.mark)
