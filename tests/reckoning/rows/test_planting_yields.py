"""What a planting gave for its ground: whether it has ended, was lost, or goes on in a later season."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import pytest

from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.plan import PlanRow
from tallybed.garden.units import OUNCE, Weight
from tallybed.reckoning.calendar.history import PlantingHistory
from tallybed.reckoning.harvest.tally import TallyLine
from tallybed.reckoning.rows.planting_yields import (
    PlantingYield,
    is_lost,
    losses,
    planting_yields,
)
from tallybed.reckoning.squares.grades import Hold
from tests.reckoning.byhand import GARDEN, LED_OUT, day, hold, line, name, plan_row, planting, season

BEGAN, GONE = day(4, 10), day(9, 1)
ROW = plan_row("carrot", "A1 B1", BEGAN, GONE)


def lost(on: date, where: str = "", **other: object) -> Event:
    return line(Verb.LOST, on, where, **other)


LOST = {
    "all at once, without squares": ([lost(day(5, 1))], True),
    "all its squares": ([line(Verb.FAILED, day(5, 1), "A1 B1")], True),
    "one square after the other": ([lost(day(5, 1), "A1"), lost(day(5, 9), "B1")], True),
    "one square": ([lost(day(5, 1), "A1")], False),
    "some plants": ([lost(day(5, 1), plants=3)], False),
    "sown again later": ([lost(day(5, 1)), line(Verb.RESOW, day(5, 2))], False),
    "sown again that day": ([lost(day(5, 1)), line(Verb.RESOW, day(5, 1))], False),
    "sown before": ([line(Verb.SOW, day(4, 10)), lost(day(5, 1))], True),
    "one square sown again": ([lost(day(5, 1)), line(Verb.RESOW, day(5, 2), "A1")], False),
    "sown again, and lost again": (
        [lost(day(5, 1)), line(Verb.RESOW, day(5, 2), "A1"), lost(day(6, 1), "A1")],
        True,
    ),
    "one lost and sown again, and then the other lost": (
        [lost(day(5, 1), "A1"), line(Verb.RESOW, day(5, 2), "A1"), lost(day(6, 1), "B1")],
        False,
    ),
    "cleared for a cause": ([line(Verb.CLEAR, day(5, 1), because="blight")], True),
    "cleared in its time": ([line(Verb.CLEAR, day(5, 1))], False),
}


@pytest.mark.parametrize("case", LOST)
def test_whether_a_planting_was_lost_as_a_whole(case: str) -> None:
    """Losses count with nothing given; else the verdict on a crop would be of its survivors alone."""
    events, told = LOST[case]
    assert is_lost(planting("CA1", "carrot", ROW, events)) is told
    assert not is_lost(planting("CA1", "carrot")), "nor is one of which nobody knows where it stood"


def test_losses_are_told_by_day_whole_or_in_part() -> None:
    tended = [line(Verb.SOW, day(4, 10)), line(Verb.WEED, day(5, 10)), line(Verb.CLEAR, day(5, 20), "A1")]
    one = planting("CA1", "carrot", ROW, [*tended, lost(day(6, 1), plants=3), line(Verb.CLEAR, day(8, 1))])
    other = planting("CA2", "carrot", ROW, [line(Verb.CLEAR, day(5, 1), because="blight"), lost(day(6, 2))])
    found = losses([one, other], day(6, 1))
    assert [(each.planting.key, each.day, each.plants) for each in found] == [
        ("CA2", day(5, 1), None),
        ("CA1", day(6, 1), 3),
    ]


def picked(key: str, *, counts: bool = True, weighed: bool = True) -> TallyLine:
    return TallyLine(
        weighing=0,
        season="2026",
        day=day(7, 1),
        crop="carrot",
        planting=key,
        weight=Weight.of(16, OUNCE) if weighed else Weight(),
        weighed=weighed,
        counts=counts,
    )


def given(
    *lines: TallyLine,
    began: date | None = BEGAN,
    gone: date | None = GONE,
    crop: str = "carrot",
    over: bool = False,
    carried: str = "",
    row: Weighing | None = None,
    planned: PlanRow = ROW,
    holds: Sequence[Hold] = (),
) -> PlantingYield | None:
    """What one planting of two squares gave."""
    history = PlantingHistory(
        planting=planting("CA1", crop, replace(planned, crop=crop)),
        milestones=(),
        durations=(),
        holds=tuple(holds or hold("CA1", "A1 B1", began or day(10, 1), day(10, 1))),
        began=began,
        gone=gone,
    )
    found = planting_yields(
        GARDEN,
        replace(season(), ledger=(row or Weighing(day=day(7, 1), crops=(name(crop),)),)),
        [history],
        lines,
        over=over,
        carried_on=frozenset({carried}),
        today=day(9, 20),
    )
    return found[0] if found else None


def test_only_what_stood_and_is_of_one_crop_is_there() -> None:
    assert given() is not None
    assert given(began=None) is None
    assert given(crop="beans") is None
    bare = planting_yields(GARDEN, season(), [], [], over=True, carried_on=frozenset(), today=day(9, 20))
    assert bare == ()


def test_its_weight_is_what_counts_of_its_own() -> None:
    found = given(picked("CA1"), picked("CA1", counts=False), picked("CA2"))
    assert found is not None
    assert (found.weight, found.at_least, found.ground.squares) == (Weight.of(16, OUNCE), False, 2)
    open_ended = given(picked("CA1"), picked("CA1", weighed=False))
    assert open_ended is not None
    assert open_ended.at_least


def test_its_ground_is_what_it_held_by_today_and_what_its_vines_run_out_over() -> None:
    coming = hold("CA1", "C1", day(9, 21), day(10, 1))
    for more, squares in ((hold("CA1", "C1", day(9, 20), day(10, 1)), 3), (coming, 2)):
        found = given(holds=[*hold("CA1", "A1 B1", BEGAN, day(10, 1)), *more])
        assert found is not None
        assert found.ground.squares == squares
    assert given(holds=coming) is None
    # Five feet out through one square of a foot.
    out = given(planned=replace(ROW, led_out=LED_OUT))
    assert out is not None
    assert (out.ground.squares, out.ground.run_out) == (2, 5)


@pytest.mark.parametrize(
    ("weight", "at_least", "ended", "lost", "unknown"),
    [
        (1, True, True, False, False),
        (0, False, True, False, True),
        # Lost with nothing picked, or still to be picked: nothing, and that is known.
        (0, False, True, True, False),
        (0, False, False, False, False),
        # Picked from and never weighed: it gave something, and nobody knows what.
        (0, True, True, True, True),
        (0, True, False, False, True),
    ],
)
def test_what_a_planting_gave_is_unknown_where_nobody_weighed_it(
    weight: int, at_least: bool, ended: bool, lost: bool, unknown: bool
) -> None:
    found = given()
    assert found is not None
    one = replace(found, weight=Weight.of(weight, OUNCE), at_least=at_least, ended=ended, lost=lost)
    assert one.unknown is unknown
    assert one.counts is (ended and not unknown)


@pytest.mark.parametrize(
    ("gone", "over", "carried", "ended"),
    [
        (day(9, 1), False, "", True),
        (None, False, "", False),
        (None, True, "", True),
        (None, True, "CA1", False),
        (day(9, 1), True, "CA1", True),
    ],
)
def test_when_a_planting_has_ended(gone: date | None, over: bool, carried: str, ended: bool) -> None:
    found = given(picked("CA1"), gone=gone, over=over, carried=carried)
    assert found is not None
    assert found.ended is ended


@pytest.mark.parametrize(
    ("crop", "on", "gone", "told"),
    [
        ("carrot", day(4, 9), day(9, 1), False),
        ("carrot", day(4, 10), day(9, 1), True),
        ("carrot", day(9, 1), day(9, 1), True),
        ("carrot", day(9, 2), day(9, 1), False),
        ("carrot", day(9, 2), None, True),
        ("radish", day(7, 1), day(9, 1), False),
        ("radish carrot", day(7, 1), day(9, 1), True),  # a bowl
    ],
)
def test_a_picking_of_no_told_planting_may_be_of_it_while_it_stood(
    crop: str, on: date, gone: date | None, told: bool
) -> None:
    crops = tuple(map(name, crop.split()))
    row = Weighing(day=on, crops=crops, mixed=len(crops) > 1, weight=Weight.of(16, OUNCE))
    found = given(replace(picked(""), day=on), gone=gone, row=row)
    assert found is not None
    assert found.at_least is told
