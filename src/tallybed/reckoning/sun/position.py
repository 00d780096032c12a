"""Where the sun stands: its middle, above a level horizon, without refraction.

Places come from ephem (XEphem's theory). Over a day the sun goes round evenly in its
hour angle (0 at solar noon, negative before it); its declination drifts a little on the
way, by at most 0.4° from one noon to the next.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from functools import lru_cache
from math import pi, tan

import ephem

from tallybed.garden.days import ONE_DAY

HOURS = 12 / pi
"""Hours that a radian of hour angle takes."""
TROPIC = 23.44
"""Degrees of latitude up to which the sun of noon stands north on some days and south on others."""


def is_tropical(latitude: Fraction | float | None) -> bool:
    """Return whether a place lies between the tropics, by its degrees; one that is not told does not."""
    return latitude is not None and -TROPIC < latitude < TROPIC


@dataclass(frozen=True, slots=True, kw_only=True)
class SolarDay:
    """The sun's declination over one day, from midnight to midnight by the sun."""

    tangent: float
    """Tangent of the declination at solar noon."""
    drift: float
    """By how much that tangent grows with each radian of hour angle."""


def solar_day(day: date, longitude: float = 0.0) -> SolarDay:
    """Return the sun's declination over a day; degrees east are positive.

    A longitude left open changes it by 0.2° at most.
    """
    before, noon, after = (_noon(one, longitude) for one in (day - ONE_DAY, day, day + ONE_DAY))
    return SolarDay(tangent=noon, drift=(after - before) / (4 * pi))


@lru_cache(maxsize=4096)
def _noon(day: date, longitude: float) -> float:
    """Return the tangent of the declination at noon of local mean time.

    Solar noon is up to 17 minutes from it, in which the declination moves by 0.005°.
    """
    noon = datetime(day.year, day.month, day.day, 12, tzinfo=UTC) - timedelta(minutes=4 * longitude)
    return tan(ephem.Sun(ephem.Date(noon.replace(tzinfo=None))).g_dec)
