"""How wide plants are drawn as they grow, and which sizes of a crop are only about right."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.crops import Crop, Figure, Footing, Habit
from tallybed.garden.days import Month
from tallybed.garden.records.log import Verb
from tallybed.garden.records.plan import Start
from tallybed.garden.units import INCH
from tallybed.reading.folder.library import load_library
from tallybed.reckoning.calendar.bed_season import BedSeason
from tallybed.reckoning.calendar.month import bed_month
from tallybed.reckoning.calendar.plant_size import GROWN, SEEDLING, Size, sizes, width
from tallybed.reckoning.calendar.stages import Stage
from tests.reckoning.byhand import (
    BEDS,
    GARDEN,
    a_crop,
    day,
    hold,
    holding,
    inches,
    line,
    plan_row,
    planting,
    weighing,
)

ages = st.none() | st.fractions(min_value=-1, max_value=4)


@given(ages, ages)
def test_a_growing_plant_never_shrinks_and_never_outgrows_its_room(
    one: Fraction | None, other: Fraction | None
) -> None:
    for age in (one, other):
        assert SEEDLING <= width(Stage.GROWING, age) <= GROWN < width(Stage.BEARING, age) == 1
    if one is not None and other is not None and one <= other:
        assert width(Stage.GROWING, one) <= width(Stage.GROWING, other)


@pytest.mark.parametrize(
    ("stage", "age", "expected"),
    [
        (Stage.BARE, None, 0),
        (Stage.SOWN, Fraction(1, 2), Fraction(35, 100)),
        (Stage.GROWING, Fraction(0), Fraction(35, 100)),
        (Stage.GROWING, Fraction(1, 2), Fraction(65, 100)),
        (Stage.GROWING, Fraction(3), Fraction(95, 100)),
        (Stage.GROWING, None, Fraction(75, 100)),
        (Stage.OVER, None, 1),
        (Stage.LOST, Fraction(1), Fraction(75, 100)),
    ],
)
def test_the_drawn_width_follows_stage_and_age(
    stage: Stage, age: Fraction | None, expected: Fraction
) -> None:
    assert width(stage, age) == expected


def spreads(key: str, crop: str, months: range, **told: date) -> list[float]:
    """Return the drawn spread of a planting of the crop, set out on 1 April, at each month's end."""
    other: dict[str, Any] = {"plants": 1, **told}
    planned = plan_row(crop, "A1", day(4, 1), start=Start.SET_OUT, **other)
    one = planting(key, crop, planned, [line(Verb.SET_OUT, day(4, 1), "A1")])
    found = holding(day(11, 1), [one], hold(key, "A1", day(4, 1), day(11, 1)))
    bed = BedSeason(garden=GARDEN, holding=found, bed=BEDS[0])
    drawn = (bed_month(bed, Month(2026, month)).drawn for month in months)
    return [one.spread for (one,) in drawn]


def test_a_planting_widens_from_month_to_month() -> None:
    """Squash is 60 days from setting out: half grown at the end of April (29 days of 60), grown from June."""
    april, may, june, july = spreads("SQ1", "squash", range(4, 8))
    full = 12  # one plant alone in a square: crowded to its width
    assert april == pytest.approx(full * (0.35 + 0.6 * 29 / 60), abs=1e-3)
    assert may == pytest.approx(full * 0.95, abs=1e-3)
    assert april < may == june == july


def test_days_are_counted_from_the_sowing_indoors_where_the_crop_counts_so() -> None:
    """Tomato is 100 days from sowing here: sown indoors 60 days before setting out it is 89 days old."""
    (spread,) = spreads("TO1", "tomato", range(4, 5), sow_indoors=date(2026, 1, 31))
    full = 18  # its spacing: one plant in the middle of a square is not crowded until 18 in is over 1 1/2 ft
    assert spread == pytest.approx(full * (0.35 + 0.6 * 89 / 100), abs=1e-3)


def test_a_planting_that_bears_is_drawn_full() -> None:
    one = planting("CA1", "carrot", None, [line(Verb.SOW, day(5, 1), "A1")], [weighing("carrot", day(5, 20))])
    found = holding(day(7, 1), [one], hold("CA1", "A1", day(5, 1), day(7, 1)))
    (drawn,) = bed_month(BedSeason(garden=GARDEN, holding=found, bed=BEDS[0]), Month(2026, 5)).drawn
    assert drawn.spread == 3


def figure(fact: str, low: int, high: int, kind: Footing = Footing.PUBLISHED, of: str = "") -> Figure:
    return Figure(fact=fact, low=Fraction(low), high=Fraction(high), unit="in", kind=kind, of=of)


def crop_with(*figures: Figure, habit: Habit = Habit.UPRIGHT) -> Crop:
    return a_crop("carrot", 3, "Ca", chosen=figures, habit=habit)


@pytest.mark.parametrize(
    ("kind", "low", "high", "about"),
    [
        (Footing.PUBLISHED, 12, 12, False),
        (Footing.GARDEN, 12, 12, False),
        (Footing.PUBLISHED, 10, 14, True),
        (Footing.DERIVED, 12, 12, True),
        (Footing.MEMORY, 12, 12, True),
        (Footing.COMMON, 12, 12, True),
    ],
)
def test_a_size_that_is_not_printed_as_it_stands_is_only_about_right(
    kind: Footing, low: int, high: int, about: bool
) -> None:
    found = sizes(crop_with(figure("mature height", low, high, kind), figure("spread", low, high, kind)))
    assert found.height == found.spread == Size(length=inches(12), about=about)


def test_a_climbing_crop_is_as_high_as_on_its_support() -> None:
    both = (figure("mature height", 60, 60), figure("height on support", 72, 72))
    climbing = sizes(crop_with(*both, habit=Habit.CLIMBING)).height
    running = sizes(crop_with(*both, habit=Habit.RUNNING)).height
    assert climbing is not None
    assert running is not None
    assert (climbing.length, running.length) == (inches(72), inches(60))


def test_the_run_of_vines_is_not_taken_for_the_width_of_a_plant() -> None:
    found = sizes(crop_with(figure("spread", 66, 66, of="vine run"))).spread
    assert found is not None
    assert found.of_vines


def test_nothing_known_is_nothing_told() -> None:
    assert sizes(None) == sizes(crop_with())


def test_every_size_of_the_library_is_one_a_plant_can_have() -> None:
    """From a radish in leaf to a vine over its trellis: bounds are common knowledge, no source."""
    for crop in load_library().crops.values():
        found = sizes(crop)
        for size in (found.height, found.spread):
            if size is not None:
                assert 2 <= size.length.within(INCH) <= 300, crop.slug
