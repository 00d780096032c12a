"""The frame of a small map: boards, strings, the marked corner, the names of columns and rows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import every_that_fits, width_of
from tallybed.drawing.base.svg import Element, group, path, points, rect, text
from tallybed.drawing.bedmap.margins import stands_turned
from tallybed.garden.outline import inner_lines, outlines, shifted
from tallybed.garden.squares import Bed, Square, column_letters

_EDGE = look.SMALL_TEXT * 1.5
"""Margin with the names of columns and rows, at the least."""
_LARGEST = max(look.SMALL_TEXT, *look.CHART_TEXT.values())
"""Size that names have at the most."""


@dataclass(frozen=True, kw_only=True)
class SmallFrame:
    """Where the squares of a bed lie on a small map."""

    bed: Bed
    upright: bool
    """Whether the whole is turned a quarter to the right, as large maps are on narrow pages."""
    side: float = look.SMALL_SQUARE
    """Side of a square."""

    @classmethod
    def fitting(cls, bed: Bed, *, upright: bool) -> SmallFrame:
        """Return the frame on a page, turned where large maps are; a broad bed has smaller squares."""
        bare = cls(bed=bed, upright=upright and stands_turned(bed), side=0.0)
        across = bed.rows if bare.upright else bed.columns
        room = (look.UPRIGHT_PAGE if upright else look.FLAT_PAGE) - bare.size[0]
        return replace(bare, side=max(look.SHEET_LEAST, min(look.SMALL_SQUARE, room / across)))

    @cached_property
    def edge(self) -> float:
        """Margin with the names of columns and rows: as wide as those that stand beside the bed."""
        bed = self.bed
        beside = map(column_letters, range(bed.columns)) if self.upright else (str(bed.rows),)
        widest = max(width_of(name, _LARGEST, bold=True) for name in beside)
        return max(_EDGE, look.SMALL_BOARD + 1 + widest)

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the drawing."""
        columns, rows = self.bed.columns, self.bed.rows
        across, down = (rows, columns) if self.upright else (columns, rows)
        return across * self.side + self.edge + look.PAD, down * self.side + self.edge + look.PAD

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Return the drawn place of a corner counted in squares; turned, row numbers run to the left."""
        if self.upright:
            return (look.PAD + (self.bed.rows - y) * self.side, self.edge + x * self.side)
        return (self.edge + x * self.side, self.edge + y * self.side)

    def box(self, square: Square) -> tuple[float, float]:
        """Return the left and upper edge of a square."""
        ax, ay = self.at(square.column, square.row)
        bx, by = self.at(square.column + 1, square.row + 1)
        return min(ax, bx), min(ay, by)

    def drawn_place(self, square: Square) -> tuple[int, int]:
        """Return row and column of a square as drawn."""
        return (
            (square.column, self.bed.rows - 1 - square.row) if self.upright else (square.row, square.column)
        )

    def ring(self, squares: Iterable[Square], out: float) -> str:
        """Return path data around squares, ``out`` units outside their edge."""
        cells = [(square.column, square.row) for square in squares]
        return "".join(
            points(self.at(x, y) for x, y in shifted(outline, -out / self.side))
            for outline in outlines(cells)
        )

    def boards(self, dash: str | None = None, weight: float = look.FINE * 1.3) -> Element:
        """Draw the boards around the bed, and the stake at its marked corner."""
        outer = self.ring(self.bed.squares, look.SMALL_BOARD)
        half = look.SMALL_BOARD
        x, y = self.at(-half / 2 / self.side, -half / 2 / self.side)
        return group(
            path(
                outer + self.ring(self.bed.squares, 0), class_="d-board", fill_rule="evenodd", stroke="none"
            ),
            path(
                outer,
                class_="d-frame",
                stroke_width=weight,
                stroke_dasharray=dash,
                stroke_linecap="round" if dash else None,
            ),
            rect(x - half, y - half, 2 * half, 2 * half, class_="d-corner", stroke="none"),
            class_="d-boards",
        )

    def strings(self) -> Element:
        """Draw the strings between the squares."""
        cells = [(square.column, square.row) for square in self.bed.squares]
        data = "".join(
            points((self.at(*start), self.at(*end)), closed=False) for start, end in inner_lines(cells)
        )
        return path(data, class_="d-twine", stroke_width=look.FINE)

    def names(self, size: float = look.SMALL_TEXT) -> Element:
        """Write the names of columns and rows; row numbers stand left, or above if turned."""
        names = []
        beside = (look.SMALL_BOARD + self.edge / 2 - 1, size * look.MIDDLE)
        letters = {square.column: column_letters(square.column) for square in self.bed.squares}
        numbers = {square.row: str(square.row + 1) for square in self.bed.squares}
        for column in self._written(letters, size, level=not self.upright):
            x, y = self.at(column + 0.5, 0)
            dx, dy = beside if self.upright else (0.0, -size * 0.45)
            names.append((x + dx, y + dy, letters[column]))
        for row in self._written(numbers, size, level=self.upright):
            x, y = self.at(0, row + 0.5)
            dx, dy = (0.0, -size * 0.45) if self.upright else (-self.edge / 2 - 1, size * look.MIDDLE)
            names.append((x + dx, y + dy, numbers[row]))
        return group(
            *(text(x, y, name, size, class_="d-name", text_anchor="middle") for x, y, name in names),
            class_="d-names",
        )

    def _written(self, names: Mapping[int, str], size: float, *, level: bool) -> Iterator[int]:
        """Yield the places whose names have room beside one another, or below one another."""
        widest = max(width_of(name, size) for name in names.values()) if level else size
        every = every_that_fits(widest, self.side)
        return (place for place in sorted(names) if place % every == 0)
