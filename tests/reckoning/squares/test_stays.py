"""A stay in a square: when it came, when it left, and how well it is known."""

from __future__ import annotations

from datetime import date

import pytest

from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.plan import Start
from tallybed.reckoning.squares import occupancy
from tallybed.reckoning.squares.occupancy import Grade
from tallybed.reckoning.squares.stays import Stay, stays, stays_of
from tests.reckoning import growing
from tests.reckoning.byhand import day, hold, holding, line, plan_row, planting

TODAY = day(7, 15)


def stay_until(last: date, *, until: date, cleared: date | None = None) -> Stay:
    """The stay of a planting of A1 from 10 April, with its end by the plan and by the log."""
    events = [line(Verb.CLEAR, cleared, "A1")] if cleared else []
    one = planting("CA1", "carrot", plan_row("carrot", "A1", day(4, 10), until), events)
    (found,) = stays(holding(TODAY, [one], hold("CA1", "A1", day(4, 10), last)), "long")
    return found


@pytest.mark.parametrize(
    ("last", "until", "cleared", "left"),
    [
        # The square is free on the day of a recorded end, and on the day after the last one without.
        (day(6, 9), day(6, 20), day(6, 10), day(6, 10)),
        (day(6, 19), day(6, 20), None, day(6, 20)),
        (day(9, 9), day(9, 10), None, day(9, 10)),
        # On the last day known it goes on, unless the plan ends it there.
        (TODAY, day(9, 10), None, None),
        (TODAY, day(7, 16), None, day(7, 16)),
        # To the season's last day nothing says that it goes, whatever the plan has after it.
        (day(11, 30), day(12, 1), None, None),
        (day(11, 29), day(11, 30), None, day(11, 30)),
    ],
)
def test_a_stay_ends_on_the_day_its_square_is_free(
    last: date, until: date, cleared: date | None, left: date | None
) -> None:
    """Else a planting is told as gone a day early, or as there when its square is bare."""
    stay = stay_until(last, until=until, cleared=cleared)
    assert (stay.came, stay.last, stay.left) == (day(4, 10), last, left)


@pytest.mark.parametrize(
    ("since", "open_ended"),
    [(day(7, 16), False), (day(7, 1), True)],
    ids=["another comes the day after", "another shares its square"],
)
def test_what_stands_on_the_last_day_known_goes_on_unless_another_takes_its_square(
    since: date, open_ended: bool
) -> None:
    one = planting("CA1", "carrot", plan_row("carrot", "A1", day(4, 10), day(9, 10)))
    other = planting("LE1", "lettuce", plan_row("lettuce", "A1", since, day(10, 1)))
    days = (hold("CA1", "A1", day(4, 10), TODAY), hold("LE1", "A1", since, day(9, 30)))
    found = [stay for stay in stays(holding(TODAY, [one, other], *days), "long") if stay.planting == "CA1"]
    assert [stay.open_ended for stay in found] == [open_ended]


@pytest.mark.parametrize("until", ["", "Jun 11"])
@pytest.mark.parametrize(
    "done",
    [
        [growing.line("Jun 10", "lost", "pea-snap", "A1", tag="PE1", plants=3)],
        [growing.line("Jun 10", "move", "pea-snap", "A1", tag="PE1", to="B1", plants=3)],
        [growing.line("Jun 10", "move", "pea-snap", "A1", tag="PE1", to="A1 B1")],
        [
            growing.line("Jun 10", "clear", "pea-snap", "A1", tag="PE1"),
            growing.line("Jun 10", "resow", "pea-snap", "A1", tag="PE1"),
        ],
    ],
    ids=["some lost", "some moved", "spread out", "sown again"],
)
def test_what_left_plants_standing_on_the_last_day_known_is_no_end(done: list[Event], until: str) -> None:
    """Else nine peas of which three were lost are told as gone, on the day of the visit itself."""
    sown = growing.line("Apr 5", "sow", "pea-snap", "A1", tag="PE1", plants=9)
    plan = [growing.plan_row("pea-snap", "A1", "Apr 5", until, tag="PE1")] if until else None
    held = occupancy.hold(growing.season(plan, [sown, *done]), day(6, 10))
    (stay,) = (one for one in stays(held, "b") if one.square.label == "A1")
    assert (stay.end, stay.left) == (None, day(6, 11) if until else None)


def test_a_planting_given_up_ends_by_the_plan_on_that_day() -> None:
    row = plan_row("carrot", "A1", day(4, 10), day(9, 10), dropped=day(7, 16))
    one = planting("CA1", "carrot", row)
    (stay,) = stays(holding(TODAY, [one], hold("CA1", "A1", day(4, 10), TODAY)), "long")
    assert (stay.left, stay.open_ended) == (day(7, 16), False)


@pytest.mark.parametrize(("start", "came"), [(Start.CARRIED, None), (Start.SOW, day(3, 1))])
def test_what_was_carried_over_came_with_the_season_however_its_days_are_known(
    start: Start, came: date | None
) -> None:
    one = planting("GA1", "carrot", plan_row("carrot", "A1", day(3, 1), day(9, 10), start=start))
    parts = [
        hold("GA1", "A1", day(3, 1), day(4, 9), Grade.SUPPOSED),
        hold("GA1", "A1", day(4, 10), TODAY, Grade.SEEN),
    ]
    (stay,) = stays(holding(TODAY, [one], *parts), "long")
    assert (stay.came, stay.first) == (came, day(3, 1))


def test_how_well_it_is_known_that_it_left() -> None:
    """What is sown in the square from that day shows it; the same planting, or another square, does not."""

    def stay(key: str, where: str, first: date, last: date, grade: Grade = Grade.SEEN) -> Stay:
        one = planting(key, "carrot", plan_row("carrot", where, first, day(6, 10)))
        (found,) = stays_of(holding(TODAY, [one], hold(key, where, first, last, grade)), key)
        return found

    gone = stay("CA1", "A1", day(4, 10), day(6, 9))
    assert gone.left == day(6, 10)
    for other, grade in (
        (stay("RA1", "A1", day(6, 10), TODAY), Grade.IMPLIED),
        (stay("RA1", "A1", day(6, 10), TODAY, Grade.SUPPOSED), Grade.SUPPOSED),
        (stay("RA1", "A1", day(6, 11), TODAY), Grade.SUPPOSED),
        (stay("RA1", "B1", day(6, 10), TODAY), Grade.SUPPOSED),
        (stay("CA1", "A1", day(6, 10), TODAY), Grade.SUPPOSED),
    ):
        assert gone.end_grade(TODAY, [gone, other]) is grade
    assert gone.end_grade(day(6, 10), []) is Grade.SUPPOSED
    assert gone.end_grade(day(6, 9), []) is Grade.PLANNED


def test_a_planting_in_two_beds_has_its_stays_in_each() -> None:
    one = planting("CA1", "carrot", plan_row("carrot", "A1", day(4, 10), day(9, 10)))
    found = holding(
        TODAY, [one], hold("CA1", "A1", day(4, 10), TODAY), hold("CA1", "elbow/B2", day(4, 10), TODAY)
    )
    for bed, label in (("long", "A1"), ("elbow", "B2")):
        assert [stay.square.label for stay in stays(found, bed)] == [label]
        assert tuple(stay for stay in stays_of(found, "CA1") if stay.square.bed == bed) == stays(found, bed)


def test_a_stay_is_known_as_well_as_its_best_day_within() -> None:
    one = planting("CA1", "carrot", plan_row("carrot", "A1", day(4, 10), day(9, 10)))
    parts = [
        hold("CA1", "A1", day(4, 10), day(4, 10), Grade.SEEN),
        hold("CA1", "A1", day(4, 11), day(5, 31), Grade.IMPLIED),
        hold("CA1", "A1", day(6, 1), TODAY, Grade.SUPPOSED),
    ]
    (stay,) = stays(holding(TODAY, [one], *parts), "long")
    assert stay.grade(day(4, 1), day(4, 30)) is Grade.SEEN
    assert stay.grade(day(4, 11), day(6, 1)) is Grade.IMPLIED
    assert stay.grade(day(5, 31), day(6, 30)) is Grade.IMPLIED
    assert stay.grade(day(6, 1), day(6, 30)) is Grade.SUPPOSED
    assert stay.grade(day(8, 1), day(8, 31)) is Grade.SUPPOSED
