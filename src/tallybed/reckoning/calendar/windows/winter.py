"""Crops that go in before winter and bear in the next year: garlic, and others where winters are mild.

Their harvest follows from the spring, not from the day they were planted: the plants rest
over winter, and the lengthening days bring them on. So it is told in weeks from the last spring
freeze. The library's own weeks come first; for crops of which only the seed trade and
gardeners' records tell, ``CYCLES`` holds what the checks go by, and the public is not told it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from types import MappingProxyType

from tallybed.garden.crops import Crop
from tallybed.garden.garden import FreezeDates
from tallybed.reckoning.calendar.windows.freeze import nearest_fall, next_spring

MILD = 215
"""Days between the average freezes from which a winter is called mild. Our choice.

Puget Sound, the south coast of England and Melbourne lie above it, Maine, Minnesota and Missouri below.
"""
SEASIDE_FROM, SEASIDE = 48, 170
"""Degrees of latitude from which fewer days between the freezes mean the sea, and so a mild winter. Our
choice: inland, nowhere so far from the equator has them (Winnipeg about 120, from memory)."""
SOUTHERN = 150
"""The same for the whole south of the equator, whose lands the sea is never far from: cold winters of the
inland kind are found there in mountains only (M. Peel, B. Finlayson, T. McMahon, Hydrology and Earth System
Sciences 11, 2007; from memory). Our choice: inland Tasmania has about 200 days, Canberra 160 (from memory),
and both sow broad beans in autumn."""
HARDLY_ANY = 260
"""Days between the average freezes from which winter is the season of lettuce, carrots and spinach. Our
choice: the Gulf coast, north Florida and coastal California lie above it, Georgia below."""
LASTING = frozenset({"chives", "mint", "oregano", "sage", "strawberry", "thyme"})
"""Crops that stay for years and bear in the next (common practice, no source)."""
WINTER_GROWTH = 40
"""Degrees of latitude up to which the shortest days leave light enough to grow. Our choice."""
Weeks = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cycle:
    """What the checks go by for one crop."""

    mild: Weeks
    """When it goes in where winters are mild: weeks from the average first fall freeze, wide on purpose."""
    cold: Weeks | None
    """The same where they are cold; None where it does not stand them."""
    harvest: Weeks
    """Weeks from the average last spring freeze that follows, where the library has none."""
    whole: bool = True
    """Whether it gives nothing before, as a bulb does; else leaves may be cut sooner."""


CYCLES: Mapping[str, Cycle] = MappingProxyType(
    {
        # University of Minnesota, Maine, Missouri and New South Wales (the library); widened.
        "garlic": Cycle(mild=(-14, 13), cold=(-5, 10), harvest=(8, 13.5)),
        # England: sets from 25 August to 31 October, pulled in June or early July (an allotment page);
        # western Washington: set out in November (a gardener's calendar); south-east Georgia: November
        # and December, up to seven weeks after its first freeze (University of Georgia); widened.
        "onion-bulb": Cycle(mild=(-13, 7), cold=(-8, 4), harvest=(6, 14)),
        # Tasmania: planted in May (P. Cundall); the seed trade in Britain: 36 weeks in the ground.
        "shallot": Cycle(mild=(-14, 13), cold=(-5, 10), harvest=(8, 16)),
        # Six weeks before the first freeze (Organic Gardening); Puget Sound: mid-September, cut in
        # April and May; Tasmania: March to May.
        "spinach": Cycle(mild=(-13, 0.5), cold=(-7, 0.5), harvest=(-3, 8), whole=False),
        # Western Washington: second week of November, picked in June (Washington State University);
        # Tasmania: March to May; New Zealand: until August.
        "bean-broad": Cycle(mild=(-14, 12), cold=None, harvest=(2, 13)),
        # England: sown in November, picked in May (a gardening society's calendar).
        "pea-garden": Cycle(mild=(-7, 8), cold=None, harvest=(3, 10)),
        "pea-snap": Cycle(mild=(-7, 8), cold=None, harvest=(3, 10)),
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wintered:
    """When a planting that stands over winter is ready."""

    first: date
    last: date
    whole: bool


def grows_all_winter(dates: FreezeDates, day: date, latitude: Fraction | None) -> bool:
    """Return whether hardy crops go on growing in winter: a mild one, with days long enough. Our choice."""
    return is_mild(dates, day) and latitude is not None and abs(latitude) <= WINTER_GROWTH


def is_mild(dates: FreezeDates, day: date) -> bool:
    """Return whether the winter nearest to a day is mild: the growing season before it is long enough."""
    least = MILD
    if dates.latitude is not None and dates.latitude < 0:
        least = SOUTHERN
    elif dates.latitude is not None and dates.latitude >= SEASIDE_FROM:
        least = SEASIDE
    return _days_without(dates, day) >= least


def hardly_any_winter(dates: FreezeDates, day: date) -> bool:
    """Return whether crops that are not tender can go in on any day of the winter nearest to a day.

    Not far from the equator, where its days are too short to grow in.
    """
    light = dates.latitude is None or abs(dates.latitude) <= WINTER_GROWTH
    return light and _days_without(dates, day) >= HARDLY_ANY


def stands_mild_winters(crop: Crop) -> bool:
    """Return whether the crop is known to stand in the ground over a mild winter."""
    return crop.slug in CYCLES


def _days_without(dates: FreezeDates, day: date) -> int:
    """Return the days between the average freezes about the winter nearest to a day; 0 where none is told."""
    fall = nearest_fall(dates, day)
    spring = next_spring(dates, fall.middle) if fall else None
    return 365 - (spring.middle - fall.middle).days if fall and spring else 0


def planted_before_winter(crop: Crop, dates: FreezeDates, begins: date) -> Wintered | None:
    """Return when a planting begun on a day is ready, if that is before winter and the crop stands one."""
    cycle, fall = CYCLES.get(crop.slug), nearest_fall(dates, begins)
    if cycle is None or fall is None:
        return None
    planted = cycle.mild if is_mild(dates, begins) else cycle.cold
    if planted is None or not planted[0] <= (begins - fall.middle).days / 7 <= planted[1]:
        return None
    return harvest_after(crop, dates, begins)


def harvest_after(crop: Crop, dates: FreezeDates, begins: date) -> Wintered | None:
    """Return when what stands over the winter after a day is ready; None for crops that stand none."""
    cycle, spring = CYCLES.get(crop.slug), next_spring(dates, begins)
    if cycle is None or spring is None:
        return None
    weeks = harvest_weeks(crop) or cycle.harvest
    first, last = (spring.middle + timedelta(days=round(7 * week)) for week in weeks)
    return Wintered(first=first, last=last, whole=cycle.whole)


def harvest_weeks(crop: Crop) -> Weeks | None:
    """Return the library's weeks from the last spring freeze to a harvest after winter, or None."""
    figure = crop.used("harvest after winter")
    if figure is None or figure.low is None or figure.high is None:
        return None
    return float(figure.low), float(figure.high)


def winter_only(crop: Crop) -> bool:
    """Return whether the crop is planted before winter and not in spring."""
    return crop.used("planting before winter") is not None and crop.used("spring planting offset") is None
