"""Cells and rows of a spreadsheet, and the bounds within which they are read."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date

from tallybed.garden.squares import column_letters
from tallybed.reading.base.problems import quoted

LARGEST = 20_000_000
"""Bytes of the largest file read."""
LARGEST_INSIDE = 200_000_000
"""Bytes of all that a workbook holds, unpacked."""
MOST_ROWS = 30_000
"""Rows that hold anything; where they stand does not matter."""
MOST_COLUMNS = 100
LONGEST_CELL = 5_000
"""Characters of the longest cell."""


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
    number: bool = field(default=False, compare=False)
    """Whether the file keeps it as a number, so that its point stands before decimals."""
    formula: str = field(default="", compare=False)
    """The formula it is the result of, as far as the file was read for formulas."""

    def __bool__(self) -> bool:
        """Return whether the cell holds anything."""
        return bool(self.text) or self.unknown


EMPTY = SheetCell()
NumberedRow = tuple[int, tuple[SheetCell, ...]]
"""A row's number as the spreadsheet counts it, from 1, and its cells."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetTable:
    """The rows of one sheet that hold anything."""

    name: str
    """The sheet's name; empty for a text file."""
    rows: tuple[NumberedRow, ...]
    far: tuple[str, ...] = ()
    """Cells far to the right of any table, as they are told: ``ZZ4 “x”``."""
    told: str = ""
    """What must be said of how it was read, such as a guessed encoding."""


def as_told(column: int, number: int, cell: SheetCell) -> str:
    """Return a cell of a column, counted from 0, and a row as it is told: ``D4 “x”``."""
    return f"{column_letters(column)}{number} {quoted(cell.text)}"
