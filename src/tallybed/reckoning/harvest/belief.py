"""Whether a single picking can weigh what was told, by what is published of its crop's yields."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from tallybed.garden.garden import Garden
from tallybed.garden.ledger import Weighing
from tallybed.garden.squares import Square
from tallybed.garden.units import FOOT, POUND, Weight
from tallybed.reckoning.squares.occupancy import Holding

TIMES = 8
"""How many times a whole season's published yield one picking must pass to be beyond belief.

As for a planting in ``checks.ledger``: our choice; intensive beds are said to give up to
several times what a field row gives."""


def beyond_belief(garden: Garden, holding: Holding, weighing: Weighing) -> str:
    """Return in words why a picking cannot weigh so much, or an empty text.

    It is held against the highest published yield of its crop over all squares that it can have come
    from; where none is published, against the highest of all crops.
    """
    if weighing.weight is None:
        return ""
    slugs = {slug for crop in weighing.crops for slug in crop.slugs}
    high = _highest(garden, slugs) or _highest(garden, None)
    area = _square_feet(garden, _ground(garden, holding, weighing, slugs))
    bound = Weight.of(high * area, POUND) if high is not None else None
    if bound is None or weighing.weight.nanograms <= bound.nanograms * TIMES:
        return ""
    showing = garden.showing
    return (
        f"{showing.summed(weighing.weight)} at once is beyond belief: over {TIMES} times what "
        f"{showing.area(area)} give in a whole season by published yields; "
        "look at the unit and the decimal sign"
    )


def _highest(garden: Garden, slugs: Iterable[str] | None) -> Fraction | None:
    """Return the highest published yield of crops in pounds a square foot; None where none is published."""
    wanted = None if slugs is None else set(slugs)
    crops = (crop for crop in garden.crops if wanted is None or crop.slug in wanted)
    figures = (crop.used("yield per sqft") for crop in crops)
    return max((one.high for one in figures if one is not None and one.high is not None), default=None)


def _ground(garden: Garden, holding: Holding, weighing: Weighing, slugs: set[str]) -> frozenset[Square]:
    """Return the squares that a picking can have come from: those told, else its plantings', else all."""
    if weighing.squares:
        return frozenset(weighing.squares)
    tag = weighing.tag.upper()
    held = frozenset(
        hold.square
        for planting in holding.plantings
        if (planting.tag.upper() == tag if tag else slugs.intersection(planting.crop.slugs))
        for hold in holding.of_planting(planting.key)
    )
    return held or frozenset(square for bed in garden.beds for square in bed.squares)


def _square_feet(garden: Garden, squares: Iterable[Square]) -> Fraction:
    return sum((garden.bed(square.bed).side.within(FOOT) ** 2 for square in squares), Fraction(0))
