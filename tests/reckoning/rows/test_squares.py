"""Which square earned its place: weight by square-week, and the use of the beds by month, by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from tallybed.garden.days import Month
from tallybed.garden.garden import Garden
from tallybed.garden.squares import Bed
from tallybed.garden.units import OUNCE, Weight
from tallybed.reckoning.harvest.tally import TallyLine
from tallybed.reckoning.rows.squares import crop_square_weeks, use_by_month
from tallybed.reckoning.squares.occupancy import hold
from tests.reckoning.growing import day, plan_row, season

GARDEN = Garden(name="g", beds=(Bed(name="b", title="B", columns=4, rows=1),))
HOLDING = hold(
    season(
        [
            plan_row("carrot", "A1 B1", "Apr 17", "May 1", tag="CA1"),
            plan_row("carrot", "C1", "May 1", "May 8", tag="CA2"),
            plan_row("radish", "D1", "Apr 17", "May 8", tag="RA1"),
            plan_row("beans", "D1", "Jul 1", "Aug 1", tag="BB1"),
        ]
    ),
    day("Nov 30"),
)


def picked(crop: str, on: str, **other: object) -> TallyLine:
    weight = Weight.of(14, OUNCE)
    return TallyLine(weighing=0, season="2026", day=day(on), crop=crop, weight=weight, **other)  # type: ignore[arg-type]


def test_a_crops_weight_beside_its_square_weeks() -> None:
    lines = [
        picked("carrot", "May 7"),
        picked("carrot", "May 8"),
        picked("carrot", "May 7", counts=False),
        picked("radish", "May 7", weighed=False),
        picked("kale", "May 7"),
    ]
    found = crop_square_weeks(HOLDING, HOLDING.plantings, lines, day("May 7"))
    # Carrots: two squares for 14 days and one for 7; radish: one for 21. The beans had no day by then.
    assert [(one.crop, one.square_weeks) for one in found] == [("carrot", 5), ("radish", 3)]
    carrot, radish = found
    assert (carrot.weight, carrot.at_least) == (Weight.of(14, OUNCE), False)
    assert carrot.per_week == Weight.of(Fraction(14, 5), OUNCE)
    assert radish.at_least


def test_the_use_of_the_squares_month_by_month() -> None:
    found = use_by_month(GARDEN, HOLDING, day("May 10"))
    # April: three squares held for 14 days, of four for 30; May up to the 10th: two for 7, of four for 10.
    assert [(one.month, one.held, one.there) for one in found] == [
        (Month(2026, 3), 0, 124),
        (Month(2026, 4), 42, 120),
        (Month(2026, 5), 14, 40),
    ]
    assert found[1].share == Fraction(42, 120)
    assert use_by_month(GARDEN, HOLDING, day("May 1"))[-1].there == 4
    assert len(use_by_month(GARDEN, HOLDING, day("Apr 30"))) == 2
    assert use_by_month(replace(GARDEN, beds=()), HOLDING, day("May 10")) == ()
