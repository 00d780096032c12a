"""Day length and bulb onions: from which day on each type begins to bulb.

Types by Iowa State University Extension, "What is a long-day type onion variety?": a
short-day type begins to bulb at 10 to 12 hours of day, an intermediate one at 12 to 14, a
long-day one at 14 and more. Days are those of the sun's middle above a level horizon.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from fractions import Fraction
from functools import lru_cache
from math import acos, pi, radians, tan
from types import MappingProxyType

from tallybed.garden.days import ONE_DAY, Span
from tallybed.reckoning.sun.position import solar_day

LONG = "long-day"
TYPES: Mapping[str, int] = MappingProxyType({"short-day": 10, "intermediate": 12, LONG: 14})
"""Hours of day from which on each type bulbs."""
STEADY = 2.0
"""Hours between the longest day and the shortest below which no season brings bulbs on: up to about 17
degrees of latitude. Our choice; onions of the tropics are short-day types, set out by the rains (from
memory)."""
_HALF_YEAR = timedelta(days=183)


def day_length(latitude: Fraction, day: date) -> float:
    """Return the hours from sunrise to sunset; latitude in degrees north."""
    across = -tan(radians(latitude)) * solar_day(day).tangent
    return acos(min(max(across, -1.0), 1.0)) * 24 / pi


def shortest_day(latitude: Fraction, span: Span) -> date:
    """Return the winter solstice, near enough, that lies nearest to a season's first day."""
    month = 12 if latitude >= 0 else 6
    days = (date(span.first.year + step, month, 21) for step in (-1, 0, 1))
    return min(days, key=lambda day: (abs((day - span.first).days), day))


def longest_day(latitude: Fraction, span: Span) -> date:
    """Return the summer solstice, near enough, of a season."""
    return shortest_day(latitude, span) + _HALF_YEAR


@lru_cache(maxsize=256)
def last_to_bulb(latitude: Fraction | None, span: Span) -> tuple[str, date] | None:
    """Return the type of the longest days that bulbs there at all, and from when on.

    None where none does, and where all days of the year are nearly as long as each other.
    """
    if latitude is None or _spread(latitude, span) < STEADY:
        return None
    days = bulbing(latitude, span)
    last = max(days, key=TYPES.__getitem__, default=None)
    return (last, days[last]) if last else None


def _spread(latitude: Fraction, span: Span) -> float:
    """Return the hours by which the longest day is longer than the shortest."""
    return day_length(latitude, longest_day(latitude, span)) - day_length(
        latitude, shortest_day(latitude, span)
    )


def bulbing(latitude: Fraction | None, span: Span) -> Mapping[str, date]:
    """Return the day on which each type begins to bulb, of those that do; nothing without a latitude."""
    if latitude is None:
        return MappingProxyType({})
    found: dict[str, date] = {}
    day, last = shortest_day(latitude, span), longest_day(latitude, span)
    while day <= last:
        hours = day_length(latitude, day)
        for kind, least in TYPES.items():
            if hours >= least:
                found.setdefault(kind, day)
        day += ONE_DAY
    return MappingProxyType(found)
