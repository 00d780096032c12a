"""Who shares squares by declaration, case by case: by name in ``among``, by a third, by a share told."""

from __future__ import annotations

import pytest

from tallybed.garden.records.plan import PlanRow
from tallybed.reckoning.squares.occupancy import hold
from tallybed.reckoning.squares.sharing import Sharing
from tests.reckoning.growing import day, plan_row, season


def grown(tag: str, crop: str, *, among: str = "", share: str = "") -> PlanRow:
    return plan_row(crop, "A1", "Apr 10", "Jul 30", tag=tag, among=among, share=share)


@pytest.mark.parametrize(
    ("plan", "pairs"),
    [
        ((grown("CA1", "carrot"), grown("RA1", "radish"), grown("BE1", "beet")), ()),
        # Named by tag or by crop: with that one, and with no other.
        ((grown("CA1", "carrot"), grown("RA1", "radish", among="CA1"), grown("BE1", "beet")), ("CA1 RA1",)),
        (
            (grown("CA1", "carrot"), grown("RA1", "radish", among="carrot"), grown("BE1", "beet")),
            ("CA1 RA1",),
        ),
        # A share told beside a name opens it to nobody else.
        (
            (grown("CA1", "carrot"), grown("RA1", "radish", among="CA1", share="1/3"), grown("BE1", "beet")),
            ("CA1 RA1",),
        ),
        # Two that name the same third share with it and with each other.
        (
            (grown("CA1", "carrot"), grown("RA1", "radish", among="CA1"), grown("BE1", "beet", among="CA1")),
            ("BE1 CA1", "BE1 RA1", "CA1 RA1"),
        ),
        # A share alone, a name that nobody bears and one's own name: with whatever stands there.
        (
            (grown("CA1", "carrot"), grown("RA1", "radish", share="1/3"), grown("BE1", "beet")),
            ("BE1 RA1", "CA1 RA1"),
        ),
        (
            (grown("CA1", "carrot"), grown("RA1", "radish", among="the weeds"), grown("BE1", "beet")),
            ("BE1 RA1", "CA1 RA1"),
        ),
        (
            (grown("CA1", "carrot"), grown("RA1", "radish", among="RA1"), grown("BE1", "beet")),
            ("BE1 RA1", "CA1 RA1"),
        ),
        # A crop's own name is another's where two bear it.
        (
            (grown("CA1", "carrot"), grown("CA2", "carrot", among="carrot"), grown("BE1", "beet")),
            ("CA1 CA2",),
        ),
    ],
)
def test_who_shares_with_whom(plan: tuple[PlanRow, ...], pairs: tuple[str, ...]) -> None:
    """Else a square is told as held twice where two were meant in it, or the other way round."""
    plantings = hold(season(plan), day("Jun 1")).plantings
    sharing = Sharing(plantings)
    keys = [planting.key for planting in plantings]
    every = {
        f"{one} {other}" for one in keys for other in keys if one < other and sharing.declared(one, other)
    }
    assert every == set(pairs)
    assert all(sharing.declared(one, other) == sharing.declared(other, one) for one in keys for other in keys)
