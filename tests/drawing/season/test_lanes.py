"""Bars in lines: none hides another, what is alike is one block, and no day is lost."""

from __future__ import annotations

from datetime import date, timedelta
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from tallybed.drawing.season.lanes import Block, Lanes, lanes
from tallybed.garden.squares import Square, in_words
from tallybed.reckoning.calendar.strips import PlantingStrip
from tests.drawing.months import LONG
from tests.drawing.seasons import SPAN, day, planting_strip, usual
from tests.laws import tries


def bars(found: tuple[PlantingStrip, ...], planting: str) -> list[tuple[str, int, int]]:
    """Return a planting's blocks: their squares, their lane and of how many it is."""
    laid = lanes(LONG, found)
    own = [bar for bar in laid.bars if bar.planting == planting]
    return [(in_words(laid.squares(bar), with_bed=False), bar.lane, bar.of) for bar in own]


def test_squares_with_the_same_story_are_one_line() -> None:
    assert bars(usual(), "CA1") == [("A1:B1", 0, 1)]
    lines = [in_words(line, with_bed=False) for line in lanes(LONG, usual()).lines]
    assert lines[:4] == ["A1:B1", "C1", "D1", "E1:F1"]
    assert [square for line in lanes(LONG, usual()).lines for square in line] == list(LONG.squares)


def test_lines_do_not_go_on_in_another_row() -> None:
    assert bars((planting_strip("CA1", "A1:J2", day(4, 1), day(5, 1)),), "CA1") == [("A1:J2", 0, 1)]
    lines = lanes(LONG, (planting_strip("CA1", "A1:J2", day(4, 1), day(5, 1)),)).lines
    assert [len(line) for line in lines] == [10, 10, 10]


def test_squares_that_follow_each_other_are_one_block_though_their_stories_differ() -> None:
    found = (
        planting_strip("CA1", "A1:B1", day(4, 1), day(5, 1)),
        planting_strip("BB1", "B1", day(6, 1), day(7, 1)),
    )
    assert bars(found, "CA1") == [("A1:B1", 0, 1)]
    assert [len(line) for line in lanes(LONG, found).lines[:2]] == [1, 1]


def test_squares_apart_are_blocks_apart() -> None:
    """A1 and A2 lie ten squares apart in bed order."""
    found = (planting_strip("CA1", "A1:A2", day(4, 1), day(5, 1)),)
    assert bars(found, "CA1") == [("A1", 0, 1), ("A2", 0, 1)]


def test_what_shares_its_squares_is_drawn_in_them_once() -> None:
    found = lanes(LONG, usual())
    assert bars(usual(), "PE1") == [("E1:F1", 0, 2)]
    assert bars(usual(), "LE1") == [("E1:F1", 1, 2)]
    assert [found.depth(place) for place in (2, 3, 4)] == [1, 2, 1]


def test_a_square_passed_on_needs_no_second_lane() -> None:
    one = planting_strip("CA1", "A1", day(4, 1), day(5, 1))
    other = planting_strip("BB1", "A1", day(5, 2), day(6, 1))
    assert lanes(LONG, (one, other)).depth(0) == 1
    assert bars((one, other), "BB1") == [("A1", 0, 1)]


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


@settings(max_examples=tries(60))
@given(some())
def test_no_bar_lies_over_another_and_none_is_lost(found: tuple[PlantingStrip, ...]) -> None:
    laid = lanes(LONG, found)
    for blocks in (laid.bars, laid.meant):
        for one, other in combinations(blocks, 2):
            meet = one.overlaps(other) and one.first <= other.last and other.first <= one.last
            if meet:
                assert (one.of, one.lane) != (other.of, other.lane)
                assert one.of == other.of > max(one.lane, other.lane)
    expected = sorted(
        (one.planting, course.square, course.first, course.last) for one in found for course in one.courses
    )
    assert sorted(spread(laid, laid.bars)) == expected
    assert sorted(spread(laid, laid.meant)) == sorted(
        (one.planting, each.square, each.first, each.last) for one in found for each in one.meant
    )


def spread(laid: Lanes, blocks: tuple[Block, ...]) -> list[tuple[str, Square, date, date]]:
    return [
        (block.planting, square, block.first, block.last)
        for block in blocks
        for square in laid.squares(block)
    ]
