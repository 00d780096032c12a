"""A told number of points, spread evenly over a shape of equal cells.

Whole numbers of one fine unit, as in ``packing``.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache

from tallybed.garden.squares import Square, blocks
from tallybed.reckoning.room.packing import (
    Cells,
    Points,
    densest,
    heart,
    pieces,
    row_by_row,
    shifted,
    straight,
)

_FINENESS = 64
"""A wider spacing is sought down to this part of the spacing asked."""


@lru_cache(maxsize=8192)
def thinned(points: Points, number: int) -> Points:
    """Return ``number`` of the points, evenly spread, sorted by (y, x); all of them if there are no more.

    The farthest-point rule (T. Gonzalez 1985, clustering to minimize the maximum
    intercluster distance): each next point is the one farthest from those chosen.
    Where more than half stay, the points that go are chosen so. One point alone
    is the one nearest the centre of gravity.
    """
    ordered = tuple(sorted(points, key=row_by_row))
    if number >= len(ordered) or number < 1:
        return ordered if number > 0 else ()
    if 2 * number <= len(ordered):
        return _far_apart(ordered, number, from_middle=number == 1)
    gone = set(_far_apart(ordered, len(ordered) - number, from_middle=True))
    return tuple(point for point in ordered if point not in gone)


@lru_cache(maxsize=8192)
def widest(cells: Cells, side: int, spacing: int, number: int) -> Points:
    """Return ``number`` points as wide apart as a pattern allows; empty if ``spacing`` cannot be kept.

    A single one stands in the middle of the roomiest piece, whatever its spacing.
    """
    if number == 1:
        return (max((heart(piece, side) for piece in pieces(cells)), key=lambda found: found[1])[0],)
    if number < 1 or len(densest(cells, side, spacing)) < number:
        return ()
    low, high = spacing, max(spacing, side * (2 + max(max(cell) for cell in cells)))
    while high - low > max(spacing // _FINENESS, 4):
        middle = (low + high) // 4 * 2
        if len(densest(cells, side, middle)) >= number:
            low = middle
        else:
            high = middle
    return thinned(densest(cells, side, low), number)


def in_lines(cells: Cells, side: int, number: int) -> tuple[Points, int]:
    """Return ``number`` points on the straight lattice that stands widest, and its spacing.

    For more plants than keep their crop's spacing. A shape that is one rectangle is
    filled as a whole; another one cell by cell, the first cells (row by row) taking
    what is left over.
    """
    ordered = tuple(sorted(cells, key=row_by_row))
    whole = tuple(blocks(Square("", *cell) for cell in ordered))
    if len(whole) > 1:
        counts = dict(zip(ordered, spread(number, len(ordered)), strict=True))
        return in_lines_by_cell(counts, side)
    first, last = whole[0]
    width, height = (last.column - first.column + 1) * side, (last.row - first.row + 1) * side
    columns, rows = _lattice(width, height, number)
    points = shifted(straight(width, height, columns, rows), first.column * side, first.row * side)
    return thinned(points, number), min(width // columns, height // rows)


def in_lines_by_cell(counts: dict[tuple[int, int], int], side: int) -> tuple[Points, int]:
    """Return each cell's own number of points on a straight lattice in it, and the least spacing."""
    found: list[tuple[int, int]] = []
    least = side
    for cell, number in counts.items():
        if number:
            points, spacing = in_lines((cell,), side, number)
            found += points
            least = min(least, spacing)
    return tuple(sorted(found, key=row_by_row)), least


def spread(number: int, over: int) -> tuple[int, ...]:
    """Return ``number`` split into so many whole parts, the first ones taking what is left over."""
    each, rest = divmod(number, over)
    return tuple(each + (place < rest) for place in range(over))


def in_proportion(number: int, sizes: Sequence[Fraction]) -> tuple[int, ...]:
    """Return ``number`` split into whole parts that go with some sizes, one of which is above zero.

    What is left over goes one by one to the largest fractions, the first of equal ones.
    """
    exact = [number * size / sum(sizes) for size in sizes]
    largest = sorted(range(len(sizes)), key=lambda place: -(exact[place] % 1))
    rest = set(largest[: number - sum(map(int, exact))])
    return tuple(int(part) + (place in rest) for place, part in enumerate(exact))


def _lattice(width: int, height: int, number: int) -> tuple[int, int]:
    """Return the columns and rows of the straight lattice of widest spacing that has ``number`` places."""
    tries = [(columns, -(-number // columns)) for columns in range(1, number + 1)]
    return max(tries, key=lambda size: (min(width // size[0], height // size[1]), -size[0] * size[1]))


def _far_apart(ordered: Points, number: int, *, from_middle: bool) -> Points:
    """Return the places in ``ordered`` of so many points, each next one farthest from those chosen."""
    size = len(ordered)
    middle = (sum(x for x, _ in ordered), sum(y for _, y in ordered))
    off = [(x * size - middle[0]) ** 2 + (y * size - middle[1]) ** 2 for x, y in ordered]
    start = off.index(min(off) if from_middle else max(off))
    chosen = [start]
    nearest = [_square(ordered[start], point) for point in ordered]
    while len(chosen) < number:
        following = nearest.index(max(nearest))
        chosen.append(following)
        nearest = [
            min(known, _square(ordered[following], point))
            for known, point in zip(nearest, ordered, strict=True)
        ]
    return tuple(ordered[index] for index in sorted(chosen))


def _square(one: tuple[int, int], other: tuple[int, int]) -> int:
    """Return the distance of two points, squared."""
    return (one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2
