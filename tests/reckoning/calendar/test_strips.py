"""A bed's season by planting: what stood in each square, stage by stage, and what was meant."""

from __future__ import annotations

from datetime import date

from hypothesis import given, settings

from tallybed.garden.garden import Garden, Season
from tallybed.garden.squares import Bed, Square
from tallybed.reckoning.calendar.bed_season import BedSeason
from tallybed.reckoning.calendar.strips import PlantingStrip, planting_strips
from tallybed.reckoning.squares.occupancy import Grade, Holding, hold
from tests.laws import tries
from tests.reckoning.byhand import CROPS
from tests.reckoning.growing import day, days_between, line, plan_row, season
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


def strips(holding: Holding) -> tuple[PlantingStrip, ...]:
    return planting_strips(BedSeason(garden=GARDEN, holding=holding, bed=BED))


def test_what_was_meant_lies_beside_what_happened() -> None:
    carrot, radish = strips(hold(season(PLAN, LOG), day("Jun 1")))
    assert (carrot.letters, carrot.tag) == ("CA", "CA1")
    assert [(one.square.label, one.first, one.last, one.lost) for one in carrot.courses] == [
        ("A1", day("Apr 14"), day("Jul 19"), False),
        ("B1", day("Apr 14"), day("May 1"), True),
    ]
    assert [(one.square.label, one.first, one.last) for one in carrot.meant] == [
        ("A1", day("Apr 10"), day("Jun 1")),
        ("B1", day("Apr 10"), day("Jun 1")),
    ]
    assert radish.meant == (), "days to come are in the courses"
    assert [phase.grade for phase in radish.courses[0].phases] == [Grade.PLANNED] * 3


def test_a_general_name_left_open_has_the_letters_of_its_name() -> None:
    (one,) = strips(hold(season(None, [line("May 1", "sow", "beans", "A1")]), day("Jun 1")))
    assert (one.name, one.letters) == ("beans", "Be")


@settings(max_examples=tries(40))
@given(seasons(), todays)
def test_strips_hold_what_the_holding_holds(records: Season, today: date) -> None:
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
    for each in strips(found):
        for course in each.courses:
            told |= {(each.planting, course.square, when) for when in days_between(course.first, course.last)}
        for one in each.meant:
            behind |= {(each.planting, one.square, when) for when in days_between(one.first, one.last)}
    assert told == held
    assert behind == meant
