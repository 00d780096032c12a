"""What a bed is made of and filled with: its boards, and what a laboratory found in its soil."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from fractions import Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Boards:
    """What holds a bed's soil in."""

    material: str
    """In the gardener's words, such as ``larch`` or ``railway sleepers``."""
    treated: bool | None = None
    """Whether the wood was treated against rot; None where not told."""
    year: int | None = None
    """The year they were made or bought; None where not told."""
    lining: str = ""
    """In words; empty where not told, ``none`` where there is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilTest:
    """One laboratory's test of one bed's soil (a row of ``soil.yaml``)."""

    day: date
    bed: str
    ph: Fraction | None = None
    lead: Fraction | None = None
    """Milligrams in a kilogram, which is parts in a million."""
    lead_below: bool = False
    """Whether the laboratory found less than that and did not say how much."""
    laboratory: str = ""
    document: str = ""
    """Where the report can be read, in words or as an address."""
    note: str = ""
