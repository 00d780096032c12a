"""Squares that changed hands, in the words of the description."""

from __future__ import annotations

from datetime import date

import pytest

from tallybed.drawing.bedmap.changed_hands import told
from tallybed.drawing.bedmap.view import ChangedSquares, Handover, viewed
from tallybed.reckoning.squares.occupancy import Grade
from tests.drawing import months


@pytest.mark.parametrize(
    ("starts", "ends", "lost", "grade", "end", "expected"),
    [
        (3, None, False, Grade.SEEN, None, "radish from 3 May"),
        (None, 28, False, Grade.IMPLIED, Grade.IMPLIED, "radish until 28 May"),
        (3, 28, True, Grade.SEEN, Grade.SEEN, "radish from 3 May lost 28 May"),
        (3, None, False, Grade.PLANNED, None, "radish from 3 May (planned)"),
        (3, 28, False, Grade.PLANNED, Grade.PLANNED, "radish from 3 May until 28 May (planned)"),
        # It was seen, and that it is over is supposed; and the other way round.
        (3, 28, False, Grade.SEEN, Grade.SUPPOSED, "radish from 3 May until 28 May (supposed from the plan)"),
        (None, 28, False, Grade.SUPPOSED, Grade.SEEN, "radish (supposed from the plan) until 28 May"),
        # It stands yet, and its last day is to come.
        (None, 28, False, Grade.SUPPOSED, None, "radish (supposed from the plan) until 28 May (planned)"),
        (3, 28, False, Grade.SEEN, None, "radish from 3 May until 28 May (planned)"),
    ],
)
def test_a_holder_is_told_with_its_days(
    starts: int | None, ends: int | None, lost: bool, grade: Grade, end: Grade | None, expected: str
) -> None:
    turn = Handover(
        planting="RA1",
        name="radish",
        starts=date(2026, 5, starts) if starts else None,
        ends=date(2026, 5, ends) if ends else None,
        grade=grade,
        end=end,
        lost=lost,
    )
    (square,) = months.squares("A1")
    changed = ChangedSquares(first=square, last=square, handovers=(turn,))
    assert told(changed) == f"Changed in A1: {expected}."


@pytest.mark.parametrize(
    ("ends", "starts", "joined"),
    [
        (22, 24, " until 22 May, then B from 24 May"),
        (22, 22, " until 22 May, then B from 22 May"),
        (22, 10, " until 22 May, beside B from 10 May"),
        (22, None, " until 22 May, beside B"),
        (None, 10, ", beside B from 10 May"),
    ],
)
def test_who_shares_a_square_does_not_follow(ends: int | None, starts: int | None, joined: str) -> None:
    def turn(name: str, starts: int | None, ends: int | None) -> Handover:
        days = (date(2026, 5, each) if each else None for each in (starts, ends))
        return Handover(
            planting=name,
            name=name,
            starts=next(days),
            ends=next(days),
            grade=Grade.SEEN,
            end=Grade.SEEN if ends else None,
            lost=False,
        )

    (square,) = months.squares("A1")
    both = (turn("A", None, ends), turn("B", starts, None))
    assert told(ChangedSquares(first=square, last=square, handovers=both)) == f"Changed in A1: A{joined}."


def test_holders_follow_each_other_and_like_squares_are_told_together() -> None:
    said = [told(each) for each in viewed(months.may()).changed]
    assert "Changed in A2:A3: spinach until 22 May, then bush bean from 24 May." in said
    assert len(said) == len(set(said))
    assert viewed(months.month_of(months.LONG, ())).changed == ()
