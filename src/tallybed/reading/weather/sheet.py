"""The rows of a file of daily weather, as cells that know where they stand."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.findings import Place
from tallybed.reading.base.problems import Misread

_SEPARATORS = ",;\t"


@dataclass(frozen=True, slots=True)
class SheetLine:
    """One row: its cells, without the space around them."""

    cells: tuple[str, ...]
    file: str
    number: int
    """Its line in the file, from 1."""
    line: str
    """That line as it stands there."""

    def cell(self, place: int) -> str:
        """Return a cell's text, empty where the row is shorter."""
        return self.cells[place] if place < len(self.cells) else ""

    def place(self, place: int = 0) -> Place:
        """Return where a cell stands; of one beyond the row's end, where the row ends.

        Looked for when it is asked: a station's file may have thousands of rows, and few are wrong.
        """
        at = 0
        for cell in self.cells[:place]:
            at = max(self.line.find(cell, at), at) + len(cell) + 1
        return Place(self.file, self.number, max(self.line.find(self.cell(place), at), at) + 1)


def separator(text: str) -> str:
    """Return what stands between the cells: what its first row has most of."""
    first = text.lstrip("\n").partition("\n")[0]
    return max(_SEPARATORS, key=first.count)


def sheet_lines(text: str, file: str) -> Iterator[SheetLine]:
    """Yield the rows that hold anything. Raises Misread where a quote is not closed."""
    lines = text.split("\n")
    reader = csv.reader(lines, delimiter=separator(text), skipinitialspace=True, strict=True)
    before = 0
    try:
        for cells in reader:
            kept = tuple([" ".join(cell.split()) for cell in cells])
            if any(kept):
                yield SheetLine(kept, file, before + 1, lines[before])
            before = reader.line_num
    except csv.Error:
        found = f"from line {before + 1} on the table cannot be read"
        raise Misread("weather-table", found, "one row a line, and each quote closed on its line") from None
