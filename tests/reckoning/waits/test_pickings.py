"""Of several waits that a picking may come from inside of, which is told; and what nobody is to eat."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

import pytest

from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Destination, Weighing
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.squares import Square
from tallybed.garden.units import Weight
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.waits.pickings import inside, is_discarded, pickings_inside
from tallybed.reckoning.waits.spans import Wait, WaitKind
from tallybed.reckoning.waits.words import may_be_from, safe_words

DAY = date(2024, 6, 10)
A1, B1 = Square("b", 0, 0), Square("b", 1, 0)
EVENT = Event(day=DAY, verb=Verb.TREAT, subject="soap")
SPINACH, KALE, GARLIC = (CropName(typed=name, slugs=(name,)) for name in ("spinach", "kale", "garlic"))
PLANTINGS = {
    "SP1": Planting(season="2024", key="SP1", crop=SPINACH, tag="SP1"),
    "kale": Planting(season="2024", key="kale", crop=KALE),
}


def wait(planting: str, safe: date | None, square: Square = A1) -> Wait:
    kind = WaitKind.LABEL if planting else WaitKind.MANURE
    return Wait(
        season="2024",
        planting=planting,
        square=square,
        kind=kind,
        event=EVENT,
        begins=DAY,
        first_safe=safe,
    )


EARLY, LATE, OPEN = (
    wait("SP1", date(2024, 6, 17)),
    wait("SP1", date(2024, 6, 24), B1),
    wait("SP1", None, B1),
)


@pytest.mark.parametrize(
    ("waits", "told"),
    [
        ((EARLY, LATE), "before 24 June 2024"),
        ((LATE, EARLY), "before 24 June 2024"),
        ((EARLY, OPEN), "not known"),
        ((OPEN, EARLY), "not known"),
        ((OPEN, LATE, EARLY), "not known"),
    ],
)
def test_of_one_lines_waits_every_square_is_told_and_the_last_to_end(
    waits: tuple[Wait, ...], told: str
) -> None:
    """An earlier day would let somebody pick the rest too soon; one square alone, pick from the other."""
    found = inside(Weighing(day=DAY, crops=(SPINACH,)), waits, PLANTINGS.__getitem__)
    assert may_be_from(found) == "SP1 in b/A1:B1, treated with soap on 10 June 2024"
    assert told in safe_words(found)


def test_two_lines_of_one_visit_that_say_the_same_are_told_once() -> None:
    """As where manure was dug in and pellets were fed on one day: each is its own line of the log."""
    first = wait("SP1", None)
    second = replace(first, event=replace(EVENT, note="the same once more"))
    assert may_be_from((first, second)) == "SP1 in b/A1, treated with soap on 10 June 2024"


def test_where_the_waits_of_one_line_are_of_two_plantings_both_are_told() -> None:
    found = inside(Weighing(day=DAY), (wait("SP1", None), wait("kale", None, B1)), PLANTINGS.__getitem__)
    assert may_be_from(found) == "SP1 in b/A1 or kale in b/B1, treated with soap on 10 June 2024"


@pytest.mark.parametrize(
    ("left", "told"), [({"garlic"}, "what was left of the season before in b/B1"), ((), "ground in b/B1")]
)
def test_what_has_no_planting_is_told_as_what_it_is(left: Iterable[str], told: str) -> None:
    one = replace(wait("", None, B1), left=frozenset(left))
    assert may_be_from((one,)) == f"{told}, treated with soap on 10 June 2024"


def test_of_two_lines_each_is_told_with_its_own_plants() -> None:
    oil = replace(wait("kale", None, B1), event=replace(EVENT, day=date(2024, 6, 9), subject="oil"))
    assert may_be_from((wait("SP1", None), oil)) == (
        "SP1 in b/A1, treated with soap on 10 June 2024 and kale in b/B1, treated with oil on 9 June 2024"
    )


@pytest.mark.parametrize(
    ("row", "told"),
    [
        # A tag decides where the planting has one, or where the row has nothing else to say.
        (Weighing(day=DAY, tag="sp1", crops=(SPINACH,)), {"SP1"}),
        (Weighing(day=DAY, tag="SP2", crops=(SPINACH,)), set()),
        (Weighing(day=DAY, tag="KA1", crops=(KALE,)), {"kale"}),
        (Weighing(day=DAY, tag="KA1"), set()),
        (Weighing(day=DAY, crops=(KALE,)), {"kale"}),
        (Weighing(day=DAY), {"SP1", "kale"}),
        # Ground that holds nothing yet: whatever comes from its squares, and nothing that names none.
        (Weighing(day=DAY, crops=(KALE,), squares=(B1,)), {""}),
        (Weighing(day=DAY, crops=(KALE,), squares=(A1,)), {"kale"}),
    ],
)
def test_whose_wait_a_row_may_come_from_inside_of(row: Weighing, told: set[str]) -> None:
    waits = (wait("SP1", None), wait("kale", None), wait("", None, B1))
    events = [Event(day=DAY, verb=Verb.TREAT, subject=subject) for subject in "abc"]
    apart = [replace(one, event=event) for one, event in zip(waits, events, strict=True)]
    assert {one.planting for one in inside(row, apart, PLANTINGS.__getitem__)} == told
    assert set(pickings_inside([row], apart, PLANTINGS.__getitem__)) == ({0} if told else set())


@pytest.mark.parametrize(
    ("row", "told"),
    [
        (Weighing(day=DAY, crops=(GARLIC,)), True),
        (Weighing(day=DAY, crops=(GARLIC,), squares=(A1,)), False),
        (Weighing(day=DAY, crops=(KALE,), squares=(B1,)), False),
        (Weighing(day=DAY, squares=(B1,)), True),
        (Weighing(day=DAY), False),
    ],
)
def test_what_was_left_of_the_season_before_is_its_crop_or_what_nobody_named(
    row: Weighing, told: bool
) -> None:
    """Else garlic that may still stand there is told of kale from the square, or of nothing at all."""
    left = replace(wait("", None, B1), left=frozenset({"garlic"}))
    assert bool(inside(row, [left], PLANTINGS.__getitem__)) is told


@pytest.mark.parametrize(
    ("names", "told"),
    [
        ((), False),
        (("discarded",), True),
        (("Discarded",), True),
        (("the discarded", "discarded"), True),
        (("discarded", "pantry"), False),
        (("pantry",), False),
    ],
)
def test_a_picking_of_which_some_went_to_be_eaten_is_not_discarded(
    names: tuple[str, ...], told: bool
) -> None:
    parts = tuple(Destination(name=name, weight=Weight(1)) for name in names)
    assert is_discarded(Weighing(day=DAY, to=parts)) is told
