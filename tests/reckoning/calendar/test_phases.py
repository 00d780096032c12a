"""The course of a planting: its stages day by day, cut where they change and nowhere else."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from itertools import pairwise

from hypothesis import given, settings

from tallybed.garden.crops import Beginning, Crop, Figure
from tallybed.garden.days import ONE_DAY
from tallybed.garden.garden import FreezeDates, Season
from tallybed.garden.records.log import Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.reckoning.calendar.bearing import Bearing
from tallybed.reckoning.calendar.phases import Phase, phases_of
from tallybed.reckoning.calendar.stages import Stage, stage
from tallybed.reckoning.calendar.windows.windows import expected
from tallybed.reckoning.squares.occupancy import Grade, hold
from tallybed.reckoning.squares.stays import stays
from tests.laws import tries
from tests.reckoning.byhand import (
    CROPS,
    SPAN,
    day,
    holding,
    line,
    plan_row,
    planting,
    squares,
    weighing,
)
from tests.reckoning.byhand import hold as held
from tests.reckoning.growing import days_between
from tests.reckoning.squares.test_occupancy_laws import seasons, todays

NO_FREEZE = Bearing(dates=FreezeDates(), span=SPAN)
BY_SLUG = {crop.slug: crop for crop in CROPS}
IMPLIED, SUPPOSED, PLANNED = Grade.IMPLIED, Grade.SUPPOSED, Grade.PLANNED


def told(phases: tuple[Phase, ...]) -> list[tuple[str, date, date, Grade]]:
    return [(phase.stage.value, phase.first, phase.last, phase.grade) for phase in phases]


def test_a_planting_is_sown_then_grows_then_bears() -> None:
    sown = [line(Verb.SOW, day(4, 10), "A1"), line(Verb.UP, day(4, 22), "A1")]
    one = planting("CA1", "carrot", None, sown, [weighing("carrot", day(6, 20), "A1")])
    found = holding(
        day(7, 1),
        [one],
        held("CA1", "A1", day(4, 10), day(4, 10), Grade.SEEN),
        held("CA1", "A1", day(4, 11), day(7, 1), IMPLIED),
    )
    (stay,) = stays(found, "long")
    assert told(phases_of(found, stay, BY_SLUG["carrot"], NO_FREEZE)) == [
        ("sown", day(4, 10), day(4, 21), IMPLIED),
        ("growing", day(4, 22), day(6, 19), IMPLIED),
        ("bearing", day(6, 20), day(7, 1), IMPLIED),
    ]


def test_days_to_come_follow_the_plan_and_the_days_to_maturity() -> None:
    """Radish of 25 days, planned on 1 August, seen from 1 July: up after 14 days, ready after 25."""
    one = planting("RA1", "radish", plan_row("radish", "A1", day(8, 1), day(9, 10), start=Start.SOW))
    found = holding(day(7, 1), [one], held("RA1", "A1", day(8, 1), day(9, 9), PLANNED))
    (stay,) = stays(found, "long")
    assert told(phases_of(found, stay, BY_SLUG["radish"], NO_FREEZE)) == [
        ("sown", day(8, 1), day(8, 14), PLANNED),
        ("growing", day(8, 15), day(8, 25), PLANNED),
        ("bearing", day(8, 26), day(9, 9), PLANNED),
    ]


def test_a_course_is_cut_where_its_grade_changes() -> None:
    one = planting("CA1", "carrot", None, [line(Verb.SET_OUT, day(5, 1), "A1")])
    found = holding(
        day(5, 20),
        [one],
        held("CA1", "A1", day(5, 1), day(5, 1), Grade.SEEN),
        held("CA1", "A1", day(5, 2), day(5, 20), SUPPOSED),
        held("CA1", "A1", day(5, 21), day(5, 30), PLANNED),
    )
    (stay,) = stays(found, "long")
    assert told(phases_of(found, stay, BY_SLUG["carrot"], NO_FREEZE)) == [
        ("growing", day(5, 1), day(5, 1), IMPLIED),
        ("growing", day(5, 2), day(5, 20), SUPPOSED),
        ("growing", day(5, 21), day(5, 30), PLANNED),
    ]


@settings(max_examples=tries(25))
@given(seasons(), todays)
def test_every_day_of_a_course_has_the_stage_of_that_day(season: Season, today: date) -> None:
    found = hold(season, today)
    for stay in stays(found, "b"):
        one = found.planting(stay.planting)
        crop = BY_SLUG.get(one.crop.slug or "")
        phases = phases_of(found, stay, crop, NO_FREEZE)
        assert (phases[0].first, phases[-1].last) == (stay.first, stay.last)
        for before, following in pairwise(phases):
            assert following.first == before.last + ONE_DAY, "phases follow each other without a gap"
            assert (before.stage, before.grade) != (following.stage, following.grade), "phases differ"
        for phase in phases:
            for when in days_between(phase.first, phase.last):
                assert stage(one, crop, stay.square, stay.first, when, today, NO_FREEZE) is phase.stage, when
                grade = min(each.grade for each in stay.holds if each.first <= when <= each.last)
                assert max(grade, IMPLIED) is phase.grade, when


def test_a_crop_nobody_can_name_still_has_a_course() -> None:
    one = planting("X1", "beans", None, [line(Verb.SOW, day(5, 1), "A1")])
    found = holding(day(7, 15), [one], held("X1", "A1", day(5, 1), day(6, 30)))
    (stay,) = stays(found, "long")
    assert [phase.stage for phase in phases_of(found, stay, None, NO_FREEZE)] == [Stage.SOWN, Stage.GROWING]
    assert squares("A1") == (stay.square,)


def bears(crop: Crop, planned: PlanRow, garden: FreezeDates = NO_FREEZE.dates) -> date:
    """Return the first day drawn as bearing, seen from before the season."""
    one = planting("X1", crop.slug, planned)
    found = holding(day(3, 1), [one], held("X1", "A1", planned.begins, day(11, 30), PLANNED))
    (stay,) = stays(found, "long")
    phases = phases_of(found, stay, crop, Bearing(dates=garden, span=SPAN))
    return next(phase.first for phase in phases if phase.stage is Stage.BEARING)


def test_what_ripens_in_fall_is_drawn_bearing_on_the_day_that_is_expected() -> None:
    """Two weeks are added for the slow growth of fall (Virginia Cooperative Extension, 426-334)."""
    freezes = FreezeDates(spring=((32, ((50, (4, 20)),)),), fall=((32, ((50, (10, 20)),)),))
    radish = BY_SLUG["radish"]
    late = plan_row("radish", "A1", day(8, 10), start=Start.SOW)
    assert bears(radish, late, freezes) == day(8, 10) + timedelta(days=25 + 14)
    found = expected(radish, freezes, SPAN, late.begins, start=Start.SOW)
    assert found is not None
    assert bears(radish, late, freezes) == found.first
    early = plan_row("radish", "A1", day(5, 10), start=Start.SOW)
    assert bears(radish, early, freezes) == day(5, 10) + timedelta(days=25)


def test_a_sown_bulb_is_not_drawn_by_the_days_of_its_sets() -> None:
    weeks = Figure(fact="weeks indoors", low=Fraction(8), high=Fraction(10))
    sets = replace(BY_SLUG["carrot"], days=90, days_from="setting out", chosen=(weeks,))
    sets = replace(sets, slug="shallot", start=Beginning.SETS)
    assert bears(sets, plan_row("shallot", "A1", day(4, 1), start=Start.SET_OUT)) == day(6, 30)
    # From seed it takes the weeks more that it usually spends indoors: 90 days and nine weeks.
    assert bears(sets, plan_row("shallot", "A1", day(4, 1), start=Start.SOW)) == day(9, 1)
