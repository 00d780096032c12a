"""Titles on a time axis: nothing runs into anything, whatever the days and the words."""

from __future__ import annotations

import random
from datetime import date, timedelta
from itertools import combinations

import pytest

from tallybed.drawing.base.flags import Flag, HungFlag, hung
from tallybed.drawing.base.lettering import width_of

FIRST, SIZE, WIDTH, ROWS = date(2026, 3, 1), 12.0, 700.0, 8


def x(day: date) -> float:
    return 40 + (day - FIRST).days * 2.4


def flags(seed: int) -> list[Flag]:
    chance = random.Random(seed)
    count = chance.randint(1, 40)
    return [
        Flag(
            day=FIRST + timedelta(days=chance.randint(0, 270)),
            words=" ".join("word" * chance.randint(1, 2) for _ in range(chance.randint(1, 6))) + f" {number}",
        )
        for number in range(count)
    ]


def hang(every: list[Flag]) -> tuple[HungFlag, ...]:
    return hung(every, x=x, edges=(5.0, WIDTH), rows=ROWS, size=SIZE)


@pytest.mark.parametrize("seed", range(40))
def test_no_title_lies_over_another_nor_over_a_stem(seed: int) -> None:
    found = hang(flags(seed))
    assert found
    for one in found:
        assert 5.0 <= one.left < one.right <= WIDTH
        assert one.right - one.left == pytest.approx(width_of(one.flag.words, SIZE))
        assert one.x == x(one.flag.day)
        assert min(abs(one.left - one.x), abs(one.right - one.x)) < SIZE, "a title stands at its stem"
    for one, other in combinations(found, 2):
        if one.row == other.row:
            assert one.right < other.left or other.right < one.left, (one, other)
        for words, stem in ((one, other), (other, one)):
            # A stem runs from its title down to the axis, through every row below.
            assert words.row > stem.row or not words.left < stem.x < words.right, (words, stem)


def test_steps_rise_to_the_left_and_the_first_day_is_not_lost() -> None:
    week = [
        Flag(day=FIRST + timedelta(days=7 * number), words=f"A title of week {number}") for number in range(6)
    ]
    found = hang(week)
    assert [one.flag for one in found] == week[::-1]
    assert [one.row for one in found] == [0, 1, 2, 3, 4, 5]
    assert all(one.left > one.x for one in found), "right of its stem where there is room"


def test_at_the_end_a_title_stands_left_of_its_stem() -> None:
    (one,) = hang([Flag(day=FIRST + timedelta(days=270), words="Turnips for all")])
    assert one.right < one.x


def test_what_has_no_room_is_left_out() -> None:
    assert hang([Flag(day=FIRST, words="w" * 200)]) == ()
    never = hung(
        [Flag(day=FIRST, words="up")], x=x, edges=(5, WIDTH), rows=3, size=SIZE, clear=lambda *_: False
    )
    assert never == ()
