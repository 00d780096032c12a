"""Plantings as dots over the printed range of their crop."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.drawing.rows.dots import CropDots, PlantingDot, planting_dots

PLACES = {
    "of 2026": "a planting of 2026",
    "earlier": "of another season",
    "open": "at least, or still going on",
    "nothing": "gave nothing",
}


def dot(kind: str) -> PlantingDot:
    gave = Fraction(0 if kind == "nothing" else 1)
    return PlantingDot(name=kind, value=gave, twin=gave, present=kind != "earlier", open=kind == "open")


@pytest.mark.parametrize("kind", PLACES)
def test_the_key_tells_only_signs_that_are_drawn(kind: str) -> None:
    crop = CropDots(
        name="spinach",
        verdict="too little to tell",
        low=Fraction(1),
        middle=Fraction(2),
        high=Fraction(3),
        near=(Fraction(1), Fraction(4)),
        median=None,
        dots=(dot(kind),),
    )
    drawing = planting_dots((crop,), season="2026", ident="d", title="Plantings")
    told = {words for words in PLACES.values() if f">{words}<" in drawing}
    assert told == {PLACES[kind]}
    assert ">printed for rows<" in drawing
    assert ">the median<" not in drawing
    assert ">over its squares alone<" not in drawing, "the two lie at one place"
