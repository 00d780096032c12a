"""A picture that is shown with an address, as words and bars for whoever draws it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

WIDTH, HEIGHT = 1200, 630
"""Pixels. The shape is 1.91 to 1, which the common readers of Open Graph pictures ask for (common practice,
no source); so is half of each, below which some show a picture as small as a stamp."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """One picture's words and bars."""

    path: str
    garden: str
    place: str
    season: str
    before: str
    """``at least``, or nothing."""
    number: str
    unit: str
    lines: tuple[str, ...]
    """What the number is, and more figures: ``1.40 lb per sq ft of the squares``."""
    bars: tuple[Fraction | None, ...]
    """Each week of the season as a part of its best one; None for a week still to come."""
    months: tuple[tuple[str, int], ...]
    """Each month's first letters, and the place in ``bars`` of the week it begins in."""
    alt: str = ""
    """What it says, for those who cannot see it; a season's is worded in ``head``."""
    halved: bool = False
    """Whether it is half as wide and high, and so a third as many bytes."""

    @property
    def size(self) -> tuple[int, int]:
        """Return its width and height in pixels."""
        return (WIDTH // 2, HEIGHT // 2) if self.halved else (WIDTH, HEIGHT)
