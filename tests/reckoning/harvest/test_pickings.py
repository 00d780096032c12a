"""Each picking counts once, in the first of its states that was weighed; pieces stay whole."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Destination, State, Weighing, places_of
from tallybed.garden.squares import Square
from tallybed.garden.units import POUND, Weight
from tallybed.reckoning.harvest.pickings import PickedRow, uncounted
from tallybed.reckoning.harvest.tally import MIXED, NOT_TOLD, dealt, kinds

A1, B1, C1 = Square("b", 0, 0), Square("b", 1, 0), Square("b", 2, 0)
GARLIC = CropName(typed="garlic", slugs=("garlic",))


def row(state: str, pounds: float | None, **told: object) -> PickedRow:
    """Return a row of 7 July; ``whole``: the squares its planting held."""
    whole = told.pop("whole", (A1, B1, C1))
    crop = told.pop("crop", "garlic")
    weighing = Weighing(
        day=date(2026, 7, 7),
        crops=(GARLIC,),
        state=State(state),
        weight=None if pounds is None else Weight.of(Fraction(pounds), POUND),
    )
    one = replace(weighing, **told)  # type: ignore[arg-type]
    planting = "GA1" if one.tag or one.squares else ""
    return PickedRow(weighing=one, crop=str(crop), planting=planting, whole=frozenset(whole))  # type: ignore[call-overload]


TAG = {"tag": "GA1"}
CASES: dict[str, tuple[list[PickedRow], set[int]]] = {
    "fresh and cured by its tag": ([row("fresh", 3, **TAG), row("cured", 2, **TAG)], {1}),
    "whichever stands first": ([row("cured", 2, **TAG), row("fresh", 3, **TAG)], {0}),
    "cured and dried, never fresh": ([row("dried", 1, **TAG), row("cured", 2, **TAG)], {0}),
    "fresh, but not weighed fresh": ([row("fresh", None, **TAG), row("cured", 2, **TAG)], {0}),
    "weighed neither way": ([row("fresh", None, **TAG), row("cured", None, **TAG)], {1}),
    "two bowls of one state": ([row("fresh", 3, **TAG), row("fresh", 2, **TAG)], set()),
    "two crates cured": ([row("cured", 3, **TAG), row("cured", 2, **TAG)], set()),
    "by its squares both times": (
        [row("fresh", 3, squares=(A1, B1)), row("cured", 2, squares=(B1, A1))],
        {1},
    ),
    "of other squares": ([row("fresh", 3, squares=(A1,)), row("cured", 2, squares=(B1,))], set()),
    "a part fresh, the planting cured": ([row("fresh", 1, squares=(C1,)), row("cured", 2, **TAG)], set()),
    "all its squares, and its tag": ([row("fresh", 3, squares=(A1, B1, C1)), row("cured", 2, **TAG)], {1}),
    "neither tag nor squares": ([row("fresh", 3), row("cured", 2)], {1}),
    "another day": ([row("fresh", 3, **TAG), row("cured", 2, day=date(2026, 7, 8), **TAG)], set()),
    "another crop": ([row("fresh", 3, **TAG), row("cured", 2, crop="leek", **TAG)], set()),
    "scapes beside bulbs": ([row("fresh", 1, form="scapes", **TAG), row("cured", 2, **TAG)], set()),
    "a form that tells how it was weighed": (
        [row("fresh", 3, form="with tops", **TAG), row("cured", 2, form="Trimmed", **TAG)],
        {1},
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_each_picking_counts_once(name: str):
    rows, without = CASES[name]
    assert uncounted(rows) == without


@given(st.integers(0, 500), st.lists(st.fractions(0, 9, max_denominator=20), min_size=1, max_size=9))
def test_pieces_are_dealt_out_whole_and_none_is_lost(pieces: int, shares: list[Fraction]):
    if not any(shares):
        return
    found = dealt(pieces, shares)
    assert sum(found) == pieces
    for got, share in zip(found, shares, strict=True):
        assert abs(got - pieces * share / sum(shares)) < 1


def test_pieces_dealt_by_hand():
    # Largest remainders: 7 pieces by 1 : 1 : 1 are 2 1/3 each, so one more for the first.
    assert dealt(7, [Fraction(1)] * 3) == [3, 2, 2]
    # 5 by 2 : 1 are 3 1/3 and 1 2/3.
    assert dealt(5, [Fraction(2), Fraction(1)]) == [3, 2]


def test_a_bowl_is_not_another_kind_of_produce():
    assert kinds(["carrot", "kale", MIXED + "carrot + kale", NOT_TOLD]) == 2


def test_places_that_differ_by_capitals_or_the_are_one():
    names = ["food pantry", "The Food Pantry", "food pantry", "kitchen", "Kitchen", "theatre"]
    ledger = [Weighing(day=date(2026, 7, 7), to=(Destination(name=name),)) for name in names]
    assert places_of(ledger) == {
        "food pantry": "food pantry",
        "The Food Pantry": "food pantry",
        "kitchen": "Kitchen",
        "Kitchen": "Kitchen",
        "theatre": "theatre",
    }
