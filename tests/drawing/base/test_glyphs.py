"""Plants from above: sizes, stages, habits."""

from __future__ import annotations

import re

import pytest

from tallybed.drawing.base.glyphs import glyph
from tallybed.drawing.bedmap.vines import vine
from tallybed.garden.crops import Habit
from tallybed.reckoning.calendar.stages import Stage
from tests.drawing.markup import corners

RADII = (0.0, 1.0, 4.0, 7.9, 8.1, 15.0, 33.0, 35.0, 90.0)


@pytest.mark.parametrize("habit", list(Habit))
@pytest.mark.parametrize("radius", RADII)
def test_no_plant_is_drawn_far_beyond_its_canopy(habit: Habit, radius: float) -> None:
    markup = glyph("g", habit, Stage.GROWING, radius, has_fruit=True).tostring()
    allowed = max(radius, 1.5) * 1.12 + 0.1
    for data in re.findall(r' d="([^"]+)"', markup):
        if "l" in data:  # twigs are told from where they start
            continue
        for x, y in corners(data):
            assert (x * x + y * y) ** 0.5 <= allowed


@pytest.mark.parametrize("stage", [Stage.SOWN, Stage.BARE])
@pytest.mark.parametrize("habit", list(Habit))
def test_what_is_not_up_has_no_leaves(habit: Habit, stage: Stage) -> None:
    markup = glyph("g", habit, stage, 20, has_fruit=True).tostring()
    assert "d-leaf" not in markup
    assert "d-stem" not in markup


@pytest.mark.parametrize("radius", [5.0, 20.0, 60.0])
def test_every_habit_has_a_shape_of_its_own_at_every_size(radius: float) -> None:
    shapes = {glyph("g", habit, Stage.GROWING, radius, has_fruit=True).tostring() for habit in Habit}
    assert len(shapes) == len(Habit)


@pytest.mark.parametrize("end", [(300.0, 0.0), (0.0, 40.0), (-80.0, 80.0)])
def test_a_vine_starts_and_ends_where_it_is_told(end: tuple[float, float]) -> None:
    stem = corners(re.findall(r' d="([^"]+)"', vine((0, 0), end, swing=10, bent=1)[0].tostring())[0])
    assert stem[0] == pytest.approx((0, 0), abs=0.01)
    assert stem[-1] == pytest.approx(end, abs=0.01)


def test_a_vine_of_no_length_is_not_drawn() -> None:
    assert vine((5, 5), (5, 5), swing=10, bent=1) == ()


@pytest.mark.parametrize("habit", list(Habit))
def test_a_plant_that_bears_no_fruit_shows_one_heart(habit: Habit) -> None:
    """Fails where kale or a leek is drawn with fruit, or a summer squash without."""
    heart, fruit = (
        glyph("g", habit, Stage.BEARING, 20, has_fruit=has_fruit).tostring().count("d-fruit")
        for has_fruit in (False, True)
    )
    assert (heart, fruit) == (1, 3)
