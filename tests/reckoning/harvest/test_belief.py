"""What a single picking can weigh: eight times the highest published yield of the ground it can be of."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from tallybed.garden.crops import Figure, Habit
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.plan import LedOut
from tallybed.garden.units import FOOT, POUND, Length, Weight
from tallybed.reckoning.harvest.belief import Belief
from tallybed.reckoning.squares.occupancy import hold
from tests.reckoning import byhand
from tests.reckoning.byhand import day, plan_row, planting, squares
from tests.reckoning.growing import crop
from tests.small_garden import GARDEN, folder, read_garden


@pytest.mark.parametrize(("beds", "doubted"), [(GARDEN, True), (GARDEN.partition("beds:")[0], False)])
def test_no_weight_is_beyond_belief_where_no_bed_could_be_read(
    tmp_path: Path, beds: str, doubted: bool
) -> None:
    """Fails where a weight is held against what nought square feet give."""
    root = folder(tmp_path / "garden")
    (root / "content/garden.yaml").write_text(beds, encoding="utf-8")
    garden = read_garden(root)
    (season,) = garden.seasons
    belief = Belief(garden, hold(season, season.span.last))
    picked = Weighing(day=season.span.last, crops=(crop("carrot"),), weight=Weight.of(4000, POUND))
    assert bool(belief.beyond(picked)) == doubted


YIELDS = {"carrot": 1, "squash": 3}
"""Pounds a square foot, made up."""
BEYOND = (
    # what was picked, from where, with what tag, and the most that is believed, in pounds
    ("carrot", "A1", "", 8),
    ("carrot", "A1 B1", "", 16),
    ("carrot", "", "CA1", 16),
    ("carrot", "", "ca1", 16),
    ("carrot", "", "", 24),  # all that carrots held
    ("squash", "", "", 648),  # held nowhere: all 27 sq ft of the beds
    ("tomato", "A1", "", 24),  # no figure of its own: the highest of any crop
)


@pytest.mark.parametrize(("slug", "where", "tag", "most"), BEYOND)
def test_a_picking_is_held_against_the_ground_it_can_be_of(
    slug: str, where: str, tag: str, most: int
) -> None:
    crops = tuple(
        replace(one, chosen=tuple(_yield(amount) for amount in [YIELDS.get(one.slug)] if amount))
        for one in byhand.GARDEN.crops
    )
    plantings = [
        planting("CA1", "carrot", plan_row("carrot", "A1 B1", day(4, 10))),
        planting("CA2", "carrot", plan_row("carrot", "C1", day(4, 10))),
        planting("TO1", "tomato", plan_row("tomato", "D1 E1 F1", day(4, 10))),
    ]
    held = byhand.holding(
        day(7, 1),
        plantings,
        byhand.hold("CA1", "A1 B1", day(4, 10), day(7, 1)),
        byhand.hold("CA2", "C1", day(4, 10), day(7, 1)),
        byhand.hold("TO1", "D1 E1 F1", day(4, 10), day(7, 1)),
    )
    belief = Belief(replace(byhand.GARDEN, crops=crops), held)
    row = Weighing(day=day(7, 1), crops=(crop(slug),), squares=squares(where), tag=tag)
    assert belief.beyond(row) == ""
    assert belief.beyond(replace(row, weight=Weight.of(most, POUND))) == ""
    said = belief.beyond(replace(row, weight=Weight.of(most + Fraction(1, 100), POUND)))
    assert "beyond belief: over 8 times" in said


@pytest.mark.parametrize(("slug", "most"), [("squash", 8 * 5 * 3), ("carrot", 8 * 5 * 1)])
def test_the_ground_of_vines_counts_and_what_runs_is_held_against_the_best_of_all(
    slug: str, most: int
) -> None:
    """Fails where a few squash from four square feet are beyond belief, by rows seven feet apart."""
    own = {"squash": 1, "carrot": 1, "tomato": 3}
    crops = tuple(
        replace(
            one,
            chosen=(_yield(own[one.slug]),) if one.slug in own else (),
            habit=Habit.RUNNING if one.slug == "squash" else Habit.ROOT,
        )
        for one in byhand.GARDEN.crops
    )
    led_out = LedOut(side="F", reach=Length.of(4, FOOT))
    row = plan_row(slug, "F1", day(4, 10), led_out=led_out)
    held = byhand.holding(
        day(7, 1), [planting("XX1", slug, row)], byhand.hold("XX1", "F1", day(4, 10), day(7, 1))
    )
    belief = Belief(replace(byhand.GARDEN, crops=crops), held)
    picked = Weighing(day=day(7, 1), crops=(crop(slug),))
    assert belief.beyond(replace(picked, weight=Weight.of(most, POUND))) == ""
    assert belief.beyond(replace(picked, weight=Weight.of(most + 1, POUND)))


def _yield(pounds: int) -> Figure:
    return Figure(fact="yield per sqft", low=Fraction(pounds, 2), high=Fraction(pounds))
