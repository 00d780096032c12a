"""Laws of holding that no set of records may break, however odd."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction
from random import Random
from typing import TypeVar

from hypothesis import given, settings
from hypothesis import strategies as st

from tallybed.garden.days import ONE_DAY
from tallybed.garden.garden import Season
from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.plantings import plantings, plantings_picked
from tallybed.reckoning.squares.occupancy import Grade, Hold, Holding, hold
from tallybed.reckoning.squares.shares import shares
from tallybed.reckoning.squares.stays import stays
from tests.laws import tries
from tests.reckoning.growing import MEANINGS, SPAN, crop, days_between, entries

T = TypeVar("T")
CROPS = ("radish", "carrot", "bean-bush", "bean-pole")
TAGS = ("", "", "T1", "T2", "T3")
SQUARES = tuple(Square("b", column, row) for row in range(2) for column in range(2))
FIRST = SPAN.first


def days(most: int = 120) -> st.SearchStrategy[date]:
    return st.integers(0, most).map(lambda number: FIRST + timedelta(days=number))


def some_squares(least: int = 0) -> st.SearchStrategy[tuple[Square, ...]]:
    return st.lists(st.sampled_from(SQUARES), min_size=least, max_size=3, unique=True).map(tuple)


# Each strategy is made once: to make and check one anew for every value took most of the time.
names = st.sampled_from(tuple(crop(name) for name in (*CROPS, "beans")))
shares_told = st.sampled_from((None, None, None, Fraction(1, 3), Fraction(3, 4)))
among = st.sampled_from(("", "", "", *CROPS, "T1", "T2"))
tags = st.sampled_from(TAGS)
crops = st.sampled_from(CROPS)
starts = st.sampled_from(Start)
verbs = st.sampled_from(Verb)
any_squares, one_square_or_more = some_squares(), some_squares(1)
at_some_time, early, later = days(), days(100), days(150)
perhaps_later = st.none() | later
perhaps_plants = st.none() | st.integers(1, 6)
perhaps_leaving = st.none() | st.integers(0, 6)
perhaps_named = st.none() | names
names_in_a_bowl = st.lists(names, max_size=2, unique=True)
days_it_stands = st.integers(1, 90)
how_many_rows = st.integers(0, 5)
whether_tagged = st.booleans()


@st.composite
def plans(draw: st.DrawFn) -> tuple[PlanRow, ...]:
    found = []
    for number in range(draw(how_many_rows)):
        begins = draw(early)
        until = begins + timedelta(days=draw(days_it_stands))
        dropped = draw(perhaps_later)
        found.append(
            PlanRow(
                crop=draw(crops),
                squares=draw(one_square_or_more),
                start=draw(starts),
                begins=begins,
                until=until,
                tag=f"T{number + 1}" if draw(whether_tagged) else "",
                plants=draw(perhaps_plants),
                among=draw(among),
                share=draw(shares_told),
                dropped=dropped if dropped and dropped < until else None,
            )
        )
    return tuple(found)


@st.composite
def events(draw: st.DrawFn) -> Event:
    verb = draw(verbs)
    return Event(
        verb=verb,
        day=draw(at_some_time),
        subject="something",
        crop=draw(perhaps_named),
        squares=draw(any_squares),
        tag=draw(tags),
        plants=draw(perhaps_plants),
        leaving=draw(perhaps_leaving) if verb is Verb.THIN else None,
        to=draw(one_square_or_more) if verb is Verb.MOVE else (),
        among=draw(among),
        share=draw(shares_told),
    )


@st.composite
def weighings(draw: st.DrawFn) -> Weighing:
    crops: tuple[CropName, ...] = tuple(draw(names_in_a_bowl))
    return Weighing(
        day=draw(at_some_time),
        crops=crops,
        mixed=len(crops) > 1,
        tag=draw(tags),
        squares=draw(any_squares),
        weighed=draw(perhaps_later),
    )


logs = st.none() | st.lists(events(), max_size=9).map(entries)
perhaps_plans = st.none() | plans()
ledgers = st.none() | st.lists(weighings(), max_size=5).map(tuple)
general = st.sampled_from(((), (("beans", "bean-bush"),)))


@st.composite
def seasons(draw: st.DrawFn) -> Season:
    return Season(
        name="2026",
        span=SPAN,
        log=draw(logs),
        plan=draw(perhaps_plans),
        ledger=draw(ledgers),
        general=draw(general),
    )


todays = days(150)
thorough = settings(max_examples=tries(60))


def each_day(holds: Iterable[Hold]) -> Iterable[tuple[Square, date, Hold]]:
    for one in holds:
        for when in days_between(one.first, one.last):
            yield one.square, when, one


def lines_of(season: Season) -> tuple[Event, ...]:
    return tuple(event for entry in season.log or () for event in entry.done)


def named(lines: Iterable[Event], found: Holding, key: str, square: Square, when: date) -> bool:
    """Return whether a line of that day names the square and the planting's crop or tag."""
    planting = found.planting(key)
    return any(
        line.day == when
        and square in (*line.squares, *line.to)
        and (
            (line.tag and line.tag == planting.tag)
            or (line.crop is not None and set(line.crop.slugs) & set(planting.crop.slugs))
        )
        for line in lines
    )


def mixed(records: tuple[T, ...], chance: Random) -> tuple[T, ...]:
    """Return the records in an order of chance (hypothesis's own, so that a failure can be repeated)."""
    return tuple(chance.sample(records, len(records)))


@thorough
@given(seasons(), todays, st.randoms(use_true_random=False))
def test_the_order_of_records_never_matters(season: Season, today: date, chance: Random) -> None:
    log = season.log
    if log is not None:
        log = mixed(tuple(replace(one, done=mixed(one.done, chance)) for one in log), chance)
    plan = None if season.plan is None else mixed(season.plan, chance)
    ledger = None if season.ledger is None else mixed(season.ledger, chance)
    other = replace(season, plan=plan, log=log, ledger=ledger)
    assert hold(other, today) == hold(season, today)


@thorough
@given(seasons(), todays)
def test_no_planting_holds_a_square_twice_on_one_day(season: Season, today: date) -> None:
    found = hold(season, today)
    for holds in (found.holds, found.by_plan):
        twice = Counter((square, when, one.planting) for square, when, one in each_day(holds))
        assert max(twice.values(), default=1) == 1


@thorough
@given(seasons(), todays)
def test_every_day_of_a_hold_lies_in_the_season(season: Season, today: date) -> None:
    found = hold(season, today)
    assert all(SPAN.first <= one.first <= one.last <= SPAN.last for one in (*found.holds, *found.by_plan))


@thorough
@given(seasons(), todays)
def test_days_to_come_are_planned_and_no_others(season: Season, today: date) -> None:
    for one in hold(season, today).holds:
        assert one.first > today if one.grade is Grade.PLANNED else one.last <= today


@thorough
@given(seasons(), todays)
def test_a_square_is_shared_to_the_whole_and_no_further(season: Season, today: date) -> None:
    found = hold(season, today)
    for square in found.squares:
        for when in sorted({one.first for one in found.of_square(square)}):
            parts = shares(found, square, when)
            told = [share for key in parts if (share := found.planting(key).share_in(square)) is not None]
            if len(told) < len(parts):
                assert sum(parts.values()) == max(1, sum(told))
            else:
                assert sum(parts.values()) == sum(told)


@thorough
@given(seasons(), todays)
def test_seen_days_are_days_on_which_a_line_names_crop_and_square(season: Season, today: date) -> None:
    found = hold(season, today)
    for square, when, one in each_day(found.holds):
        if one.grade is Grade.SEEN:
            assert (square, when, one.planting) in found.sightings
            assert named(lines_of(season), found, one.planting, square, when)


@thorough
@given(seasons(), todays)
def test_a_planting_that_a_line_sights_where_it_holds_is_seen(season: Season, today: date) -> None:
    found = hold(season, today)
    for square, when, one in each_day(found.holds):
        if (square, when, one.planting) in found.sightings:
            assert one.grade is Grade.SEEN


@thorough
@given(seasons(), todays, st.data())
def test_lines_left_out_make_nothing_seen_that_no_line_named(
    season: Season, today: date, data: st.DataObject
) -> None:
    lines = lines_of(season)
    kept = [line for line in lines if data.draw(st.booleans())]
    found = hold(replace(season, log=entries(kept)), today)
    for square, when, one in each_day(found.holds):
        if one.grade is Grade.SEEN:
            assert named(kept, found, one.planting, square, when)


@thorough
@given(seasons(), todays)
def test_implied_days_lie_between_records_of_the_planting(season: Season, today: date) -> None:
    found = hold(season, today)
    for one in found.holds:
        if one.grade is Grade.IMPLIED:
            planting = found.planting(one.planting)
            records = [event.day for event in planting.events] + [
                weighing.day for weighing in planting.weighings
            ]
            assert min(records) <= one.first
            assert one.last <= max(records)


@thorough
@given(seasons(), todays)
def test_at_is_the_list_of_all_holds_on_that_day(season: Season, today: date) -> None:
    found = hold(season, today)
    for square in SQUARES:
        for when in (*days_between(FIRST, FIRST + timedelta(days=160)), SPAN.last, SPAN.last + ONE_DAY):
            scanned = tuple(
                one for one in found.holds if one.square == square and one.first <= when <= one.last
            )
            assert found.at(square, when) == scanned
            assert {one.planting for one in found.between(square, when, when)} == {
                one.planting for one in scanned
            }


@thorough
@given(seasons(), todays)
def test_stays_are_the_holds_put_together(season: Season, today: date) -> None:
    found = hold(season, today)
    held = {(square, when, one.planting) for square, when, one in each_day(found.holds)}
    stayed = [
        (one.square, when, one.planting)
        for bed in sorted({square.bed for square in found.squares})
        for one in stays(found, bed)
        for when in days_between(one.first, one.last)
    ]
    assert len(stayed) == len(set(stayed))
    assert set(stayed) == held


@thorough
@given(seasons(), todays)
def test_every_weighing_has_at_most_one_owner_and_it_fits(season: Season, today: date) -> None:
    found = plantings(season, today)
    for weighing, owner in zip(season.ledger or (), plantings_picked(season, found), strict=True):
        if owner is None:
            continue
        assert (weighing.weighed or weighing.day) <= today
        if weighing.tag:
            assert owner.tag == weighing.tag
        else:
            assert weighing.squares
            assert not weighing.mixed
            assert set(weighing.crops[0].slugs) & set(owner.crop.slugs)


@thorough
@given(seasons(), todays)
def test_keys_are_unique(season: Season, today: date) -> None:
    keys = [planting.key.casefold() for planting in plantings(season, today)]
    assert len(keys) == len(set(keys))


@thorough
@given(seasons(), todays)
def test_a_day_of_clearing_alone_is_free(season: Season, today: date) -> None:
    found = hold(season, today)
    for planting in found.plantings:
        cleared = {
            (square, event.day)
            for event, squares in planting.lines
            if event.verb in (Verb.CLEAR, Verb.FAILED, Verb.LOST) and event.plants is None
            for square in squares
        }
        started = {
            (square, event.day)
            for event, squares in planting.lines
            if event.verb in (Verb.SOW, Verb.SET_OUT, Verb.RESOW, Verb.MOVE)
            for square in (*(squares or SQUARES), *event.to)
        }
        for square, when in cleared - started:
            assert planting.key not in {one.planting for one in found.at(square, when)}


def test_the_general_names_of_these_laws_are_general() -> None:
    assert all(len(slugs) > 1 for slugs in MEANINGS.values())
