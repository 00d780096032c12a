"""An end that nobody recorded stays supposed until a record shows what became of it, and not a day longer."""

from __future__ import annotations

import pytest

from tallybed.garden.days import Month
from tallybed.reckoning.calendar.unrecorded import unrecorded
from tallybed.reckoning.squares.occupancy import hold
from tallybed.reckoning.squares.stays import stays
from tests.reckoning.growing import day, line, plan_row, season

LETTUCE = plan_row("lettuce", "A1", "Apr 12", "Jun 12", tag="LE1")
SOWN = line("Apr 12", "sow", "lettuce", "A1", tag="LE1")
KALE = line("Aug 10", "sow", "kale", "A1", tag="KA1")


@pytest.mark.parametrize(
    ("month", "line_of_june", "told"),
    [
        (6, None, []),  # by the plan it ends within the month, which shows it itself
        (7, None, ["LE1"]),  # the kale of August says nothing of July
        (8, None, []),
        (9, None, []),
        (7, line("Jun 12", "clear", "lettuce", "A1"), []),
        (7, line("Jun 12", "sow", "radish", "A1"), []),
        (7, line("Jun 12", "sow", "radish", "B1"), ["LE1"]),
        (10, None, []),  # still to come
    ],
)
def test_an_end_by_the_plan_alone_is_told_until_a_record_shows_it(
    month: int, line_of_june: object, told: list[str]
) -> None:
    log = [SOWN, KALE, *([line_of_june] if line_of_june else [])]
    held = hold(season([LETTUCE], log), day("Sep 30"))
    one = Month(2026, month)
    assert [stay.planting for stay in unrecorded(held, stays(held, "b"), one.first, one.last)] == told
