"""Whether a single picking can weigh what was told, by what is published of its crop's yields."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tallybed.garden.crops import Habit
from tallybed.garden.garden import Garden
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.squares import Square
from tallybed.garden.units import POUND, Weight
from tallybed.reckoning.harvest.areas import run_out
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Holding

_Origin = tuple[frozenset[str], tuple[Square, ...], str]
"""Crops, squares and tag of a picking."""
TIMES = 8
"""How many times a season's yield from rows a weight must pass, of a picking or of a planting, to be a slip
of the pen. Our choice: close beds are said to give several times what rows with their paths give."""


class Belief:
    """What a picking of a season can weigh, worked out once for each crop and place.

    It is held against the highest published yield of its crop over all squares that it can have come
    from, and the ground its vines were led out over; where none is published, against the highest of
    all crops. So is what runs: its rows stand six feet and more apart, and its squares are a small part
    of the ground that it has.
    """

    def __init__(self, garden: Garden, holding: Holding) -> None:
        """Know the garden, and who held its squares in the season."""
        self._garden = garden
        self._holding = holding
        self._areas: dict[_Origin, tuple[Fraction, Weight | None]] = {}

    def beyond(self, weighing: Weighing) -> str:
        """Return in words why a picking cannot weigh so much, or an empty text."""
        if weighing.weight is None:
            return ""
        slugs = frozenset(slug for crop in weighing.crops for slug in crop.slugs)
        origin = (slugs, weighing.squares, weighing.tag.upper())
        if origin not in self._areas:
            self._areas[origin] = self._most(*origin)
        area, most = self._areas[origin]
        if most is None or weighing.weight.nanograms <= most.nanograms:
            return ""
        showing = self._garden.showing
        return (
            f"{showing.summed(weighing.weight)} at once is beyond belief: over {TIMES} times what "
            f"{showing.area(area)} can give in a whole season by published yields; "
            "look at the unit and the decimal sign"
        )

    def _most(
        self, slugs: frozenset[str], squares: tuple[Square, ...], tag: str
    ) -> tuple[Fraction, Weight | None]:
        """Return the square feet that a picking can have come from, and the most that is believed of them."""
        garden = self._garden
        ground = frozenset(squares) or self._held(slugs, tag)
        ground = ground or frozenset(square for bed in garden.beds for square in bed.squares)
        area = garden.area_of(ground)
        for planting in self._of(slugs, tag):
            led_out = planting.planned.led_out if planting.planned else None
            area += run_out(garden, planting.squares, led_out)
        runs = any(crop.habit is Habit.RUNNING for crop in garden.crops if crop.slug in slugs)
        high = (None if runs else self._highest(slugs)) or self._highest(None)
        # A bed that could not be read leaves no ground to judge by.
        return area, Weight.of(high * area * TIMES, POUND) if high is not None and area else None

    def _held(self, slugs: frozenset[str], tag: str) -> frozenset[Square]:
        """Return the squares that a tag's planting, or else the plantings of crops, held in the season."""
        return frozenset(
            hold.square
            for planting in self._of(slugs, tag)
            for hold in self._holding.of_planting(planting.key)
        )

    def _of(self, slugs: frozenset[str], tag: str) -> Iterator[Planting]:
        """Yield a tag's planting, or else the plantings of crops."""
        for planting in self._holding.plantings:
            if planting.tag.upper() == tag if tag else slugs.intersection(planting.crop.slugs):
                yield planting

    def _highest(self, slugs: frozenset[str] | None) -> Fraction | None:
        """Return the highest published yield of crops in pounds a square foot; None where there is none."""
        crops = (crop for crop in self._garden.crops if slugs is None or crop.slug in slugs)
        figures = (crop.used("yield per sqft") for crop in crops)
        return max((one.high for one in figures if one is not None and one.high is not None), default=None)
