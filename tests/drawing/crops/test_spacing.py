"""The sketch of a spacing, measured back from its markup."""

from __future__ import annotations

from itertools import combinations
from math import hypot

import pytest

from tallybed.drawing.crops.spacing import block, spacing_sketch
from tallybed.garden.crops import Habit
from tallybed.garden.units import CENTIMETRE, INCH, Length
from tests.drawing.markup import of_class, parsed, place, words

FOOT = Length.of(12, INCH)


@pytest.mark.parametrize("inches", [2, 3, 4, 5, 6, 8, 9, 12, 15, 18, 24, 36])
def test_plants_stand_at_their_spacing_in_the_scale_of_the_squares(inches: int) -> None:
    root = parsed(spacing_sketch(Length.of(inches, INCH), FOOT, Habit.ROOT, ident="s", apart="a", square="b"))
    frame = of_class(root, "d-frame")[0]
    left, top, width, height = (float(frame.get(key, "")) for key in ("x", "y", "width", "height"))
    columns, _rows = block(Length.of(inches, INCH), FOOT)
    per_inch = width / columns / 12
    plants = [place(each) for each in root.iter() if each.tag.endswith("use")]
    assert len(plants) >= 2, "a distance is seen between two plants"
    apart = min(hypot(ax - bx, ay - by) for (ax, ay), (bx, by) in combinations(plants, 2))
    assert apart == pytest.approx(inches * per_inch, abs=0.05)
    half = inches * per_inch / 2 - 0.05
    for x, y in plants:
        assert left + half <= x <= left + width - half, "half the spacing is kept at the edge"
        assert top + half <= y <= top + height - half


def test_both_lengths_are_written_and_no_count_is() -> None:
    drawn = spacing_sketch(Length.of(3, INCH), FOOT, Habit.ROOT, ident="s", apart="3 in", square="1 ft")
    assert words(parsed(drawn)) == ["3 in", "1 ft"]


def test_the_measure_is_as_long_as_the_distance_it_names() -> None:
    drawn = spacing_sketch(
        Length.of(30, CENTIMETRE), Length.of(40, CENTIMETRE), Habit.UPRIGHT, ident="s", apart="a", square="b"
    )
    root = parsed(drawn)
    spans = []
    for name in ("d-spacing", "d-square-side"):
        (measure,) = (each for each in of_class(root, name)[0] if each.tag.endswith("line"))
        spans.append(float(measure.get("x2", "")) - float(measure.get("x1", "")))
    assert spans[0] / spans[1] == pytest.approx(30 / 40, abs=0.01)


def test_there_is_no_sketch_of_no_distance() -> None:
    with pytest.raises(ValueError, match="no sketch"):
        spacing_sketch(Length(), FOOT, Habit.ROOT, ident="s", apart="", square="")
