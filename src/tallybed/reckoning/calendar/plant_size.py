"""How wide plants are drawn as they grow, and how large a crop grows in print.

A map draws each plant as a part of the room its spacing gives it: close planting
lets grown plants touch. Common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.crops import Crop, Figure, Footing, Habit
from tallybed.garden.units import INCH, Length
from tallybed.reckoning.calendar.stages import Stage

SEEDLING, GROWN = Fraction(35, 100), Fraction(95, 100)
"""A plant's width as a part of its spacing when it comes up, and before it bears. Our choice for drawing."""
MIDWAY = Fraction(75, 100)
"""The same while it grows, where nobody knows how far on it is. Our choice for drawing."""
_WHOLE = Fraction(1)
VINE_RUN = "vine run"
"""What a spread is said to be of where it is the run of vines, not the width of a plant."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """One measure of a grown plant."""

    length: Length
    about: bool
    """Whether it is from memory or derived, not printed as it stands."""
    of_vines: bool = False
    """For a spread: whether it is the run of vines along the ground."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizes:
    """How large a crop grows, as far as that is known."""

    height: Size | None = None
    spread: Size | None = None


UNKNOWN = Sizes()


def width(stage: Stage, age: Fraction | None) -> Fraction:
    """Return the drawn width of a plant as a part of its spacing.

    ``age``: days grown ÷ days to maturity, or None where that is not known. While it
    grows a plant widens evenly from a seedling's width to almost its spacing.
    """
    if stage is Stage.BARE:
        return Fraction(0)
    if stage is Stage.SOWN:
        return SEEDLING
    if stage in (Stage.BEARING, Stage.OVER):
        return _WHOLE
    if age is None or stage is Stage.LOST:
        return MIDWAY
    return SEEDLING + (GROWN - SEEDLING) * min(max(age, Fraction(0)), _WHOLE)


def sizes(crop: Crop | None, *, supported: bool | None = None) -> Sizes:
    """Return the grown height and spread used for a crop.

    ``supported``: whether it is led up a support; where that is not told, a crop that
    climbs counts as led up.
    """
    if crop is None:
        return UNKNOWN
    led_up = crop.habit is Habit.CLIMBING if supported is None else supported
    on_support = crop.used("height on support") if led_up else None
    return Sizes(
        height=_size(on_support or crop.used("mature height")),
        spread=_size(crop.used("spread")),
    )


def _size(figure: Figure | None) -> Size | None:
    """Return a figure in inches as a size: the middle of its range; None for any other unit."""
    if figure is None or figure.low is None or figure.high is None or figure.unit != "in":
        return None
    return Size(
        length=Length.of((figure.low + figure.high) / 2, INCH),
        about=figure.kind not in (Footing.PUBLISHED, Footing.GARDEN) or figure.low != figure.high,
        of_vines=VINE_RUN in figure.of,
    )
