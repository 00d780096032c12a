"""A bed's season by planting: what stood in each square, stage by stage, and what was meant."""

from __future__ import annotations

from datetime import date

from hypothesis import HealthCheck, given, settings

from tallybed.garden.garden import Garden, Season
from tallybed.garden.squares import Bed, Square
from tallybed.reckoning.calendar.strips import as_planned, planting_strip, planting_strips
from tallybed.reckoning.squares.occupancy import Grade, hold
from tests.reckoning.byhand import CROPS
from tests.reckoning.growing import SPAN, day, days_between, line, plan_row, season
from tests.reckoning.squares.test_occupancy_laws import seasons, todays

BED = Bed(name="b", title="The bed", columns=4, rows=3)
GARDEN = Garden(name="g", beds=(BED,), crops=CROPS)
PLAN = [
    plan_row("carrot", "A1 B1", "Apr 10", "Jul 20", tag="CA1"),
    plan_row("radish", "C1", "Aug 1", "Sep 1", tag="RA1"),
]
LOG = [
    line("Apr 14", "sow", "carrot", "A1 B1", tag="CA1"),
    line("May 2", "lost", "carrot", "B1", tag="CA1"),
]


def test_what_was_meant_lies_beside_what_happened() -> None:
    carrot, radish = planting_strips(GARDEN, hold(season(PLAN, LOG), day("Jun 1")), BED)
    assert (carrot.letters, carrot.family, carrot.tag) == ("Ca", "Apiaceae", "CA1")
    assert [(one.square.label, one.first, one.last, one.lost) for one in carrot.courses] == [
        ("A1", day("Apr 14"), day("Jul 19"), False),
        ("B1", day("Apr 14"), day("May 1"), True),
    ]
    assert [(one.square.label, one.first, one.last) for one in carrot.meant] == [
        ("A1", day("Apr 10"), day("Jun 1")),
        ("B1", day("Apr 10"), day("Jun 1")),
    ]
    assert radish.meant == (), "days to come are in the spells"
    assert [phase.grade for phase in radish.courses[0].phases] == [Grade.PLANNED] * 3


def test_the_plan_alone_is_as_if_nothing_had_happened() -> None:
    first = plan_row("lettuce", "D1", "Mar 1", "May 1", tag="LE1")
    found = planting_strips(GARDEN, as_planned(season([*PLAN, first], LOG)), BED)
    assert [(one.planting, one.courses[0].first, one.courses[-1].last) for one in found] == [
        ("CA1", day("Apr 10"), day("Jul 19")),
        ("LE1", SPAN.first, day("Apr 30")),
        ("RA1", day("Aug 1"), day("Aug 31")),
    ]
    phases = [phase for one in found for course in one.courses for phase in course.phases]
    assert {phase.grade for phase in phases} == {Grade.PLANNED}
    assert not any(one.meant or course.lost for one in found for course in one.courses)


def test_a_general_name_left_open_has_no_letters_of_its_own() -> None:
    (one,) = planting_strips(
        GARDEN, hold(season(None, [line("May 1", "sow", "beans", "A1")]), day("Jun 1")), BED
    )
    assert (one.crop, one.name, one.letters, one.family) == ("", "beans", "", "Fabaceae")


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(seasons(), todays)
def test_strands_hold_what_the_holding_holds(records: Season, today: date) -> None:
    found = hold(records, today)
    held = {
        (one.planting, one.square, when) for one in found.holds for when in days_between(one.first, one.last)
    }
    meant = {
        (one.planting, one.square, when)
        for one in found.by_plan
        for when in days_between(one.first, min(one.last, today))
    }
    told: set[tuple[str, Square, date]] = set()
    behind: set[tuple[str, Square, date]] = set()
    for each in planting_strips(GARDEN, found, BED):
        for course in each.courses:
            told |= {(each.planting, course.square, when) for when in days_between(course.first, course.last)}
        for one in each.meant:
            behind |= {(each.planting, one.square, when) for when in days_between(one.first, one.last)}
    assert told == held
    assert behind == meant


def test_one_planting_alone_is_as_it_is_among_the_others() -> None:
    holding = hold(season(PLAN, LOG), day("Jun 1"))
    assert [planting_strip(GARDEN, holding, BED, key) for key in ("CA1", "RA1")] == list(
        planting_strips(GARDEN, holding, BED)
    )
    assert planting_strip(GARDEN, holding, BED, "nobody") is None
