"""Spreadsheets as rows of cells: comma-, semicolon- or tab-separated text, and .xlsx workbooks.

Files are bounded, and nothing in them is run: of a formula the result that the file
keeps is taken. Numbers come out as a spreadsheet shows them, to 15 significant digits.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Iterable, Iterator, Sequence

from tallybed.reading.spreadsheet.cells import (
    LARGEST,
    LONGEST_CELL,
    MOST_COLUMNS,
    MOST_ROWS,
    NumberedRow,
    SheetCell,
    SheetTable,
    TableError,
)
from tallybed.reading.spreadsheet.decoding import decoded
from tallybed.reading.spreadsheet.workbooks import sheets

_DELIMITERS = ",;\t|"
_ENOUGH = 5_000
"""Characters of a text that show what separates its cells; more take long and seldom show anything else."""
_WORDS = re.compile(r"^'(?=[=+\-@'])")
"""The sign by which a text that begins like a formula is kept from being one."""
_ZIP = b"PK\x03\x04"
_OLD_WORKBOOK = b"\xd0\xcf\x11\xe0"


def tables(name: str, data: bytes, likely: Callable[[Sequence[str]], int]) -> tuple[SheetTable, ...]:
    """Return the sheets of a file, those hidden and empty left out.

    ``likely`` says of a row how much it looks like headings; it settles what separates the
    cells of a text file. Raises TableError.
    """
    if len(data) > LARGEST:
        raise TableError(f"{name} has more than {LARGEST:,} bytes")
    if data.startswith(_ZIP):
        return sheets(name, data)
    if data.startswith(_OLD_WORKBOOK):
        raise TableError(f"{name} is a workbook of the old kind; save it as .xlsx or .csv")
    return (_text_table(name, data, likely),)


def _text_table(name: str, data: bytes, likely: Callable[[Sequence[str]], int]) -> SheetTable:
    """Return a text file as a table, its cells set apart by the likeliest sign. Raises TableError."""
    text, told = decoded(name, data)
    first, _end, rest = text.partition("\n")
    skipped = 0
    if first.strip().casefold().startswith("sep="):  # a line that some spreadsheet programs write above
        text, skipped = rest, 1
    best = max(_separators(text), key=lambda sign: _looks(text, sign, likely))
    return SheetTable(name="", rows=_kept(name, _records(name, text, best), skipped + 1), told=told)


def _separators(text: str) -> list[str]:
    """Return the signs that may separate cells, the likeliest first."""
    signs = list(_DELIMITERS)
    try:
        guess = csv.Sniffer().sniff(text[:_ENOUGH], delimiters=_DELIMITERS).delimiter
    except csv.Error:
        return signs
    return [guess, *(sign for sign in signs if sign != guess)]


def _looks(text: str, sign: str, likely: Callable[[Sequence[str]], int]) -> int:
    """Return how much the first rows look like headings when cells are separated by a sign."""
    best = 0
    try:
        for number, record in enumerate(csv.reader(io.StringIO(text, newline=""), delimiter=sign)):
            best = max(best, likely(record))
            if number >= 20:
                break
    except csv.Error:
        return -1
    return best


def _records(name: str, text: str, sign: str) -> Iterator[list[SheetCell]]:
    """Yield the rows of a text, cells without space around them. Raises TableError."""
    reader, before = csv.reader(io.StringIO(text, newline=""), delimiter=sign, strict=True), 0
    try:
        for record in reader:
            yield [SheetCell(_WORDS.sub("", cell.strip())) for cell in record]
            before = reader.line_num
    except csv.Error as error:
        if "expected after" in str(error):
            raise TableError(
                f"line {reader.line_num} of {name} has a quotation mark that fits nowhere"
            ) from None
        # It read to the end, or to more than the library takes for one cell, in search of the other one.
        open_mark = f"line {before + 1} of {name} has a quotation mark that is not closed"
        raise TableError(f"{open_mark}, or a cell of far more than {LONGEST_CELL:,} characters") from None


def _kept(name: str, records: Iterable[Sequence[SheetCell]], first: int) -> tuple[NumberedRow, ...]:
    """Return the rows that hold anything, within bounds."""
    rows: list[NumberedRow] = []
    for number, cells in enumerate(records, start=first):
        if len(cells) > MOST_COLUMNS and any(cells[MOST_COLUMNS:]):
            raise TableError(f"row {number} of {name} has more than {MOST_COLUMNS} columns")
        if any(len(cell.text) > LONGEST_CELL for cell in cells):
            raise TableError(f"row {number} of {name} has a cell of more than {LONGEST_CELL:,} characters")
        last = max((place for place, cell in enumerate(cells, start=1) if cell), default=0)
        if last:
            rows.append((number, tuple(cells[:last])))
        if len(rows) > MOST_ROWS:
            raise TableError(f"{name} has more than {MOST_ROWS:,} rows")
    return tuple(rows)
