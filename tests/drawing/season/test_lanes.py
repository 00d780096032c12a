"""Bars in lines: none hides another, what is alike is one block, and no day is lost."""

from __future__ import annotations

from datetime import timedelta
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from tallybed.drawing.season.lanes import Block, lanes
from tallybed.reckoning.calendar.strips import PlantingStrip
from tests.drawing.months import LONG
from tests.drawing.seasons import SPAN, day, planting_strip, usual


def bars(found: tuple[PlantingStrip, ...], planting: str) -> list[tuple[int, int, int, int]]:
    return [
        (bar.top, bar.bottom, bar.lane, bar.of) for bar in lanes(LONG, found).bars if bar.planting == planting
    ]


def test_squares_that_follow_each_other_are_one_block() -> None:
    """A1 and B1 are the first two squares in bed order."""
    assert bars(usual(), "CA1") == [(0, 1, 0, 1)]


def test_squares_apart_are_blocks_apart() -> None:
    """A1 and A2 lie ten squares apart in bed order."""
    assert bars((planting_strip("CA1", "A1:A2", day(4, 1), day(5, 1)),), "CA1") == [
        (0, 0, 0, 1),
        (10, 10, 0, 1),
    ]


def test_what_shares_a_square_lies_beside_each_other_in_each_square() -> None:
    found = lanes(LONG, usual())
    assert bars(usual(), "PE1") == [(4, 4, 0, 2), (5, 5, 0, 2)]
    assert bars(usual(), "LE1") == [(4, 4, 1, 2), (5, 5, 1, 2)]
    assert [found.depth(place) for place in (3, 4, 5, 6)] == [1, 2, 2, 1]


def test_a_square_passed_on_needs_no_second_lane() -> None:
    one = planting_strip("CA1", "A1", day(4, 1), day(5, 1))
    other = planting_strip("BB1", "A1", day(5, 2), day(6, 1))
    assert lanes(LONG, (one, other)).depth(0) == 1
    assert bars((one, other), "BB1") == [(0, 0, 0, 1)]


def test_the_next_taking_of_a_bars_squares_is_found() -> None:
    found = (
        planting_strip("CA1", "A1:B1", day(4, 1), day(5, 1)),
        planting_strip("BB1", "B1", day(6, 1), day(7, 1)),
        planting_strip("RA1", "C1", day(5, 2), day(7, 1)),
    )
    laid = lanes(LONG, found)
    carrot, *_rest = laid.bars
    assert laid.after(carrot) == day(6, 1)
    assert laid.after(laid.bars[-1]) is None


how_many = st.integers(0, 12)
days = st.integers(0, 60)
squares = st.sampled_from(["A1", "A1:B1", "B1:C1", "A1:C2"])
whether_meant = st.booleans()


@st.composite
def some(draw: st.DrawFn) -> tuple[PlantingStrip, ...]:
    found = []
    for number in range(draw(how_many)):
        first = SPAN.first + timedelta(days=draw(days))
        last = first + timedelta(days=draw(days))
        where = draw(squares)
        meant = (where, first, last) if draw(whether_meant) else None
        found.append(planting_strip(f"T{number}", where, first, last, meant=meant))
    return tuple(found)


@settings(max_examples=60, deadline=None)
@given(some())
def test_no_bar_lies_over_another_and_none_is_lost(found: tuple[PlantingStrip, ...]) -> None:
    laid = lanes(LONG, found)
    for blocks in (laid.bars, laid.meant):
        for one, other in combinations(blocks, 2):
            meet = one.overlaps(other) and one.first <= other.last and other.first <= one.last
            if meet:
                assert (one.of, one.lane) != (other.of, other.lane)
                assert one.of == other.of > max(one.lane, other.lane)
    places = {square: place for place, square in enumerate(LONG.squares)}
    expected = sorted(
        (one.planting, places[course.square], course.first, course.last)
        for one in found
        for course in one.courses
    )
    assert sorted(spread(laid.bars)) == expected
    assert sorted(spread(laid.meant)) == sorted(
        (one.planting, places[each.square], each.first, each.last) for one in found for each in one.meant
    )


def spread(blocks: tuple[Block, ...]) -> list[tuple[object, ...]]:
    return [
        (block.planting, place, block.first, block.last)
        for block in blocks
        for place in range(block.top, block.bottom + 1)
    ]
