"""What is due by the plan and not done by the log."""

from __future__ import annotations

import pytest

from tallybed.garden.records.log import Event
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.reckoning.calendar.due import due
from tallybed.reckoning.squares.occupancy import hold
from tests.reckoning.growing import day, jobs, line, pick, plan_row, season

TOMATO = plan_row(
    "tomato", "A1 B1", "May 12", "Oct 1", tag="TO1", start=Start.SET_OUT, indoors="Mar 24", pot_up="Apr 14"
)
SPINACH = plan_row("spinach", "A1 B1", "Apr 12", "Jun 5", tag="SP1")


def told(
    plan: list[PlanRow], log: list[Event], today: str, first: str, last: str, *, picked: str = ""
) -> list[str]:
    """Write the jobs as ``Mar 24 sow indoors TO1 A1 B1``, an overdue one with ``!`` at its end."""
    year = season(plan, log, [pick(picked, "spinach", "A1")] if picked else None)
    return jobs(due(year, hold(year, day(today)), day(first), day(last)))


SOWN = line("Apr 13", "sow", "spinach", "A1 B1", tag="SP1")

CASES: dict[str, tuple[list[PlanRow], list[Event], str, str, str, list[str]]] = {
    "every job of a planting, in order": (
        [TOMATO],
        [],
        "Mar 1",
        "Mar 1",
        "Nov 30",
        [
            "Mar 24 sow indoors TO1 A1 B1",
            "Apr 14 pot up TO1 A1 B1",
            "May 12 set out TO1 A1 B1",
            "Oct 1 clear TO1 A1 B1",
        ],
    ),
    "of one day what is over is cleared before the next goes in": (
        [TOMATO, plan_row("spinach", "A1 B1", "Apr 12", "May 12", tag="SP1")],
        [SOWN],
        "May 1",
        "May 12",
        "May 12",
        ["May 12 clear SP1 A1 B1", "May 12 set out TO1 A1 B1"],
    ),
    "both days asked for are included": (
        [SPINACH],
        [],
        "Apr 1",
        "Apr 12",
        "Apr 12",
        ["Apr 12 sow SP1 A1 B1"],
    ),
    "not those after": ([SPINACH], [], "Apr 1", "Apr 1", "Apr 11", []),
    "21 days late is overdue": ([SPINACH], [], "Apr 1", "May 3", "May 10", ["Apr 12 sow SP1 A1 B1!"]),
    "22 days late is told no more": ([SPINACH], [], "Apr 1", "May 4", "May 10", []),
    "what the log has done is done": ([SPINACH], [SOWN], "Apr 13", "Apr 10", "Apr 20", []),
    "what it has done after today is not yet": (
        [SPINACH],
        [SOWN],
        "Apr 12",
        "Apr 10",
        "Apr 20",
        ["Apr 12 sow SP1 A1 B1"],
    ),
    "a later step done means the earlier ones were": (
        [TOMATO],
        [line("May 1", "pot up", "tomato", tag="TO1")],
        "May 2",
        "Mar 1",
        "May 12",
        ["May 12 set out TO1 A1 B1"],
    ),
    "indoor jobs are done once it is in the bed": (
        [TOMATO],
        [line("Apr 10", "set out", "tomato", "C1", tag="TO1")],
        "Apr 10",
        "Mar 1",
        "Jun 1",
        [],
    ),
    "ground made ready is not a sowing": (
        [SPINACH],
        [line("Apr 10", "amend", tag="SP1", where="A1 B1")],
        "Apr 10",
        "Apr 10",
        "Apr 20",
        ["Apr 12 sow SP1 A1 B1"],
    ),
    "a line that finds it up means it was sown": (
        [SPINACH],
        [line("Apr 20", "up", "spinach", "A1")],
        "Apr 20",
        "Apr 10",
        "Apr 20",
        [],
    ),
    "sown in part: the rest is due": (
        [SPINACH],
        [line("Apr 12", "sow", "spinach", "A1")],
        "Apr 13",
        "Apr 10",
        "Apr 20",
        ["Apr 12 sow SP1 B1"],
    ),
    "sown in other squares: nothing more is": (
        [SPINACH],
        [line("Apr 12", "sow", "spinach", "B1 C1", tag="SP1")],
        "Apr 13",
        "Apr 10",
        "Apr 20",
        [],
    ),
    "cleared in part: the rest is due": (
        [SPINACH],
        [SOWN, line("Jun 1", "clear", "spinach", "A1")],
        "Jun 2",
        "Jun 1",
        "Jun 10",
        ["Jun 5 clear SP1 B1"],
    ),
    "cleared on the planned day: done": (
        [SPINACH],
        [SOWN, line("Jun 5", "clear", "spinach", "A1 B1")],
        "Jun 5",
        "Jun 1",
        "Jun 10",
        [],
    ),
    "another sown in its place: it was cleared": (
        [SPINACH],
        [SOWN, line("Jun 2", "sow", "kale", "A1 B1")],
        "Jun 2",
        "Jun 1",
        "Jun 10",
        [],
    ),
    "another sown in its place after it was to be gone: it was cleared": (
        [SPINACH],
        [SOWN, line("Jun 8", "sow", "kale", "A1")],
        "Jun 8",
        "Jun 8",
        "Jun 10",
        ["Jun 5 clear SP1 B1!"],
    ),
    "nothing is due of a planting dropped": (
        [plan_row("okra", "C1", "May 20", "Sep 1", tag="OK1", dropped="May 28")],
        [],
        "May 30",
        "May 20",
        "Nov 30",
        [],
    ),
    "before it was dropped its sowing was due": (
        [plan_row("okra", "C1", "May 20", "Sep 1", tag="OK1", dropped="May 28")],
        [],
        "May 19",
        "May 18",
        "Nov 30",
        ["May 20 sow OK1 C1"],
    ),
    "a carried stand is not sown; the season's end clears nothing by itself": (
        [
            plan_row("garlic", "C1", "Mar 1", "Jul 10", tag="GA1", start=Start.CARRIED),
            plan_row("leek", "D1", "Apr 1", tag="LK1"),
        ],
        [],
        "Mar 1",
        "Mar 1",
        "Dec 31",
        ["Apr 1 sow LK1 D1", "Jul 10 clear GA1 C1"],
    ),
    "known to the log alone: nothing is planned": (
        [],
        [line("Jun 2", "sow", "kale", "A1 B1")],
        "Jun 2",
        "Mar 1",
        "Nov 30",
        [],
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_due(name: str) -> None:
    plan, log, today, first, last, expected = CASES[name]
    assert told(plan, log, today, first, last) == expected


def test_a_weighing_past_the_planned_clearing_leaves_it_overdue() -> None:
    assert told([SPINACH], [SOWN], "Jun 9", "Jun 9", "Jun 20", picked="Jun 9") == ["Jun 5 clear SP1 A1 B1!"]


def test_without_a_plan_nothing_is_due() -> None:
    year = season(None, [SOWN])
    assert due(year, hold(year, day("Apr 20")), day("Mar 1"), day("Nov 30")) == ()
