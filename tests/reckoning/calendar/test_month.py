"""A bed's month: holders, what is drawn, and what changed."""

from __future__ import annotations

from collections import Counter
from datetime import date
from fractions import Fraction
from itertools import combinations, pairwise
from math import dist

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tallybed.garden.crops import Habit
from tallybed.garden.days import ONE_DAY, Month
from tallybed.garden.garden import Season
from tallybed.garden.records.log import Entry, Event, Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Bed
from tallybed.reckoning.calendar.bed_season import BedSeason
from tallybed.reckoning.calendar.month import (
    BedMonth,
    Change,
    DrawnPlanting,
    Holder,
    Stage,
    bed_month,
)
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Grade, Hold, Holding
from tallybed.reckoning.squares.occupancy import hold as held
from tests.laws import tries
from tests.reckoning.byhand import (
    BEDS,
    GARDEN,
    LED_OUT,
    SPAN,
    day,
    hold,
    holding,
    line,
    name,
    plan_row,
    planting,
    squares,
    weighing,
)

LONG, ELBOW = BEDS
TODAY = day(7, 15)
SEEN, IMPLIED, SUPPOSED, PLANNED = Grade


def month_in(found: Holding, bed: Bed, month: Month) -> BedMonth:
    return bed_month(BedSeason(garden=GARDEN, holding=found, bed=bed), month)


def month_of(number: int, *holds: list[Hold], plantings: list[Planting], today: date = TODAY) -> BedMonth:
    return month_in(holding(today, plantings, *holds), LONG, Month(2026, number))


def told(change: Change) -> tuple[int, str, str, str, str]:
    labels = " ".join(square.label for square in change.squares)
    return change.day.day, change.what, change.planting, labels, change.grade.word


def drawn_of(month: BedMonth, key: str) -> DrawnPlanting:
    (found,) = (drawn for drawn in month.drawn if drawn.planting == key)
    return found


def holder_of(month: BedMonth, key: str, label: str) -> Holder:
    (found,) = (each for each in month.holders if each.planting == key and each.square.label == label)
    return found


LETTUCE = planting(
    "LE1",
    "lettuce",
    plan_row("lettuce", "A1 B1", day(4, 10), day(6, 12), plants=8),
    [line(Verb.SET_OUT, day(4, 12), "A1 B1"), line(Verb.CLEAR, day(6, 9), "A1 B1")],
    [weighing("lettuce", day(5, 20), "A1")],
)
LETTUCE_HOLDS = [
    *hold("LE1", "A1 B1", day(4, 12), day(4, 12), SEEN),
    *hold("LE1", "A1 B1", day(4, 13), day(6, 8), IMPLIED),
]


# --- The month and its days ------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("number", "kind", "as_of"),
    [(6, "recorded", day(6, 30)), (7, "running", TODAY), (8, "planned", day(8, 31))],
)
def test_the_map_shows_the_last_day_or_today(number: int, kind: str, as_of: date) -> None:
    month = month_of(number, plantings=[])
    assert (month.kind, month.as_of) == (kind, as_of)


def test_a_month_that_ends_today_is_recorded() -> None:
    month = month_of(7, plantings=[], today=day(7, 31))
    assert (month.kind, month.as_of) == ("recorded", day(7, 31))


def test_a_month_is_clipped_to_the_season() -> None:
    short = Season(name="2026", span=SPAN.__class__(first=day(3, 10), last=day(11, 5)))
    empty = Holding(season="2026", span=short.span, today=TODAY)
    march = month_in(empty, LONG, Month(2026, 3))
    november = month_in(empty, LONG, Month(2026, 11))
    assert (march.first, march.last) == (day(3, 10), day(3, 31))
    assert (november.last, november.as_of) == (day(11, 5), day(11, 5))


def test_a_month_outside_the_season_is_an_error() -> None:
    with pytest.raises(ValueError, match="January 2026"):
        month_in(holding(TODAY, []), LONG, Month(2026, 1))


# --- Holders ---------------------------------------------------------------------------------------


def test_days_known_differently_are_one_holder() -> None:
    month = month_of(5, LETTUCE_HOLDS, plantings=[LETTUCE])
    assert [(each.square.label, each.first, each.last) for each in month.holders] == [
        ("A1", day(5, 1), day(5, 31)),
        ("B1", day(5, 1), day(5, 31)),
    ]
    first = month.holders[0]
    assert (first.starts, first.ends, first.grade, first.plants) == (None, None, IMPLIED, 4)
    assert (first.stage, first.share) == (Stage.BEARING, Fraction(1))


def test_a_holder_tells_the_day_it_came_and_the_best_that_is_known() -> None:
    first = month_of(4, LETTUCE_HOLDS, plantings=[LETTUCE]).holders[0]
    assert (first.starts, first.first, first.grade) == (day(4, 12), day(4, 12), SEEN)


def test_a_holder_tells_the_day_it_left() -> None:
    first = month_of(6, LETTUCE_HOLDS, plantings=[LETTUCE]).holders[0]
    assert (first.last, first.ends, first.stage) == (day(6, 8), day(6, 9), Stage.OVER)


def test_what_leaves_today_is_over_and_no_longer_to_come() -> None:
    one = planting("LE1", "lettuce", plan_row("lettuce", "A1", day(6, 1), TODAY))
    month = month_of(7, hold("LE1", "A1", day(6, 1), day(7, 14), SUPPOSED), plantings=[one])
    assert (month.holders[0].stage, month.holders[0].ends) == (Stage.OVER, TODAY)
    assert [told(change) for change in month.changes] == [(15, "cleared", "LE1", "A1", "supposed")]


def test_leaving_on_the_first_of_the_next_month_is_that_months_affair() -> None:
    one = planting("LE1", "lettuce", plan_row("lettuce", "A1", day(4, 10), day(6, 1)))
    holds = hold("LE1", "A1", day(4, 10), day(5, 31), SUPPOSED)
    may, june = (month_of(number, holds, plantings=[one]) for number in (5, 6))
    assert may.holders[0].ends is None
    assert may.holders[0].stage is not Stage.OVER
    assert june.holders == ()
    assert [told(change) for change in june.changes] == [(1, "cleared", "LE1", "A1", "supposed")]


@pytest.mark.parametrize(("number", "days"), [(3, []), (4, [(30, 30)]), (5, [(1, 1)]), (6, [])])
def test_what_holds_a_square_over_a_change_of_months_is_in_both(
    number: int, days: list[tuple[int, int]]
) -> None:
    one = planting("RA1", "radish", plan_row("radish", "A1", day(4, 30), day(5, 2)))
    month = month_of(number, hold("RA1", "A1", day(4, 30), day(5, 1), SUPPOSED), plantings=[one])
    assert [(holder.first.day, holder.last.day) for holder in month.holders] == days


def test_what_stands_from_before_the_season_did_not_start_in_it() -> None:
    one = planting("GA1", "carrot", plan_row("carrot", "A1", day(3, 1), day(7, 7), Start.CARRIED, plants=9))
    month = month_of(3, hold("GA1", "A1", day(3, 1), day(7, 6), SUPPOSED), plantings=[one])
    assert month.holders[0].starts is None
    assert month.holders[0].stage is Stage.GROWING
    assert month.changes == ()


def test_two_holders_of_a_square_stand_in_order() -> None:
    bean = planting("BB1", "bean-bush", None, [line(Verb.SOW, day(6, 9), "A1")])
    month = month_of(
        6,
        LETTUCE_HOLDS,
        hold("BB1", "A1", day(6, 9), TODAY, SEEN),
        plantings=[LETTUCE, bean],
    )
    assert [(each.square.label, each.planting) for each in month.holders] == [
        ("A1", "LE1"),
        ("A1", "BB1"),
        ("B1", "LE1"),
    ]


def test_plants_nobody_counted_are_not_known() -> None:
    one = planting("CA1", "carrot", None, [line(Verb.SOW, day(5, 1), "A1")])
    month = month_of(6, hold("CA1", "A1", day(5, 1), TODAY, SEEN), plantings=[one])
    assert month.holders[0].plants is None
    assert len(drawn_of(month, "CA1").spots) == 16, "drawn as many as have room"


def test_plants_are_counted_on_the_last_day() -> None:
    one = planting(
        "LE1",
        "lettuce",
        None,
        [line(Verb.SET_OUT, day(4, 1), "A1", plants=4), line(Verb.LOST, day(5, 10), "A1", plants=1)],
    )
    holds = hold("LE1", "A1", day(4, 1), TODAY, SEEN)
    assert month_of(4, holds, plantings=[one]).holders[0].plants == 4
    assert month_of(5, holds, plantings=[one]).holders[0].plants == 3


# --- Stages ----------------------------------------------------------------------------------------


def stage_in(
    number: int, *events: Event, planned: PlanRow | None = None, picked: date | None = None
) -> Stage:
    crop = planned.crop if planned else "carrot"
    weighings = [weighing(crop, picked)] if picked else []
    one = planting("X1", crop, planned, events, weighings)
    first = planned.begins if planned else day(4, 10)
    month = month_of(number, hold("X1", "A1", first, day(11, 29), SUPPOSED), plantings=[one])
    return month.holders[0].stage


SOWN = line(Verb.SOW, day(4, 10), "A1")
LATE_SOWN = line(Verb.SOW, day(4, 20), "A1")


@pytest.mark.parametrize(
    ("after", "expected"),
    [
        ([], Stage.SOWN),
        ([line(Verb.WATER, day(4, 24), "A1")], Stage.SOWN),
        ([line(Verb.OBSERVE, day(4, 24), "A1")], Stage.SOWN),
        ([line(Verb.OBSERVE, day(4, 24), "A1", tag="X1")], Stage.GROWING),
        ([line(Verb.UP, day(4, 24))], Stage.GROWING),
        ([line(Verb.THIN, day(4, 24), "A1", leaving=9)], Stage.GROWING),
        ([line(Verb.PRUNE, day(4, 24), "A1")], Stage.GROWING),
        ([line(Verb.STAKE, day(4, 24), "A1")], Stage.GROWING),
        ([line(Verb.LOST, day(4, 24), "A1", plants=2)], Stage.GROWING),
        ([line(Verb.UP, day(4, 24)), line(Verb.RESOW, day(4, 26), "A1")], Stage.SOWN),
        ([line(Verb.RESOW, day(4, 22), "A1"), line(Verb.UP, day(4, 26))], Stage.GROWING),
        ([line(Verb.UP, day(7, 1))], Stage.SOWN),
    ],
)
def test_a_sowing_is_sown_until_a_record_says_it_grows(after: list[Event], expected: Stage) -> None:
    assert stage_in(4, LATE_SOWN, *after) is expected


@pytest.mark.parametrize(
    ("sown", "expected"),
    [(day(4, 17), Stage.SOWN), (day(4, 16), Stage.GROWING)],
    ids=["thirteen days before the month's end", "fourteen"],
)
def test_a_sowing_that_nobody_speaks_of_is_taken_to_be_up_after_a_fortnight(
    sown: date, expected: Stage
) -> None:
    assert stage_in(4, line(Verb.SOW, sown, "A1")) is expected


@pytest.mark.parametrize(
    ("later", "expected"),
    [
        ([line(Verb.FAILED, day(5, 6), "A1")], Stage.SOWN),
        ([line(Verb.UP, day(4, 28)), line(Verb.FAILED, day(5, 6), "A1")], Stage.GROWING),
        ([line(Verb.FAILED, day(5, 6), "B1")], Stage.GROWING),
        ([line(Verb.SOW, day(5, 2), "A1"), line(Verb.FAILED, day(5, 20), "A1")], Stage.GROWING),
        ([line(Verb.LOST, day(5, 6), "A1")], Stage.GROWING),
    ],
    ids=["failed", "failed once it was up", "in another square", "another sowing failed", "lost"],
)
def test_what_failed_to_come_up_never_grew(later: list[Event], expected: Stage) -> None:
    assert stage_in(4, SOWN, *later) is expected


def test_what_was_set_out_grows() -> None:
    assert stage_in(4, line(Verb.SET_OUT, day(4, 10), "A1")) is Stage.GROWING


def test_a_planting_bears_from_its_first_weighing() -> None:
    assert stage_in(5, SOWN, picked=day(6, 10)) is Stage.GROWING
    assert stage_in(6, SOWN, picked=day(6, 10)) is Stage.BEARING
    assert stage_in(8, SOWN, picked=day(6, 10)) is Stage.BEARING


@pytest.mark.parametrize(
    ("begins", "number", "expected"),
    [
        # Nothing recorded: sown for 14 days, then growing, bearing once 60 days have passed.
        (day(4, 17), 4, Stage.SOWN),
        (day(4, 16), 4, Stage.GROWING),
        (day(4, 2), 5, Stage.GROWING),
        (day(4, 1), 5, Stage.BEARING),
        (day(9, 17), 9, Stage.SOWN),
        (day(9, 16), 9, Stage.GROWING),
    ],
)
def test_a_planting_of_the_plan_alone_goes_by_its_days(begins: date, number: int, expected: Stage) -> None:
    assert stage_in(number, planned=plan_row("carrot", "A1", begins)) is expected


def test_days_from_sowing_count_from_the_windowsill() -> None:
    # 100 days from sowing indoors on 10 March are 18 June; set out on 12 May they would be 20 August.
    tomato = plan_row("tomato", "A1", day(5, 12), start=Start.SET_OUT, sow_indoors=day(3, 10))
    assert stage_in(5, planned=tomato) is Stage.GROWING
    assert stage_in(6, planned=tomato) is Stage.BEARING


def test_a_plant_wants_a_third_of_its_days_in_the_bed_however_long_it_stood_indoors() -> None:
    # 100 days from 10 February are 21 May; a third of them from 20 May on are 33, to 22 June.
    tomato = plan_row("tomato", "A1", day(5, 20), start=Start.SET_OUT, sow_indoors=day(2, 10))
    assert stage_in(5, planned=tomato) is Stage.GROWING
    assert stage_in(6, planned=tomato) is Stage.BEARING


def test_days_from_setting_out_count_from_the_bed() -> None:
    squash = plan_row("squash", "A1", day(5, 20), start=Start.SET_OUT, sow_indoors=day(4, 20))
    assert stage_in(6, planned=squash) is Stage.GROWING
    assert stage_in(7, planned=squash) is Stage.GROWING, "60 days are over on 19 July; today is the 15th"
    assert stage_in(8, planned=squash) is Stage.BEARING


def test_a_varietys_own_days_count() -> None:
    planned = plan_row("carrot", "A1", day(8, 1), variety="Amber Spike")
    one = planting("X1", "carrot", planned, variety="Amber Spike")
    stages = [
        month_of(number, hold("X1", "A1", day(8, 1), day(11, 29), PLANNED), plantings=[one]).holders[0].stage
        for number in (9, 10)
    ]
    assert stages == [Stage.GROWING, Stage.BEARING], "80 days, not the crop's 60"


def test_days_to_come_take_a_recorded_sowing_further() -> None:
    late = line(Verb.SOW, day(7, 10), "A1")
    assert [stage_in(number, late) for number in (7, 8, 9)] == [Stage.SOWN, Stage.GROWING, Stage.BEARING]


@pytest.mark.parametrize(
    ("verb", "expected"),
    [(Verb.LOST, Stage.LOST), (Verb.FAILED, Stage.LOST), (Verb.CLEAR, Stage.OVER), (Verb.MOVE, Stage.OVER)],
)
def test_the_end_says_whether_it_was_lost(verb: Verb, expected: Stage) -> None:
    end = line(verb, day(5, 10), "A1", because="slugs", to=squares("F1") if verb is Verb.MOVE else ())
    one = planting("X1", "carrot", None, [SOWN, end])
    month = month_of(5, hold("X1", "A1", day(4, 10), day(5, 9), SEEN), plantings=[one])
    (holder,) = month.holders
    assert (holder.stage, holder.ends) == (expected, day(5, 10))
    assert holder.why == ("slugs" if expected is Stage.LOST else "")
    drawn = drawn_of(month, "X1")
    assert (drawn.stage, drawn.standing, drawn.spots) == (expected, False, ())


def test_a_loss_in_one_square_leaves_the_other_standing() -> None:
    start = line(Verb.SET_OUT, day(4, 11), "A1 B1", plants=2)
    one = planting(
        "LH1", "lettuce", None, [start, line(Verb.LOST, day(4, 25), "A1", plants=1, because="frost")]
    )
    month = month_of(
        4,
        hold("LH1", "A1", day(4, 11), day(4, 24), SEEN),
        hold("LH1", "B1", day(4, 11), TODAY, SEEN),
        plantings=[one],
    )
    assert (holder_of(month, "LH1", "A1").stage, holder_of(month, "LH1", "A1").why) == (Stage.LOST, "frost")
    assert holder_of(month, "LH1", "B1").stage is Stage.GROWING
    drawn = drawn_of(month, "LH1")
    assert (drawn.standing, drawn.squares, len(drawn.spots)) == (True, squares("B1"), 1)


@pytest.mark.parametrize("label", ["A1", "B1"])
def test_a_planting_lost_in_part_and_cleared_in_part_is_drawn_as_over(label: str) -> None:
    """Else a map tells the public that all of it was lost, where most was picked and cleared."""
    lost = line(Verb.LOST, day(5, 10), label, because="slugs")
    cleared = line(Verb.CLEAR, day(5, 20), "B1" if label == "A1" else "A1")
    one = planting("X1", "carrot", None, [line(Verb.SOW, day(4, 10), "A1 B1"), lost, cleared])
    ends = {"A1": day(5, 9), "B1": day(5, 19)} if label == "A1" else {"A1": day(5, 19), "B1": day(5, 9)}
    month = month_of(
        5, *(hold("X1", each, day(4, 10), last, SEEN) for each, last in ends.items()), plantings=[one]
    )
    assert holder_of(month, "X1", label).stage is Stage.LOST
    drawn = drawn_of(month, "X1")
    assert (drawn.stage, drawn.standing) == (Stage.OVER, False)


@pytest.mark.parametrize(
    ("sown_again", "expected"), [("A1 B1", Stage.SOWN), ("A1", Stage.GROWING)], ids=["two of three", "one"]
)
def test_a_planting_is_drawn_at_the_stage_of_most_of_its_squares(sown_again: str, expected: Stage) -> None:
    """Fails where one square that is up makes a map show three of them."""
    up, again = line(Verb.UP, day(4, 20)), line(Verb.RESOW, day(4, 26), sown_again)
    one = planting("X1", "carrot", None, [line(Verb.SOW, day(4, 10), "A1 B1 C1"), up, again])
    month = month_of(4, hold("X1", "A1 B1 C1", day(4, 10), TODAY, SEEN), plantings=[one])
    assert drawn_of(month, "X1").stage is expected


# --- What is drawn ---------------------------------------------------------------------------------


def test_a_planting_is_drawn_with_what_the_map_needs() -> None:
    drawn = drawn_of(month_of(5, LETTUCE_HOLDS, plantings=[LETTUCE]), "LE1")
    assert (drawn.crop, drawn.name, drawn.letters) == ("lettuce", "lettuce", "LE")
    assert (drawn.habit, drawn.stage) == (Habit.ROSETTE, Stage.BEARING)
    assert (drawn.squares, drawn.standing) == (squares("A1 B1"), True)
    assert Counter(spot.square for spot in drawn.spots) == dict.fromkeys(squares("A1 B1"), 4)


@pytest.mark.parametrize(
    ("events", "picked", "expected"),
    [
        ([line(Verb.SOW, day(5, 20), "A1")], None, 0.35 * 3),
        ([SOWN, line(Verb.UP, day(5, 1))], None, (0.35 + 0.6 * 51 / 60) * 3),  # 51 of its 60 days
        ([SOWN], day(5, 20), 3.0),
    ],
)
def test_plants_widen_as_they_grow(events: list[Event], picked: date | None, expected: float) -> None:
    one = planting("CA1", "carrot", None, events, [weighing("carrot", picked)] if picked else [])
    month = month_of(5, hold("CA1", "A1", day(4, 10), TODAY, SEEN), plantings=[one])
    assert drawn_of(month, "CA1").spread == pytest.approx(expected)


def test_crowded_plants_are_drawn_no_wider_than_they_stand() -> None:
    packed = line(Verb.SET_OUT, day(5, 1), "A1 B1 A2 B2", plants=4)
    one = planting("TO1", "tomato", None, [packed], [weighing("tomato", day(5, 30))])
    month = month_of(5, hold("TO1", "A1 B1 A2 B2", day(5, 1), TODAY, SEEN), plantings=[one])
    assert drawn_of(month, "TO1").spread == 12


def test_vines_led_out_keep_their_full_width() -> None:
    planned = plan_row("squash", "F1", day(5, 1), start=Start.SET_OUT, plants=1, led_out=LED_OUT)
    one = planting("SQ1", "squash", planned, [], [weighing("squash", day(5, 30))])
    drawn = drawn_of(month_of(5, hold("SQ1", "F1", day(5, 1), TODAY, SEEN), plantings=[one]), "SQ1")
    assert (drawn.led_out, drawn.spread) == (LED_OUT, 24)


def test_vines_are_led_out_of_the_beds_that_have_the_side() -> None:
    planned = plan_row("squash", "F1 elbow/A1", day(5, 1), start=Start.SET_OUT, plants=2, led_out=LED_OUT)
    one = planting("SQ1", "squash", planned, [])
    found = holding(TODAY, [one], hold("SQ1", "F1 elbow/A1", day(5, 1), TODAY, SEEN))
    drawn = [drawn_of(month_in(found, bed, Month(2026, 5)), "SQ1") for bed in (LONG, ELBOW)]
    assert [each.led_out for each in drawn] == [LED_OUT, None]


def test_what_is_still_to_come_is_drawn_without_plants() -> None:
    one = planting("BB1", "bean-bush", plan_row("bean-bush", "A1", day(7, 20), plants=9))
    month = month_of(7, hold("BB1", "A1", day(7, 20), day(11, 29), PLANNED), plantings=[one])
    drawn = drawn_of(month, "BB1")
    assert (drawn.standing, drawn.spots) == (False, ())
    assert holder_of(month, "BB1", "A1").starts == day(7, 20)


def test_what_is_still_to_come_shares_its_square_from_the_day_it_comes() -> None:
    both = [planting(key, "carrot", plan_row("carrot", "A1", day(7, 20))) for key in ("CA1", "CA2")]
    holds = [hold(one.key, "A1", day(7, 20), day(11, 29), PLANNED) for one in both]
    month = month_of(7, *holds, plantings=both)
    assert [holder_of(month, one.key, "A1").share for one in both] == [Fraction(1, 2)] * 2


def test_a_general_name_left_open_is_drawn_without_a_crop() -> None:
    one = planting("X1", "beans", None, [line(Verb.SOW, day(5, 1), "A1")])
    drawn = drawn_of(month_of(5, hold("X1", "A1", day(5, 1), TODAY, SEEN), plantings=[one]), "X1")
    assert (drawn.crop, drawn.name, drawn.letters) == ("", "beans", "X"), "the letters of its tag"
    assert drawn.habit is Habit.UPRIGHT, "bush and pole beans have two habits"
    assert (drawn.spots, drawn.spread) == ((), 0)


def test_a_planting_over_two_beds_is_drawn_in_each() -> None:
    start = line(Verb.SET_OUT, day(5, 1), "A1 elbow/B2", plants=5)
    one = planting("LE1", "lettuce", None, [start])
    found = holding(TODAY, [one], hold("LE1", "A1 elbow/B2", day(5, 1), TODAY))
    spots = [drawn_of(month_in(found, bed, Month(2026, 5)), "LE1").spots for bed in BEDS]
    assert [Counter(str(spot.square) for spot in each) for each in spots] == [{"long/A1": 3}, {"elbow/B2": 2}]


def shared_square(guest_first: bool) -> BedMonth:
    # The guest's key sorts first, so that order alone does not decide who gives way.
    carrots = planting("RC1", "carrot", plan_row("carrot", "A1 B1", day(4, 1), plants=32))
    radishes = planting("AR1", "radish", plan_row("radish", "A1 B1", day(4, 1), plants=10, among="RC1"))
    holds = [hold("RC1", "A1 B1", day(4, 1), TODAY, SEEN), hold("AR1", "A1 B1", day(4, 1), TODAY, SEEN)]
    plantings = [radishes, carrots] if guest_first else [carrots, radishes]
    return month_of(4, *(reversed(holds) if guest_first else holds), plantings=plantings)


def test_a_crop_among_another_stands_between_its_plants() -> None:
    month = shared_square(guest_first=True)
    host, guest = drawn_of(month, "RC1"), drawn_of(month, "AR1")
    assert [spot.x for spot in host.spots[:4]] == [1.5, 4.5, 7.5, 10.5], "the host keeps its places"
    assert Counter(spot.square for spot in guest.spots) == dict.fromkeys(squares("A1 B1"), 5)
    for spots in (host.spots, guest.spots):
        assert min(dist((a.x, a.y), (b.x, b.y)) for a, b in combinations(spots, 2)) >= 2.999
    between = min(dist((a.x, a.y), (b.x, b.y)) for a in host.spots for b in guest.spots)
    assert between == pytest.approx(1.5 * 2**0.5, abs=0.001)
    assert {holder.share for holder in month.holders} == {Fraction(1, 2)}


def test_the_order_of_records_never_matters() -> None:
    assert shared_square(guest_first=True) == shared_square(guest_first=False)


# --- Changes ---------------------------------------------------------------------------------------


def test_changes_stand_by_day_with_what_went_before_what_came() -> None:
    bean = planting(
        "BB1",
        "bean-bush",
        plan_row("bean-bush", "A1 B1", day(6, 10), plants=18),
        [line(Verb.SOW, day(6, 9), "A1 B1"), line(Verb.THIN, day(6, 23), "A1", leaving=7)],
    )
    month = month_of(6, LETTUCE_HOLDS, hold("BB1", "A1 B1", day(6, 9), TODAY), plantings=[LETTUCE, bean])
    assert [told(change) for change in month.changes] == [
        (9, "cleared", "LE1", "A1 B1", "seen"),
        (9, "sown", "BB1", "A1 B1", "seen"),
        (23, "thinned", "BB1", "A1", "seen"),
    ]
    assert month.changes[2].plants == 7


def test_a_sowing_after_it_implies_that_a_crop_was_cleared() -> None:
    bean = planting("BB1", "bean-bush", None, [line(Verb.SOW, day(6, 5), "A1")])
    gone = planting("RA1", "radish", plan_row("radish", "A1", day(4, 1), day(6, 20)))
    month = month_of(
        6,
        hold("RA1", "A1", day(4, 1), day(6, 4), SUPPOSED),
        hold("BB1", "A1", day(6, 5), TODAY, SEEN),
        plantings=[bean, gone],
    )
    assert told(month.changes[0]) == (5, "cleared", "RA1", "A1", "implied")


def test_changes_of_the_plan_are_supposed_in_the_past_and_planned_to_come() -> None:
    one = planting("RA1", "radish", plan_row("radish", "A1", day(4, 1), day(5, 31)))
    two = planting("RA2", "radish", plan_row("radish", "A1", day(8, 1), day(9, 30), Start.SET_OUT))
    holds = [
        hold("RA1", "A1", day(4, 1), day(5, 30), SUPPOSED),
        hold("RA2", "A1", day(8, 1), day(9, 29), PLANNED),
    ]
    found = [
        told(change)
        for number in range(4, 11)
        for change in month_of(number, *holds, plantings=[one, two]).changes
    ]
    assert found == [
        (1, "sown", "RA1", "A1", "supposed"),
        (31, "cleared", "RA1", "A1", "supposed"),
        (1, "set out", "RA2", "A1", "planned"),
        (30, "cleared", "RA2", "A1", "planned"),
    ]


def test_losses_tell_how_many_and_why() -> None:
    one = planting(
        "LE1",
        "lettuce",
        None,
        [
            line(Verb.SET_OUT, day(5, 2), "A1 B1", plants=8),
            line(Verb.LOST, day(5, 12), "A1", plants=2, because="slugs"),
            line(Verb.FAILED, day(5, 20), "B1", because="frost"),
            line(Verb.RESOW, day(5, 24), "B1"),
        ],
    )
    month = month_of(
        5,
        hold("LE1", "A1", day(5, 2), TODAY),
        hold("LE1", "B1", day(5, 2), day(5, 19)),
        hold("LE1", "B1", day(5, 24), TODAY),
        plantings=[one],
    )
    assert [told(change) for change in month.changes] == [
        (2, "set out", "LE1", "A1 B1", "seen"),
        (12, "lost in part", "LE1", "A1", "seen"),
        (20, "failed", "LE1", "B1", "seen"),
        (24, "resown", "LE1", "B1", "seen"),
    ]
    assert [(change.plants, change.why) for change in month.changes[1:3]] == [(2, "slugs"), (None, "frost")]


def test_nothing_is_said_to_leave_after_the_last_day_known() -> None:
    gift = planting("broccoli", "lettuce", None, [line(Verb.SET_OUT, day(7, 1), "A1", plants=2)])
    month = month_of(7, hold("broccoli", "A1", day(7, 1), TODAY), plantings=[gift])
    assert holder_of(month, "broccoli", "A1").ends is None
    assert [change.what for change in month.changes] == ["set out"]


def test_a_crop_met_without_a_beginning_is_first_recorded() -> None:
    mint = planting("mint", "lettuce", None, [line(Verb.PRUNE, day(5, 9), "A1")])
    month = month_of(5, hold("mint", "A1", day(5, 9), TODAY), plantings=[mint])
    assert [told(change) for change in month.changes] == [(9, "first recorded", "mint", "A1", "seen")]


def test_a_move_is_told_where_it_left() -> None:
    move = line(Verb.MOVE, day(5, 9), "A1", to=squares("C1"))
    one = planting("LE1", "lettuce", None, [line(Verb.SET_OUT, day(4, 1), "A1", plants=4), move])
    month = month_of(
        5, hold("LE1", "A1", day(4, 1), day(5, 8)), hold("LE1", "C1", day(5, 9), TODAY), plantings=[one]
    )
    assert [told(change) for change in month.changes] == [(9, "moved", "LE1", "A1", "seen")]
    assert [change.to for change in month.changes] == [squares("C1")]
    assert Counter(spot.square for spot in drawn_of(month, "LE1").spots) == dict.fromkeys(squares("C1"), 4)


@pytest.mark.parametrize("told_from", ["A1", ""], ids=["its squares told", "by its tag alone"])
def test_a_move_to_another_bed_is_told_there_too(told_from: str) -> None:
    move = line(Verb.MOVE, day(5, 9), told_from, tag="LE1", to=squares("elbow/B2"), plants=2)
    one = planting("LE1", "lettuce", None, [line(Verb.SET_OUT, day(4, 1), "A1", plants=4), move])
    found = holding(
        TODAY, [one], hold("LE1", "A1", day(4, 1), TODAY), hold("LE1", "elbow/B2", day(5, 9), TODAY)
    )
    left, came = (month_in(found, bed, Month(2026, 5)).changes for bed in BEDS)
    assert [(*told(change)[:4], change.plants) for change in left] == [(9, "moved in part", "LE1", "A1", 2)]
    assert [(*told(change)[:4], change.plants) for change in came] == [(9, "moved here", "LE1", "B2", 2)]


# --- With who holds what as it is really reckoned ----------------------------------------------------

CROPS = ("bean-bush", "carrot", "lettuce", "radish", "squash")
rows = st.builds(
    lambda crop, where, first, length, plants: plan_row(
        crop,
        where,
        date.fromordinal(day(3, 1).toordinal() + first),
        date.fromordinal(min(day(3, 1).toordinal() + first + length, day(12, 1).toordinal())),
        plants=plants,
    ),
    st.sampled_from(CROPS),
    st.sampled_from(["A1", "A1 B1", "A1 B1 A2 B2", "B2 elbow/A1"]),
    st.integers(0, 240),
    st.integers(1, 90),
    st.none() | st.integers(1, 20),
)
done = st.builds(
    lambda verb, crop, where, on: line(
        verb, date.fromordinal(day(3, 1).toordinal() + on), where, crop=name(crop)
    ),
    st.sampled_from([Verb.SOW, Verb.SET_OUT, Verb.UP, Verb.CLEAR, Verb.LOST, Verb.FAILED, Verb.RESOW]),
    st.sampled_from(CROPS),
    st.sampled_from(["A1", "B1", "A1 B1"]),
    st.integers(0, 270),
)


@settings(max_examples=tries(60))
@given(st.lists(rows, max_size=4), st.lists(done, max_size=5), st.integers(0, 274))
def test_laws_of_a_season(plan: list[PlanRow], log: list[Event], today: int) -> None:
    entries = tuple(
        Entry(slug=str(number), day=event.day, title="", done=(event,)) for number, event in enumerate(log)
    )
    one = Season(name="2026", span=SPAN, plan=tuple(plan), log=entries)
    found = held(one, date.fromordinal(SPAN.first.toordinal() + today))
    months = [month_in(found, bed, month) for bed in BEDS for month in SPAN.months]
    for month in months:
        _check_month(found, month)
    by_square = Counter(
        (holder.square, number)
        for month in months
        for holder in month.holders
        for number in range(holder.first.toordinal(), holder.last.toordinal() + 1)
    )
    days_held = Counter(
        (each.square, number)
        for each in found.holds
        for number in range(each.first.toordinal(), each.last.toordinal() + 1)
    )
    assert by_square == days_held, "the months tell neither more nor less than who holds what"


def _check_month(found: Holding, month: BedMonth) -> None:
    every = {each.planting for each in (*month.holders, *month.ended)}
    assert every == {each.planting for each in month.drawn}
    for ended in month.ended:
        assert ended.last < month.first <= found.today, "an end of this month, or told of days to come"
        assert not found.between(ended.square, ended.last + ONE_DAY, month.as_of), "something came after it"
    order = [(each.square.row, each.square.column, each.first) for each in month.holders]
    assert order == sorted(order)
    for holder in month.holders:
        assert month.first <= holder.first <= holder.last <= month.last
        assert holder.starts is None or holder.starts == holder.first
        assert holder.ends is None or holder.last < holder.ends <= month.last
    for earlier, later in pairwise(month.changes):
        assert earlier.day <= later.day
    for drawn in month.drawn:
        there = {
            each.square
            for each in found.holds
            if each.planting == drawn.planting and each.first <= month.as_of
        }
        if drawn.standing:
            assert set(drawn.squares) <= there
        else:
            assert drawn.spots == ()
        assert {spot.square for spot in drawn.spots} <= set(drawn.squares)
    for change in month.changes:
        assert month.first <= change.day <= month.last
        assert change.squares
        assert all(month.bed.has(square) for square in change.squares)
