"""The ground a planting lives on: its squares, the ground its vines are led out over, its share of path."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.garden import Garden
from tallybed.garden.records.plan import LedOut
from tallybed.garden.squares import Square
from tallybed.reckoning.harvest.areas import run_out


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantingGround:
    """The areas a planting lives on, in square feet. Squares that it shares are counted whole."""

    squares: Fraction
    run_out: Fraction
    path: Fraction

    @property
    def whole(self) -> Fraction:
        """All of it: what is like the ground of a row, which holds its own path and room for vines."""
        return self.squares + self.run_out + self.path


def planting_ground(garden: Garden, squares: Iterable[Square], led_out: LedOut | None) -> PlantingGround:
    """Return the ground of a planting in some squares.

    Each square has an equal part of its bed's share of the paths.
    """
    found = set(squares)
    beds = [garden.bed(square.bed) for square in found]
    path = sum((bed.path_square_feet / len(bed.squares) for bed in beds), Fraction(0))
    return PlantingGround(squares=garden.area_of(found), run_out=run_out(garden, found, led_out), path=path)
