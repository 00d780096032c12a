"""Whether something was picked so soon after planting that nothing can have grown."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tallybed.garden.crops import Beginning
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import STARTING
from tallybed.garden.records.plan import Start
from tallybed.reckoning.calendar.windows.windows import days_to_harvest
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year

SOONEST_SOWN = 14
"""Days from sowing within which a picking can be told as too soon. Our choice, wide on purpose."""
SOONEST_SET_OUT = 5
"""The same from setting out: tips and outer leaves are taken early. Our choice."""
FRUITS = frozenset(
    {"bean-bush", "bean-pole", "cantaloupe", "cucumber", "eggplant", "okra", "pepper-sweet", "pumpkin"}
    | {"squash-summer", "squash-winter", "sweet-corn", "tomato-determinate", "tomato-indeterminate"}
    | {"watermelon", "bean-lima", "bean-runner", "cowpea", "edamame", "pepper-hot", "tomatillo"}
    | {"ground-cherry"}
)
"""Crops whose fruit alone is eaten: from seed they give nothing before half of their days. The quickest that
the library's tables print take two thirds. Our choice."""
NO_LEAF = FRUITS | frozenset(
    {"radish", "carrot", "beet", "parsnip", "potato", "sweet-potato", "onion-bulb", "leek", "cabbage"}
    | {"cauliflower", "broccoli", "bean-broad", "kohlrabi", "rutabaga", "brussels-sprouts", "celeriac"}
    | {"peanut"}
)
"""Crops that give nothing before a third of their days: nobody cuts their tips. Our choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TooSoon:
    """A planting that went in too late to have given anything on a day."""

    planting: Planting
    passed: int
    """Days since it went in."""
    least: int
    """Days that it takes at the very least."""


def too_soon(year: Year, weighing: Weighing, planting: Planting | None) -> TooSoon | None:
    """Return the planting that a picking came from where it went in too late for that; else None.

    Where nobody told the planting, all that may have given it must be too young: then the oldest of them.
    """
    if weighing.form or weighing.mixed:
        return None
    if planting:
        return _too_young(year, planting, weighing.day)
    if len(weighing.crops) != 1:
        return None
    every = [one for one in year.plantings if one.crop.may_be(weighing.crops[0])]
    begun = [(one, _begun(one)) for one in every]
    older = [one for one, went_in in begun if went_in is None or went_in[0] <= weighing.day]
    young = [found for one in older if (found := _too_young(year, one, weighing.day))]
    return max(young, key=lambda one: one.passed) if young and len(young) == len(older) else None


def _too_young(year: Year, planting: Planting, day: date) -> TooSoon | None:
    """Return a planting that had gone in and can have given nothing by a day; else None."""
    crop, row, begun = year.crop_of(planting), planting.planned, _begun(planting)
    if crop is None or begun is None or day < begun[0] or (row and row.start is Start.CARRIED):
        return None
    days = days_to_harvest(crop, planting.variety, begun[1])
    if days is None:
        return None
    sown = begun[1] is Start.SOW and crop.start is Beginning.SOWN
    least = min(days[0] // 3, SOONEST_SOWN) if sown else min(days[0] // 6, SOONEST_SET_OUT)
    if crop.slug in NO_LEAF:
        least = days[0] // (2 if crop.slug in FRUITS and begun[1] is Start.SOW else 3)
    passed = (day - begun[0]).days
    return TooSoon(planting=planting, passed=passed, least=least) if passed < least else None


def _begun(planting: Planting) -> tuple[date, Start] | None:
    """Return when a planting went in, and how: by the log, else by the plan."""
    for event, _squares in planting.lines:
        if event.verb in STARTING:
            return event.day, event.begins_as
    return (planting.planned.begins, planting.planned.start) if planting.planned else None
