"""What lies ahead: jobs of the plan, thinning where too many came up, first harvests from the real start."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from tallybed.garden.garden import FreezeDates, Garden
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.reading.folder.library import load_library
from tallybed.reckoning.calendar.ahead import ahead
from tallybed.reckoning.calendar.due import due
from tallybed.reckoning.squares.occupancy import hold
from tests.reckoning.growing import day, jobs, line, pick, plan_row, season, squares

FREEZES = FreezeDates(spring=((32, ((50, (5, 1)),)),), fall=((32, ((50, (10, 10)),)),))
GARDEN = Garden(name="g", crops=tuple(load_library().crops.values()), freezes=FREEZES)
# Days of the library: radish 30 and bush bean 55 from sowing, broccoli 65 from setting out.
RADISH = plan_row("radish", "A1", "Apr 5", "Jun 20", tag="RA1", plants=16)
SOWN = line("Apr 9", "sow", "radish", "A1", tag="RA1")


def told(
    plan: list[PlanRow] | None,
    log: list[Event],
    today: str,
    first: str,
    last: str,
    *,
    picked: str = "",
    ledger: list[Weighing] | None = None,
    garden: Garden = GARDEN,
) -> list[str]:
    """Write what lies ahead as ``May 9 harvest RA1 A1``, an overdue one with ``!`` at its end."""
    year = season(plan, log, [pick(picked, "radish", "A1")] if picked else ledger)
    return jobs(ahead(garden, year, hold(year, day(today)), day(first), day(last)))


def days(slug: str, fact: str) -> int:
    found = GARDEN.crop(slug).used(fact)
    assert found is not None
    assert found.low is not None
    return int(found.low)


def test_the_days_this_file_counts_with_are_those_of_the_library() -> None:
    assert days("radish", "days from sowing") == 30
    assert days("bean-bush", "days from sowing") == 55
    assert days("broccoli", "days from setting out") == 65


CASES: dict[str, tuple[list[PlanRow], list[Event], str, str, str, list[str]]] = {
    # Sown four days after the plan: 30 days from 9 April are 9 May, not 5 May.
    "the first harvest counts from the day it really went in": (
        [RADISH],
        [SOWN],
        "May 5",
        "May 5",
        "May 12",
        ["May 9 harvest RA1 A1"],
    ),
    "both days asked for are included": (
        [RADISH],
        [SOWN],
        "May 5",
        "May 9",
        "May 9",
        ["May 9 harvest RA1 A1"],
    ),
    "not the days before": ([RADISH], [SOWN], "Apr 20", "Apr 20", "May 8", []),
    "21 days late is overdue": ([RADISH], [SOWN], "May 30", "May 30", "Jun 2", ["May 9 harvest RA1 A1!"]),
    "22 days late is told no more": ([RADISH], [SOWN], "May 31", "May 31", "Jun 2", []),
    "what was cleared since is not late": (
        [RADISH],
        [SOWN, line("May 12", "clear", "radish", "A1", tag="RA1")],
        "May 14",
        "May 14",
        "May 20",
        [],
    ),
    "nothing is expected of what nobody saw go in": ([RADISH], [], "May 1", "May 2", "May 20", []),
    "sown again, it counts from then": (
        [RADISH],
        [SOWN, line("Apr 23", "resow", "radish", "A1", tag="RA1")],
        "May 12",
        "May 5",
        "May 30",
        ["May 23 harvest RA1 A1"],
    ),
    "sown again in one of two squares, the other bears first": (
        [replace(RADISH, squares=squares("A1 B1"))],
        [
            line("Apr 9", "sow", "radish", "A1 B1", tag="RA1"),
            line("Apr 23", "resow", "radish", "B1", tag="RA1"),
        ],
        "May 5",
        "May 5",
        "May 30",
        ["May 9 harvest RA1 A1 B1"],
    ),
    "gone before it could bear": (
        [RADISH],
        [SOWN, line("May 2", "lost", "radish", "A1", tag="RA1")],
        "May 5",
        "May 5",
        "May 12",
        [],
    ),
    "to be cleared before it can bear": (
        [replace(RADISH, until=date(2026, 5, 9))],
        [SOWN],
        "May 5",
        "May 5",
        "May 12",
        ["May 9 clear RA1 A1"],
    ),
    "set out, it counts from setting out": (
        [plan_row("broccoli", "A1", "Apr 11", "Jul 1", tag="BR1", start=Start.SET_OUT)],
        [line("Apr 11", "set out", "broccoli", "A1", tag="BR1")],
        "Jun 10",
        "Jun 10",
        "Jun 20",
        ["Jun 15 harvest BR1 A1"],
    ),
    # Kale has days from sowing alone; with the weeks it is printed to spend indoors off, they are 30.
    "nor are days turned from one beginning to another": (
        [plan_row("kale", "A1", "May 20", "Sep 1", tag="KA1", start=Start.SET_OUT)],
        [line("May 20", "set out", "kale", "A1", tag="KA1")],
        "Jun 10",
        "Jun 1",
        "Aug 30",
        [],
    ),
    "days of another beginning are no days": (
        [plan_row("bean-bush", "A1", "May 20", "Sep 1", tag="BB1", start=Start.SET_OUT)],
        [line("May 20", "set out", "bean-bush", "A1", tag="BB1")],
        "Jul 10",
        "Jun 1",
        "Aug 30",
        [],
    ),
    # After midsummer (21 July between the freezes) two weeks are added: 55 and 14 days from 1 August.
    "shortening days add two weeks": (
        [plan_row("bean-bush", "A1", "Aug 1", "Nov 1", tag="BB1")],
        [line("Aug 1", "sow", "bean-bush", "A1", tag="BB1")],
        "Sep 1",
        "Sep 20",
        "Oct 15",
        ["Oct 9 harvest BB1 A1"],
    ),
    "a job of the plan stands among them, in order": (
        [RADISH, plan_row("carrot", "B1", "May 9", "Aug 1", tag="CA1")],
        [SOWN],
        "May 5",
        "May 5",
        "May 12",
        ["May 9 harvest RA1 A1", "May 9 sow CA1 B1"],
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_first_harvests(name: str) -> None:
    plan, log, today, first, last, expected = CASES[name]
    assert told(plan, log, today, first, last, ledger=[]) == expected


def test_no_first_harvest_is_late_where_nobody_keeps_a_ledger() -> None:
    assert told([RADISH], [SOWN], "May 30", "May 30", "Jun 2") == []
    assert told([RADISH], [SOWN], "May 5", "May 5", "May 12") == ["May 9 harvest RA1 A1"]


def test_once_picked_no_first_harvest_is_ahead() -> None:
    assert told([RADISH], [SOWN], "May 8", "May 5", "May 12", picked="May 7") == []


def harvests_of_two(ledger: list[Weighing]) -> list[str]:
    """What is told on 8 May of the first harvests of two sowings of radish, after these pickings."""
    plan = [RADISH, plan_row("radish", "B1", "Apr 9", "Jun 20", tag="RA2")]
    sown = [SOWN, line("Apr 9", "sow", "radish", "B1", tag="RA2")]
    found = told(plan, sown, "May 8", "May 5", "May 12", ledger=ledger)
    return [one for one in found if " harvest " in one]


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        # Two plantings of radish: the picking may be of either, so neither is told to be the first.
        (pick("May 7", "radish"), []),
        (pick("May 7", "radish+carrot"), []),
        (pick("May 7", "radish", tag="RA2"), ["May 9 harvest RA1 A1"]),
        (pick("Apr 8", "radish"), ["May 9 harvest RA1 A1", "May 9 harvest RA2 B1"]),
        (pick("May 7", "carrot"), ["May 9 harvest RA1 A1", "May 9 harvest RA2 B1"]),
    ],
)
def test_a_picking_of_nobody_knows_which_planting_may_be_the_first(
    row: Weighing, expected: list[str]
) -> None:
    assert harvests_of_two([row]) == expected


@pytest.mark.parametrize(
    ("days", "told_of"),
    [
        (["Apr 8", "May 7"], 0),
        (["May 7", "Apr 8"], 0),
        (["May 8"], 0),
        (["May 9"], 2),  # it is not known yet
    ],
)
def test_the_latest_picking_of_nobody_knows_which_planting_counts_once_it_is_known(
    days: list[str], told_of: int
) -> None:
    assert len(harvests_of_two([pick(one, "radish") for one in days])) == told_of


def test_without_a_plan_harvests_alone_are_told() -> None:
    assert told(None, [line("Apr 9", "sow", "radish", "A1")], "May 5", "May 5", "May 12") == [
        "May 9 harvest radish A1"
    ]


def test_without_freeze_dates_no_weeks_are_added() -> None:
    plan = [plan_row("bean-bush", "A1", "Aug 1", "Nov 1", tag="BB1")]
    log = [line("Aug 1", "sow", "bean-bush", "A1", tag="BB1")]
    bare = replace(GARDEN, freezes=FreezeDates())
    assert told(plan, log, "Sep 1", "Sep 20", "Oct 15", garden=bare) == ["Sep 25 harvest BB1 A1"]


def seen_up(when: str, *, plants: int | None = None) -> Event:
    return line(when, "up", "radish", "A1", tag="RA1", plants=plants)


THINNING: dict[str, tuple[list[PlanRow], list[Event], list[str]]] = {
    "more seeds than plants: a week after they are up": (
        [RADISH],
        [replace(SOWN, seeds=24), seen_up("Apr 20")],
        ["Apr 27 thin RA1 A1"],
    ),
    "the seeds of what was sown again count with the first": (
        [RADISH],
        [
            replace(SOWN, seeds=10),
            replace(SOWN, day=day("Apr 14"), verb=Verb.RESOW, seeds=7),
            seen_up("Apr 20"),
        ],
        ["Apr 27 thin RA1 A1"],
    ),
    "of several counts the most, as some may have come up after": (
        [RADISH],
        [SOWN, seen_up("Apr 20", plants=4), seen_up("Apr 24", plants=17)],
        ["Apr 27 thin RA1 A1"],
    ),
    "more seen up than meant": (
        [RADISH],
        [SOWN, seen_up("Apr 20", plants=17)],
        ["Apr 27 thin RA1 A1"],
    ),
    "as many seeds as plants": ([RADISH], [replace(SOWN, seeds=16), seen_up("Apr 20")], []),
    "nobody counted": ([RADISH], [SOWN, seen_up("Apr 20")], []),
    "nobody saw it up": ([RADISH], [replace(SOWN, seeds=24)], []),
    "the plan tells no plants": (
        [replace(RADISH, plants=None)],
        [replace(SOWN, seeds=24), seen_up("Apr 20")],
        [],
    ),
    "thinned already": (
        [RADISH],
        [
            replace(SOWN, seeds=24),
            seen_up("Apr 20"),
            line("Apr 24", "thin", "radish", "A1", tag="RA1", leaving=16),
        ],
        [],
    ),
}


@pytest.mark.parametrize("name", THINNING)
def test_thinning_is_told_only_where_the_records_tell_that_too_many_came_up(name: str) -> None:
    plan, log, expected = THINNING[name]
    assert told(plan, log, "Apr 25", "Apr 25", "May 1") == expected


def test_thinning_says_to_how_many() -> None:
    year = season([RADISH], [replace(SOWN, seeds=24), seen_up("Apr 20")])
    (job,) = ahead(GARDEN, year, hold(year, day("Apr 25")), day("Apr 25"), day("May 1"))
    assert job.note == "to 16 plants"


def test_every_job_of_the_plan_is_among_what_lies_ahead() -> None:
    plan = [
        plan_row(
            "tomato-indeterminate", "C1", "May 12", "Oct 1", tag="TO1", start=Start.SET_OUT, indoors="Mar 24"
        ),
        RADISH,
    ]
    year = season(plan, [])
    holding = hold(year, day("Mar 1"))
    whole = (day("Mar 1"), day("Nov 30"))
    jobs = due(year, holding, *whole)
    assert len(jobs) == 5
    assert [one for one in ahead(GARDEN, year, holding, *whole) if one in jobs] == list(jobs)
