"""Raw manure: how long before a crop may be picked, by whether the part that is eaten touches soil.

7 CFR 205.203(c)(1): raw animal manure is worked into the soil at least 120 days before
harvest where the edible part touches soil or soil particles, 90 days where it does not.
Compost with manure that does not meet (c)(2) counts as raw: 131 to 170 °F, for 3 days in a
vessel or static pile, for 15 days with five turnings in a windrow.
"""

from __future__ import annotations

import re
from datetime import timedelta

from tallybed.garden.crops import Crop
from tallybed.garden.records.log import SPREADING, Event
from tallybed.garden.records.treatment import Manure

TOUCHES_SOIL = timedelta(days=120)
OFF_THE_SOIL = timedelta(days=90)
CLEAR_OF_SOIL = frozenset(
    {
        *("bean-pole", "eggplant", "okra", "pea-garden", "pea-snap", "pepper-sweet", "sweet-corn"),
        *("tomato-determinate", "tomato-indeterminate"),
    }
)
"""Library crops whose edible part is held off the soil where they are staked as usual. Common practice, no
source; every other crop, and every crop of the garden's own, is taken to touch soil: the longer wait."""
_COMPOSTS = ("compost", "humus", "worm cast")
_ANIMALS = ("manure", "dung", "muck", "litter", "slurry", "guano", "droppings")
_OF_PLANTS = re.compile(r"\bgreen[- ]manur|\b(?:leaf|leaves|pine|needle)[- ]litter")
"""What has such a word in its name and nothing of animals in it (common use of the words, no source): 7 CFR
205.2 has manure as what livestock leave, with their bedding (from memory)."""


def manure_wait(crop: Crop | None) -> timedelta:
    """Return the wait for a crop; the longer one where it is not known."""
    return OFF_THE_SOIL if crop and not crop.own and crop.slug in CLEAR_OF_SOIL else TOUCHES_SOIL


def is_raw(event: Event) -> bool:
    """Return whether a line put something down that counts as raw manure.

    Aged manure does, and compost with manure whose heat was not recorded: words without a figure, such as
    ``unknown`` or ``hot``, record none. Where the line does not say, its words decide: one that names manure
    counts as raw.
    """
    if event.verb not in SPREADING:
        return False
    if event.manure is Manure.COMPOSTED:
        return not any(sign.isdigit() for sign in event.heat)
    if event.manure is None:
        return _names(event, _ANIMALS)
    return event.manure is Manure.RAW


def is_unsaid(event: Event) -> bool:
    """Return whether a line put compost down and does not say what of animals is in it: no wait starts."""
    return event.verb in SPREADING and event.manure is None and not is_raw(event) and _names(event, _COMPOSTS)


def _names(event: Event, words: tuple[str, ...]) -> bool:
    """Return whether a line has one of these words in what it put down, or in how much of what."""
    plain = _OF_PLANTS.sub("", f"{event.subject} {event.amount}".casefold())
    return any(word in plain for word in words)
