"""Prices that a slip of the pen makes a thousand times what they are, and prices that only differ."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tallybed.checks.registry import every_finding
from tallybed.reckoning.year import Years
from tests.small_garden import read_garden, written

GARDEN = """
name: Test
currency: EUR
season: {start: Mar 1, end: Nov 30}
beds:
  - {name: b, length: 4 squares, width: 2 squares}
"""


def told(folder: Path, *prices: str) -> list[tuple[int, str]]:
    """Return the line and the words of what is told of some prices, each as a crop, an amount and a unit."""
    rows = [
        f"- {{crop: {crop}, price: {price}, per: {per}, date: 2026-06-0{number}}}\n"
        for number, (crop, price, per) in enumerate(map(str.split, prices), 1)
    ]
    garden = read_garden(written(folder, {"garden.yaml": GARDEN, "2026/prices.yaml": "".join(rows)}))
    year = Years(garden=garden, today=date(2026, 10, 1)).all[-1]
    return [(one.place.line, one.found) for one in every_finding(year, {"price-far-off"})]


@pytest.mark.parametrize(
    ("prices", "line", "words"),
    [
        (("kale 4.50 kg", "kale 4500 kg", "leek 3 kg"), 2, "1000 times that on line 1"),
        (("kale 4.50 g", "kale 4.50 kg", "leek 3 kg"), 1, "1000 times that on line 2"),
        (("kale 4.50 kg", "kale 0.45 kg", "leek 3 kg"), 2, "one part in 10 of that on line 1"),
        (("kale 4.50 g", "leek 3 kg", "potato 1.2 kg", "carrot 2 kg"), 1,
         "2250 times the middle one of other crops"),
    ],
)  # fmt: skip
def test_a_slip_of_the_pen_is_told(prices: tuple[str, ...], line: int, words: str, tmp_path: Path) -> None:
    """Else the pages tell what a bed is worth from a price a thousand times too high."""
    assert told(tmp_path, *prices) == [(line, f"by weight the price of kale is {words}")]


@pytest.mark.parametrize(
    "prices",
    [
        ("kale 4.50 kg", "kale 44.90 kg"),
        ("basil 2.49 oz", "potato 0.80 kg", "leek 3 kg", "carrot 2 kg"),
        ("kale 4.50 g", "leek 3 kg", "potato 1.2 kg"),
        ("kale 0 kg", "kale 4.50 kg"),
    ],
    ids=["nearly ten times", "herbs beside potatoes", "too few others", "given away"],
)
def test_prices_that_only_differ_are_believed(prices: tuple[str, ...], tmp_path: Path) -> None:
    assert told(tmp_path, *prices) == []
