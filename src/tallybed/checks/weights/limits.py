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
    """What a crop can give, in grams of fresh harvest."""

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
        "arugula": Limits(plant=300),
        "basil": Limits(plant=1400),
        "bean-broad": Limits(plant=1200, least=0.5, most=120),
        "bean-bush": Limits(plant=700, least=0.5, most=60),
        "bean-lima": Limits(plant=700, least=0.5, most=60),
        "bean-pole": Limits(plant=1500, least=0.5, most=80),
        "bean-runner": Limits(plant=4000, least=0.5, most=120),
        "beet": _one(8, 900),
        "broccoli": Limits(plant=2000, least=5, most=2500),
        "brussels-sprouts": Limits(plant=2500, least=1, most=2500),
        "cabbage": _one(80, 5000),
        "cantaloupe": Limits(plant=15000, least=200, most=6000),
        "carrot": _one(3, 350),
        "cauliflower": _one(40, 2500),
        "celeriac": _one(30, 2000),
        "celery": Limits(plant=2500),
        "chard": Limits(plant=3000),
        "chinese-cabbage": Limits(plant=4000, least=40, most=6000),
        "chives": Limits(plant=800),
        "cilantro": Limits(plant=300),
        "collards": Limits(plant=4000),
        "cucumber": Limits(plant=12000, least=8, most=1800),
        "daikon": _one(40, 5000),
        "dill": Limits(plant=500),
        "edamame": Limits(plant=500, least=0.5, most=30),
        "eggplant": Limits(plant=9000, least=20, most=2000),
        "fennel": _one(30, 1500),
        "garlic": _one(8, 300),
        "ground-cherry": Limits(plant=3000, least=0.3, most=15),
        "kale": Limits(plant=3500),
        "kohlrabi": _one(25, 2000),
        "leek": _one(15, 900),
        "lettuce-head": Limits(plant=1200, least=25, most=1200),
        "lettuce-leaf": Limits(plant=1000, most=1000),
        "mustard-greens": Limits(plant=1000),
        "nasturtium": Limits(plant=1500),
        "okra": Limits(plant=2500, least=2, most=120),
        "onion-bulb": _one(8, 700),
        "onion-bunching": Limits(plant=150, least=1, most=250),
        "parsley": Limits(plant=1500),
        "parsnip": _one(8, 700),
        "peanut": Limits(plant=600),
        "pea-garden": Limits(plant=350, least=0.3, most=30),
        "pea-snap": Limits(plant=400, least=0.3, most=30),
        "pea-snow": Limits(plant=400, least=0.3, most=30),
        "pepper-hot": Limits(plant=3000, least=0.3, most=200),
        "pepper-sweet": Limits(plant=5000, least=8, most=700),
        "potato": Limits(plant=5000, least=8, most=1500),
        "pumpkin": Limits(plant=60000, least=80, most=40000),
        "radicchio": _one(30, 1000),
        "radish": _one(1, 80),
        "rutabaga": _one(40, 2500),
        "shallot": Limits(plant=500, least=2, most=150),
        "spinach": Limits(plant=500),
        "squash-summer": Limits(plant=16000, least=15, most=5000),
        "squash-winter": Limits(plant=30000, least=100, most=20000),
        "strawberry": Limits(plant=1500, least=1, most=90),
        "sunflower": Limits(plant=2500, least=10, most=2500),
        "sweet-corn": Limits(plant=1800, least=40, most=900),
        "sweet-potato": Limits(plant=6000, least=10, most=3000),
        "tomatillo": Limits(plant=8000, least=3, most=150),
        "tomato-determinate": Limits(plant=14000, least=2, most=1200),
        "tomato-indeterminate": Limits(plant=25000, least=2, most=1500),
        "turnip": _one(8, 1200),
        "watermelon": Limits(plant=40000, least=400, most=30000),
    }
)
BY_HABIT: Mapping[Habit, Limits] = MappingProxyType(
    {
        Habit.ROOT: Limits(plant=1500),
        Habit.ROSETTE: Limits(plant=2500),
        Habit.UPRIGHT: Limits(plant=5000),
        Habit.CLIMBING: Limits(plant=12000),
        Habit.RUNNING: Limits(plant=40000),
    }
)
"""For crops that nobody weighed for the table: by their kind. Our choice."""
LARGE = ("daikon", "mooli", "black spanish", "mammoth", "giant", "elephant", "beefsteak")
"""Words in a variety's name that tell of pieces many times the usual size."""
LARGE_BY = 8
BY_AREA = 12000
"""Grams from a square foot in a season above which nothing is believed, whatever the count of plants. Our
choice: ten times the best published row yield, and what a tall tomato gives in one square."""


def limits_of(crop: Crop, variety: str) -> Limits:
    """Return what a crop's plants and pieces can weigh; the most of any kind where its kind is not told."""
    found = LIMITS.get(crop.slug) or BY_HABIT[crop.habit or Habit.RUNNING]
    if not any(word in variety.casefold() for word in LARGE):
        return found
    return Limits(plant=found.plant * LARGE_BY, least=found.least, most=found.most * LARGE_BY)
