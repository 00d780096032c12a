"""The plan held against the summer and the length of its days: seed in heat, bulbs out of their time."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from fractions import Fraction

from tallybed.checks.growing.beginnings import Begun, beginnings
from tallybed.checks.results import CheckResult, advice, warning
from tallybed.garden.crops import Beginning, Crop
from tallybed.garden.days import Span, without_year
from tallybed.garden.records.plan import Start
from tallybed.reckoning.calendar.windows.freeze import nearest_fall
from tallybed.reckoning.calendar.windows.winter import (
    hardly_any_winter,
    is_mild,
    planted_before_winter,
    winter_only,
)
from tallybed.reckoning.growing_time import window_for
from tallybed.reckoning.sun.bulbing import TYPES, last_to_bulb, longest_day
from tallybed.reckoning.year import Year

COOLEST_SEED = 85
"""Most warmth of soil in degrees F for seed that is said to dislike heat (Harrington's table: lettuce, peas,
spinach; what comes up in warmer soil is left in peace)."""
QUICK = 100
"""Days to harvest from which a crop is past the heat before it bears."""
SHORT_SUMMER, LONG_SUMMER = (-14, 25), (-21, 38)
"""Days from the longest day within which seed lies in hot ground. Our choice, from Iowa State University
PM 534 (lettuce and peas again in August) and Minnesota."""
SUBTROPICAL = (-45, 70)
"""The same where there is hardly any winter, and the year turns about the heat. Our choice: the Gulf coast
and north Florida sow lettuce and spinach until March and from September on (from memory)."""
SUBTROPICAL_TO = 35
"""Degrees of latitude up to which that is so; beyond, such a place lies at a cool sea."""
LONG_SEASON = 160
"""Days between the average freezes from which the summer is long. Our choice."""
COOL_FROM, POLAR = 41, 55
"""Degrees of latitude from which a mild winter goes with a cool summer, by the sea (Puget Sound, Britain,
Tasmania: lettuce and peas are sown there all summer), and from which any summer is cool."""
FLOWERS = frozenset({"arugula", "cilantro", "mustard-greens"})
"""Crops that come up in warm ground and soon flower in it (common practice, no source)."""
BOLTS = "spinach"
"""What runs to seed in the longest days, however cool they are."""
LONGEST_DAYS = (-10, 10)
BOLTS_FROM = -21
"""Days from the longest day from which it does so where summers are short too (Alaska: sown by the end of
May, southern Wisconsin in April)."""
LATE_SETS = timedelta(days=28)
"""Days after long-day types begin to bulb until which sets may go in. Our choice: Iowa and Puget Sound stop
by the first week of May, when that day comes."""
LATE_SEED = timedelta(days=14)
"""The same for seed. Our choice: Iowa (PM 534) sows it until two weeks before the last sets go in, the south
of England until the end of April."""


def sown_into_heat(year: Year) -> Iterator[CheckResult]:
    """Find seed that dislikes heat sown about midsummer."""
    for one in beginnings(year):
        if one.start is not Start.SOW or not fails_in_heat(year, one.crop, one.day):
            continue
        planned = _planned(one) if one.row and one.row.start is Start.SOW else None
        if planned and (abs((planned - one.day).days) < 7 or fails_in_heat(year, one.crop, planned)):
            continue
        yield (
            one.row,
            advice(
                one.place,
                "sown-into-heat",
                f"{one.words}, into the hottest weeks: in warm ground it comes up badly, or soon runs to seed"
                " or stops",
                expected="spring, or late summer for fall",
                remedy="sow it sooner or later, or say in `silence:` how you keep it cool",
            ),
        )


def fails_in_heat(year: Year, crop: Crop, day: date) -> bool:
    """Return whether a crop's seed, sown on a day, lies in ground too warm for it."""
    return dislikes_heat(crop) and _is_hot(year, crop, day)


def dislikes_heat(crop: Crop) -> bool:
    """Return whether the library knows, from print, that its seed fails in warm soil, or it soon flowers."""
    if crop.slug in FLOWERS:
        return True
    warmest = crop.used("soil temp germ max")
    if warmest is None or warmest.high is None or not warmest.source or crop.start is not Beginning.SOWN:
        return False
    return warmest.high <= COOLEST_SEED and not crop.is_tender and (crop.days or 0) < QUICK


def _is_hot(year: Year, crop: Crop, day: date) -> bool:
    """Return whether a sowing falls into the hottest weeks of a garden whose summers are hot."""
    latitude, dates = year.garden.latitude, year.garden.freezes
    fall = nearest_fall(dates, day)
    if latitude is None or fall is None or year.spring is None or abs(latitude) >= POLAR:
        return False
    after = (day - _midsummer(latitude, day)).days
    if is_mild(dates, day) and abs(latitude) >= COOL_FROM:
        return crop.slug == BOLTS and LONGEST_DAYS[0] <= after <= LONGEST_DAYS[1]
    season = 365 - (year.spring.middle - fall.middle).days % 365
    first, last = LONG_SUMMER if season >= LONG_SEASON else SHORT_SUMMER
    if hardly_any_winter(dates, day) and abs(latitude) <= SUBTROPICAL_TO:
        first, last = SUBTROPICAL
    first = min(first, BOLTS_FROM) if crop.slug == BOLTS else first
    if not first <= after <= last:
        return False
    for_fall = crop.used("fall planting offset")
    if for_fall is None or for_fall.low is None or for_fall.low == for_fall.high:
        return True
    return day < fall.middle + timedelta(days=round(for_fall.low * 7))


def _midsummer(latitude: Fraction, day: date) -> date:
    """Return the longest day nearest to a day."""
    near = (
        longest_day(latitude, Span(first=day + timedelta(days=step), last=day)) for step in (-183, 0, 183)
    )
    return min(near, key=lambda one: (abs((one - day).days), one))


def out_of_its_time(year: Year) -> Iterator[CheckResult]:
    """Find garlic and its like planted in spring: without a winter in the ground a clove makes one round."""
    for one in beginnings(year):
        if not winter_only(one.crop) or planted_before_winter(one.crop, year.garden.freezes, one.day):
            continue
        planned, window = _planned(one), window_for(year, one.crop, one.day)
        if window.winter_first is None or window.winter_last is None:
            continue
        if planned and (
            _is_near(planned, one.day) or not planted_before_winter(one.crop, year.garden.freezes, planned)
        ):
            continue
        yield (
            one.row,
            warning(
                one.place,
                "out-of-its-time",
                f"{one.words}, with no winter before it to divide in",
                expected=f"{without_year(window.winter_first)} to {without_year(window.winter_last)}",
                remedy="plant it before winter, or silence this if single rounds or greens are meant",
            ),
        )


def last_for_bulbs(year: Year, crop: Crop, start: Start, day: date) -> date | None:
    """Return the last day for a bulb onion before its bulbs begin, if it goes in on a later one; else None.

    None too where the garden's latitude is not told, and for one that stands a winter first.
    """
    bulbs = last_to_bulb(year.garden.latitude, year.season.span)
    if crop.slug != "onion-bulb" or bulbs is None or planted_before_winter(crop, year.garden.freezes, day):
        return None
    last = bulbs[1] + (LATE_SEED if start is Start.SOW else LATE_SETS)
    return last if day > last else None


def bulbs_too_late(year: Year) -> Iterator[CheckResult]:
    """Find bulb onions that go in long after the days are long enough for bulbs."""
    bulbs = last_to_bulb(year.garden.latitude, year.season.span)
    for one in beginnings(year):
        late = last_for_bulbs(year, one.crop, one.start, one.day)
        if late is None or bulbs is None:
            continue
        kind, since = bulbs
        plant = "sow seed" if one.start is Start.SOW else "plant sets"
        planned = _planned(one)
        last = window_for(year, one.crop, one.day, start=one.start).last
        if planned and (_is_near(planned, one.day) or planned > late):
            continue
        if last and last <= late and one.row is not None and not one.logged:
            continue  # told as too late already, by an earlier day than this one
        yield (
            one.row,
            warning(
                one.place,
                "bulbs-too-late",
                f"{one.words}, and bulbs begin as the days come to {TYPES[kind]} hours,"
                f" about {without_year(since)}",
                expected="leaves grown by then: planted weeks before",
                remedy=f"{plant} in early spring, or pull it young and green",
            ),
        )


def _planned(one: Begun) -> date | None:
    """Return the day on which the plan has what the log begins; None for a beginning that is the plan's own.

    Where it says the same, near enough, or is told of the same, the log is not told of it again.
    """
    row = one.row if one.logged else None
    return row.begins if row and row.start is not Start.CARRIED else None


def _is_near(one: date, other: date) -> bool:
    """Return whether two days are within two weeks of each other."""
    return abs((one - other).days) < 14
