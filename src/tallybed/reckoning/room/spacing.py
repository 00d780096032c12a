"""How many plants fit in a block of squares at a spacing, and where each of them stands.

The rule: any two plants keep the spacing, and half of it stays clear at the
block's edge, so that neighbours of another block keep the full spacing too, but
never more than half the block's extent that way: a strip narrower than the
spacing holds one line in its middle. Under two thirds of the spacing it is too
narrow for the crop (common practice, no source). Plants may stand on the lines
between the squares of one block. Patterns are straight or staggered; ``packing``
names the bound that no pattern can pass (Thue, Fejes Tóth). All comparisons are
exact; only the places given out are rounded, to a ten-thousandth of an inch.

Spacings are printed in whole inches for squares of a foot. In a square of 30 cm,
1.6 % less, such a spacing is taken as the same part of the square as of a foot.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import lcm

from tallybed.garden.squares import Bed, Square, by_row
from tallybed.garden.units import FOOT, INCH, Length
from tallybed.reckoning.room.packing import (
    Cells,
    Points,
    densest,
    heart,
    is_clear,
    pieces,
    row_by_row,
    shifted,
)
from tallybed.reckoning.room.spreading import in_lines, in_lines_by_cell, spread, thinned, widest

NARROW = Fraction(2, 3)
"""The part of its spacing that a block must be wide for a crop."""
SHORT_OF_A_FOOT = Fraction(2, 100)
"""A square that is shorter than a foot by no more than this counts as a foot for printed inches."""
_PRINTED = 8
"""Spacings are printed in inches and eighths of one."""
_PLACES = 4
"""Decimals of an inch in a place given out."""
_QUARTERS = tuple(
    sorted(((i, j) for i in range(-2, 3) for j in range(-2, 3)), key=lambda p: (p[0] ** 2 + p[1] ** 2, p))
)
"""Ways a pattern is moved to stand clear of another crop, in quarters of the spacing; the least first."""


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Spot:
    """The place of one plant."""

    square: Square
    """The square it stands in; on a line between two, the one nearer the marked corner."""
    x: float
    """Inches from the marked corner along the letters."""
    y: float
    """Inches from the marked corner along the numbers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Packing:
    """Where plants stand in a block."""

    spots: tuple[Spot, ...]
    """Row by row from the marked corner."""
    spacing: Length
    """What any two of them keep: the spacing asked, ``kept_in`` the bed, or less where that has no room."""


def pack(bed: Bed, squares: Iterable[Square], spacing: Length) -> Packing:
    """Return the most plants found that keep the spacing in the squares that lie in ``bed``.

    It holds one at least, and a line of them where it is narrow; closer than the spacing where it
    is too narrow: what is planted exists. Raises ValueError for a spacing that
    is not above zero.
    """
    shape = _Shape.of(bed, squares, spacing)
    points = densest(shape.cells, shape.side, shape.spacing)
    return shape.packing(points, min(shape.spacing, shape.room()))


def most(bed: Bed, squares: Iterable[Square], spacing: Length) -> tuple[Spot, ...]:
    """Return the places of the most plants found, as ``pack`` does."""
    return pack(bed, squares, spacing).spots


def too_narrow(bed: Bed, squares: Iterable[Square], spacing: Length) -> Length | None:
    """Return how wide the block is at its widest where that is under two thirds of the spacing, else None."""
    shape = _Shape.of(bed, squares, spacing)
    room = shape.room()
    return Length(Fraction(room, shape.unit)) if shape.cells and room < shape.spacing else None


def wider_than_a_square(bed: Bed, spacing: Length) -> bool:
    """Return whether a crop of that spacing needs more than a square of the bed for each plant."""
    return kept_in(bed, spacing) > bed.side


def in_printed_inches(spacing: Length) -> bool:
    """Return whether a spacing is in whole inches or eighths of one, as tables print them."""
    return _PRINTED % spacing.within(INCH).denominator == 0


def kept_in(bed: Bed, spacing: Length) -> Length:
    """Return a spacing as it is kept in a bed: printed inches are the same part of 30 cm as of a foot."""
    part = bed.side.within(FOOT)
    nearly = 0 < 1 - part <= SHORT_OF_A_FOOT
    return spacing * part if nearly and in_printed_inches(spacing) else spacing


def place(
    bed: Bed,
    squares: Iterable[Square],
    spacing: Length,
    plants: Mapping[Square, int] | int,
    of: Mapping[Square, int] | int | None = None,
) -> Packing:
    """Return places for as many plants as told, in each square or in all.

    They stand as wide apart as a pattern allows that holds them all; those left
    of a greater number (``of``, before thinning or losses) stay where they stood.
    A total goes over the squares evenly, the first ones (row by row) taking what
    is left over, unless the crop is wider than a square: then over the block.
    More plants than the spacing allows stand on the widest straight lattice that
    holds them, closer than the spacing. Squares of other beds are left out. Raises ValueError
    for a spacing that is not above zero.
    """
    shape = _Shape.of(bed, squares, spacing)
    told = shape.counts(plants)
    if of is not None:
        before, kept = shape.placed(shape.counts(of))
        points = _left(before, told, shape) if isinstance(told, tuple) else thinned(before, told)
        if len(points) == _total(told):
            return shape.packing(points, kept)
    return shape.packing(*shape.placed(told))


def beside(
    bed: Bed,
    squares: Iterable[Square],
    spacing: Length,
    plants: Mapping[Square, int] | int,
    others: Iterable[Spot],
) -> Packing:
    """Return places for plants that share their squares with the plants at ``others``.

    The crop keeps its own spacing; its pattern is moved by quarters of the spacing
    to where the nearest of the others is farthest. Between two crops no spacing is
    asked for: what one gains by the other's company is the gardener's reason.
    """
    shape = _Shape.of(bed, squares, spacing)
    points, kept = shape.placed(shape.counts(plants))
    near = tuple(shape.point(spot) for spot in sorted(others))
    if kept >= shape.spacing and near and points:
        points = _clear_of(shape, points, near)
    return shape.packing(points, kept)


@dataclass(frozen=True, slots=True)
class _Shape:
    """A block in whole numbers: half a nanometre, or a whole part of it, is one."""

    bed: Bed
    cells: Cells
    side: int
    spacing: int
    unit: int
    """How many of the fine unit make a nanometre."""

    @classmethod
    def of(cls, bed: Bed, squares: Iterable[Square], spacing: Length) -> _Shape:
        """Return a block's shape in whole numbers. Raises ValueError for a spacing of nothing."""
        if spacing.nanometres <= 0:
            raise ValueError("a spacing is longer than nothing")
        inside = sorted({square for square in squares if bed.has(square)}, key=by_row)
        kept = kept_in(bed, spacing)
        unit = 2 * lcm(bed.side.nanometres.denominator, kept.nanometres.denominator)
        side, apart = (int(length.nanometres * unit) for length in (bed.side, kept))
        return cls(bed, tuple((square.column, square.row) for square in inside), side, apart, unit)

    def room(self) -> int:
        """Return the width of the block's roomiest piece where that is too narrow, else the spacing."""
        if not self.cells or self.spacing * NARROW <= self.side:
            return self.spacing
        wide = 2 * max(heart(piece, self.side)[1] for piece in pieces(self.cells))
        return wide if wide < self.spacing * NARROW else self.spacing

    def counts(self, plants: Mapping[Square, int] | int) -> tuple[int, ...] | int:
        """Return plants cell by cell, or in all for a crop wider than a square."""
        if not isinstance(plants, int):
            return tuple(max(0, plants.get(Square(self.bed.name, *cell), 0)) for cell in self.cells)
        if self.spacing > self.side or not self.cells:
            return max(0, plants) if self.cells else 0
        return spread(max(0, plants), len(self.cells))

    def placed(self, told: tuple[int, ...] | int) -> tuple[Points, int]:
        """Return places for a total, or for a count in each cell, and the spacing they keep."""
        if isinstance(told, int):
            points, kept = _by_total(self.cells, told, self.side, self.spacing)
        else:
            points, kept = _by_counts(self.cells, told, self.side, self.spacing)
        return points, min(kept, self.room()) if points else kept

    def packing(self, points: Points, kept: int) -> Packing:
        """Return places on the bed, and the spacing they keep: at most the one asked."""
        spots = tuple(
            Spot(
                square=Square(self.bed.name, *_cell(point, self.side)),
                x=self.inches(point[0]),
                y=self.inches(point[1]),
            )
            for point in points
        )
        return Packing(spots=spots, spacing=Length(Fraction(min(kept, self.spacing), self.unit)))

    def inches(self, amount: int) -> float:
        """Return a length of the fine unit in inches."""
        top, bottom = INCH.size.as_integer_ratio()
        return round(amount * bottom / (self.unit * top), _PLACES)

    def point(self, spot: Spot) -> tuple[int, int]:
        """Return a spot in the fine unit."""
        per_inch = int(self.unit * INCH.size)
        return round(spot.x * per_inch), round(spot.y * per_inch)


def _cell(point: tuple[int, int], side: int) -> tuple[int, int]:
    """Return the cell a point lies in; on a line between two, the one before it."""
    return max(0, (point[0] - 1) // side), max(0, (point[1] - 1) // side)


def _total(told: tuple[int, ...] | int) -> int:
    """Return how many are told in all."""
    return told if isinstance(told, int) else sum(told)


@lru_cache(maxsize=8192)
def _by_total(cells: Cells, total: int, side: int, spacing: int) -> tuple[Points, int]:
    """Return places for so many in the whole block, and the spacing they keep."""
    if not total:
        return (), spacing
    points = widest(cells, side, spacing, total)
    return (points, spacing) if points else in_lines(cells, side, total)


@lru_cache(maxsize=8192)
def _by_counts(cells: Cells, counts: tuple[int, ...], side: int, spacing: int) -> tuple[Points, int]:
    """Return places with so many points in each cell, and the spacing they keep.

    Each cell by itself if that keeps the spacing; else the block as a whole, if
    its pattern has enough in each cell; else, for a crop not wider than a cell,
    as many in all; else closer than the spacing.
    """
    alone = tuple(widest(((0, 0),), side, spacing, number) for number in counts)
    if spacing <= side and all(len(points) == number for points, number in zip(alone, counts, strict=True)):
        pairs = zip(cells, alone, strict=True)
        found = (point for cell, points in pairs for point in shifted(points, cell[0] * side, cell[1] * side))
        return tuple(sorted(found, key=row_by_row)), spacing
    whole, kept = _by_total(cells, sum(counts), side, spacing)
    if _enough(whole, cells, counts, side):
        return whole, kept
    full = densest(cells, side, spacing)
    if _enough(full, cells, counts, side):
        return _in_each(full, cells, counts, side), spacing
    if spacing <= side and kept >= spacing:
        return whole, kept
    return in_lines_by_cell(dict(zip(cells, counts, strict=True)), side)


def _enough(points: Points, cells: Cells, counts: tuple[int, ...], side: int) -> bool:
    """Return whether each cell has at least as many points as are told for it."""
    have = Counter(_cell(point, side) for point in points)
    return all(have[cell] >= number for cell, number in zip(cells, counts, strict=True))


def _in_each(points: Points, cells: Cells, counts: tuple[int, ...], side: int) -> Points:
    """Return evenly chosen points, so many in each cell."""
    by_cell: dict[tuple[int, int], list[tuple[int, int]]] = {cell: [] for cell in cells}
    for point in points:
        by_cell[_cell(point, side)].append(point)
    found = [
        point
        for cell, number in zip(cells, counts, strict=True)
        for point in thinned(tuple(by_cell[cell]), number)
    ]
    return tuple(sorted(found, key=row_by_row))


def _left(before: Points, counts: tuple[int, ...], shape: _Shape) -> Points:
    """Return those of the points that are left where so many stay in each cell; none if there were fewer."""
    if not _enough(before, shape.cells, counts, shape.side):
        return ()
    return _in_each(before, shape.cells, counts, shape.side)


def _clear_of(shape: _Shape, points: Points, near: Points) -> Points:
    """Return as many points, cell by cell, moved to where the nearest of ``near`` is farthest."""
    inside = frozenset(shape.cells)
    wanted = Counter(_cell(point, shape.side) for point in points)
    counts = tuple(wanted[cell] for cell in shape.cells)
    best, farthest = points, _nearest(points, near)
    for pattern in (points, densest(shape.cells, shape.side, shape.spacing)):
        for across, down in _QUARTERS:
            moved = shifted(pattern, across * shape.spacing // 4, down * shape.spacing // 4)
            clear = tuple(p for p in moved if is_clear(inside, shape.side, p, shape.spacing // 2))
            if not _enough(clear, shape.cells, counts, shape.side):
                continue
            by_room = sorted(clear, key=lambda point: -_nearest((point,), near))
            for chosen in (
                _in_each(clear, shape.cells, counts, shape.side),
                _first_in_each(by_room, wanted, shape.side),
            ):
                distance = _nearest(chosen, near)
                if distance > farthest:
                    best, farthest = chosen, distance
    return best


def _first_in_each(points: Iterable[tuple[int, int]], wanted: Counter[tuple[int, int]], side: int) -> Points:
    """Return the first points, as many in each cell as wanted, row by row."""
    left = Counter(wanted)
    found = []
    for point in points:
        cell = _cell(point, side)
        if left[cell]:
            left[cell] -= 1
            found.append(point)
    return tuple(sorted(found, key=row_by_row))


def _nearest(points: Points, near: Points) -> int:
    """Return the least distance, squared, between two sets of points."""
    return min((x - px) ** 2 + (y - py) ** 2 for x, y in points for px, py in near)
