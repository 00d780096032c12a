"""What a bed is called, which squares it has and which lie along a side, and its areas by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.garden.squares import (
    Bed,
    BedPath,
    RunOut,
    Square,
    blocks,
    by_row,
    column_letters,
    column_number,
)
from tallybed.garden.units import FOOT, Length
from tests.reckoning.byhand import squares


@pytest.mark.parametrize(
    ("title", "called"),
    [
        ("The long bed", "the long bed"),
        ("Our bed by the gate", "our bed by the gate"),
        ("L-Beet am Zaun", "L-Beet am Zaun"),
        ("Wren’s corner", "Wren’s corner"),
        ("The", "The"),
        ("long", "bed long"),
        ("", "bed long"),
    ],
)
def test_only_a_small_word_at_the_beginning_loses_its_capital(title: str, called: str) -> None:
    assert Bed(name="long", title=title, columns=2, rows=1).called == called


# An L of 3 by 2 squares of two feet, C2 left out.
BED = Bed(
    name="long",
    title="The long bed",
    columns=3,
    rows=2,
    side=Length.of(2, FOOT),
    omitted=frozenset(squares("C2")),
    paths=(
        BedPath(side="1", width=Length.of(3, FOOT)),
        BedPath(side="C", width=Length.of(1, FOOT), share=Fraction(1)),
    ),
    run_outs=(RunOut(side="A", squares=squares("A1 A2"), reach=Length.of(5, FOOT)),),
)


def test_squares_are_told_row_by_row_without_those_left_out() -> None:
    assert BED.squares == squares("A1 B1 C1 A2 B2")


@pytest.mark.parametrize(("side", "along"), [("1", "A1 B1 C1"), ("2", "A2 B2"), ("A", "A1 A2"), ("C", "C1")])
def test_the_squares_along_each_side(side: str, along: str) -> None:
    assert BED.along(side) == squares(along)


def test_in_a_bed_of_one_row_both_its_sides_are_called_by_it() -> None:
    row = Bed(name="long", title="", columns=3, rows=1)
    assert row.sides == ("1", "1", "A", "C")
    assert row.along("1") == squares("A1 B1 C1")


@pytest.mark.parametrize(
    ("square", "there"),
    [
        (Square("long", 0, 0), True),
        (Square("long", 2, 0), True),
        (Square("long", 2, 1), False),  # left out
        (Square("long", 3, 0), False),
        (Square("long", 0, 2), False),
        (Square("long", -1, 0), False),
        (Square("long", 0, -1), False),
        (Square("other", 0, 0), False),
    ],
)
def test_whether_a_square_is_there(square: Square, there: bool) -> None:
    assert BED.has(square) is there


def test_the_areas_of_a_bed_by_hand() -> None:
    """Five squares of 4 sq ft; half of 3 ft along three of them, all of 1 ft along one; 5 ft before two."""
    assert (BED.square_area, BED.square_feet) == (4, 20)
    assert BED.path_square_feet == Fraction(6 * 3, 2) + 2 * 1
    assert BED.run_out_square_feet == 2 * 2 * 5


@pytest.mark.parametrize(("letters", "number"), [("A", 0), ("Z", 25), ("AA", 26), ("AZ", 51), ("BA", 52)])
def test_columns_after_the_26th_have_two_letters(letters: str, number: int) -> None:
    assert (column_letters(number), column_number(letters)) == (letters, number)


def test_squares_in_order_of_rows_come_bed_by_bed() -> None:
    every = [Square("b", 0, 0), Square("a", 1, 1), Square("a", 0, 1), Square("a", 2, 0)]
    assert [str(one) for one in sorted(every, key=by_row)] == ["a/C1", "a/A2", "a/B2", "b/A1"]
    assert [str(one) for one in sorted(every)] == ["a/A2", "a/B2", "a/C1", "b/A1"]


def test_rectangles_begin_at_the_marked_corner_bed_by_bed() -> None:
    found = [f"{first}-{last}" for first, last in blocks([*BED.squares, *squares("elbow/B2")])]
    assert found == ["elbow/B2-elbow/B2", "long/A1-long/C1", "long/A2-long/B2"]
