"""Who holds a square: a garden of six squares worked by hand, and the rules one by one."""

from __future__ import annotations

from itertools import product

import pytest

from tallybed.garden.records.plan import Start
from tallybed.reckoning.squares.occupancy import Grade, hold
from tallybed.reckoning.squares.stays import stays_of
from tests.reckoning.growing import SPAN, day, line, pick, plan_row, season, squares, table, told

PLAN = (
    plan_row("spinach", "A1", "Apr 12", "Jun 5", tag="SP1"),
    plan_row("bean-bush", "A1", "Jun 5", "Aug 20", tag="BB1"),
    plan_row("carrot", "B1", "Apr 10", "Jul 30", tag="CA1"),
    plan_row("radish", "B1", "Apr 10", "May 15", tag="RA1", among="CA1", share="1/3"),
    plan_row("pea-snap", "C1", "Apr 1", "Jun 20", tag="PE1", plants=9),
    plan_row("okra", "C1", "Jun 25", "Sep 30", tag="OK1", dropped="Jul 8"),
    plan_row("eggplant", "D1", "May 20", "Sep 30", tag="EG1", start=Start.SET_OUT),
    plan_row("lettuce-leaf", "D1", "Aug 10", "Oct 10", tag="LE1"),
    plan_row("onion-bunching", "E1", "Apr 5", "May 15"),
    plan_row("garlic", "F1", "Mar 1", "Jul 10", tag="GA1", start=Start.CARRIED),
    plan_row("radish", "F1", "Jul 12", "Aug 30"),
)
LOG = (
    # A1: sown two days late; never cleared by the log, but beans were sown in the same square.
    line("Apr 14", "sow", "spinach", "A1", tag="SP1"),
    line("Apr 24", "up", "spinach", "A1"),
    line("Jun 1", "sow", "bean-bush", "A1", tag="BB1"),
    line("Jun 10", "up", "bean-bush", "A1"),
    # B1: two crops by declaration; the radish's sowing was not written down.
    line("Apr 10", "sow", "carrot", "B1", tag="CA1"),
    line("Apr 20", "up", "radish", "B1"),
    line("May 12", "thin", tag="CA1"),
    # C1: failed, sown again, lost in part, cleared.
    line("Apr 3", "sow", "pea-snap", "C1", tag="PE1"),
    line("Apr 25", "failed", "pea-snap", "C1"),
    line("May 1", "resow", "pea-snap", "C1"),
    line("Jun 15", "lost", "pea-snap", "C1", tag="PE1", plants=3),
    line("Jun 22", "clear", "pea-snap", "C1"),
    # D1 and E1: the eggplant went into E1; D1 got a gift that no plan knows.
    line("May 24", "set out", "eggplant", "E1"),
    line("Jun 1", "set out", "kale", "D1"),
    line("Jul 1", "observe", "kale", "D1"),
    # F1: radish after the garlic, a day early.
    line("Jul 11", "sow", "radish", "F1"),
    line("Jul 16", "up", "radish", "F1"),
    # Lines that concern no stand.
    line("May 20", "weed", "", "A1 B1 C1 D1 E1 F1"),
    line("May 20", "water"),
)
LEDGER = (
    pick("May 20", "spinach", "A1"),
    pick("May 10", "radish", "B1"),
    pick("Jul 12", "eggplant", "E1"),
    pick("Jul 4", tag="GA1"),
    pick("Jul 15", "carrot"),
)
TODAY = day("Jul 20")

BY_HAND = table("""
    A1  SP1             Apr 14 - Apr 14  seen
    A1  SP1             Apr 15 - Apr 23  implied
    A1  SP1             Apr 24 - Apr 24  seen
    A1  SP1             Apr 25 - May 20  implied
    A1  SP1             May 21 - May 31  supposed
    A1  BB1             Jun 1  - Jun 1   seen
    A1  BB1             Jun 2  - Jun 9   implied
    A1  BB1             Jun 10 - Jun 10  seen
    A1  BB1             Jun 11 - Jul 20  supposed
    A1  BB1             Jul 21 - Aug 19  planned
    B1  CA1             Apr 10 - Apr 10  seen
    B1  RA1             Apr 10 - Apr 19  supposed
    B1  CA1             Apr 11 - May 12  implied
    B1  RA1             Apr 20 - Apr 20  seen
    B1  RA1             Apr 21 - May 10  implied
    B1  RA1             May 11 - May 14  supposed
    B1  CA1             May 13 - Jul 20  supposed
    B1  CA1             Jul 21 - Jul 29  planned
    C1  PE1             Apr 3  - Apr 3   seen
    C1  PE1             Apr 4  - Apr 24  implied
    C1  PE1             May 1  - May 1   seen
    C1  PE1             May 2  - Jun 14  implied
    C1  PE1             Jun 15 - Jun 15  seen
    C1  PE1             Jun 16 - Jun 21  implied
    C1  OK1             Jun 25 - Jul 7   supposed
    D1  kale            Jun 1  - Jun 1   seen
    D1  kale            Jun 2  - Jun 30  implied
    D1  kale            Jul 1  - Jul 1   seen
    D1  kale            Jul 2  - Jul 20  supposed
    D1  LE1             Aug 10 - Oct 9   planned
    E1  onion-bunching  Apr 5  - May 14  supposed
    E1  EG1             May 24 - May 24  seen
    E1  EG1             May 25 - Jul 12  implied
    E1  EG1             Jul 13 - Jul 20  supposed
    E1  EG1             Jul 21 - Sep 29  planned
    F1  GA1             Mar 1  - Jul 3   supposed
    F1  GA1             Jul 4  - Jul 4   implied
    F1  GA1             Jul 5  - Jul 9   supposed
    F1  radish          Jul 11 - Jul 11  seen
    F1  radish          Jul 12 - Jul 15  implied
    F1  radish          Jul 16 - Jul 16  seen
    F1  radish          Jul 17 - Jul 20  supposed
    F1  radish          Jul 21 - Aug 29  planned
""")

PLAN_ALONE = table("""
    A1  SP1             Apr 12 - Jun 4   planned
    A1  BB1             Jun 5  - Aug 19  planned
    B1  CA1             Apr 10 - Jul 29  planned
    B1  RA1             Apr 10 - May 14  planned
    C1  PE1             Apr 1  - Jun 19  planned
    C1  OK1             Jun 25 - Jul 7   planned
    D1  EG1             May 20 - Sep 29  planned
    D1  LE1             Aug 10 - Oct 9   planned
    E1  onion-bunching  Apr 5  - May 14  planned
    F1  GA1             Mar 1  - Jul 9   planned
    F1  radish          Jul 12 - Aug 29  planned
""")


def test_six_squares_worked_by_hand() -> None:
    assert told(hold(season(PLAN, LOG, LEDGER), TODAY).holds) == BY_HAND


def test_what_the_plan_alone_says() -> None:
    assert told(hold(season(PLAN, LOG, LEDGER), TODAY).by_plan) == PLAN_ALONE


def test_the_plan_alone_has_a_planting_of_one_day_and_none_of_one_dropped_before_it() -> None:
    plan = [
        plan_row("radish", "A1", "Apr 1", "Apr 2", tag="RA1"),
        plan_row("spinach", "B1", "Apr 1", "Jun 5", tag="SP1", dropped="Apr 1"),
        plan_row("kale", "C1", "Apr 1", "Jun 5", tag="KA1", dropped="Apr 2"),
    ]
    found = hold(season(plan), day("Mar 1"))
    assert told(found.by_plan) == ["A1 RA1 Apr 1 - Apr 1 planned", "C1 KA1 Apr 1 - Apr 1 planned"]


def test_sightings_are_the_squares_that_lines_name_on_their_day() -> None:
    seen = hold(season(PLAN, LOG, LEDGER), TODAY).sightings
    (c1,) = squares("C1")
    assert {(when, key) for square, when, key in seen if square == c1} == {
        (day(when), "PE1") for when in ("Apr 3", "Apr 25", "May 1", "Jun 15", "Jun 22")
    }


@pytest.mark.parametrize(("planned", "logged", "weighed"), list(product((False, True), repeat=3)))
def test_each_paper_may_be_missing(planned: bool, logged: bool, weighed: bool) -> None:
    year = season(PLAN if planned else None, LOG if logged else None, LEDGER if weighed else None)
    found = hold(year, TODAY)
    grades = {one.grade for one in found.holds}
    assert (Grade.SEEN in grades) == logged
    assert (Grade.IMPLIED in grades) == (logged or weighed)
    assert (Grade.PLANNED in grades) == planned
    assert (Grade.SUPPOSED in grades) == (planned or logged or weighed)
    assert bool(found.by_plan) == planned
    assert bool(found.sightings) == logged
    assert all(one.first in SPAN and one.last in SPAN for one in found.holds)


def test_the_ledger_alone_says_what_stood_where() -> None:
    found = hold(
        season(None, None, [pick("May 2", "radish", "A1"), pick("May 9", "radish", "A1")]), day("May 20")
    )
    assert told(found.holds) == table("""
        A1  radish  May 2  - May 9   implied
        A1  radish  May 10 - May 20  supposed
    """)


SPINACH = plan_row("spinach", "A1", "Apr 12", "Jun 5", tag="SP1")
COUNTED = line("Apr 12", "set out", "spinach", "A1", tag="SP1", plants=4)
UNCOUNTED = line("Apr 12", "set out", "spinach", "B1", tag="SP1")
BEANS = plan_row("bean-bush", "A1", "Jun 5", "Aug 20", tag="BB1")

CASES = {
    "no record: supposed from the planned beginning up to today, then planned": (
        [SPINACH],
        [],
        [],
        "May 1",
        "A1 SP1 Apr 12 - May 1 supposed; A1 SP1 May 2 - Jun 4 planned",
    ),
    "today before the beginning: planned": ([SPINACH], [], [], "Mar 5", "A1 SP1 Apr 12 - Jun 4 planned"),
    "sown early: the log's day wins": (
        [SPINACH],
        [line("Apr 2", "sow", "spinach", "A1")],
        [],
        "Apr 3",
        "A1 SP1 Apr 2 - Apr 2 seen; A1 SP1 Apr 3 - Apr 3 supposed; A1 SP1 Apr 4 - Jun 4 planned",
    ),
    "cleared and sown on one day: the square changes hands that day": (
        [SPINACH, BEANS],
        [
            line("Apr 12", "sow", "spinach", "A1"),
            line("Jun 3", "clear", "spinach", "A1"),
            line("Jun 3", "sow", "bean-bush", "A1"),
        ],
        [],
        "Jun 3",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Jun 2 implied; "
        "A1 BB1 Jun 3 - Jun 3 seen; A1 BB1 Jun 4 - Aug 19 planned",
    ),
    "last picked on the day the next is sown: it leaves that day": (
        [SPINACH, BEANS],
        [line("Apr 12", "sow", "spinach", "A1"), line("Jun 3", "sow", "bean-bush", "A1")],
        [pick("Jun 3", "spinach", "A1")],
        "Jun 3",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Jun 2 implied; "
        "A1 BB1 Jun 3 - Jun 3 seen; A1 BB1 Jun 4 - Aug 19 planned",
    ),
    "evidence is never cut: picked after the next was sown, they share": (
        [SPINACH, BEANS],
        [line("Apr 12", "sow", "spinach", "A1"), line("Jun 3", "sow", "bean-bush", "A1")],
        [pick("Jun 8", "spinach", "A1")],
        "Jun 8",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Jun 8 implied; A1 BB1 Jun 3 - Jun 3 seen; "
        "A1 BB1 Jun 4 - Jun 8 supposed; A1 BB1 Jun 9 - Aug 19 planned",
    ),
    "met after another was sown beside it, it is supposed on": (
        [SPINACH],
        [line("Apr 12", "sow", "spinach", "A1"), line("Apr 20", "sow", "radish", "A1")],
        [pick("May 1", "spinach", "A1")],
        "May 2",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - May 1 implied; A1 radish Apr 20 - Apr 20 seen; "
        "A1 radish Apr 21 - May 2 supposed; A1 SP1 May 2 - May 2 supposed; A1 SP1 May 3 - Jun 4 planned",
    ),
    "two sown in a square on one day: neither clears the other": (
        [SPINACH],
        [line("Apr 12", "sow", "spinach", "A1"), line("Apr 12", "sow", "radish", "A1")],
        [],
        "Apr 13",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 radish Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 13 supposed; "
        "A1 radish Apr 13 - Apr 13 supposed; A1 SP1 Apr 14 - Jun 4 planned",
    ),
    "met while the one before it is known to stand: held since it was met": (
        [SPINACH, BEANS],
        [line("Apr 12", "sow", "spinach", "A1"), line("Jun 10", "up", "bean-bush", "A1")],
        [pick("Jun 12", "spinach", "A1")],
        "Jun 12",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Jun 12 implied; A1 BB1 Jun 10 - Jun 10 seen; "
        "A1 BB1 Jun 11 - Jun 12 supposed; A1 BB1 Jun 13 - Aug 19 planned",
    ),
    "two among the same third share with each other": (
        [
            plan_row("carrot", "A1", "Apr 1", "Jul 1", tag="CA1"),
            plan_row("radish", "A1", "Apr 1", "May 1", tag="RA1", among="CA1"),
            plan_row("lettuce-leaf", "A1", "Apr 10", "May 20", tag="LE1", among="CA1"),
        ],
        [line("Apr 1", "sow", "radish", "A1"), line("Apr 10", "set out", "lettuce-leaf", "A1")],
        [],
        "Apr 10",
        "A1 CA1 Apr 1 - Apr 10 supposed; A1 RA1 Apr 1 - Apr 1 seen; A1 RA1 Apr 2 - Apr 10 supposed; "
        "A1 LE1 Apr 10 - Apr 10 seen; A1 CA1 Apr 11 - Jun 30 planned; A1 LE1 Apr 11 - May 19 planned; "
        "A1 RA1 Apr 11 - Apr 30 planned",
    ),
    "what only the log knows does not give way to what was met beside it": (
        [BEANS],
        [line("Apr 12", "set out", "kale", "A1"), line("Jun 10", "up", "bean-bush", "A1")],
        [pick("Jun 12", "kale", "A1")],
        "Jun 13",
        "A1 kale Apr 12 - Apr 12 seen; A1 kale Apr 13 - Jun 12 implied; A1 BB1 Jun 10 - Jun 10 seen; "
        "A1 BB1 Jun 11 - Jun 13 supposed; A1 kale Jun 13 - Jun 13 supposed; A1 BB1 Jun 14 - Aug 19 planned",
    ),
    "nor to what no plan knows": (
        None,
        [line("Apr 12", "set out", "kale", "A1"), line("May 1", "observe", "dill", "A1")],
        [],
        "May 2",
        "A1 kale Apr 12 - Apr 12 seen; A1 kale Apr 13 - May 2 supposed; "
        "A1 dill May 1 - May 1 seen; A1 dill May 2 - May 2 supposed",
    ),
    "a sowing by tag alone adds to what stands": (
        [SPINACH],
        [line("Apr 12", "sow", "spinach", "A1"), line("Apr 20", "sow", tag="SP1")],
        [],
        "Apr 20",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 20 implied; A1 SP1 Apr 21 - Jun 4 planned",
    ),
    "cleared again by tag alone: the line between counts for its own day": (
        [SPINACH],
        [
            line("Apr 12", "sow", "spinach", "A1"),
            line("Apr 13", "clear", "spinach", "A1"),
            line("Apr 16", "observe", "spinach", "A1"),
            line("Apr 20", "clear", tag="SP1"),
        ],
        [],
        "Apr 20",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 16 - Apr 16 seen",
    ),
    "a planting outlasts the plan where records say so, and ends after the last": (
        [SPINACH],
        [line("Apr 12", "sow", "spinach", "A1")],
        [pick("Jun 12", "spinach", "A1")],
        "Jun 30",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Jun 12 implied",
    ),
    "a planned planting without records waits for the one that records show still there": (
        [SPINACH, BEANS],
        [line("Apr 12", "sow", "spinach", "A1")],
        [pick("Jun 12", "spinach", "A1")],
        "Jun 12",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Jun 12 implied; A1 BB1 Jun 13 - Aug 19 planned",
    ),
    "what only the log knows gives way where the plan begins": (
        [BEANS],
        [line("Apr 12", "set out", "kale", "A1")],
        [],
        "Jun 10",
        "A1 kale Apr 12 - Apr 12 seen; A1 kale Apr 13 - Jun 4 supposed; "
        "A1 BB1 Jun 5 - Jun 10 supposed; A1 BB1 Jun 11 - Aug 19 planned",
    ),
    "a plain sowing again without an end: the days before it are only supposed": (
        [SPINACH],
        [line("Apr 12", "sow", "spinach", "A1"), line("May 1", "resow", "spinach", "A1")],
        [],
        "May 1",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 30 supposed; "
        "A1 SP1 May 1 - May 1 seen; A1 SP1 May 2 - Jun 4 planned",
    ),
    "an end without a start: it stood since its planned beginning": (
        [SPINACH],
        [line("Jun 1", "clear", "spinach", "A1")],
        [],
        "Jun 2",
        "A1 SP1 Apr 12 - May 31 supposed",
    ),
    "an end without start or plan: nothing is known to have stood": (
        None,
        [line("Jun 1", "clear", "spinach", "A1")],
        [],
        "Jun 2",
        "",
    ),
    "sown and lost on one day: nothing is left": (
        None,
        [line("Jun 1", "sow", "spinach", "A1"), line("Jun 1", "failed", "spinach", "A1")],
        [],
        "Jun 2",
        "",
    ),
    "dropped before it began: never": (
        [plan_row("okra", "A1", "May 20", "Sep 1", tag="OK1", dropped="May 20")],
        [],
        [],
        "Jun 2",
        "",
    ),
    "with no plan it stands until something says it went": (
        None,
        [line("Apr 12", "sow", "spinach", "A1")],
        None,
        "Apr 20",
        "A1 spinach Apr 12 - Apr 12 seen; A1 spinach Apr 13 - Apr 20 supposed",
    ),
    "a planting sown after the plan had it gone is not gone the next day": (
        [SPINACH],
        [line("Jun 10", "sow", tag="SP1", where="A1")],
        [],
        "Jun 14",
        "A1 SP1 Jun 10 - Jun 10 seen; A1 SP1 Jun 11 - Jun 14 supposed",
    ),
    "a line by tag alone implies, in every square the planting has": (
        [plan_row("spinach", "A1 B1", "Apr 12", "Jun 5", tag="SP1")],
        [line("Apr 13", "sow", "spinach", "A1", tag="SP1"), line("Apr 20", "thin", tag="SP1")],
        [],
        "Apr 20",
        "A1 SP1 Apr 13 - Apr 13 seen; A1 SP1 Apr 14 - Apr 20 implied; A1 SP1 Apr 21 - Jun 4 planned; "
        "B1 SP1 Apr 13 - Apr 19 supposed; B1 SP1 Apr 20 - Apr 20 implied; B1 SP1 Apr 21 - Jun 4 planned",
    ),
    "a sowing by tag alone is in the planned squares, but none was seen": (
        [SPINACH],
        [line("Apr 15", "sow", tag="SP1")],
        [],
        "Apr 16",
        "A1 SP1 Apr 15 - Apr 15 implied; A1 SP1 Apr 16 - Apr 16 supposed; A1 SP1 Apr 17 - Jun 4 planned",
    ),
    "ground made ready under a tag is not yet the crop": (
        [SPINACH],
        [line("Apr 2", "amend", where="A1", tag="SP1"), line("Apr 15", "sow", "spinach", "A1", tag="SP1")],
        [],
        "Apr 15",
        "A1 SP1 Apr 15 - Apr 15 seen; A1 SP1 Apr 16 - Jun 4 planned",
    ),
    "a square watered on the day of a sowing by tag alone was seen": (
        [SPINACH],
        [line("Apr 15", "sow", tag="SP1"), line("Apr 15", "water", where="A1", tag="SP1")],
        [],
        "Apr 15",
        "A1 SP1 Apr 15 - Apr 15 seen; A1 SP1 Apr 16 - Jun 4 planned",
    ),
    "a line after the clearing counts for its own day": (
        [SPINACH],
        [
            line("Apr 12", "sow", "spinach", "A1"),
            line("May 1", "clear", "spinach", "A1"),
            line("May 4", "observe", "spinach", "A1"),
            line("May 9", "observe", tag="SP1"),
        ],
        [],
        "May 20",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 30 implied; A1 SP1 May 4 - May 4 seen",
    ),
    "a line or a picking for the whole block says nothing of a square that was lost": (
        [plan_row("spinach", "A1 B1", "Apr 12", "Jun 5", tag="SP1")],
        [
            line("Apr 12", "sow", "spinach", "A1 B1", tag="SP1"),
            line("Apr 20", "lost", "spinach", "A1", tag="SP1"),
            line("Apr 24", "thin", "spinach", "A1 B1", tag="SP1"),
            line("May 9", "clear", "spinach", "A1 B1", tag="SP1"),
        ],
        [pick("May 2", "spinach", "A1 B1", tag="SP1")],
        "May 20",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 19 implied; "
        "B1 SP1 Apr 12 - Apr 12 seen; B1 SP1 Apr 13 - Apr 23 implied; B1 SP1 Apr 24 - Apr 24 seen; "
        "B1 SP1 Apr 25 - May 8 implied",
    ),
    "but one that begins it anew does, and one for that square alone": (
        [plan_row("spinach", "A1 B1", "Apr 12", "Jun 5", tag="SP1")],
        [
            line("Apr 12", "sow", "spinach", "A1 B1", tag="SP1"),
            line("Apr 20", "lost", "spinach", "A1", tag="SP1"),
            line("Apr 22", "observe", "spinach", "A1", tag="SP1"),
            line("Apr 24", "resow", "spinach", "A1 B1", tag="SP1"),
            line("May 9", "clear", "spinach", "A1 B1", tag="SP1"),
        ],
        [],
        "May 20",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 19 implied; A1 SP1 Apr 22 - Apr 22 seen; "
        "A1 SP1 Apr 24 - Apr 24 seen; A1 SP1 Apr 25 - May 8 implied; "
        "B1 SP1 Apr 12 - Apr 12 seen; B1 SP1 Apr 13 - Apr 23 supposed; B1 SP1 Apr 24 - Apr 24 seen; "
        "B1 SP1 Apr 25 - May 8 implied",
    ),
    "lost before it was set out: not supposed": (
        [plan_row("tomato", "A1", "May 12", "Oct 1", tag="TO1", start=Start.SET_OUT)],
        [line("Apr 20", "lost", tag="TO1")],
        [],
        "Jun 1",
        "",
    ),
    "up before the log's first sowing: supposed since the day of the plan": (
        [SPINACH],
        [
            line("Apr 20", "up", "spinach", "A1", tag="SP1"),
            line("Apr 28", "sow", "spinach", "A1", tag="SP1"),
        ],
        [],
        "Apr 28",
        "A1 SP1 Apr 12 - Apr 19 supposed; A1 SP1 Apr 20 - Apr 20 seen; A1 SP1 Apr 21 - Apr 27 supposed; "
        "A1 SP1 Apr 28 - Apr 28 seen; A1 SP1 Apr 29 - Jun 4 planned",
    ),
    "moved: the old square is free, the new one held, both from that day": (
        [SPINACH],
        [
            line("Apr 12", "sow", "spinach", "A1", tag="SP1"),
            line("Apr 20", "move", "spinach", "A1", tag="SP1", to="B1"),
        ],
        [],
        "Apr 21",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 19 implied; B1 SP1 Apr 20 - Apr 20 seen; "
        "B1 SP1 Apr 21 - Apr 21 supposed; B1 SP1 Apr 22 - Jun 4 planned",
    ),
    "moved without a word from where: there from that day, as if the square had been told": (
        [SPINACH],
        [
            line("Apr 12", "sow", "spinach", "A1", tag="SP1"),
            line("Apr 20", "move", "spinach", tag="SP1", to="B1"),
        ],
        [],
        "Apr 21",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 19 implied; B1 SP1 Apr 20 - Apr 20 seen; "
        "B1 SP1 Apr 21 - Apr 21 supposed; B1 SP1 Apr 22 - Jun 4 planned",
    ),
    "and so is what no plan knows": (
        [],
        [
            line("Apr 12", "sow", "spinach", "A1", tag="SP1"),
            line("Apr 20", "move", "spinach", tag="SP1", to="B1"),
        ],
        [],
        "Apr 21",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 19 implied; B1 SP1 Apr 20 - Apr 20 seen; "
        "B1 SP1 Apr 21 - Apr 21 supposed",
    ),
    "moved in part: both squares are held": (
        [plan_row("spinach", "A1", "Apr 12", "Jun 5", tag="SP1", plants=9)],
        [
            line("Apr 12", "sow", "spinach", "A1", tag="SP1"),
            line("Apr 20", "move", "spinach", "A1", tag="SP1", to="B1", plants=4),
        ],
        [],
        "Apr 20",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 19 implied; A1 SP1 Apr 20 - Apr 20 seen; "
        "A1 SP1 Apr 21 - Jun 4 planned; B1 SP1 Apr 20 - Apr 20 seen; B1 SP1 Apr 21 - Jun 4 planned",
    ),
    "moved in part to where nobody counted: as many cleared there are not all": (
        None,
        [
            line("Apr 12", "set out", "spinach", "A1", tag="SP1", plants=4),
            line("Apr 12", "sow", "spinach", "B1", tag="SP1"),
            line("Apr 20", "move", "spinach", "A1", tag="SP1", to="B1", plants=2),
            line("Apr 22", "clear", "spinach", "B1", tag="SP1", plants=2),
        ],
        [],
        "Apr 22",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 19 implied; A1 SP1 Apr 20 - Apr 20 seen; "
        "A1 SP1 Apr 21 - Apr 22 supposed; "
        "B1 SP1 Apr 12 - Apr 12 seen; B1 SP1 Apr 13 - Apr 19 supposed; B1 SP1 Apr 20 - Apr 20 seen; "
        "B1 SP1 Apr 21 - Apr 21 implied; B1 SP1 Apr 22 - Apr 22 seen",
    ),
    **{
        f"as many cleared as were counted, {order} others: these stand": (
            None,
            [*lines, line("Apr 20", "clear", "spinach", "A1", tag="SP1", plants=4)],
            [],
            "Apr 20",
            "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 19 implied; "
            "B1 SP1 Apr 12 - Apr 12 seen; B1 SP1 Apr 13 - Apr 20 supposed",
        )
        for order, lines in (("before", [COUNTED, UNCOUNTED]), ("after", [UNCOUNTED, COUNTED]))
    },
    "and so where the plan had counted them all": (
        [plan_row("spinach", "A1 B1", "Apr 12", "Jun 5", tag="SP1", plants=8)],
        [UNCOUNTED, COUNTED, line("Apr 20", "clear", "spinach", "A1", tag="SP1", plants=4)],
        [],
        "Apr 20",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 19 implied; "
        "B1 SP1 Apr 12 - Apr 12 seen; B1 SP1 Apr 13 - Apr 20 supposed; B1 SP1 Apr 21 - Jun 4 planned",
    ),
    "some lost, and as many again: the rest stands": (
        [SPINACH],
        [
            line("Apr 12", "set out", "spinach", "A1", tag="SP1", plants=6),
            line("Apr 20", "lost", "spinach", "A1", tag="SP1", plants=2),
            line("Apr 22", "lost", "spinach", "A1", tag="SP1", plants=2),
        ],
        [],
        "Apr 22",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 19 implied; A1 SP1 Apr 20 - Apr 20 seen; "
        "A1 SP1 Apr 21 - Apr 21 implied; A1 SP1 Apr 22 - Apr 22 seen; A1 SP1 Apr 23 - Jun 4 planned",
    ),
    "cleared to the last plant: gone, whatever number was planned": (
        [plan_row("spinach", "A1", "Apr 12", "Jun 5", tag="SP1", plants=6)],
        [
            line("Apr 12", "set out", "spinach", "A1", tag="SP1", plants=4),
            line("Apr 20", "lost", "spinach", "A1", tag="SP1", plants=1),
            line("Apr 22", "clear", "spinach", "A1", tag="SP1", plants=3),
        ],
        [],
        "Apr 25",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 19 implied; A1 SP1 Apr 20 - Apr 20 seen; "
        "A1 SP1 Apr 21 - Apr 21 implied",
    ),
    "one plant to a square, one lost: that square is empty, the other not": (
        [plan_row("lettuce-head", "A1 B1", "Apr 12", "Jun 5", tag="LH1")],
        [
            line("Apr 12", "set out", "lettuce-head", "A1 B1", tag="LH1", plants=2),
            line("Apr 20", "lost", "lettuce-head", "A1", tag="LH1", plants=1),
        ],
        [],
        "Apr 20",
        "A1 LH1 Apr 12 - Apr 12 seen; A1 LH1 Apr 13 - Apr 19 implied; "
        "B1 LH1 Apr 12 - Apr 12 seen; B1 LH1 Apr 13 - Apr 20 supposed; B1 LH1 Apr 21 - Jun 4 planned",
    ),
    "plants that nobody counted by square: one square is not emptied by a count": (
        [plan_row("lettuce-head", "A1 B1", "Apr 12", "Jun 5", tag="LH1")],
        [
            line("Apr 12", "set out", "lettuce-head", "A1 B1", tag="LH1", plants=3),
            line("Apr 20", "lost", "lettuce-head", "A1", tag="LH1", plants=2),
        ],
        [],
        "Apr 20",
        "A1 LH1 Apr 12 - Apr 12 seen; A1 LH1 Apr 13 - Apr 19 implied; A1 LH1 Apr 20 - Apr 20 seen; "
        "A1 LH1 Apr 21 - Jun 4 planned; "
        "B1 LH1 Apr 12 - Apr 12 seen; B1 LH1 Apr 13 - Apr 20 supposed; B1 LH1 Apr 21 - Jun 4 planned",
    ),
    "the one plant of two squares lost: both are empty": (
        [plan_row("tomato", "A1 B1", "Apr 12", "Jun 5", tag="TO1", plants=1)],
        [
            line("Apr 12", "set out", "tomato", "A1 B1", tag="TO1"),
            line("Apr 20", "lost", "tomato", "A1", tag="TO1", plants=1),
        ],
        [],
        "Apr 20",
        "A1 TO1 Apr 12 - Apr 12 seen; A1 TO1 Apr 13 - Apr 19 implied; "
        "B1 TO1 Apr 12 - Apr 12 seen; B1 TO1 Apr 13 - Apr 19 implied",
    ),
    "a new planting among an old one does not clear it": (
        [SPINACH],
        [
            line("Apr 12", "sow", "spinach", "A1"),
            line("May 1", "sow", "radish", "A1", among="SP1"),
        ],
        [],
        "May 1",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - May 1 supposed; "
        "A1 radish May 1 - May 1 seen; A1 SP1 May 2 - Jun 4 planned",
    ),
    "nor does one with a share told": (
        [SPINACH],
        [line("Apr 12", "sow", "spinach", "A1"), line("May 1", "sow", "radish", "A1", share="1/4")],
        [],
        "May 1",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - May 1 supposed; "
        "A1 radish May 1 - May 1 seen; A1 SP1 May 2 - Jun 4 planned",
    ),
    "the rest of its planned squares is not supposed where another was planted": (
        [
            plan_row("pepper", "A1 B1", "May 20", "Sep 30", tag="PP1", start=Start.SET_OUT),
            plan_row("eggplant", "C1", "May 20", "Sep 30", tag="EG1", start=Start.SET_OUT),
        ],
        [
            line("May 26", "set out", "pepper", "B1 C1", tag="PP1"),
            line("May 26", "set out", "eggplant", "A1", tag="EG1"),
        ],
        [],
        "May 26",
        "A1 EG1 May 26 - May 26 seen; A1 EG1 May 27 - Sep 29 planned; "
        "B1 PP1 May 26 - May 26 seen; B1 PP1 May 27 - Sep 29 planned; "
        "C1 PP1 May 26 - May 26 seen; C1 PP1 May 27 - Sep 29 planned",
    ),
    "picked by tag alone: no evidence for a square that another was planted in meanwhile": (
        [plan_row("lettuce-leaf", "B1 C1", "Apr 13", "Jun 8", tag="LE4")],
        [
            line("Apr 13", "sow", "lettuce-leaf", "A1 B1", tag="LE4"),
            line("May 4", "set out", "parsley", "C1"),
        ],
        [pick("May 21", tag="LE4")],
        "May 21",
        "A1 LE4 Apr 13 - Apr 13 seen; A1 LE4 Apr 14 - May 21 implied; A1 LE4 May 22 - Jun 7 planned; "
        "B1 LE4 Apr 13 - Apr 13 seen; B1 LE4 Apr 14 - May 21 implied; B1 LE4 May 22 - Jun 7 planned; "
        "C1 LE4 Apr 13 - May 3 supposed; C1 parsley May 4 - May 4 seen; C1 parsley May 5 - May 21 supposed",
    ),
    "nor for one that another stood in before": (
        [plan_row("okra", "B1 C1", "Jun 15", "Sep 28", tag="OK1")],
        [
            line("May 4", "set out", "parsley", "C1"),
            line("Jun 15", "sow", "okra", "A1 B1", tag="OK1"),
            line("Jul 20", "observe", "parsley", "C1"),
        ],
        [pick("Jul 10", tag="OK1")],
        "Jul 20",
        "A1 OK1 Jun 15 - Jun 15 seen; A1 OK1 Jun 16 - Jul 10 implied; A1 OK1 Jul 11 - Jul 20 supposed; "
        "A1 OK1 Jul 21 - Sep 27 planned; "
        "B1 OK1 Jun 15 - Jun 15 seen; B1 OK1 Jun 16 - Jul 10 implied; B1 OK1 Jul 11 - Jul 20 supposed; "
        "B1 OK1 Jul 21 - Sep 27 planned; "
        "C1 parsley May 4 - May 4 seen; C1 parsley May 5 - Jul 19 implied; C1 parsley Jul 20 - Jul 20 seen",
    ),
    "picked by tag alone where nothing names other squares: it stands there still": (
        [SPINACH],
        [line("May 4", "set out", "parsley", "A1")],
        [pick("May 21", tag="SP1")],
        "May 21",
        "A1 SP1 Apr 12 - May 20 supposed; A1 parsley May 4 - May 4 seen; "
        "A1 parsley May 5 - May 21 supposed; A1 SP1 May 21 - May 21 implied; A1 SP1 May 22 - Jun 4 planned",
    ),
    "records after today are not there yet": (
        [SPINACH],
        [line("Apr 12", "sow", "spinach", "A1"), line("Apr 30", "failed", "spinach", "A1")],
        [pick("May 20", "spinach", "A1"), pick("Apr 13", "spinach", "A1", weighed="May 1")],
        "Apr 14",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 14 supposed; A1 SP1 Apr 15 - Jun 4 planned",
    ),
    "a carried planting stands from the first day, also where it is sown into later": (
        [plan_row("garlic", "A1", "Mar 1", "Apr 10", tag="GA1", start=Start.CARRIED)],
        [line("Mar 20", "resow", "garlic", "A1", tag="GA1")],
        [],
        "Apr 20",
        "A1 GA1 Mar 1 - Mar 19 supposed; A1 GA1 Mar 20 - Mar 20 seen; A1 GA1 Mar 21 - Apr 9 supposed",
    ),
    "of two sown after it the first clears it": (
        [plan_row("spinach", "A1", "Apr 12", "Oct 1", tag="SP1")],
        [
            line("Apr 12", "sow", "spinach", "A1"),
            line("Jun 20", "sow", "kale", "A1"),
            line("Jun 3", "sow", "radish", "A1"),
        ],
        [],
        "Jun 20",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Jun 2 supposed; A1 radish Jun 3 - Jun 3 seen; "
        "A1 radish Jun 4 - Jun 19 supposed; A1 kale Jun 20 - Jun 20 seen",
    ),
    "a sowing by tag alone says nothing of a square that only a picking names": (
        [SPINACH],
        [line("Apr 14", "sow", "spinach", tag="SP1")],
        [pick("May 20", "", "B1", tag="SP1")],
        "May 20",
        "A1 SP1 Apr 14 - Apr 14 implied; A1 SP1 Apr 15 - May 20 supposed; A1 SP1 May 21 - Jun 4 planned; "
        "B1 SP1 Apr 14 - May 19 supposed; B1 SP1 May 20 - May 20 implied; B1 SP1 May 21 - Jun 4 planned",
    ),
    "one square cleared, and then the plants of the other lost to the last": (
        [plan_row("spinach", "A1 B1", "Apr 12", "Jun 5", tag="SP1")],
        [
            line("Apr 12", "set out", "spinach", "A1 B1", tag="SP1", plants=4),
            line("Apr 20", "clear", "spinach", "A1", tag="SP1"),
            line("Apr 25", "lost", "spinach", "B1", tag="SP1", plants=1),
            line("Apr 28", "lost", "spinach", "B1", tag="SP1", plants=1),
        ],
        [],
        "May 1",
        "A1 SP1 Apr 12 - Apr 12 seen; A1 SP1 Apr 13 - Apr 19 implied; "
        "B1 SP1 Apr 12 - Apr 12 seen; B1 SP1 Apr 13 - Apr 24 implied; B1 SP1 Apr 25 - Apr 25 seen; "
        "B1 SP1 Apr 26 - Apr 27 implied",
    ),
    "by default a planting is planned to the season's last day": (
        [plan_row("leek", "A1", "Nov 20")],
        [],
        [],
        "Mar 1",
        "A1 leek Nov 20 - Nov 30 planned",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_rule(name: str) -> None:
    plan, log, ledger, today, expected = CASES[name]
    found = hold(season(plan, log, ledger), day(today))
    assert told(found.holds) == [row.strip() for row in expected.split(";") if row.strip()]


def test_at_and_between_give_the_same_holds_as_the_whole_list() -> None:
    found = hold(season(PLAN, LOG, LEDGER), TODAY)
    (b1,) = squares("B1")
    assert told(found.at(b1, day("Apr 15"))) == table("""
        B1  RA1  Apr 10 - Apr 19  supposed
        B1  CA1  Apr 11 - May 12  implied
    """)
    assert found.at(b1, day("Apr 9")) == ()
    assert found.at(b1, day("Jul 30")) == ()
    assert told(found.between(b1, day("May 9"), day("May 13"))) == table("""
        B1  CA1  May 9  - May 12  implied
        B1  RA1  May 9  - May 10  implied
        B1  RA1  May 11 - May 13  supposed
        B1  CA1  May 13 - May 13  supposed
    """)
    assert found.between(b1, day("May 9"), day("May 8")) == ()


def test_a_planting_is_found_by_its_key() -> None:
    found = hold(season(PLAN, LOG, LEDGER), TODAY)
    assert found.planting("SP1").crop.slug == "spinach"
    with pytest.raises(KeyError):
        found.planting("XX9")


def test_stays_say_whether_a_record_says_that_a_planting_left() -> None:
    found = hold(season(PLAN, LOG, LEDGER), TODAY)
    rows = {
        (one.planting, one.first): (one.last, one.gone_by)
        for key in ("SP1", "PE1", "RA1")
        for one in stays_of(found, key)
    }
    assert rows[("SP1", day("Apr 14"))] == (day("May 31"), day("Jun 1"))
    assert rows[("PE1", day("Apr 3"))] == (day("Apr 24"), day("Apr 25"))
    assert rows[("PE1", day("May 1"))] == (day("Jun 21"), day("Jun 22"))
    assert rows[("RA1", day("Apr 10"))] == (day("May 14"), None)


def test_grades_have_words() -> None:
    assert [grade.word for grade in sorted(Grade)] == ["seen", "implied", "supposed", "planned"]
