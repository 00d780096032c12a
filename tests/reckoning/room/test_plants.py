"""Plants that stand of a planting on a day, square by square."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import Bed
from tallybed.reckoning.room.plants import Plants, plants, spacing_of, spots
from tallybed.reckoning.squares.occupancy import Grade, Holding
from tests.reckoning.byhand import BEDS, GARDEN, day, hold, holding, inches, line, plan_row, planting, squares

LONG = BEDS[0]
LATE = day(6, 30)


def counted(
    crop: str,
    where: str,
    *events: Event,
    on: date = LATE,
    planned: PlanRow | None = None,
    held: str | None = None,
    variety: str = "",
) -> Plants:
    return plants(
        GARDEN, held_by(crop, where, *events, planned=planned, held=held, variety=variety), "X1", on
    )


def held_by(
    crop: str,
    where: str,
    *events: Event,
    planned: PlanRow | None = None,
    held: str | None = None,
    variety: str = "",
) -> Holding:
    one = planting("X1", crop, planned, events, variety=variety)
    return holding(day(7, 15), [one], hold("X1", held or where, day(4, 1), day(9, 30)))


def numbers(found: Plants) -> dict[str, int]:
    return {square.label: count for square, count in found.by_square.items()}


SOWN, SET_OUT = Verb.SOW, Verb.SET_OUT
CASES = {
    "a told number goes over the squares exactly": (
        "lettuce",
        "A1 B1 A2 B2",
        [line(SET_OUT, day(4, 1), "A1 B1 A2 B2", plants=10)],
        {"A1": 3, "B1": 3, "A2": 2, "B2": 2},
    ),
    "the first squares are the first in bed order, not the first named": (
        "lettuce",
        "A1 B1 A2",
        [line(SET_OUT, day(4, 1), "A2 B1 A1", plants=4)],
        {"A1": 2, "B1": 1, "A2": 1},
    ),
    "two lines add up": (
        "lettuce",
        "A1 B1",
        [line(SET_OUT, day(4, 1), "A1", plants=2), line(SET_OUT, day(4, 8), "A1 B1", plants=3)],
        {"A1": 4, "B1": 1},
    ),
    "thinning sets what is left in the named squares": (
        "carrot",
        "A1 B1",
        [line(SOWN, day(4, 1), "A1 B1"), line(Verb.THIN, day(5, 1), "A1", leaving=9)],
        {"A1": 9, "B1": 16},
    ),
    "what a thinning leaves stands where any grew": (
        "lettuce",
        "A1 B1",
        [
            line(SET_OUT, day(4, 1), "A1 B1", plants=8),
            line(Verb.LOST, day(4, 20), "B1"),
            line(Verb.THIN, day(5, 1), "A1 B1", leaving=3),
        ],
        {"A1": 3, "B1": 0},
    ),
    "where none was known to grow it is spread over all": (
        "lettuce",
        "A1 B1",
        [
            line(SET_OUT, day(4, 1), "A1 B1", plants=8),
            line(Verb.LOST, day(4, 20), "A1 B1"),
            line(Verb.THIN, day(5, 1), "A1 B1", leaving=4),
        ],
        {"A1": 2, "B1": 2},
    ),
    "sown once more without a number: as many again where none stood, and no more where some did": (
        "lettuce",
        "A1 B1",
        [
            line(SOWN, day(4, 1), "A1 B1", plants=8),
            line(Verb.LOST, day(4, 20), "A1"),
            line(Verb.LOST, day(4, 20), "B1", plants=1),
            line(SOWN, day(5, 1), "A1 B1"),
        ],
        {"A1": 4, "B1": 3},
    ),
    "thinning without squares sets it for all": (
        "carrot",
        "A1 B1",
        [line(SOWN, day(4, 1), "A1 B1"), line(Verb.THIN, day(5, 1), leaving=25)],
        {"A1": 13, "B1": 12},
    ),
    "losses come from the named squares": (
        "lettuce",
        "A1 B1",
        [line(SET_OUT, day(4, 1), "A1 B1", plants=8), line(Verb.LOST, day(5, 1), "B1", plants=3)],
        {"A1": 4, "B1": 1},
    ),
    "losses without squares come from where most stand": (
        "lettuce",
        "A1 B1",
        [
            line(SET_OUT, day(4, 1), "A1", plants=4),
            line(SET_OUT, day(4, 1), "B1", plants=2),
            line(Verb.LOST, day(5, 1), plants=3),
        ],
        {"A1": 1, "B1": 2},
    ),
    "more cannot be lost than stood": (
        "lettuce",
        "A1 B1",
        [line(SET_OUT, day(4, 1), "A1 B1", plants=2), line(Verb.LOST, day(5, 1), "A1", plants=9)],
        {"A1": 0, "B1": 0},
    ),
    "a loss without a number takes all": (
        "lettuce",
        "A1 B1",
        [line(SET_OUT, day(4, 1), "A1 B1", plants=2), line(Verb.LOST, day(5, 1), "A1")],
        {"A1": 0, "B1": 1},
    ),
    "clearing in part takes as many": (
        "lettuce",
        "A1",
        [line(SET_OUT, day(4, 1), "A1", plants=4), line(Verb.CLEAR, day(5, 1), "A1", plants=1)],
        {"A1": 3},
    ),
    "what moves is there and no longer here": (
        "lettuce",
        "A1 C1 C2",
        [
            line(SET_OUT, day(4, 1), "A1", plants=4),
            line(Verb.MOVE, day(5, 1), "A1", to=squares("C1 C2"), plants=3),
        ],
        {"A1": 1, "C1": 2, "C2": 1},
    ),
    "a move without a number moves all": (
        "lettuce",
        "A1 C1",
        [line(SET_OUT, day(4, 1), "A1", plants=4), line(Verb.MOVE, day(5, 1), "A1", to=squares("C1"))],
        {"A1": 0, "C1": 4},
    ),
    "what failed is nothing": (
        "carrot",
        "A1 B1",
        [line(SOWN, day(4, 1), "A1 B1", plants=30), line(Verb.FAILED, day(5, 1))],
        {"A1": 0, "B1": 0},
    ),
    "sowing again brings it back": (
        "carrot",
        "A1 B1",
        [
            line(SOWN, day(4, 1), "A1 B1", plants=30),
            line(Verb.FAILED, day(5, 1), "A1"),
            line(Verb.RESOW, day(5, 4), "A1"),
        ],
        {"A1": 15, "B1": 15},
    ),
    "sowing again with a number counts anew": (
        "carrot",
        "A1 B1",
        [
            line(SOWN, day(4, 1), "A1 B1", plants=30),
            line(Verb.FAILED, day(5, 1), "A1"),
            line(Verb.RESOW, day(5, 4), "A1", plants=7),
        ],
        {"A1": 7, "B1": 15},
    ),
    "lines of one day are taken in the order of the work": (
        "lettuce",
        "A1",
        [line(Verb.LOST, day(4, 1), "A1", plants=1), line(SET_OUT, day(4, 1), "A1", plants=4)],
        {"A1": 3},
    ),
    "later records play no part": (
        "lettuce",
        "A1",
        [line(SET_OUT, day(4, 1), "A1", plants=4), line(Verb.LOST, day(7, 1), "A1", plants=2)],
        {"A1": 4},
    ),
    "work indoors brings nothing into the bed": (
        "lettuce",
        "A1",
        [line(Verb.SOW_INDOORS, day(3, 1), plants=40), line(SET_OUT, day(4, 1), "A1", plants=4)],
        {"A1": 4},
    ),
    "a wide crop counts over its block": (
        "squash",
        "A1 B1 A2 B2",
        [line(SET_OUT, day(5, 20), "A1 B1 A2 B2", plants=1)],
        {"A1": 1, "B1": 0, "A2": 0, "B2": 0},
    ),
    "a wide crop set closer stands one to a square": (
        "tomato",
        "A1 B1 A2 B2",
        [line(SET_OUT, day(5, 20), "A1 B1 A2 B2", plants=4)],
        {"A1": 1, "B1": 1, "A2": 1, "B2": 1},
    ),
    "a wide crop that is lost is lost wherever the line says": (
        "squash",
        "A1 B1 A2 B2",
        [line(SET_OUT, day(5, 20), "A1 B1 A2 B2", plants=1), line(Verb.LOST, day(6, 2), "B2", plants=1)],
        {"A1": 0, "B1": 0, "A2": 0, "B2": 0},
    ),
}


@pytest.mark.parametrize("case", CASES, ids=str)
def test_counts_follow_the_log(case: str) -> None:
    crop, where, events, expected = CASES[case]
    assert numbers(counted(crop, where, *events)) == expected, case


def test_a_planting_over_two_beds_is_counted_in_garden_order() -> None:
    found = counted("lettuce", "elbow/A1 B1", line(SET_OUT, day(4, 1), "elbow/A1 B1", plants=3))
    assert [(str(square), count) for square, count in found.by_square.items()] == [
        ("long/B1", 2),
        ("elbow/A1", 1),
    ]


def test_a_wide_crop_over_two_beds_has_its_part_in_each() -> None:
    where = "A1 B1 A2 B2 C1 D1 C2 D2 elbow/A1 elbow/B1 elbow/A2 elbow/B2"
    found = counted("squash", where, line(SET_OUT, day(5, 20), where, plants=3))
    assert [str(square) for square, count in found.by_square.items() if count] == [
        "long/A1",
        "long/C1",
        "elbow/A1",
    ]


def test_a_crop_wider_than_the_squares_of_one_of_its_beds_alone_has_its_part_in_each() -> None:
    """A foot has a quarter of the ground of a two-foot square: of ten tomatoes, two stand in two feet."""
    wide = Bed(name="wide", title="The wide bed", columns=2, rows=1, side=inches(24))
    garden = replace(GARDEN, beds=(LONG, wide))
    where = "A1 B1 wide/A1 wide/B1"
    found = plants(garden, held_by("tomato", where, line(SET_OUT, day(5, 20), where, plants=10)), "X1", LATE)
    by_bed = {str(square): count for square, count in found.by_square.items()}
    assert by_bed["long/A1"] + by_bed["long/B1"] == 2
    assert (by_bed["wide/A1"], by_bed["wide/B1"]) == (4, 4)


def test_a_line_over_two_plantings_gives_each_its_part() -> None:
    both = line(Verb.CLEAR, day(5, 1), "A1 B1 C1", plants=3)
    one = planting("X1", "lettuce", None, [line(SET_OUT, day(4, 1), "A1", plants=4), both])
    split = one.__class__(
        season="2026", key="X1", crop=one.crop, events=one.events, own=(squares("A1"), squares("A1"))
    )
    found = plants(
        GARDEN, holding(day(7, 1), [split], hold("X1", "A1", day(4, 1), day(7, 1))), "X1", day(6, 1)
    )
    assert numbers(found) == {"A1": 3}


def test_counts_of_the_log_are_told() -> None:
    found = counted("lettuce", "A1 B1", line(SET_OUT, day(4, 1), "A1 B1", plants=3))
    assert (found.told_in, sum(found.by_square.values())) == (frozenset(squares("A1 B1")), 3)


def test_seeds_are_no_plants() -> None:
    found = counted("carrot", "A1", line(SOWN, day(4, 1), "A1", seeds=200))
    assert numbers(found) == {"A1": 16}
    assert not found.told_in


def test_the_plan_counts_where_the_log_does_not() -> None:
    planned = plan_row("lettuce", "A1 B1 C1", day(4, 1), plants=7)
    found = counted("lettuce", "A1 B1 C1", line(SOWN, day(4, 2), "A1 B1 C1"), planned=planned)
    assert numbers(found) == {"A1": 3, "B1": 2, "C1": 2}
    assert found.told_in == frozenset(squares("A1 B1 C1"))


def test_the_plan_counts_in_other_squares_than_planned() -> None:
    planned = plan_row("lettuce", "A1 B1 C1", day(4, 1), plants=6)
    found = counted("lettuce", "E1 F1", line(SOWN, day(4, 2), "E1 F1"), planned=planned)
    assert numbers(found) == {"E1": 3, "F1": 3}


def test_the_log_overrules_the_plan_square_by_square() -> None:
    planned = plan_row("lettuce", "A1 B1", day(4, 1), plants=8)
    found = counted("lettuce", "A1 B1", line(SET_OUT, day(4, 2), "A1", plants=2), planned=planned)
    assert numbers(found) == {"A1": 2, "B1": 4}


def test_the_spacing_counts_where_nobody_did() -> None:
    found = counted("carrot", "A1 B1", line(SOWN, day(4, 1), "A1 B1"))
    assert numbers(found) == {"A1": 16, "B1": 16}
    assert found.told_in == frozenset()


def test_a_loss_from_an_uncounted_planting_stays_uncounted() -> None:
    found = counted("carrot", "A1", line(SOWN, day(4, 1), "A1"), line(Verb.LOST, day(5, 1), "A1", plants=4))
    assert numbers(found) == {"A1": 12}
    assert not found.told_in


def test_thinning_tells_only_the_squares_it_names() -> None:
    found = counted("carrot", "A1 B1", line(SOWN, day(4, 1)), line(Verb.THIN, day(5, 1), "B1", leaving=9))
    assert found.told_in == frozenset(squares("B1"))


@pytest.mark.parametrize(
    ("planned", "variety", "expected"),
    [(4, "amber spike", 4), (None, "Amber  Spike", 2), (None, "another", 3)],
)
def test_the_nearest_spacing_counts(planned: int | None, variety: str, expected: int) -> None:
    own = inches(planned) if planned else None
    one = planting("X1", "carrot", plan_row("carrot", "A1", day(4, 1), spacing=own), variety=variety)
    assert spacing_of(GARDEN, one) == inches(expected)


def test_a_wide_crop_nobody_counted_has_one_plant_to_its_block() -> None:
    found = counted("squash", "A1 B1 A2 B2")
    assert numbers(found) == {"A1": 1, "B1": 0, "A2": 0, "B2": 0}


def test_a_wide_crop_in_too_small_a_block_is_one_plant() -> None:
    assert numbers(counted("squash", "A1 B1")) == {"A1": 1, "B1": 0}


def test_crops_that_share_a_square_share_its_room() -> None:
    carrots = planting("CA1", "carrot", plan_row("carrot", "A1", day(4, 1)))
    radishes = planting("RA1", "radish", plan_row("radish", "A1", day(4, 1), among="CA1"))
    both = holding(
        day(7, 1),
        [carrots, radishes],
        hold("CA1", "A1", day(4, 1), day(6, 30)),
        hold("RA1", "A1", day(4, 1), day(5, 1)),
    )
    assert numbers(plants(GARDEN, both, "CA1", day(4, 20))) == {"A1": 8}
    assert numbers(plants(GARDEN, both, "RA1", day(4, 20))) == {"A1": 8}
    assert numbers(plants(GARDEN, both, "CA1", day(6, 1))) == {"A1": 8}, "no carrot grows for a radish pulled"


@pytest.mark.parametrize(
    ("where", "share", "expected"),
    [
        ("A1 B1 A2 B2 C1 D1 C2 D2 E1 F1 E2 F2", Fraction(2, 3), 2),  # three have room
        ("A1 B1 A2 B2 C1 D1 C2 D2", Fraction(1, 4), 1),
        ("A1 B1 A2 B2", Fraction(1, 2), 1),
    ],
)
def test_of_a_wide_crop_that_shares_its_block_its_part_stands_there(
    where: str, share: Fraction, expected: int
) -> None:
    """By area, rounded down, and one plant at the least."""
    row = plan_row("squash", where, day(4, 1), share=share)
    found = plants(
        GARDEN,
        holding(day(7, 1), [planting("X1", "squash", row)], hold("X1", where, day(4, 1), LATE)),
        "X1",
        LATE,
    )
    assert sum(numbers(found).values()) == expected


def test_a_small_share_still_means_one_plant() -> None:
    wide = planting("X1", "lettuce", plan_row("lettuce", "A1", day(4, 1)))
    others = [planting(f"Y{n}", "radish", plan_row("radish", "A1", day(4, 1))) for n in range(7)]
    crowd = holding(
        day(7, 1),
        [wide, *others],
        *(hold(each.key, "A1", day(4, 1), day(6, 1)) for each in [wide, *others]),
    )
    assert numbers(plants(GARDEN, crowd, "X1", day(4, 20))) == {"A1": 1}


def test_only_squares_held_that_day_count() -> None:
    one = planting("X1", "lettuce", None, [line(SET_OUT, day(4, 1), "A1 B1", plants=8)])
    found = holding(
        day(7, 1), [one], hold("X1", "A1", day(4, 1), day(5, 1)), hold("X1", "B1", day(4, 1), day(6, 1))
    )
    assert numbers(plants(GARDEN, found, "X1", day(5, 20))) == {"B1": 4}
    assert numbers(plants(GARDEN, found, "X1", day(3, 20))) == {}


def test_a_general_name_left_open_has_no_count() -> None:
    found = counted("beans", "A1", line(SOWN, day(4, 1), "A1", seeds=30))
    assert numbers(found) == {}
    assert spots(GARDEN, held_by("beans", "A1"), "X1", day(6, 1), LONG) is None


def test_an_unknown_planting_is_an_error() -> None:
    with pytest.raises(KeyError):
        plants(GARDEN, held_by("carrot", "A1"), "X9", day(6, 1))


def test_a_garlic_carried_over_stands_by_the_plan() -> None:
    planned = plan_row("carrot", "A1", day(3, 1), start=Start.CARRIED, plants=9, carried_from="2025")
    one = planting("X1", "carrot", planned)
    found = holding(day(7, 1), [one], hold("X1", "A1", day(3, 1), day(7, 1), Grade.SUPPOSED))
    assert numbers(plants(GARDEN, found, "X1", day(5, 20))) == {"A1": 9}


def test_survivors_stay_where_they_stood() -> None:
    start = line(SET_OUT, day(4, 1), "A1 B1", plants=18)
    loss = line(Verb.LOST, day(5, 10), "B1", plants=4)
    found = held_by(
        "lettuce", "A1 B1", start, loss, planned=plan_row("lettuce", "A1 B1", day(4, 1), spacing=inches(4))
    )
    before = spots(GARDEN, found, "X1", day(5, 1), LONG)
    after = spots(GARDEN, found, "X1", day(6, 1), LONG)
    assert before is not None
    assert after is not None
    assert (len(before.spots), len(after.spots)) == (18, 14)
    assert set(after.spots) < set(before.spots)


verbs = st.sampled_from([SOWN, SET_OUT, Verb.THIN, Verb.LOST, Verb.CLEAR, Verb.FAILED, Verb.RESOW, Verb.MOVE])
lines = st.builds(
    lambda verb, on, where, number: line(
        verb,
        day(4, on),
        where,
        plants=None if verb is Verb.THIN else number,
        leaving=number if verb is Verb.THIN else None,
        to=squares("D1 E1") if verb is Verb.MOVE else (),
    ),
    verbs,
    st.integers(1, 30),
    st.sampled_from(["", "A1", "B1 C1", "A1 B1 C1"]),
    st.none() | st.integers(0, 12),
)


@given(st.lists(lines, max_size=8), st.sampled_from(["carrot", "lettuce", "squash"]), st.integers(1, 30))
def test_law_no_count_is_negative_and_spots_are_as_many(events: list[Event], crop: str, on: int) -> None:
    found = held_by(crop, "A1", *events, held="A1 B1 C1 D1 E1")
    standing = plants(GARDEN, found, "X1", day(4, on))
    assert all(count >= 0 for count in standing.by_square.values())
    assert set(standing.by_square) == set(squares("A1 B1 C1 D1 E1"))
    packing = spots(GARDEN, found, "X1", day(4, on), LONG)
    assert packing is not None
    assert len(packing.spots) == sum(standing.by_square.values())


@given(st.lists(lines, max_size=6, unique_by=lambda event: (event.day, event.verb)), st.integers(1, 30))
def test_law_the_order_of_records_never_matters(events: list[Event], on: int) -> None:
    forth = plants(GARDEN, held_by("carrot", "A1 B1 C1", *events), "X1", day(4, on))
    back = plants(GARDEN, held_by("carrot", "A1 B1 C1", *reversed(events)), "X1", day(4, on))
    assert forth == back
