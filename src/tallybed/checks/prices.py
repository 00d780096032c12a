"""Prices beyond belief, beside others of the same crop and of other crops."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from operator import attrgetter

from tallybed.checks.results import CheckResult, warning
from tallybed.garden.findings import Finding
from tallybed.garden.garden import Garden
from tallybed.garden.grouping import grouped
from tallybed.garden.money import Price
from tallybed.reckoning.medians import median
from tallybed.reckoning.year import Year

OF_ONE_CROP = 10
"""How many times another price of the same crop a price must be to be taken for a slip. Our choice."""
OF_OTHERS = 100
"""The same beside the middle price of other crops: herbs cost about fifty times as much as potatoes by
weight. Our choice."""
_BY_WEIGHT = attrgetter("per_nanogram")
_FEWEST = 3
"""Other crops with a price that it takes to tell."""


def price_far_off(year: Year) -> Iterator[CheckResult]:
    """Find prices that another of the same crop, or those of all other crops, make a slip of the pen."""
    told = (price for price in year.season.prices or () if price.amount)
    by_crop = grouped(told, lambda price: price.crop)
    middles = {crop: median([one.per_nanogram for one in prices]) for crop, prices in by_crop.items()}
    for crop, prices in by_crop.items():
        others = [middle for other, middle in middles.items() if other != crop]
        usual = median(others) if others else middles[crop]
        near, far = sorted(
            (min(prices, key=_BY_WEIGHT), max(prices, key=_BY_WEIGHT)),
            key=lambda price: _apart(price.per_nanogram, usual),
        )
        if _apart(near.per_nanogram, far.per_nanogram) >= OF_ONE_CROP:
            yield None, _off(year.garden, far, near.per_nanogram, f"that on line {near.place.line}")
        elif len(others) >= _FEWEST and _apart(middles[crop], usual) >= OF_OTHERS:
            yield None, _off(year.garden, far, usual, "the middle one of other crops")


def _apart(one: Fraction, other: Fraction) -> Fraction:
    """Return how many times the lesser of two prices the greater is."""
    return max(one / other, other / one)


def _off(garden: Garden, price: Price, other: Fraction, of: str) -> Finding:
    """Return the finding that a price is too far from another."""
    name, per = garden.crop(price.crop).name, price.per_nanogram
    apart = round(_apart(per, other))
    found = f"{apart} times {of}" if per > other else f"one part in {apart} of {of}"
    return warning(
        price.place,
        "price-far-off",
        f"by weight the price of {name} is {found}",
        expected=f"prices of one crop within {OF_ONE_CROP} times each other, of several within {OF_OTHERS}",
        remedy="check the decimal point and the unit",
    )
