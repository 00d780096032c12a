"""Outlines of squares that lie together, as closed corner lists.

Cells are (column, row) pairs. Corners are in squares, clockwise as drawn
(x to the right, y down), so that the inside is always to the right.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable
from functools import lru_cache

Cell = tuple[int, int]
Corner = tuple[float, float]
_Step = tuple[int, int]


def outlines(cells: Collection[Cell]) -> tuple[tuple[Corner, ...], ...]:
    """Return the closed outlines of ``cells``, holes included (they run the other way round).

    Squares that touch at a corner alone keep outlines of their own.
    """
    return _outlines(frozenset(cells))


@lru_cache(maxsize=4096)
def _outlines(there: frozenset[Cell]) -> tuple[tuple[Corner, ...], ...]:
    """Return the same: a drawing after another shows the same block."""
    leaving: dict[Cell, list[Cell]] = {}
    for start, end in sorted(_edges(there)):
        leaving.setdefault(start, []).append(end)
    found = []
    while leaving:
        start = min(leaving)
        found.append(_straightened(_walked(leaving, start)))
    return tuple(found)


def shifted(corners: Iterable[Corner], inwards: float) -> tuple[Corner, ...]:
    """Return an outline moved ``inwards`` (outwards if negative) by so many squares."""
    ring = tuple(corners)
    moved = []
    for index, (x, y) in enumerate(ring):
        before = _inward(ring[index - 1], (x, y))
        after = _inward((x, y), ring[(index + 1) % len(ring)])
        moved.append((x + inwards * (before[0] + after[0]), y + inwards * (before[1] + after[1])))
    return tuple(moved)


def together(cells: Iterable[Cell]) -> tuple[frozenset[Cell], ...]:
    """Return the parts of ``cells`` that hang together by whole sides, in order of their first cell."""
    left = set(cells)
    parts = []
    while left:
        edge = [min(left, key=lambda cell: (cell[1], cell[0]))]
        part: set[Cell] = set()
        while edge:
            column, row = edge.pop()
            if (column, row) in left:
                left.remove((column, row))
                part.add((column, row))
                edge += [(column + 1, row), (column - 1, row), (column, row + 1), (column, row - 1)]
        parts.append(frozenset(part))
    return tuple(parts)


def inner_lines(cells: Collection[Cell]) -> tuple[tuple[Cell, Cell], ...]:
    """Return the straight lines between neighbouring cells, each as long as it goes: where the twine runs."""
    there = frozenset(cells)
    upright = {(c, r) for c, r in there if (c - 1, r) in there}
    level = {(r, c) for c, r in there if (c, r - 1) in there}
    lines = [((x, first), (x, last)) for x, first, last in _runs(upright)]
    lines += [((first, y), (last, y)) for y, first, last in _runs(level)]
    return tuple(lines)


def _runs(places: set[Cell]) -> list[tuple[int, int, int]]:
    """Return places that follow each other on a line as (line, first, one past the last), in order."""
    runs: list[tuple[int, int, int]] = []
    for line, place in sorted(places):
        if runs and runs[-1][0] == line and runs[-1][2] == place:
            runs[-1] = (line, runs[-1][1], place + 1)
        else:
            runs.append((line, place, place + 1))
    return runs


def _edges(there: frozenset[Cell]) -> Iterable[tuple[Cell, Cell]]:
    """Yield the sides of cells without a neighbour, each from corner to corner, the cell on its right."""
    for column, row in there:
        if (column, row - 1) not in there:
            yield (column, row), (column + 1, row)
        if (column + 1, row) not in there:
            yield (column + 1, row), (column + 1, row + 1)
        if (column, row + 1) not in there:
            yield (column + 1, row + 1), (column, row + 1)
        if (column - 1, row) not in there:
            yield (column, row + 1), (column, row)


def _walked(leaving: dict[Cell, list[Cell]], start: Cell) -> list[Cell]:
    """Take one closed walk out of ``leaving``; at a crossing it turns to its own inside."""
    walk = [start]
    here, heading = start, (0, 0)
    while True:
        ends = leaving[here]
        end = min(ends, key=lambda end: _turn(heading, (end[0] - here[0], end[1] - here[1])))
        ends.remove(end)
        if not ends:
            del leaving[here]
        heading = (end[0] - here[0], end[1] - here[1])
        here = end
        if here == start:
            return walk
        walk.append(here)


def _turn(before: _Step, after: _Step) -> int:
    """Return 0 for a turn to the right (inside), 1 for straight on, 2 for a turn to the left."""
    cross = before[0] * after[1] - before[1] * after[0]
    return 1 - cross


def _straightened(walk: list[Cell]) -> tuple[Corner, ...]:
    """Return a walk's corners: the points at which it turns."""
    kept = []
    for index, (x, y) in enumerate(walk):
        (ax, ay), (bx, by) = walk[index - 1], walk[(index + 1) % len(walk)]
        if (x - ax) * (by - y) != (y - ay) * (bx - x):
            kept.append((float(x), float(y)))
    return tuple(kept)


def _inward(start: Corner, end: Corner) -> tuple[int, int]:
    """Return the step of one square to the right of a side's direction, which is inside."""
    dx = (end[0] > start[0]) - (end[0] < start[0])
    dy = (end[1] > start[1]) - (end[1] < start[1])
    return (-dy, dx)
