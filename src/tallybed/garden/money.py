"""What was spent, and what the produce would have cost (rows of ``costs.yaml`` and ``prices.yaml``)."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from fractions import Fraction

from tallybed.garden.findings import NOWHERE, Place
from tallybed.garden.units import Unit


class Purpose(StrEnum):
    """What money was spent for."""

    SEED = "seed"
    PLANTS = "plants"
    SOIL = "soil"
    FEED = "feed"
    WATER = "water"
    PROTECTION = "protection"
    TOOLS = "tools"
    BED = "bed"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """One thing that was paid for, in the garden's currency."""

    day: date
    what: str
    amount: Fraction
    purpose: Purpose = Purpose.OTHER
    years: int = 1
    """Seasons that bear an equal part of it, this one the first; 1 where it is not spread."""
    note: str = ""

    @property
    def spread(self) -> bool:
        """Whether later seasons bear a part of it."""
        return self.years > 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """What a unit of weight of a crop was sold for, at one place on one day."""

    day: date
    crop: str
    """Slug."""
    amount: Fraction
    per: Unit
    seen_at: str = ""
    note: str = ""
    place: Place = field(default=NOWHERE, compare=False, repr=False)

    @property
    def per_nanogram(self) -> Fraction:
        """The price by weight, in the garden's currency."""
        return self.amount / self.per.size
