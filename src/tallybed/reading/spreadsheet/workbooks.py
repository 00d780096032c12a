"""Workbooks as the sheets that can be seen: what stands in them, however far apart it stands.

Cells are read one after the other as the file holds them, so that a far stray cell or a
coloured empty one costs nothing. Nothing is run: of a formula the kept result is taken.
"""

from __future__ import annotations

import io
import warnings
import zipfile
from collections.abc import Iterator
from datetime import date, datetime
from decimal import Decimal
from typing import Any

import openpyxl
from openpyxl.worksheet._reader import WorkSheetParser

from tallybed.garden.squares import column_letters
from tallybed.reading.spreadsheet.cells import (
    EMPTY,
    LARGEST_INSIDE,
    LONGEST_CELL,
    MOST_COLUMNS,
    MOST_ROWS,
    NumberedRow,
    SheetCell,
    SheetTable,
    TableError,
)

_LAST_ROW = 1_048_576
"""Rows that a sheet can have in the programs that write such files, from memory."""

_Formulas = dict[tuple[int, int], str]
"""Formulas by row and column, from 1."""


def sheets(name: str, data: bytes) -> tuple[SheetTable, ...]:
    """Return the sheets of a workbook that hold anything, hidden ones left out. Raises TableError."""
    _bounded(name, data)
    shown = _opened(name, data, results=True)
    formulas = _opened(name, data, results=False) if _has_formulas(name, data) else None
    found = []
    for sheet in shown.worksheets:
        if sheet.sheet_state == "visible":
            written = _formulas(name, formulas[sheet.title]) if formulas is not None else {}
            found.append(_table(name, sheet, written))
    shown.close()
    return tuple(table for table in found if table.rows)


def _table(name: str, sheet: Any, written: _Formulas) -> SheetTable:
    """Return the rows of a sheet; a formula without a kept result is marked. Raises TableError."""
    rows: list[NumberedRow] = []
    far: list[str] = []
    for number, values in _values(name, sheet):
        cells = {column: _cell(value, written.get((number, column), "")) for column, value in values.items()}
        missing = {column: text for (row, column), text in _in_row(written, number) if not cells.get(column)}
        cells |= {column: SheetCell(unknown=True, formula=text) for column, text in missing.items()}
        there = {column: cell for column, cell in cells.items() if cell}
        if any(len(cell.text) > LONGEST_CELL for cell in there.values()):
            raise TableError(f"row {number} of {name} has a cell of more than {LONGEST_CELL:,} characters")
        far += [
            f"{column_letters(column - 1)}{number} “{cell.text}”"
            for column, cell in there.items()
            if column > MOST_COLUMNS
        ]
        near = [column for column in there if column <= MOST_COLUMNS]
        if near:
            rows.append((number, tuple(there.get(column, EMPTY) for column in range(1, max(near) + 1))))
        if len(rows) > MOST_ROWS:
            raise TableError(f"{name} has more than {MOST_ROWS:,} rows")
    return SheetTable(name=str(sheet.title), rows=tuple(rows), far=tuple(far))


def _in_row(written: _Formulas, number: int) -> list[tuple[tuple[int, int], str]]:
    """Return the formulas of a row."""
    if not written:
        return []
    return [
        ((number, column), written[number, column])
        for column in range(1, MOST_COLUMNS + 1)
        if (number, column) in written
    ]


def _formulas(name: str, sheet: Any) -> _Formulas:
    found: _Formulas = {}
    for number, values in _values(name, sheet):
        for column, value in values.items():
            text = getattr(value, "text", value)
            if isinstance(text, str) and text.startswith("="):
                found[number, column] = text
    return found


def _values(name: str, sheet: Any) -> Iterator[tuple[int, dict[int, object]]]:
    """Yield the rows of a sheet that have cells, each with its values by column. Raises TableError."""
    book = sheet.parent
    try:
        with warnings.catch_warnings(), sheet._get_source() as source:
            warnings.simplefilter("ignore")
            parser = WorkSheetParser(
                source,
                sheet._shared_strings,
                data_only=book.data_only,
                epoch=book.epoch,
                date_formats=book._date_formats,
                timedelta_formats=book._timedelta_formats,
            )
            for count, (number, cells) in enumerate(parser.parse(), start=1):
                if max(count, number) > _LAST_ROW:
                    raise TableError(f"{name} is damaged: it has a row beyond {_LAST_ROW:,}")
                yield number, {cell["column"]: cell["value"] for cell in cells if cell["value"] is not None}
    except TableError:
        raise
    except Exception as error:  # the library lets its own and others' errors through on a damaged file
        raise TableError(f"{name} is damaged: a row cannot be read ({type(error).__name__})") from None


def _bounded(name: str, data: bytes) -> None:
    """Raise TableError where a file is damaged, is not a workbook, or unpacks to too much."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            inside = sum(part.file_size for part in archive.infolist())
            known = "xl/workbook.xml" in archive.namelist()
    except (zipfile.BadZipFile, NotImplementedError):
        raise TableError(f"{name} is damaged: it cannot be opened") from None
    if not known:
        raise TableError(
            f"{name} is a ZIP archive and not an .xlsx workbook; save the table as .xlsx or .csv"
        )
    if inside > LARGEST_INSIDE:
        raise TableError(f"{name} unpacks to {inside:,} bytes; {LARGEST_INSIDE:,} at most are read")


def _opened(name: str, data: bytes, *, results: bool) -> Any:
    """Return a workbook opened for its ``results`` or for its formulas. Raises TableError."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of what the library leaves out: validation, drawings, styles
            return openpyxl.load_workbook(
                io.BytesIO(data), read_only=True, data_only=results, keep_links=False
            )
    except Exception as error:  # the library lets its own and others' errors through on a damaged file
        raise _unopened(name, error) from None


def _cell(value: object, formula: str = "") -> SheetCell:
    """Return a value as a cell: a date in ISO form, a number to 15 significant digits."""
    if value is None:
        return SheetCell()
    if isinstance(value, datetime):
        return SheetCell(value.date().isoformat(), value.date(), formula=formula)
    if isinstance(value, date):
        return SheetCell(value.isoformat(), value, formula=formula)
    if isinstance(value, bool):
        return SheetCell("yes" if value else "no")
    if isinstance(value, int | float):
        exact = Decimal(value) if isinstance(value, int) else value  # no float holds 400 digits
        return SheetCell(format(Decimal(f"{exact:.15g}"), "f"), number=True, formula=formula)
    return SheetCell(str(value).strip(), formula=formula)


def _has_formulas(name: str, data: bytes) -> bool:
    """Return whether any sheet of a workbook has a formula. Raises TableError."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            sheets = [part for part in archive.namelist() if part.startswith("xl/worksheets/")]
            return any(b"<f>" in text or b"<f " in text for text in map(archive.read, sheets))
    except Exception as error:  # as of the library, since a part may be damaged in many ways
        raise _unopened(name, error) from None


def _unopened(name: str, error: Exception) -> TableError:
    """Return what is said of a workbook that cannot be opened."""
    return TableError(f"{name} is damaged: it cannot be opened ({type(error).__name__})")
