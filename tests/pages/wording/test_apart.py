"""A spacing in words: the distance first, then what follows from it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.garden.units import CENTIMETRE, INCH, Length, Showing
from tallybed.pages.wording.apart import apart, distance

FOOT = Length.of(12, INCH)


# A square of a foot, half the spacing kept at its edges: whole rows of 12 ÷ the spacing (arithmetic).
@pytest.mark.parametrize(
    ("inches", "words"),
    [
        ("2", "2 in apart, 36 to a square"),
        ("3", "3 in apart, sixteen to a square"),
        ("4", "4 in apart, nine to a square"),
        ("6", "6 in apart, four to a square"),
        ("12", "12 in apart, one to a square"),
        ("12.125", "12.1 in apart, one square to a plant"),
        ("17", "17 in apart, two squares to a plant"),
        ("18", "18 in apart, 2 1/4 squares to a plant"),
        ("24", "24 in apart, four squares to a plant"),
        ("36", "36 in apart, nine squares to a plant"),
    ],
)
def test_the_distance_stands_before_the_count(inches: str, words: str) -> None:
    assert apart(Showing(), Length.of(Fraction(inches), INCH), [FOOT]) == words


@pytest.mark.parametrize(
    ("inches", "words"),
    [
        ("6", "6 in apart, four to a square of 1 ft and sixteen to a square of 2 ft"),
        ("18", "18 in apart, 2 1/4 squares of 1 ft to a plant and one to a square of 2 ft"),
    ],
)
def test_squares_of_unlike_sides_are_told_with_their_size(inches: str, words: str) -> None:
    assert apart(Showing(), Length.of(Fraction(inches), INCH), [FOOT, FOOT * 2]) == words


def test_squares_that_hold_as_many_are_told_once() -> None:
    told = apart(Showing(), Length.of(3, INCH), [FOOT, Length.of(30, CENTIMETRE)])
    assert told == "3 in apart, sixteen to a square"


def test_a_metric_garden_reads_centimetres() -> None:
    square = Length.of(30, CENTIMETRE)
    assert apart(Showing(metric=True), Length.of(Fraction("7.5"), CENTIMETRE), [square]) == (
        "7.5 cm apart, sixteen to a square"
    )


@pytest.mark.parametrize(
    ("inches", "words"),
    [
        ("3", "7.5 cm apart, sixteen to a square"),
        ("12", "30 cm apart, one to a square"),
        ("18", "46 cm apart, 2 1/4 squares to a plant"),
        ("48", "1.22 m apart, 16 squares to a plant"),
    ],
)
def test_printed_inches_are_the_same_part_of_30_cm_as_of_a_foot(inches: str, words: str) -> None:
    square = Length.of(30, CENTIMETRE)
    assert apart(Showing(metric=True), Length.of(Fraction(inches), INCH), [square]) == words


@pytest.mark.parametrize(
    ("inches", "words"),
    [("2.5", "2 1/2 in"), ("0.75", "3/4 in"), ("48", "48 in"), ("60", "5 ft"), ("3.1", "3.1 in")],
)
def test_distances_are_written_as_spacings_are_printed(inches: str, words: str) -> None:
    assert distance(Showing(), Length.of(Fraction(inches), INCH)) == words
