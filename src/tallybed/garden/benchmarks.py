"""Measured yields, work, water and money of other gardens, each with where it comes from."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction


class Topic(StrEnum):
    """What a figure of other gardens is about."""

    YIELD = "yield"
    WORK = "work"
    WATER = "water"
    MONEY = "money"


@dataclass(frozen=True, slots=True, kw_only=True)
class Benchmark:
    """One figure of other gardens. ``low`` and ``high`` are equal for a single number."""

    topic: Topic
    what: str
    low: Fraction
    high: Fraction
    unit: str
    where: str
    when: str = ""
    """The years it was measured in, or those of the publication, as the source has them."""
    number: str = ""
    """How many gardens or plots."""
    area: str = ""
    """Which area was counted."""
    source: str
    """The source's id."""
    second_hand: bool = False
    """Whether the source was seen only through another page that quotes it."""
    note: str = ""
