"""Marking out a bed: marks, lines, staples, twine, the diagonal that squares it, and what fills it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, isqrt

from tallybed.garden.outline import Cell, inner_lines, outlines
from tallybed.garden.squares import Bed
from tallybed.garden.units import FOOT, Length

CUBIC_FEET_IN_CUBIC_YARD = 27
LITRES_IN_CUBIC_FOOT = Fraction(28_316_846_592, 10**9)
"""Exactly 0.3048³ m³ (NIST SP 811, appendix B.8)."""
TIE = Length.of(1, FOOT)
"""Twine left over on each line for its two knots, half a foot an end: our choice, stated on the sheet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TwineLine:
    """One taut line between two staples, in squares from the marked corner."""

    start: tuple[int, int]
    end: tuple[int, int]
    length: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """How to mark out one bed."""

    length: Length
    width: Length
    lines: tuple[TwineLine, ...]
    staples: int
    twine: Length
    """All lines, with the allowance for tying."""


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Corner:
    """A corner of the bed, where a stake stands."""

    name: str
    """P for the first, then Q, R and on, the way round in which the drawing has it."""
    at: Cell
    """In squares from the marked corner."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedSide:
    """One straight side of the bed, from the corner that lies nearer to the marked one."""

    start: Corner
    end: Corner
    length: Length
    marks: tuple[Length, ...]
    """Distances from ``start`` at which a line ends, without the corners."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagonal:
    """A distance between two stakes that shows whether the corners are square."""

    start: Corner
    end: Corner
    length: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Stakes:
    """Where the stakes of a bed stand, and what is measured between them."""

    corners: tuple[Corner, ...]
    rings: tuple[tuple[Corner, ...], ...]
    """The same corners, outline by outline: the first, then any hole or further part."""
    edges: tuple[MarkedSide, ...]
    """Side by side, in the order of the corners."""
    diagonals: tuple[Diagonal, ...]
    """Those of the outer rectangle whose two ends are corners of the bed: two, one or none."""
    tied: tuple[Corner, ...]
    """Corners at which a line ends: the inner corners of a bed that is not a rectangle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """A layer over a bed."""

    cubic_feet: Fraction

    @property
    def cubic_yards(self) -> Fraction:
        """The volume in cubic yards: 27 cubic feet make one."""
        return self.cubic_feet / CUBIC_FEET_IN_CUBIC_YARD

    @property
    def litres(self) -> Fraction:
        """The volume in litres."""
        return self.cubic_feet * LITRES_IN_CUBIC_FOOT

    def bags(self, cubic_feet: Fraction) -> int:
        """Return the whole bags of a size, in cubic feet, that hold it."""
        return ceil(self.cubic_feet / cubic_feet)


def marks(bed: Bed) -> Marks:
    """Return the marks, lines, staples and twine of a bed; lines stop where squares are omitted."""
    lines = tuple(_lines(bed))
    return Marks(
        length=bed.side * bed.columns,
        width=bed.side * bed.rows,
        lines=lines,
        staples=2 * len(lines),
        twine=sum((line.length + TIE for line in lines), Length()),
    )


def diagonal(length: Length, width: Length) -> Length:
    """Return the diagonal of a rectangle (Pythagoras), rounded down to a tenth of a millimetre."""
    tenth = 100_000
    squared = (length.nanometres / tenth) ** 2 + (width.nanometres / tenth) ** 2
    return Length(Fraction(isqrt(int(squared)) * tenth))


def stakes(bed: Bed) -> Stakes:
    """Return the corners of a bed, the marks on each of its sides, and the diagonals that square it."""
    rings = outlines([(square.column, square.row) for square in bed.squares])
    cells = [[(round(x), round(y)) for x, y in ring] for ring in rings]
    names = iter(_names(sum(map(len, cells))))
    corners = [[Corner(name=next(names), at=cell) for cell in ring] for ring in cells]
    ends = {end for line in _lines(bed) for end in (line.start, line.end)}
    every = tuple(corner for ring in corners for corner in ring)
    pairs = [(ring[place], ring[(place + 1) % len(ring)]) for ring in corners for place in range(len(ring))]
    return Stakes(
        corners=every,
        rings=tuple(map(tuple, corners)),
        edges=tuple(_edge(bed, one, other, ends) for one, other in pairs),
        diagonals=tuple(_diagonals(bed, every)),
        tied=tuple(corner for corner in every if corner.at in ends),
    )


def _names(number: int) -> list[str]:
    """Return so many names of corners: P to Z, then P2 to Z2 and on."""
    letters = "PQRSTUVWXYZ"
    return [
        f"{letters[place % len(letters)]}{place // len(letters) + 1 if place >= len(letters) else ''}"
        for place in range(number)
    ]


def _edge(bed: Bed, one: Corner, other: Corner, ends: set[Cell]) -> MarkedSide:
    """Return one side between two corners, with the marks where lines of twine end."""
    start, end = (one, other) if one.at < other.at else (other, one)
    steps = range(1, _apart(start.at, end.at))
    along = 0 if end.at[0] > start.at[0] else 1
    places = (
        (start.at[0] + step, start.at[1]) if along == 0 else (start.at[0], start.at[1] + step)
        for step in steps
    )
    marked = (bed.side * step for step, place in zip(steps, places, strict=True) if place in ends)
    return MarkedSide(start=start, end=end, length=bed.side * _apart(start.at, end.at), marks=tuple(marked))


def _apart(start: Cell, end: Cell) -> int:
    """Return how many squares apart two corners of one side are."""
    return abs(end[0] - start[0]) + abs(end[1] - start[1])


def _diagonals(bed: Bed, corners: Iterable[Corner]) -> Iterator[Diagonal]:
    """Yield the diagonals of the outer rectangle that run from corner to corner of the bed."""
    at = {corner.at: corner for corner in corners}
    left, right = min(x for x, _y in at), max(x for x, _y in at)
    top, bottom = min(y for _x, y in at), max(y for _x, y in at)
    length = diagonal(bed.side * (right - left), bed.side * (bottom - top))
    for start, end in (((left, top), (right, bottom)), ((right, top), (left, bottom))):
        if start in at and end in at:
            yield Diagonal(start=at[start], end=at[end], length=length)


def fill(bed: Bed, depth: Length) -> Fill:
    """Return the volume of a layer of that depth over the bed's squares."""
    return Fill(cubic_feet=bed.square_feet * depth.within(FOOT))


def _lines(bed: Bed) -> Iterator[TwineLine]:
    """Yield the inner lines: first those across the bed, then those along it."""
    for start, end in inner_lines([(square.column, square.row) for square in bed.squares]):
        yield TwineLine(start=start, end=end, length=bed.side * _apart(start, end))
