"""What ordinary rows give, as printed: pounds per square foot of row garden, by crop.

A printed figure is a yield per length of row over the distance between the rows, so it
holds the rows' own paths. The library keeps each with its source and says how it was
worked out; the one in the middle is the library's ``used`` figure, by its own rule.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.crops import Crop, Figure

FACT = "yield per sqft"
ROW_GARDEN = "row garden"
"""What a figure must hold for; one for a home bed, or a field, is another thing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """The printed row yields of a crop, in pounds per square foot; all three above nothing."""

    low: Fraction
    middle: Fraction
    high: Fraction
    figures: tuple[Figure, ...]
    """Every figure, each with its source."""

    @property
    def sources(self) -> tuple[str, ...]:
        """The ids of the sources, in the library's order, each once."""
        return tuple(dict.fromkeys(figure.source for figure in self.figures if figure.source))


def printed(crop: Crop) -> Printed | None:
    """Return a crop's printed row yields, or None where the library has none."""
    figures = tuple(figure for figure in crop.all_of(FACT) if figure.of == ROW_GARDEN and figure.low)
    used = crop.used(FACT)
    lows = [figure.low for figure in figures if figure.low is not None]
    highs = [figure.high for figure in figures if figure.high is not None]
    if not lows or not highs or used is None or used.of != ROW_GARDEN:
        return None
    if used.low is None or used.high is None:
        return None
    return Printed(
        low=min(lows),
        middle=(used.low + used.high) / 2,
        high=max(highs),
        figures=figures,
    )
