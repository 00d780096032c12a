"""What stands around the beds and takes sun from them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from tallybed.garden.units import Length


class ThingKind(StrEnum):
    """What kind of thing it is."""

    WALL = "wall"
    FENCE = "fence"
    HEDGE = "hedge"
    HOUSE = "house"
    TREE = "tree"


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """One thing around the beds: its near face, an upright rectangle on level ground.

    The middle of the face lies at a bearing and a distance from the middle of a bed's
    outer rectangle, and the face looks squarely at it.
    """

    kind: ThingKind
    name: str
    bearing: Fraction
    """Degrees clockwise from true north, from the middle of the bed."""
    distance: Length
    width: Length
    height: Length
    leafless: frozenset[int] = frozenset()
    """Months, 1 to 12, in which a tree has no leaves and shades nothing."""
    bed: str = ""
    """The bed it is measured from; empty where it stands so before each of them."""
