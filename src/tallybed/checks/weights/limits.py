"""What a plant and a piece can weigh at the most and the least, wide on purpose.

Pieces: FoodData Central (SR), the produce tables of University of Georgia and Michigan State
University, and for the largest heads of garlic a grower's record. Plants: University of Maine's
chart, weighed gardens and common practice, no source. Each figure is several times the usual one
above and a small part of it below, by our choice: a slip of the pen passes them. Nothing of it is
told to the public.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from tallybed.garden.crops import Crop, Habit


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Grams, of fresh harvest."""

    plant: int
    """The most of one plant in a season."""
    least: float = 0
    """The least a piece that was counted can weigh; 0: not told."""
    most: int = 0
    """The most a piece that was counted can weigh; 0: not told."""


def _one(least: float, most: int) -> Limits:
    """Return the limits of a crop of which a plant gives one piece."""
    return Limits(plant=most, least=least, most=most)


LIMITS: Mapping[str, Limits] = MappingProxyType(
    {
        "arugula": Limits(plant=400),
        "basil": Limits(plant=2500),
        "bean-broad": Limits(plant=2500, least=0.5, most=120),
        "bean-bush": Limits(plant=1500, least=0.5, most=60),
        "bean-pole": Limits(plant=3000, least=0.5, most=80),
        "beet": _one(8, 1500),
        "broccoli": Limits(plant=3000, least=5, most=2500),
        "brussels-sprouts": Limits(plant=4000, least=1, most=2500),
        "cabbage": _one(80, 9000),
        "cantaloupe": Limits(plant=20000, least=200, most=6000),
        "carrot": _one(3, 600),
        "cauliflower": _one(40, 4000),
        "celery": Limits(plant=4000),
        "chard": Limits(plant=5000),
        "chinese-cabbage": Limits(plant=6000, least=40, most=6000),
        "chives": Limits(plant=1500),
        "cilantro": Limits(plant=400),
        "collards": Limits(plant=6000),
        "cucumber": Limits(plant=18000, least=5, most=1800),
        "dill": Limits(plant=800),
        "eggplant": Limits(plant=14000, least=20, most=2000),
        "garlic": _one(8, 320),
        "kale": Limits(plant=6000),
        "kohlrabi": _one(25, 4000),
        "leek": _one(15, 1500),
        "lettuce-head": Limits(plant=1500, most=1500),
        "lettuce-leaf": Limits(plant=1500, most=1500),
        "mustard-greens": Limits(plant=1800),
        "okra": Limits(plant=5000, least=2, most=120),
        "onion-bulb": _one(8, 1200),
        "onion-bunching": Limits(plant=250, least=1, most=250),
        "parsley": Limits(plant=2500),
        "parsnip": _one(8, 1500),
        "pea-garden": Limits(plant=600, least=0.3, most=30),
        "pea-snap": Limits(plant=700, least=0.3, most=30),
        "pepper-sweet": Limits(plant=7000, least=2, most=700),
        "potato": Limits(plant=8000, least=5, most=1500),
        "pumpkin": Limits(plant=80000, least=80, most=40000),
        "radish": _one(1, 120),
        "rutabaga": _one(40, 4000),
        "shallot": Limits(plant=600, least=2, most=150),
        "spinach": Limits(plant=700),
        "squash-summer": Limits(plant=25000, least=8, most=5000),
        "squash-winter": Limits(plant=40000, least=100, most=20000),
        "strawberry": Limits(plant=3000, least=1, most=90),
        "sweet-corn": Limits(plant=2500, least=40, most=900),
        "sweet-potato": Limits(plant=9000, least=10, most=3000),
        "tomato-determinate": Limits(plant=18000, least=2, most=1200),
        "tomato-indeterminate": Limits(plant=30000, least=2, most=1500),
        "turnip": _one(8, 2500),
        "watermelon": Limits(plant=50000, least=400, most=30000),
    }
)
BY_HABIT: Mapping[Habit, Limits] = MappingProxyType(
    {
        Habit.ROOT: Limits(plant=2500),
        Habit.ROSETTE: Limits(plant=4000),
        Habit.UPRIGHT: Limits(plant=7000),
        Habit.CLIMBING: Limits(plant=20000),
        Habit.RUNNING: Limits(plant=50000),
    }
)
"""For crops that nobody weighed for the table: by their kind. Our choice."""
LARGE = ("daikon", "mooli", "black spanish", "mammoth", "giant", "elephant", "beefsteak")
"""Words in a variety's name that tell of pieces many times the usual size."""
LARGE_BY = 8
BY_AREA = 12000
"""Grams from a square foot in a season above which nothing is believed, whatever the count of plants. Our
choice: seven times the best published row yield, and what a tall tomato gives in one square."""


def limits_of(crop: Crop, variety: str) -> Limits:
    """Return what a crop's plants and pieces can weigh."""
    found = LIMITS.get(crop.slug) or BY_HABIT[crop.habit]
    if not any(word in variety.casefold() for word in LARGE):
        return found
    return Limits(plant=found.plant * LARGE_BY, least=found.least, most=found.most * LARGE_BY)
