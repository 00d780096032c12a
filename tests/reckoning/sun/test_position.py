"""Where the sun stands, against a table of two libraries, a third one, and printed examples."""

from __future__ import annotations

import csv
from datetime import UTC, date, datetime, timedelta
from math import asin, atan, atan2, cos, degrees, radians, sin, tan
from pathlib import Path

import pytest
from astral import Observer
from astral.sun import zenith_and_azimuth

from tallybed.reckoning.sun.arcs import Frame, length, over
from tallybed.reckoning.sun.position import HOURS, SolarDay, is_tropical, solar_day
from tests.reckoning.sun.beds import bed_of, scene, spot

TABLE = Path(__file__).with_name("positions.csv")
"""Altitude and azimuth of the sun's centre without refraction, at longitude 0.

Five latitudes, twelve months, seven hours.

Source: computed with pvlib 0.16.1, spa_python (NREL's Solar Position Algorithm: Reda and
Andreas, NREL/TP-560-34302), and the same within 0.005° by ephem 4.2.1.
"""
LATITUDES = (-35, 0, 25, 45, 65)


def _turned(latitude: float, altitude: float, azimuth: float) -> tuple[float, float]:
    """Return hour angle and declination in degrees of what is seen there, by spherical trigonometry."""
    place, height, around = radians(latitude), radians(altitude), radians(azimuth)
    declination = asin(sin(place) * sin(height) + cos(place) * cos(height) * cos(around))
    west = -sin(around) * cos(height)
    south = cos(place) * sin(height) - sin(place) * cos(height) * cos(around)
    return degrees(atan2(west, south)), degrees(declination)


def _off(sun: SolarDay, hour_angle: float, declination: float) -> float:
    """Return by how many degrees a day's sun passes beside a place."""
    return abs(degrees(atan(sun.tangent + sun.drift * radians(hour_angle))) - declination)


def test_the_sun_passes_where_a_table_has_it() -> None:
    with TABLE.open(encoding="utf-8") as text:
        rows = list(csv.DictReader(text))
    assert len(rows) == 420
    firsts: dict[tuple[str, date], tuple[datetime, float]] = {}
    for row in rows:
        moment = datetime.fromisoformat(row["utc"])
        place = [float(row[name]) for name in ("latitude", "altitude", "azimuth")]
        hour_angle, declination = _turned(*place)
        assert _off(solar_day(moment.date()), hour_angle, declination) < 0.05, row
        began, first = firsts.setdefault((row["latitude"], moment.date()), (moment, hour_angle))
        hours = (moment - began) / timedelta(hours=1)
        assert radians(hour_angle - first) * HOURS == pytest.approx(hours, abs=0.05 / 15), "it goes evenly"


@pytest.mark.parametrize("latitude", LATITUDES)
def test_the_sun_passes_where_another_library_has_it(latitude: int) -> None:
    """astral follows the equations of NOAA's solar calculator (after Meeus), which ephem does not."""
    for step in range(0, 365 * 24, 101):
        moment = datetime(2026, 1, 1, tzinfo=UTC) + timedelta(hours=step)
        zenith, azimuth = zenith_and_azimuth(Observer(latitude, -83, 0), moment, with_refraction=False)
        hour_angle, declination = _turned(latitude, 90 - zenith, azimuth)
        day = (moment - timedelta(hours=83 / 15)).date()
        assert _off(solar_day(day, -83), hour_angle, declination) < 0.05, moment


def test_a_published_example_of_the_solar_position_algorithm() -> None:
    """NREL/TP-560-34302, the appendix's example: azimuth 194.340241; the zenith as it is without refraction.

    Its printed zenith, 50.111622, holds refraction; without it pvlib gives 50.127954.
    """
    hour_angle, declination = _turned(39.742476, 90 - 50.127954, 194.340241)
    assert _off(solar_day(date(2003, 10, 17), -105.1786), hour_angle, declination) < 0.01


def test_the_declination_of_a_day_is_that_of_its_noon() -> None:
    """Declinations of 2026 at 12:00 UTC, computed with skyfield (DE421)."""
    for month, told in ((1, -21.0685), (3, -2.0231), (6, 23.3201), (9, 2.9075), (12, -23.2790)):
        assert solar_day(date(2026, month, 15)).tangent == pytest.approx(tan(radians(told)), abs=2e-5)


def test_the_length_of_a_day_as_printed() -> None:
    """FAO Irrigation and Drainage Paper 56, example 9: 20° S, 3 September, 11.7 hours of daylight.

    The paper's declination for that day, 0.120 rad, is from a short series and 0.6° less
    than the sun's own: with it the day is as printed; with the sun's it is two minutes
    shorter than the 11.67 hours that the paper's formula gives before rounding.
    """
    horizon = Frame.of(-20, 90).plane(0, 0, 1)
    assert round(length(over(horizon, SolarDay(tangent=tan(0.120), drift=0))) * HOURS, 1) == 11.7
    light = scene(bed_of(1, 1), -20, (), (spot(0, 0),)).light(0, date(2026, 9, 3))
    assert light.open == pytest.approx(11.67, abs=0.05)
    assert light.sun == light.open


def test_polar_day_polar_night_and_the_equator() -> None:
    for latitude, day, hours in (
        (80, date(2026, 6, 21), 24.0),
        (80, date(2026, 12, 21), 0.0),
        (-80, date(2026, 12, 21), 24.0),
        (90, date(2026, 5, 1), 24.0),
        (-90, date(2026, 5, 1), 0.0),
        (0, date(2026, 3, 20), 12.0),
        (0, date(2026, 6, 21), 12.0),
    ):
        light = scene(bed_of(1, 1), latitude, (), (spot(0, 0),)).light(0, day)
        assert light.open == pytest.approx(hours, abs=0.01), (latitude, day)


def test_an_hour_is_a_twenty_fourth_of_a_turn() -> None:
    assert pytest.approx(12) == HOURS * 3.141592653589793


@pytest.mark.parametrize(
    ("latitude", "tropical"),
    [(0, True), (23.4, True), (-23.4, True), (23.5, False), (-23.5, False), (None, False)],
)
def test_the_tropics_lie_where_atlases_have_them(latitude: float | None, tropical: bool) -> None:
    """At 23° 26' (from memory): Havana, at 23.1, has the sun of noon in the north in June."""
    assert is_tropical(latitude) is tropical
