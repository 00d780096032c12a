"""The history of a planting: its milestones in order, and how long each part took beside what is printed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings

from tallybed.garden.crops import Crop, Figure, Variety
from tallybed.garden.days import Span
from tallybed.garden.garden import Garden, Season
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Bed, Square
from tallybed.reckoning.calendar.bed_season import bed_seasons
from tallybed.reckoning.calendar.history import PlantingHistory, histories
from tallybed.reckoning.calendar.milestones import Milestone
from tallybed.reckoning.squares.occupancy import Grade, Holding, hold
from tests.laws import tries
from tests.reckoning.byhand import CROPS, a_crop
from tests.reckoning.growing import SPAN, day, line, pick, plan_row, season
from tests.reckoning.squares.test_occupancy_laws import seasons, todays

BED = Bed(name="b", title="The bed", columns=4, rows=3)
TODAY = day("Jul 1")


def figure(fact: str, days: int) -> Figure:
    return Figure(fact=fact, low=Fraction(days), high=Fraction(days), unit="days", source="a leaflet")


DAYS = {
    "carrot": (figure("days from sowing", 70), figure("usable days after first harvest", 21)),
    "tomato": (figure("days from sowing", 120), figure("days from setting out", 75)),
}


def garden(*crops: Crop) -> Garden:
    known = [replace(crop, chosen=DAYS.get(crop.slug, ())) for crop in (*CROPS, *crops)]
    return Garden(name="g", beds=(BED,), crops=tuple(sorted(known, key=lambda crop: crop.slug)))


def history(
    plan: list[PlanRow] | None,
    log: list[Event],
    ledger: list[Weighing] | None = None,
    *,
    today: date = TODAY,
    of: Garden | None = None,
) -> PlantingHistory:
    """Return the history of the one planting that these records tell of."""
    (found,) = every_history(of or garden(), hold(season(plan, log, ledger), today)).values()
    return found


def every_history(of: Garden, holding: Holding) -> Mapping[str, PlantingHistory]:
    return histories(of, holding, bed_seasons(of, holding))


def told(milestones: tuple[Milestone, ...]) -> list[str]:
    return [
        " ".join(
            filter(
                None,
                (
                    f"{milestone.day.day}.{milestone.day.month}",
                    milestone.what,
                    " ".join(square.label for square in milestone.squares),
                    milestone.grade.word,
                    f"({milestone.plants})" if milestone.plants is not None else "",
                    milestone.why,
                ),
            )
        )
        for milestone in milestones
    ]


def durations(found: PlantingHistory) -> dict[str, tuple[int, str, bool]]:
    return {one.of: (one.days, one.grade.word, one.ended) for one in found.durations}


CARROTS = [
    line("Apr 10", "sow", "carrot", "A1 B1", tag="CA1"),
    line("Apr 24", "up", "carrot", "A1 B1", tag="CA1"),
    line("May 3", "thin", "carrot", "A1 B1", tag="CA1", leaving=32),
    line("Jun 28", "clear", "carrot", "A1 B1", tag="CA1"),
]


def test_a_history_is_told_from_sowing_to_clearing() -> None:
    picks = [pick("Jun 19", tag="CA1"), pick("Jun 24", tag="CA1"), pick("Jun 28", tag="CA1")]
    found = history(None, CARROTS, picks)
    assert told(found.milestones) == [
        "10.4 sown A1 B1 seen",
        "24.4 came up A1 B1 seen",
        "3.5 thinned A1 B1 seen (32)",
        "19.6 first picked seen",
        "28.6 last picked seen",
        "28.6 cleared A1 B1 seen",
    ]
    assert (found.began, found.gone) == (day("Apr 10"), day("Jun 28"))
    # Counted on a calendar: 10 April to 19 June is 20 + 31 + 19 days.
    assert durations(found) == {
        "from sowing to the first shoots": (14, "seen", True),
        "from sowing to the first picking": (70, "seen", True),
        "from the first picking to the last": (9, "seen", True),
        "in the bed": (79, "seen", True),
    }


def test_what_one_line_did_in_two_beds_is_told_once() -> None:
    """Fails where twenty plants in two beds are told as twenty in each of them."""
    other = Bed(name="o", title="The other", columns=2, rows=1)
    sown = line("Apr 10", "sow", "carrot", "A1", tag="CA1", plants=20)
    sown = replace(sown, squares=(*sown.squares, Square("o", 1, 0)))
    both = replace(garden(), beds=(BED, other))
    found = history(None, [sown], of=both)
    assert told(found.milestones) == ["10.4 sown A1 B1 seen (20)"]


def test_a_move_to_another_bed_is_told_once_with_where_it_went() -> None:
    other = Bed(name="o", title="The other", columns=2, rows=1)
    gone_to = (Square("o", 1, 0),)
    moved = replace(line("May 10", "move", "carrot", "A1", tag="CA1"), to=gone_to)
    found = history(
        None,
        [line("Apr 10", "sow", "carrot", "A1", tag="CA1"), moved],
        of=replace(garden(), beds=(BED, other)),
    )
    assert [(one.what, one.to) for one in found.milestones] == [("sown", ()), ("moved", gone_to)]


def test_days_are_set_beside_the_figure_of_the_same_stretch() -> None:
    found = history(None, CARROTS, [pick("Jun 19", tag="CA1"), pick("Jun 28", tag="CA1")])
    used = {one.of: one.figure.fact for one in found.durations if one.figure}
    assert used == {
        "from sowing to the first picking": "days from sowing",
        "from the first picking to the last": "usable days after first harvest",
    }


@pytest.mark.parametrize(("days_from", "expected"), [("sowing", 68), ("setting out", None)])
def test_the_days_of_a_variety_count_from_where_its_crop_counts(days_from: str, expected: int | None) -> None:
    beet = a_crop("beet", 3, "Bt", days_from=days_from, varieties=(Variety(name="Inkwell", days=68),))
    sown = [line("Apr 10", "sow", "beet", "A1", tag="BE1", variety="Inkwell")]
    found = history(None, sown, [pick("Jun 10", tag="BE1")], of=garden(beet))
    (one,) = (one for one in found.durations if one.of == "from sowing to the first picking")
    assert one.variety == expected


def test_a_crop_sown_again_is_counted_from_the_sowing_that_came_up() -> None:
    log = [
        line("Apr 11", "sow", "carrot", "A1", tag="CA1"),
        line("May 2", "failed", "carrot", "A1", tag="CA1"),
        line("May 5", "resow", "carrot", "A1", tag="CA1"),
        line("May 12", "up", "carrot", "A1", tag="CA1"),
    ]
    found = history(None, log, [pick("Jun 30", tag="CA1")])
    assert durations(found)["from sowing to the first shoots"][0] == 7
    assert durations(found)["from sowing to the first picking"][0] == 56, "5 May to 30 June"
    assert durations(found)["in the bed"][0] == 78, "it had its square from 11 April, but for three days"
    assert found.away == (Span(first=day("May 2"), last=day("May 4")),)


def test_what_stood_on_in_one_square_was_never_away() -> None:
    log = [
        line("Apr 11", "sow", "carrot", "A1 B1", tag="CA1"),
        line("May 2", "failed", "carrot", "A1", tag="CA1"),
        line("May 5", "resow", "carrot", "A1", tag="CA1"),
    ]
    found = history(None, log)
    assert found.away == ()
    assert durations(found)["in the bed"][0] == 81


RESOWN_IN_PART = [
    line("Apr 11", "sow", "carrot", "A1 B1", tag="CA1"),
    line("May 5", "failed", "carrot", "A1", tag="CA1"),
    line("May 5", "resow", "carrot", "A1", tag="CA1"),
]


@pytest.mark.parametrize(("squares", "days"), [("B1", 80), ("A1", 56), ("A1 B1", 56), ("", 56)])
def test_a_picking_is_counted_from_the_sowing_of_its_own_squares(squares: str, days: int) -> None:
    # 11 April to 30 June are 80 days, 5 May to 30 June are 56
    found = history(None, RESOWN_IN_PART, [pick("Jun 30", where=squares, tag="CA1")])
    assert durations(found)["from sowing to the first picking"][0] == days


def test_what_is_sown_again_on_the_day_of_its_loss_was_lost_before() -> None:
    lost = [replace(one, verb=Verb.LOST) if one.verb is Verb.FAILED else one for one in RESOWN_IN_PART]
    for log in (RESOWN_IN_PART, lost):
        assert [one.what for one in history(None, log).milestones][-1] == "resown"


def test_plants_set_out_are_counted_from_both_beginnings() -> None:
    log = [
        line("Mar 20", "sow indoors", "tomato", tag="TO1"),
        line("Apr 10", "pot up", "tomato", tag="TO1", plants=3),
        line("May 12", "set out", "tomato", "A1", tag="TO1", plants=1),
    ]
    found = history(None, log, [pick("Jun 30", tag="TO1")])
    assert told(found.milestones)[:3] == [
        "20.3 sown indoors seen",
        "10.4 potted up seen (3)",
        "12.5 set out A1 seen (1)",
    ]
    assert durations(found) == {
        "from sowing indoors to setting out": (53, "seen", True),
        "from sowing indoors to the first picking": (102, "seen", True),
        "from setting out to the first picking": (49, "seen", True),
        "in the bed": (50, "seen", False),
    }
    used = [one.figure.fact for one in found.durations if one.figure]
    assert used == ["days from sowing", "days from setting out"]


def test_plants_set_out_for_those_that_were_lost_are_counted_from_their_own_day() -> None:
    log = [
        line("May 6", "set out", "tomato", "A1", tag="TO1", plants=1),
        line("May 10", "lost", "tomato", "A1", tag="TO1"),
        line("May 17", "set out", "tomato", "A1", tag="TO1", plants=1),
    ]
    found = history(None, log, [pick("Jun 30", tag="TO1")])
    assert durations(found)["from setting out to the first picking"][0] == 44, "17 May to 30 June"
    more = [log[0], line("May 17", "set out", "tomato", "B1", tag="TO1", plants=1)]
    found = history(None, more, [pick("Jun 30", tag="TO1")])
    assert durations(found)["from setting out to the first picking"][0] == 55, "the first still stood"


def test_what_only_the_plan_tells_is_supposed_until_today_and_planned_after() -> None:
    plan = [
        plan_row(
            "tomato",
            "A1",
            "May 12",
            "Sep 1",
            tag="TO1",
            start=Start.SET_OUT,
            indoors="Mar 20",
            pot_up="Apr 9",
        )
    ]
    found = history(plan, [], today=day("Apr 1"))
    assert told(found.milestones) == [
        "20.3 sown indoors supposed",
        "9.4 potted up planned",
        "12.5 set out A1 planned",
        "1.9 cleared A1 planned",
    ]
    assert (found.began, found.gone, found.durations) == (None, None, ())


def test_days_run_on_while_nothing_is_picked_and_nothing_is_cleared() -> None:
    found = history(None, CARROTS[:2], today=day("May 1"))
    assert durations(found) == {
        "from sowing to the first shoots": (14, "seen", True),
        "from sowing to the first picking": (21, "seen", False),
        "in the bed": (21, "seen", False),
    }


def test_days_run_on_to_the_last_day_of_the_season_and_no_further() -> None:
    found = history(
        None, [line("Apr 10", "sow", "carrot", "A1", tag="CA1")], today=SPAN.last + timedelta(days=9)
    )
    assert durations(found)["in the bed"][0] == (SPAN.last - day("Apr 10")).days


def test_a_planting_that_gave_nothing_has_no_days_to_its_picking() -> None:
    log = [CARROTS[0], line("May 2", "failed", "carrot", "A1 B1", tag="CA1")]
    found = history(None, log)
    assert set(durations(found)) == {"in the bed"}
    assert found.gone == day("May 2")


def test_it_is_gone_when_its_last_square_is_free() -> None:
    log = [CARROTS[0], line("Jun 1", "clear", "carrot", "A1", tag="CA1")]
    half = history(None, log)
    assert (half.gone, durations(half)["in the bed"]) == (None, (82, "seen", False))
    whole = history(None, [*log, line("Jun 20", "clear", "carrot", "B1", tag="CA1")])
    assert (whole.gone, durations(whole)["in the bed"]) == (day("Jun 20"), (71, "seen", True))


def test_an_end_that_nobody_wrote_down_is_supposed() -> None:
    plan = [plan_row("carrot", "A1", "Apr 10", "Jun 20", tag="CA1")]
    found = history(plan, [line("Apr 10", "sow", "carrot", "A1", tag="CA1")])
    assert told(found.milestones)[-1] == "20.6 cleared A1 supposed"
    assert durations(found)["in the bed"] == (71, "supposed", True)


def test_a_dropped_planting_has_no_seedlings_to_come() -> None:
    plan = [
        plan_row("tomato", "A1", "May 12", tag="TO1", start=Start.SET_OUT, indoors="Mar 20", dropped="Mar 10")
    ]
    assert history(plan, []).milestones == ()


def test_what_stood_there_before_the_season_has_no_days_in_the_bed() -> None:
    plan = [replace(plan_row("carrot", "A1", "Mar 1", "Jun 20", tag="CA1"), start=Start.CARRIED)]
    found = history(plan, [line("Jun 20", "clear", "carrot", "A1", tag="CA1")])
    assert (found.began, found.gone) == (SPAN.first, day("Jun 20"))
    assert found.durations == ()


def test_seed_sown_indoors_after_the_planned_setting_out_was_not_set_out_then() -> None:
    plan = [plan_row("tomato", "A1", "May 10", tag="TO1", start=Start.SET_OUT)]
    log = [line("May 20", "sow indoors", "tomato", tag="TO1")]
    assert [one.of for one in history(plan, log).durations if "indoors" in one.of] == []


def test_shoots_of_what_nobody_saw_sown_have_no_days_from_a_sowing() -> None:
    found = history(None, [line("Apr 20", "up", "carrot", "A1")])
    assert [one.of for one in found.durations] == []


def test_the_last_plant_lost_from_one_square_is_not_lost_in_part() -> None:
    log = [
        line("Apr 10", "sow", "carrot", "A1", plants=2),
        line("Apr 10", "sow", "carrot", "B1", plants=2),
        line("May 1", "lost", "carrot", "A1", plants=2),
        line("May 5", "lost", "carrot", "B1", plants=1),
    ]
    found = history([plan_row("carrot", "A1 B1", "Apr 10", "Jun 20")], log, today=day("Jun 1"))
    told = [(one.day, one.what) for one in found.milestones if "lost" in one.what]
    assert told == [(day("May 1"), "lost"), (day("May 5"), "lost in part")]


def test_a_crop_nobody_can_name_still_has_a_history() -> None:
    found = history(None, [line("Apr 10", "sow", "beans", "A1")], [pick("Jun 20", "beans", "A1")])
    assert [milestone.what for milestone in found.milestones] == ["sown", "first picked"]
    assert all(one.figure is None for one in found.durations)


@settings(max_examples=tries(40))
@given(seasons(), todays)
def test_laws_of_every_history(records: Season, today: date) -> None:
    found = hold(records, today)
    every = every_history(garden(), found)
    assert list(every) == [planting.key for planting in found.plantings], "every planting has a history"
    for one in every.values():
        days = [milestone.day for milestone in one.milestones]
        assert days == sorted(days), "in order of time"
        for duration in one.durations:
            assert duration.days >= 0, f"{duration.of} runs backwards"
            assert duration.grade is not Grade.PLANNED, "days that are past"
        assert one.began is None or one.began <= today
        assert one.gone is None or one.gone <= today
        assert not (one.gone and one.began) or one.began <= one.gone


def test_the_order_of_records_never_matters() -> None:
    picks = [pick("Jun 19", tag="CA1"), pick("Jun 28", tag="CA1")]
    told_so: dict[str, Any] = {"milestones": history(None, CARROTS, picks).milestones}
    assert history(None, CARROTS[::-1], picks[::-1]).milestones == told_so["milestones"]


def test_a_picking_after_it_was_cleared_is_not_said_to_be_perhaps_of_it() -> None:
    log = [line("Apr 10", "sow", "carrot", "A1"), line("Jun 20", "clear", "carrot", "A1")]
    holding = hold(season([], log), TODAY)
    untold = [pick(day, "carrot") for day in ("Apr 2", "Jun 12", "Jun 20", "Jun 28")]
    (found,) = histories(garden(), holding, bed_seasons(garden(), holding), untold).values()
    assert [one.day for one in found.maybe] == [day("Jun 12"), day("Jun 20")]
