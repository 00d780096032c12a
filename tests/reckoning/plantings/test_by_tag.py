"""Records with a tag that no plan knows: which planned planting without one they mean, if any."""

from __future__ import annotations

import pytest

from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Event
from tallybed.garden.records.plan import PlanRow
from tallybed.reckoning.plantings.plantings import plantings
from tests.reckoning.growing import day, line, pick, plan_row, season, squares

TODAY = day("Nov 1")
EARLY, LATE, BESIDE = (
    plan_row("kale", "A1", "Apr 20", "Jul 1"),
    plan_row("kale", "A1", "Jul 5", "Oct 1"),
    plan_row("kale", "C1", "Apr 20", "Jul 1"),
)
TAGGED = plan_row("kale", "A1", "Apr 20", "Jul 1", tag="KA1")

CASES: dict[str, tuple[list[PlanRow], list[Event], list[Weighing], dict[str, str]]] = {
    # For each tag the day and square that its planting is planned for; empty where it is in no plan.
    "a planting that has a tag is not given another": (
        [TAGGED],
        [line("Apr 20", "sow", "kale", "A1", tag="KA2")],
        [],
        {"KA1": "Apr 20 A1", "KA2": ""},
    ),
    "of two tags the one that was met first": (
        [EARLY],
        [line("Apr 25", "sow", "kale", "A1", tag="KA1"), line("Apr 22", "sow", "kale", "A1", tag="KA2")],
        [],
        {"KA1": "", "KA2": "Apr 20 A1"},
    ),
    "a sowing means the beginning that is nearest, not what stands there": (
        [EARLY, LATE],
        [line("Jun 28", "sow", "kale", "A1", tag="KA1")],
        [],
        {"KA1": "Jul 5 A1", "kale": "Apr 20 A1"},
    ),
    "another line means what stands there": (
        [EARLY, LATE],
        [line("Jun 28", "up", "kale", "A1", tag="KA1")],
        [],
        {"KA1": "Apr 20 A1", "kale": "Jul 5 A1"},
    ),
    "where it was sown says more than where it was looked at before": (
        [EARLY, BESIDE],
        [line("Apr 18", "observe", "kale", "C1", tag="KA1"), line("Apr 20", "sow", "kale", "A1", tag="KA1")],
        [],
        {"KA1": "Apr 20 A1", "kale": "Apr 20 C1"},
    ),
    "a sowing without squares says nothing; the next line does": (
        [EARLY, BESIDE],
        [line("Apr 20", "sow", "kale", tag="KA1"), line("Apr 30", "up", "kale", "C1", tag="KA1")],
        [],
        {"KA1": "Apr 20 C1", "kale": "Apr 20 A1"},
    ),
    "nor does a square told of work indoors": (
        [EARLY, BESIDE],
        [
            line("Mar 10", "sow indoors", "kale", "C1", tag="KA1"),
            line("Apr 30", "up", "kale", "A1", tag="KA1"),
        ],
        [],
        {"KA1": "Apr 20 A1", "kale": "Apr 20 C1"},
    ),
    "a picking tells it too": (
        [EARLY, BESIDE],
        [],
        [pick("Jun 1", "kale", "C1", tag="KA1")],
        {"KA1": "Apr 20 C1", "kale": "Apr 20 A1"},
    ),
    "another crop in these squares is not meant": (
        [EARLY],
        [line("Apr 20", "sow", "radish", "A1", tag="RA1")],
        [],
        {"RA1": "", "kale": "Apr 20 A1"},
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_which_planned_planting_an_unknown_tag_means(name: str) -> None:
    plan, log, ledger, expected = CASES[name]
    told = {
        one.key: f"{one.planned.begins:%b} {one.planned.begins.day} {one.planned.squares[0].label}"
        if one.planned
        else ""
        for one in plantings(season(plan, log, ledger), TODAY)
    }
    assert told == expected


def test_care_by_a_tag_is_of_its_own_squares_where_it_names_any_of_them() -> None:
    """What was sown counts first, whatever was watered before: care puts a planting nowhere."""
    log = [
        line("Apr 10", "water", "", "A1 B1", tag="KA9"),
        line("Apr 20", "sow", "kale", "A1", tag="KA9"),
        line("Apr 30", "water", "", "C1", tag="KA9"),
    ]
    (kale,) = plantings(season(None, log), TODAY)
    assert dict(zip([event.day for event in kale.events], kale.own, strict=True)) == {
        day("Apr 10"): squares("A1"),
        day("Apr 20"): squares("A1"),
        day("Apr 30"): squares("C1"),
    }
