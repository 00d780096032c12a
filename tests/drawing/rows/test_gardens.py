"""The strip of whole gardens: every name is told whole, on wide pages and narrow ones."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.drawing.rows.gardens import GardenDot, garden_strip
from tests.drawing.markup import SVG, of_class, parsed

NAMES = (
    "2026 so far, over the squares, their run-outs and path",
    "2026 so far, over the squares",
    "A far county: the mean of experienced gardeners of two kinds of beds",
)


@pytest.mark.parametrize("narrow", [False, True])
def test_a_long_name_takes_a_second_line_and_is_not_cut(narrow: bool) -> None:
    half = Fraction(1, 2)
    dots = tuple(GardenDot(name=name, words="0.50", low=half, high=half, own=True) for name in NAMES)
    root = parsed(garden_strip(dots, unit="lb per sq ft", ident="g", title="Gardens", narrow=narrow))
    lanes = of_class(root, "d-garden")
    lines = [list(lane.iter(f"{SVG}text")) for lane in lanes]
    assert [" ".join("".join(one.itertext()) for one in lane) for lane in lines] == list(NAMES)
    heights = [float(one.get("y", "")) for lane in lines for one in lane]
    assert heights == sorted(set(heights)), "no line lies on another"
    assert heights[-1] < float(root.get("viewBox", "").split()[-1])
