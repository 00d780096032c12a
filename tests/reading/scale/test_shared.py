"""What is told once in a line of several pickings: which of them it is told of is asked, never guessed."""

from __future__ import annotations

from datetime import date

import pytest

from tallybed.reading.scale.line import pickings
from tallybed.reading.scale.questions import LineQuestion
from tests.demonstration import demo_vocabulary

DAY = date(2026, 8, 1)
"""A Saturday."""
MONDAY = date(2026, 7, 27)
TUESDAY = date(2026, 7, 28)


def days(line: str, answers: dict[str, str] | None = None) -> list[date]:
    """The days of a line's pickings."""
    return [one.day for one in pickings(line, demo_vocabulary(), DAY, answers=answers)]


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("spinach 12 oz Mon, radish 9 oz", [MONDAY, DAY]),
        ("spinach 12 oz, radish 9 oz Mon, basil 1 oz", [MONDAY, DAY]),
        ("Mon spinach 12 oz, Tue radish 9 oz, basil 1 oz", [MONDAY, TUESDAY, DAY]),
        ("spinach 12 oz Mon; radish 9 oz today; basil 1 oz", [MONDAY, DAY]),
    ],
)
def test_the_day_of_a_picking_that_tells_none_is_asked_where_another_tells_one(
    line: str, asked: list[date]
) -> None:
    """It may be that of the one before it, or that of the scale."""
    with pytest.raises(LineQuestion) as question:
        days(line)
    assert [choice.value for choice in question.value.choices] == [day.isoformat() for day in asked]
    key = question.value.kept_as
    assert days(line, {key: asked[0].isoformat()})[-1] == asked[0]
    assert days(line, {key: DAY.isoformat()})[-1] == DAY


def test_a_day_that_is_plain_is_not_asked() -> None:
    """One at the head governs the line, each may tell its own, and today is today."""
    assert days("Mon: spinach 12 oz, radish 9 oz") == [MONDAY, MONDAY]
    assert days("spinach 12 oz Mon, radish 9 oz Tue") == [MONDAY, TUESDAY]
    assert days("spinach 12 oz today, radish 9 oz") == [DAY, DAY]
    assert days("spinach 12 oz, radish 9 oz today") == [DAY, DAY]


def test_a_day_at_the_end_may_be_that_of_the_last_alone() -> None:
    """So it is asked as well."""
    line = "spinach 12 oz, radish 9 oz Mon"
    with pytest.raises(LineQuestion) as question:
        days(line)
    key = question.value.kept_as
    assert days(line, {key: "all"}) == [MONDAY, MONDAY]
    assert days(line, {key: "last"}) == [DAY, MONDAY]


@pytest.mark.parametrize(
    "line",
    [
        "spinach 12 oz, spinach 9 oz",
        "12 oz spinach and 9 oz spinach",
        "spinach 12 oz / spinach 9 oz",
        "SP1 12 oz, A1, SP1 9 oz",
        "spinach 31 July 12 oz, spinach 1 Aug 9 oz",
    ],
)
def test_one_crop_told_twice_with_a_weight_each_is_two_pickings(line: str) -> None:
    """Refused, it was offered with its first weight alone."""
    found = pickings(line, demo_vocabulary(), DAY)
    assert [one.weight_text for one in found] == ["12 oz", "9 oz"]


def test_one_crop_told_twice_with_one_weight_is_one_picking() -> None:
    """The second name says where it was."""
    (one,) = pickings("spinach 12 oz, spinach A1", demo_vocabulary(), DAY)
    assert one.weight_text == "12 oz"
    assert one.places
