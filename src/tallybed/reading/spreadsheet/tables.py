"""Spreadsheets as rows of cells: comma-, semicolon- or tab-separated text, and .xlsx workbooks.

Files are bounded, and nothing in them is run: of a formula the result that the file
keeps is taken. Numbers come out as a spreadsheet shows them, to 15 significant digits.
"""

from __future__ import annotations

import codecs
import csv
import io
import re
import warnings
import zipfile
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal
from typing import Any

import openpyxl

LARGEST = 20_000_000
"""Bytes of the largest file read."""
LARGEST_INSIDE = 200_000_000
"""Bytes of all that a workbook holds, unpacked."""
MOST_ROWS = 20_000
MOST_COLUMNS = 100
LONGEST_CELL = 5_000
"""Characters of the longest cell."""
_DELIMITERS = ",;\t|"
_WORDS = re.compile(r"^'(?=[=+\-@'])")
"""The sign by which a text that begins like a formula is kept from being one."""
_ZIP = b"PK\x03\x04"
_OLD_WORKBOOK = b"\xd0\xcf\x11\xe0"
_WIDE = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)


class TableError(Exception):
    """A file is not a spreadsheet that can be read; the message says why and what to do."""


@dataclass(frozen=True, slots=True)
class SheetCell:
    """One cell."""

    text: str = ""
    day: date | None = None
    """Where the cell is kept as a date."""
    unknown: bool = False
    """Whether it holds a formula whose result the file does not keep."""

    def __bool__(self) -> bool:
        """Return whether the cell holds anything."""
        return bool(self.text) or self.unknown


NumberedRow = tuple[int, tuple[SheetCell, ...]]
"""A row's number as the spreadsheet counts it, from 1, and its cells."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetTable:
    """The rows of one sheet that hold anything."""

    name: str
    """The sheet's name; empty for a text file."""
    rows: tuple[NumberedRow, ...]


def tables(name: str, data: bytes, likely: Callable[[Sequence[str]], int]) -> tuple[SheetTable, ...]:
    """Return the sheets of a file, those hidden and empty left out.

    ``likely`` says of a row how much it looks like headings; it settles what separates the
    cells of a text file. Raises TableError.
    """
    if len(data) > LARGEST:
        raise TableError(f"{name} has more than {LARGEST:,} bytes")
    if data.startswith(_ZIP):
        return tuple(_sheets(name, data))
    if data.startswith(_OLD_WORKBOOK):
        raise TableError(f"{name} is a workbook of the old kind; save it as .xlsx or .csv")
    return (_text_table(name, data, likely),)


def _text_table(name: str, data: bytes, likely: Callable[[Sequence[str]], int]) -> SheetTable:
    """Return a text file as a table, its cells set apart by the likeliest sign. Raises TableError."""
    text = _decoded(name, data)
    first, _end, rest = text.partition("\n")
    skipped = 0
    if first.strip().casefold().startswith("sep="):  # a line that some spreadsheet programs write above
        text, skipped = rest, 1
    best = max(_separators(text), key=lambda sign: _looks(text, sign, likely))
    return SheetTable(name="", rows=_kept(name, _records(name, text, best), skipped + 1))


def _decoded(name: str, data: bytes) -> str:
    """Return bytes as text, in UTF-8 or as their mark says. Raises TableError."""
    encoding = next((kind for mark, kind in _WIDE if data.startswith(mark)), "utf-8")
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError:
        raise TableError(f"{name} is not written in UTF-8; save it again as “CSV UTF-8”") from None
    if "\x00" in text:
        raise TableError(f"{name} is neither a text file nor an .xlsx workbook")
    return text


def _separators(text: str) -> list[str]:
    """Return the signs that may separate cells, the likeliest first."""
    signs = list(_DELIMITERS)
    try:
        guess = csv.Sniffer().sniff(text[:20_000], delimiters=_DELIMITERS).delimiter
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
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=sign, strict=True)
    try:
        for record in reader:
            yield [SheetCell(_WORDS.sub("", cell.strip())) for cell in record]
    except csv.Error:
        raise TableError(f"line {reader.line_num} of {name} has a quotation mark that fits nowhere") from None


def _kept(name: str, records: Iterable[Sequence[SheetCell]], first: int) -> tuple[NumberedRow, ...]:
    """Return the rows that hold anything, within bounds."""
    rows: list[NumberedRow] = []
    for number, cells in enumerate(records, start=first):
        if number > MOST_ROWS:
            raise TableError(f"{name} has more than {MOST_ROWS:,} rows")
        if len(cells) > MOST_COLUMNS and any(cells[MOST_COLUMNS:]):
            raise TableError(f"row {number} of {name} has more than {MOST_COLUMNS} columns")
        if any(len(cell.text) > LONGEST_CELL for cell in cells):
            raise TableError(f"row {number} of {name} has a cell of more than {LONGEST_CELL:,} characters")
        last = max((place for place, cell in enumerate(cells, start=1) if cell), default=0)
        if last:
            rows.append((number, tuple(cells[:last])))
    return tuple(rows)


def _sheets(name: str, data: bytes) -> Iterator[SheetTable]:
    """Yield the sheets of a workbook that hold anything, hidden ones left out. Raises TableError."""
    _bounded(name, data)
    shown = _opened(name, data, results=True)
    formulas = None
    for sheet in shown.worksheets:
        if sheet.sheet_state != "visible":
            continue
        rows = _kept(name, _cells(name, sheet), 1)
        if _has_formulas(data):
            formulas = formulas or _opened(name, data, results=False)
            rows = _without_results(rows, _kept(name, _cells(name, formulas[sheet.title]), 1))
        if rows:
            yield SheetTable(name=str(sheet.title), rows=rows)
    shown.close()


def _bounded(name: str, data: bytes) -> None:
    """Raise TableError where a file is damaged, is not a workbook, or unpacks to too much."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            inside = sum(part.file_size for part in archive.infolist())
            known = "xl/workbook.xml" in archive.namelist()
    except (zipfile.BadZipFile, NotImplementedError):
        raise TableError(f"{name} is damaged: it cannot be opened") from None
    if not known:
        raise TableError(f"{name} is not an .xlsx workbook; save it as .xlsx or .csv")
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
        raise TableError(f"{name} is damaged: it cannot be opened ({type(error).__name__})") from None


def _cells(name: str, sheet: Any) -> Iterator[list[SheetCell]]:
    """Yield the rows of a sheet, whatever size the file says it has."""
    sheet.reset_dimensions()
    rows = sheet.iter_rows(values_only=True, max_row=MOST_ROWS + 1, max_col=MOST_COLUMNS + 1)
    while True:
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")
                row = next(rows, None)
        except Exception as error:  # as above
            raise TableError(f"{name} is damaged: a row cannot be read ({type(error).__name__})") from None
        if row is None:
            return
        yield [_cell(value) for value in row]


def _cell(value: object) -> SheetCell:
    """Return a value as a cell: a date in ISO form, a number to 15 significant digits."""
    if value is None:
        return SheetCell()
    if isinstance(value, datetime):
        return SheetCell(value.date().isoformat(), value.date())
    if isinstance(value, date):
        return SheetCell(value.isoformat(), value)
    if isinstance(value, bool):
        return SheetCell("yes" if value else "no")
    if isinstance(value, int | float):
        return SheetCell(format(Decimal(f"{value:.15g}"), "f"))
    return SheetCell(str(value).strip())


def _has_formulas(data: bytes) -> bool:
    """Return whether any sheet of a workbook has a formula."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        sheets = [part for part in archive.namelist() if part.startswith("xl/worksheets/")]
        return any(b"<f>" in text or b"<f " in text for text in map(archive.read, sheets))


def _without_results(rows: Sequence[NumberedRow], formulas: Sequence[NumberedRow]) -> tuple[NumberedRow, ...]:
    """Return rows in which each formula without a kept result is marked."""
    shown = dict(rows)
    made: list[NumberedRow] = []
    for number, written in formulas:
        cells = shown.get(number, ())
        padded = (*cells, *(SheetCell() for _more in range(len(written) - len(cells))))
        pairs = zip(
            padded, (*written, *(SheetCell() for _more in range(len(padded) - len(written)))), strict=True
        )
        made.append((number, tuple(_marked(cell, formula) for cell, formula in pairs)))
    return tuple(made)


def _marked(cell: SheetCell, formula: SheetCell) -> SheetCell:
    """Return a cell, marked as unknown where it has a formula and no result."""
    return SheetCell(unknown=True) if formula and not cell else cell
