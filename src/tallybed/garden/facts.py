"""The facts that can be told of a crop, and the units each may be told in."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

RATE = "seed germination min"
"""The fact that says how much seed comes up at the least."""
TEXT: tuple[str, ...] = ()
"""Units of a fact that is told in words."""
_TIME = ("days", "weeks", "months")
_YIELD = (
    *("lb/10ft", "lb/100ft", "lb/plant", "lb/lb"),
    *("bunches/100ft", "ears/10ft", "ears/100ft", "fruit/100ft", "fruit/plant", "heads/100ft"),
    *("quart/plant", "stalks/100ft"),
)

FACTS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        # What it is, and how it begins.
        "botanical name": TEXT,
        "family": TEXT,
        "habit": TEXT,
        "usual start": TEXT,
        "weeks indoors": ("weeks",),
        # Room: between plants in a close bed, in rows, and into the soil.
        "spacing": ("in",),
        "intensive spacing": ("in",),
        "block spacing in row": ("in",),
        "plants per sqft": ("plants/sqft",),
        "area per plant": ("sqft",),
        "row spacing in row": ("in",),
        "row spacing between": ("in",),
        "planting depth": ("in",),
        # Time. ``of`` says what days to maturity are counted from.
        "days to maturity": ("days",),
        "days from sowing": ("days",),
        "days from setting out": ("days",),
        "usable days after first harvest": ("days",),
        "harvest until": TEXT,
        "succession interval": ("days",),
        "life span": ("years",),
        # Weeks from the average last spring freeze and first fall freeze; before them is negative.
        "spring planting offset": ("weeks",),
        "fall planting offset": ("weeks",),
        # Before winter, for the next year: weeks from the average first fall freeze, in a garden with a cold
        # winter and in one with a mild one; then weeks from the last spring freeze that follows.
        "planting before winter": ("weeks",),
        "planting before a mild winter": ("weeks",),
        "harvest after winter": ("weeks",),
        # What bears in fall alone: weeks from the average first fall freeze.
        "earliest harvest in fall": ("weeks",),
        # Cold.
        "hardiness": TEXT,
        "frost tolerance": TEXT,
        "frost tolerance temp": ("degF",),
        "frost kill temp": ("degF",),
        "chill injury temp": ("degF",),
        # Size.
        "mature height": ("in",),
        "height on support": ("in",),
        "spread": ("in",),
        "support height": ("in",),
        # Light: hours of direct sun a day.
        "sun hours": ("hours",),
        # What it gives.
        "yield": _YIELD,
        "yield per sqft": ("lb/sqft",),
        "yield per area": ("lb/acre", "ears/acre"),
        # Seed and soil.
        RATE: ("%",),
        "soil temp germ min": ("degF",),
        "soil temp germ range": ("degF",),
        "soil temp germ opt": ("degF",),
        "soil temp germ max": ("degF",),
        "soil temp plant min": ("degF",),
        "soil ph": ("pH",),
        # Harvest, curing, keeping.
        "harvest sign": TEXT,
        "harvest size": ("in",),
        "curing temp": ("degF",),
        "curing temp max": ("degF",),
        "curing rh": ("%",),
        "curing time": _TIME,
        "curing note": TEXT,
        "storage temp": ("degF",),
        "storage rh": ("%",),
        "storage life": _TIME,
        "storage note": TEXT,
        # What troubles it.
        "pest": TEXT,
        "disease": TEXT,
        "disorder": TEXT,
    }
)
"""Every fact by name, in the order the library tells them, with its units. Add a fact here: one row."""
