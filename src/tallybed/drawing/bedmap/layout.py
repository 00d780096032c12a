"""Where things lie on a bed's drawing: scale, turning, margins, size of text.

Places on the bed are in inches from the marked corner, x along the letters, y
along the numbers. Flat, x runs to the right and y down. Turned, the whole is
turned a quarter to the right: x runs down and y to the left, so that nothing is
mirrored. Places on the drawing are in its own units, from its top left.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from functools import cached_property

from tallybed.drawing.base import look
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import INCH, Length

Point = tuple[float, float]


class Edge(StrEnum):
    """One of the bed's four sides."""

    FIRST = "first"
    """Along row 1."""
    LAST = "last"
    START = "start"
    """Along column A."""
    END = "end"


class Toward(StrEnum):
    """A side of the drawing."""

    TOP = "top"
    RIGHT = "right"
    BOTTOM = "bottom"
    LEFT = "left"


_FLAT = {
    Edge.FIRST: Toward.TOP,
    Edge.LAST: Toward.BOTTOM,
    Edge.START: Toward.LEFT,
    Edge.END: Toward.RIGHT,
}
_TURNED = {
    Edge.FIRST: Toward.RIGHT,
    Edge.LAST: Toward.LEFT,
    Edge.START: Toward.TOP,
    Edge.END: Toward.BOTTOM,
}
OPPOSITE = {
    Edge.FIRST: Edge.LAST,
    Edge.LAST: Edge.FIRST,
    Edge.START: Edge.END,
    Edge.END: Edge.START,
}


def edge_of(bed: Bed, side: str) -> Edge:
    """Return the edge that a side's name means; in a bed one square wide, the edge at row 1 or column A."""
    first, last, start, _end = bed.sides
    if side == first:
        return Edge.FIRST
    if side == last:
        return Edge.LAST
    return Edge.START if side == start else Edge.END


def inches(length: Length) -> float:
    """Return a length in inches."""
    return float(length.within(INCH))


def units(length: Length) -> float:
    """Return a length as drawn."""
    return inches(length) * look.PER_INCH


@dataclass(frozen=True, slots=True, kw_only=True)
class Rim:
    """What lies outside one edge, as distances from the bed's edge in units."""

    ladder: bool = False
    """Whether a trellis runs along it."""
    ground: float = 0
    """How deep the ground outside is drawn (run-out or path)."""
    reach: float = 0
    """How deep ground is drawn that vines are led out into; 0 where there are none."""
    names: float | None = None
    """Where the names of columns or rows begin, if they stand on this side."""
    scale: float | None = None
    """Where the dimension line runs, if it runs on this side."""
    depth: float = 0
    """The whole margin."""


@dataclass(frozen=True, kw_only=True)
class Layout:
    """The frame of one drawing; side and corner are asked for by every point of it, and kept."""

    bed: Bed
    turned: bool
    text: float
    """Size of the smallest text."""
    least: float
    """Width of the maps of a page at the least, the same for every bed of it."""
    narrowest: float
    """Width of this map at the least: ``least``; on a sheet of its own, lying flat, its height."""
    smallest: float
    """Size below which no text of it may fall; on a sheet of its own its text is larger."""
    rims: Mapping[Edge, Rim]
    head: float
    """Height of the title above the bed and its margins."""

    @cached_property
    def side(self) -> float:
        """Side of one square in inches."""
        return inches(self.bed.side)

    @property
    def length(self) -> float:
        """The bed's length along the letters, in inches."""
        return self.side * self.bed.columns

    @property
    def breadth(self) -> float:
        """The bed's breadth along the numbers, in inches."""
        return self.side * self.bed.rows

    @cached_property
    def corner(self) -> Point:
        """Top left corner of the bed on the drawing."""
        return (self.margin(Toward.LEFT), self.head + self.margin(Toward.TOP))

    @property
    def size(self) -> Point:
        """Width and height of the drawing."""
        wide, high = (self.breadth, self.length) if self.turned else (self.length, self.breadth)
        left, top = self.corner
        return (
            left + wide * look.PER_INCH + self.margin(Toward.RIGHT),
            top + high * look.PER_INCH + self.margin(Toward.BOTTOM),
        )

    @property
    def width(self) -> float:
        """Width of the whole drawing; right of a small bed it is empty."""
        return max(self.size[0], self.narrowest)

    @property
    def grain(self) -> float:
        """Size that textures go by: of text where a drawing has no larger one than it needs."""
        return look.TEXT * max(self.size[0], self.least) / self.least

    def toward(self, edge: Edge) -> Toward:
        """Return the side of the drawing that an edge looks to."""
        return (_TURNED if self.turned else _FLAT)[edge]

    def margin(self, toward: Toward) -> float:
        """Return the margin on one side of the drawing."""
        return next(rim.depth for edge, rim in self.rims.items() if self.toward(edge) is toward)

    def at(self, x: float, y: float) -> Point:
        """Return the drawn place of a place on the bed."""
        left, top = self.corner
        if self.turned:
            return (left + (self.breadth - y) * look.PER_INCH, top + x * look.PER_INCH)
        return (left + x * look.PER_INCH, top + y * look.PER_INCH)

    def beyond(self, edge: Edge, along: float, out: float) -> Point:
        """Return the drawn place ``out`` units outside an edge, ``along`` inches from its start."""
        away = out / look.PER_INCH
        match edge:
            case Edge.FIRST:
                return self.at(along, -away)
            case Edge.LAST:
                return self.at(along, self.breadth + away)
            case Edge.START:
                return self.at(-away, along)
            case Edge.END:
                return self.at(self.length + away, along)

    def box(self, start: Point, end: Point) -> tuple[float, float, float, float]:
        """Return x, y, width and height of the box between two drawn places."""
        left, right = sorted((start[0], end[0]))
        top, bottom = sorted((start[1], end[1]))
        return (left, top, right - left, bottom - top)

    def block(self, first: Square, last: Square) -> tuple[float, float, float, float]:
        """Return the drawn box of a rectangle of squares."""
        start = self.at(first.column * self.side, first.row * self.side)
        return self.box(start, self.at((last.column + 1) * self.side, (last.row + 1) * self.side))

    def drawn_cell(self, square: Square) -> tuple[int, int]:
        """Return row and column of a square as drawn, from the top left."""
        if self.turned:
            return (square.column, self.bed.rows - 1 - square.row)
        return (square.row, square.column)

    @property
    def up(self) -> Fraction:
        """Compass direction of the drawing's upper edge, in degrees."""
        return (self.bed.bearing + (180 if self.turned else -90)) % 360
