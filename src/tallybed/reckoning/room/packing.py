"""Points in a shape of equal cells that keep a distance from each other and from the shape's edge.

Geometry alone, in whole numbers of one fine unit, so that a spacing that fits
exactly does fit. A cell is (column, row); cell (c, r) covers x from c × side to
(c + 1) × side and y likewise. A pattern holds if any two points lie ``spacing``
or more apart and half a spacing stays clear at the shape's edge; where the shape
is narrower than a spacing, half of what it is: one line of points in the middle.
Where every part is a spacing wide, no point of another shape kept the same way
is nearer than ``spacing``.
``side`` and ``spacing`` are even numbers, so that halves are whole too.

No pattern can be denser than the hexagonal one: in a convex shape that is a spacing
wide, points × (√3 / 2) × spacing² ≤ area (A. Thue 1910 for the plane; L. Fejes Tóth,
*Lagerungen in der Ebene, auf der Kugel und im Raum*, 1953, for two and more
equal discs in a convex region). A pattern found here is a straight or
staggered lattice, or rows of one laid into the shape; it is the best of those,
not always the best there is.

The caches of this and the next modules hold geometry alone: whole numbers in, points
out, the same for every garden. The same few shapes come again and again; all are bounded.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from math import isqrt

from tallybed.garden.squares import Square, blocks

Cells = tuple[tuple[int, int], ...]
"""A shape: its cells as (column, row)."""
Points = tuple[tuple[int, int], ...]
"""Places as (x, y)."""

_MANY = 400
"""Above so many points, fewer ways of laying rows are tried: the gain is small, the time is not."""


def pieces(cells: Cells) -> tuple[Cells, ...]:
    """Return the parts of a shape that hang together by sides, each sorted row by row, in that order."""
    left = set(cells)
    found: list[Cells] = []
    for start in sorted(left, key=row_by_row):
        if start not in left:
            continue
        left.discard(start)
        piece, edge = [start], [start]
        while edge:
            column, row = edge.pop()
            near = {(column + 1, row), (column - 1, row), (column, row + 1), (column, row - 1)} & left
            left -= near
            piece += near
            edge += near
        found.append(tuple(sorted(piece, key=row_by_row)))
    return tuple(found)


@lru_cache(maxsize=8192)
def densest(cells: Cells, side: int, spacing: int) -> Points:
    """Return the densest pattern found, sorted by (y, x); one point at least."""
    found: list[tuple[int, int]] = []
    for piece in pieces(cells):
        left, top = min(c for c, _ in piece), min(r for _, r in piece)
        moved = tuple((column - left, row - top) for column, row in piece)
        own = shifted(_in_piece(moved, side, spacing), left * side, top * side)
        found += _far_enough(own, found, side, spacing)
    return tuple(sorted(found, key=row_by_row))


def shifted(points: Iterable[tuple[int, int]], right: int, down: int) -> Points:
    """Return points moved by ``right`` and ``down``."""
    return tuple((x + right, y + down) for x, y in points)


def is_clear(inside: frozenset[tuple[int, int]], side: int, point: tuple[int, int], radius: int) -> bool:
    """Return whether the disc of ``radius`` around a point lies in the shape; touching the edge is in."""
    x, y = point
    return all(
        (column, row) in inside or _apart(point, (column, row), side) >= radius**2
        for column in range((x - radius) // side, (x + radius - 1) // side + 1)
        for row in range((y - radius) // side, (y + radius - 1) // side + 1)
    )


@lru_cache(maxsize=1024)
def heart(piece: Cells, side: int) -> tuple[tuple[int, int], int]:
    """Return the middle of one piece, and how far it is from the edge.

    Of the corners, middles of sides and centres of cells: the one farthest from
    the edge, among equals the one nearest the centre of gravity.
    """
    columns, rows = [c for c, _ in piece], [r for _, r in piece]
    around = {
        (column, row)
        for column in range(min(columns) - 1, max(columns) + 2)
        for row in range(min(rows) - 1, max(rows) + 2)
    }.difference(piece)
    half, number = side // 2, len(piece)
    middle = (sum(2 * c + 1 for c in columns) * half, sum(2 * r + 1 for r in rows) * half)
    ranked = []
    for x, y in {((2 * c + i) * half, (2 * r + j) * half) for c, r in piece for i in (0, 1) for j in (0, 1)}:
        room = min(_apart((x, y), cell, side) for cell in around)
        off = (x * number - middle[0]) ** 2 + (y * number - middle[1]) ** 2
        ranked.append((-room, off, y, x))
    room, _, y, x = min(ranked)
    return (x, y), isqrt(-room)


def straight(width: int, height: int, columns: int, rows: int) -> Points:
    """Return the points in the middles of ``columns`` × ``rows`` equal fields of a rectangle."""
    return tuple(
        ((2 * i + 1) * width // (2 * columns), (2 * j + 1) * height // (2 * rows))
        for j in range(rows)
        for i in range(columns)
    )


def row_by_row(place: tuple[int, int]) -> tuple[int, int]:
    """Order places row by row."""
    return place[1], place[0]


def _apart(point: tuple[int, int], cell: tuple[int, int], side: int) -> int:
    """Return the square of the distance from a point to a cell."""
    return _gap(point[0], cell[0] * side, side) ** 2 + _gap(point[1], cell[1] * side, side) ** 2


def _gap(at: int, start: int, side: int) -> int:
    """Return the distance along one axis from a place to a cell; 0 within it."""
    return max(start - at, at - start - side, 0)


def _ceil_root(number: int) -> int:
    """Return the least whole number whose square is not less."""
    return isqrt(number - 1) + 1 if number > 0 else 0


@lru_cache(maxsize=8192)
def _in_piece(cells: Cells, side: int, spacing: int) -> Points:
    """Return the densest pattern found in one piece whose cells begin at (0, 0)."""
    columns, rows = max(c for c, _ in cells) + 1, max(r for _, r in cells) + 1
    if len(cells) == columns * rows:
        return _in_rectangle(columns * side, rows * side, spacing)
    best: Points = ()
    for pattern in _in_odd_shape(cells, side, spacing):
        if len(pattern) > len(best):
            best = pattern
    return best


@lru_cache(maxsize=8192)
def _in_rectangle(width: int, height: int, spacing: int) -> Points:
    """Return the densest of a straight lattice and of staggered rows either way.

    A rectangle narrower than the spacing holds one line, in its middle.
    """
    plain = (max(width // spacing, 1), max(height // spacing, 1))
    along = _best_rows(width, height, spacing)
    across = _best_rows(height, width, spacing)
    if plain[0] * plain[1] >= max(along[0], across[0]):
        return straight(width, height, *plain)
    if along[0] >= across[0]:
        return _staggered(width, height, spacing, along[1])
    return tuple((x, y) for y, x in _staggered(height, width, spacing, across[1]))


def _row_counts(free: tuple[int, int], spacing: int, rows: int) -> tuple[int, int]:
    """Return the points in odd and in even rows of a staggered pattern of so many rows."""
    apart = free[1] // (rows - 1)
    half = max(spacing // 2, _ceil_root(spacing**2 - apart**2))
    return free[0] // (2 * half) + 1, (free[0] - half) // (2 * half) + 1 if free[0] >= half else 0


def _best_rows(width: int, height: int, spacing: int) -> tuple[int, int]:
    """Return (points, rows) of the staggered pattern with most points, its rows along the width.

    Rows stand evenly between the edges; where they are nearer than √3 / 2 of the
    spacing the points within a row stand wider, so that neighbours in the next
    row keep their distance. Rows two apart have the same places.
    """
    free = (width - spacing, height - spacing)
    best = (0, 0)
    if min(free) < 0:
        return best
    for rows in range(2, max(2 * free[1] // spacing + 2, 3)):
        first, second = _row_counts(free, spacing, rows)
        count = first * ((rows + 1) // 2) + second * (rows // 2)
        if second and count > best[0]:
            best = (count, rows)
    return best


def _staggered(width: int, height: int, spacing: int, rows: int) -> Points:
    """Return so many staggered rows, spread evenly between the edges."""
    free = (width - spacing, height - spacing)
    first, second = _row_counts(free, spacing, rows)
    steps = 2 * first - 1 if first == second else 2 * (first - 1)
    edge = spacing // 2
    return tuple(
        (edge + (2 * i + j % 2) * free[0] // steps, edge + j * free[1] // (rows - 1))
        for j in range(rows)
        for i in range(second if j % 2 else first)
    )


def _in_odd_shape(cells: Cells, side: int, spacing: int) -> Iterator[Points]:
    """Yield patterns for a piece that is not a rectangle: by rectangles, then by rows laid eight ways."""
    many = len(cells) * side**2 > _MANY * spacing**2
    for turn in range(8):
        turned = _turned(cells, turn)
        if turn in (0, 4) or spacing > side:
            yield _back(_by_rectangles(turned, side, spacing), cells, side, turn)
        if many and turn not in (0, 4):
            continue
        edge, rows = spacing // 2, max(r for _, r in turned) + 1
        for pitch in (spacing, _ceil_root(3 * (spacing // 2) ** 2)):
            starts = {edge + (row * side) % pitch for row in range(1 if many else rows)}
            for start in sorted(starts):
                yield _back(_laid(turned, side, spacing, pitch, start), cells, side, turn)


def _by_rectangles(cells: Cells, side: int, spacing: int) -> Points:
    """Return the densest pattern of each rectangle that a shape is cut into.

    In one narrower than the spacing the points stand nearer its edge than half a spacing:
    those too near the points of a rectangle before it are left out.
    """
    found: list[tuple[int, int]] = []
    for first, last in blocks(Square("", column, row) for column, row in cells):
        width, height = (last.column - first.column + 1) * side, (last.row - first.row + 1) * side
        own = shifted(_in_rectangle(width, height, spacing), first.column * side, first.row * side)
        found += _far_enough(own, found, side, spacing)
    return tuple(found)


def _far_enough(own: Points, others: list[tuple[int, int]], side: int, spacing: int) -> Points:
    """Return those points that keep the spacing from all the others of shapes beside theirs.

    All of them do where a cell is a spacing wide: each keeps half of it from its own edge.
    """
    if spacing <= side:
        return own
    return tuple(
        (x, y) for x, y in own if all((x - px) ** 2 + (y - py) ** 2 >= spacing**2 for px, py in others)
    )


def _laid(cells: Cells, side: int, spacing: int, pitch: int, start: int) -> Points:
    """Lay rows ``pitch`` apart from ``start``; in each, every point as near column A as the rest allow."""
    inside, columns = frozenset(cells), max(c for c, _ in cells) + 1
    bottom = (max(r for _, r in cells) + 1) * side - spacing // 2
    found: list[tuple[int, int]] = []
    recent: list[tuple[int, int]] = []
    for y in range(start, bottom + 1, pitch):
        recent = [point for point in recent if y - point[1] < spacing]
        barred = _barred(inside, columns, side, y, spacing // 2)
        for px, py in recent:
            reach = _ceil_root(spacing**2 - (y - py) ** 2)
            barred.append((px - reach, px + reach))
        x = 0
        for low, high in sorted(barred):
            while x <= low:
                found.append((x, y))
                recent.append((x, y))
                x += spacing
            x = max(x, high)
    return tuple(found)


def _barred(
    inside: frozenset[tuple[int, int]], columns: int, side: int, y: int, radius: int
) -> list[tuple[int, int]]:
    """Return the open stretches of the line at ``y`` where a disc of ``radius`` would leave the shape."""
    barred: list[tuple[int, int]] = []
    for row in range((y - radius) // side, (y + radius - 1) // side + 1):
        reach = _ceil_root(radius**2 - _gap(y, row * side, side) ** 2)
        barred += [
            (column * side - reach, (column + 1) * side + reach)
            for column in range(-1, columns + 1)
            if (column, row) not in inside
        ]
    return barred


def _turned(cells: Cells, turn: int) -> Cells:
    """Return a shape mirrored and turned; the three bits of ``turn`` say how."""
    columns, rows = max(c for c, _ in cells), max(r for _, r in cells)
    flipped = ((columns - c if turn & 1 else c, rows - r if turn & 2 else r) for c, r in cells)
    return tuple((r, c) if turn & 4 else (c, r) for c, r in flipped)


def _back(points: Points, cells: Cells, side: int, turn: int) -> Points:
    """Return points of a turned shape in the shape as it was."""
    width, height = (max(c for c, _ in cells) + 1) * side, (max(r for _, r in cells) + 1) * side
    upright = ((y, x) if turn & 4 else (x, y) for x, y in points)
    return tuple((width - x if turn & 1 else x, height - y if turn & 2 else y) for x, y in upright)
