"""A shape falls into the pieces that hang together by sides, whichever way it lies."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tallybed.reckoning.room.packing import Cells, heart, pieces
from tallybed.reckoning.room.spreading import thinned

SHAPES: dict[str, tuple[Cells, ...]] = {
    "J": (((1, 0), (1, 1), (0, 1)),),
    "U": (((0, 0), (2, 0), (0, 1), (1, 1), (2, 1)),),
    "ring": (((0, 0), (1, 0), (2, 0), (0, 1), (2, 1), (0, 2), (1, 2), (2, 2)),),
    # Cells that meet in a corner alone leave plants no room to pass: they are apart.
    "corners": (((0, 0),), ((1, 1),), ((0, 2),)),
    "L and a cell": (((0, 0), (0, 1), (1, 1)), ((2, 0),)),
}


def turned(cell: tuple[int, int], turn: int) -> tuple[int, int]:
    """A cell within three by three, mirrored and turned in one of eight ways."""
    column, row = (2 - cell[0] if turn & 1 else cell[0]), (2 - cell[1] if turn & 2 else cell[1])
    return (row, column) if turn & 4 else (column, row)


@pytest.mark.parametrize("turn", range(8))
@pytest.mark.parametrize("parts", SHAPES.values(), ids=SHAPES)
def test_pieces_are_what_hangs_together_by_sides(parts: tuple[Cells, ...], turn: int) -> None:
    """Else a shape is cut where it is whole, and fewer plants are said to fit than do."""
    expected = {frozenset(turned(cell, turn) for cell in part) for part in parts}
    found = pieces(tuple(cell for part in expected for cell in part))
    assert {frozenset(part) for part in found} == expected
    assert len(found) == len(parts)
    for part in found:
        assert list(part) == sorted(part, key=lambda cell: (cell[1], cell[0]))


FLAG: Cells = ((0, 2), (1, 2), (2, 0), (3, 0), (2, 1), (3, 1), (2, 2), (3, 2), (2, 3), (3, 3))
"""A square of two, two longer, with an arm to the left: its heart is in the square, not on its right edge."""


@given(st.frozensets(st.tuples(st.integers(0, 3), st.integers(0, 3)), min_size=1), st.integers(0, 7))
@example(frozenset(FLAG), 0)
@example(frozenset(FLAG), 1)
@example(frozenset(FLAG), 4)
@example(frozenset(FLAG), 6)
def test_law_no_ground_beside_a_piece_is_nearer_to_its_heart_than_is_told(
    cells: frozenset[tuple[int, int]], turn: int
) -> None:
    """Else a large plant is put where it hangs over the edge of the bed, on one side alone."""
    shape = tuple((3 - c if turn & 1 else c, 3 - r if turn & 2 else r) for c, r in cells)
    if turn & 4:
        shape = tuple((r, c) for c, r in shape)
    for piece in pieces(tuple(sorted(shape, key=lambda cell: (cell[1], cell[0])))):
        (x, y), room = heart(piece, 10)
        beside = {(c, r) for c in range(-1, 5) for r in range(-1, 5)}.difference(piece)
        gaps = ((max(10 * c - x, 0, x - 10 * c - 10), max(10 * r - y, 0, y - 10 * r - 10)) for c, r in beside)
        assert room == int(min(across**2 + down**2 for across, down in gaps) ** 0.5)


@pytest.mark.parametrize(
    ("number", "left"),
    [(0, []), (1, [4]), (2, [0, 8]), (3, [2, 6, 8]), (4, [0, 2, 6, 8]), (5, [0, 2, 4, 6, 8])],
)
def test_of_places_in_a_line_those_farthest_apart_are_left_and_of_one_the_middle(
    number: int, left: list[int]
) -> None:
    """Places 0, 2, 4, 6 and 8. Of three, two go: the middle one, and the first of those farthest from it."""
    found = thinned(tuple((place, 0) for place in (0, 2, 4, 6, 8)), number)
    assert [place for place, _row in found] == left
