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
    """One row: its cells without the space around them, and where each begins."""

    cells: tuple[str, ...]
    places: tuple[Place, ...]

    def cell(self, place: int) -> str:
        """Return a cell's text, empty where the row is shorter."""
        return self.cells[place] if place < len(self.cells) else ""

    def place(self, place: int) -> Place:
        """Return where a cell stands; of one beyond the row's end, where the row begins."""
        return self.places[place] if place < len(self.places) else self.places[0]


def separator(text: str) -> str:
    """Return what stands between the cells: what its first row has most of."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    return max(_SEPARATORS, key=first.count)


def sheet_lines(text: str, file: str) -> Iterator[SheetLine]:
    """Yield the rows that hold anything. Raises Misread where a quote is not closed."""
    lines = text.split("\n")
    reader = csv.reader(lines, delimiter=separator(text), skipinitialspace=True, strict=True)
    before = 0
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                places = tuple(_places(file, before + 1, lines[before], cells))
                yield SheetLine(tuple(" ".join(cell.split()) for cell in cells), places)
            before = reader.line_num
    except csv.Error:
        found = f"from line {before + 1} on the table cannot be read"
        raise Misread("weather-table", found, "one row a line, and each quote closed on its line") from None


def _places(file: str, number: int, line: str, cells: list[str]) -> Iterator[Place]:
    """Yield where each cell of a row begins."""
    at = 0
    for cell in cells:
        words = cell.strip()
        found = line.find(words, at) if words else at
        at = max(found, at)
        yield Place(file, number, at + 1)
        at += len(words) + 1
