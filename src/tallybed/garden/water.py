"""How much water was given: a volume, or a depth over the squares that were watered."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.units import FOOT, LITRE, Length

_SQUARE_FOOT = FOOT.size**2
"""Square nanometres in a square foot."""
_LITRE = LITRE.size * 10**18
"""Cubic nanometres in a litre; a unit of volume has its size in cubic millimetres."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """An amount of water with its unit: one of the two is told."""

    litres: Fraction | None = None
    depth: Length | None = None

    def over(self, square_feet: Fraction) -> Fraction | None:
        """Return the litres that it comes to over an area in square feet; None for a depth over no area.

        A millimetre of water over a square metre is a litre (geometry).
        """
        if self.litres is not None:
            return self.litres
        if self.depth is None or not square_feet:
            return None
        return self.depth.nanometres * square_feet * _SQUARE_FOOT / _LITRE
