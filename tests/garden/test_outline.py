"""Outlines of squares, held against what areas and edges must add up to."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tallybed.garden.outline import inner_lines, outlines, shifted, together
from tests.drawing.markup import area

CELLS = st.frozensets(st.tuples(st.integers(0, 5), st.integers(0, 4)), max_size=20)


def outer_edges(cells: frozenset[tuple[int, int]]) -> int:
    """Return how many sides of the squares have no square beyond them."""
    return sum(
        (c + dc, r + dr) not in cells for c, r in cells for dc, dr in ((1, 0), (-1, 0), (0, 1), (0, -1))
    )


@given(CELLS)
def test_outlines_enclose_as_many_squares_as_there_are(cells: frozenset[tuple[int, int]]) -> None:
    """Clockwise outlines count up, holes count off (the shoelace formula)."""
    assert sum(area(list(outline)) for outline in outlines(cells)) == len(cells)


@given(CELLS)
def test_outlines_run_along_every_outer_edge_once(cells: frozenset[tuple[int, int]]) -> None:
    length = sum(
        abs(bx - ax) + abs(by - ay)
        for outline in outlines(cells)
        for (ax, ay), (bx, by) in zip(outline, [*outline[1:], outline[0]], strict=True)
    )
    assert length == outer_edges(cells)


@given(CELLS)
def test_outer_edges_and_twine_are_all_the_edges(cells: frozenset[tuple[int, int]]) -> None:
    twine = sum(abs(bx - ax) + abs(by - ay) for (ax, ay), (bx, by) in inner_lines(cells))
    assert 2 * twine + outer_edges(cells) == 4 * len(cells)


@given(CELLS)
def test_parts_that_hang_together_are_all_the_squares_and_do_not_touch(
    cells: frozenset[tuple[int, int]],
) -> None:
    parts = together(cells)
    assert sum(map(len, parts)) == len(cells)
    assert frozenset().union(*parts) == cells
    for part in parts:
        near = {(c + dc, r + dr) for c, r in part for dc, dr in ((1, 0), (-1, 0), (0, 1), (0, -1))}
        assert not near & (cells - part)
    firsts = [min((row, column) for column, row in part) for part in parts]
    assert firsts == sorted(firsts)


@given(CELLS, st.floats(-0.3, 0.3))
def test_a_shifted_outline_keeps_its_shape(cells: frozenset[tuple[int, int]], step: float) -> None:
    for outline in outlines(cells):
        moved = shifted(outline, step)
        assert len(moved) == len(outline)
        for (ax, ay), (bx, by) in zip(outline, moved, strict=True):
            assert abs(abs(bx - ax) - abs(step)) < 1e-9
            assert abs(abs(by - ay) - abs(step)) < 1e-9


def test_an_inset_square_is_smaller_and_an_outset_one_larger() -> None:
    (outline,) = outlines({(0, 0)})
    assert area(list(shifted(outline, 0.1))) == pytest.approx(0.64)
    assert area(list(shifted(outline, -0.1))) == pytest.approx(1.44)


@given(CELLS)
@example(frozenset({(0, 0), (1, 1)}))
@example(frozenset({(1, 0), (0, 1)}))
def test_squares_that_touch_at_a_corner_keep_outlines_of_their_own(cells: frozenset[tuple[int, int]]) -> None:
    outer = [outline for outline in outlines(cells) if area(list(outline)) > 0]
    assert len(outer) == len(together(cells))
