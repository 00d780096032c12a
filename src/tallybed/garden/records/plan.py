"""The plan: what is meant to stand where, and when (rows of ``plan.yaml``).

Every record carries the place it was read from, outside equality. Squares are named with their bed.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from fractions import Fraction

from tallybed.garden.findings import NOWHERE, Place
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import Length


class Start(StrEnum):
    """How a planting comes into its squares."""

    SOW = "sow"
    SET_OUT = "set out"
    CARRIED = "carried from"


@dataclass(frozen=True, slots=True, kw_only=True)
class LedOut:
    """Vines of a planting led out over a side: of each of its beds that has a side of that name."""

    side: str
    reach: Length

    def leaves(self, bed: Bed) -> bool:
        """Return whether the vines that stand in a bed are led out of it."""
        return self.side in bed.sides


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRow:
    """One crop meant for some squares over one span of days (a row of ``plan.yaml``)."""

    crop: str
    squares: tuple[Square, ...]
    start: Start
    begins: date
    """The day it is sown or set out in the bed; a carried one stands from the season's first day."""
    until: date
    """The day it is meant to be cleared and its squares are free; by default the day after the season."""
    until_told: bool = True
    tag: str = ""
    variety: str = ""
    sow_indoors: date | None = None
    pot_up: date | None = None
    plants: int | None = None
    """Plants meant, in all the squares."""
    spacing: Length | None = None
    among: str = ""
    """Tag, or crop slug, of the planting it shares its squares with."""
    share: Fraction | None = None
    led_out: LedOut | None = None
    dropped: date | None = None
    because: str = ""
    carried_from: str = ""
    note: str = ""
    silence: tuple[tuple[str, str], ...] = ()
    """Findings not to be told of this record: (code, reason)."""
    place: Place = field(default=NOWHERE, compare=False, repr=False)
