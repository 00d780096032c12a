"""Shadows against trigonometry by hand."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from math import atan2, cos, degrees, radians, sin, tan

import pytest
from astral import Observer
from astral.sun import zenith_and_azimuth

from tallybed.reckoning.sun.arcs import Frame
from tallybed.reckoning.sun.position import solar_day
from tallybed.reckoning.sun.shadows import Sky, Views
from tests.reckoning.sun.beds import bed_of, body, scene, spot, thing

MINUTE = 1 / 60
EQUINOX = date(2026, 3, 20)
"""The sun crosses the equator on it, at 14:46 UTC."""


@pytest.mark.parametrize(
    ("latitude", "day", "hour", "east", "north"),
    [
        (25, date(2026, 4, 15), -3, -5.94, 1.19),
        (25, date(2026, 4, 15), 3, 5.94, 1.18),
        (25, date(2026, 6, 15), -3, -5.15, -0.67),
        (35, date(2026, 4, 15), -3, -6.25, 2.33),
        (-35, date(2026, 4, 15), -3, -8.84, -6.85),
        (-35, date(2026, 6, 15), 0, 0.00, -9.72),
        (-35, date(2026, 9, 15), 3, 7.71, -4.87),
    ],
)
def test_a_post_shades_the_ground_its_shadow_lies_on(
    latitude: int, day: date, hour: int, east: float, north: float
) -> None:
    """Tip of a 6 ft post's shadow from its foot in feet, by positions of pvlib and ephem.

    A thin post stands so that half its shadow ends on the point: just then it is shaded,
    and by the post's upper half.
    """
    x, y = -east * 12 / 2, north * 12 / 2  # letters run east, so numbers run south
    views = Views(Frame.of(latitude, 90))
    outline = views.outline((x - 0.5, x + 0.5, y - 0.5, y + 0.5), 0, 0)
    assert outline is not None
    sky = Sky(views, solar_day(day))
    for height, shaded in ((72, True), (36.9, True), (34, False)):
        stretches = sky.shaded(outline, height)
        assert any(first < radians(15 * hour) < last for first, last in stretches) is shaded


def test_a_post_through_a_whole_day() -> None:
    """A thin post 3 ft south of a point: it shades it round noon, while its width covers the sun."""
    latitude, day = 45.0, date(2026, 6, 15)
    post = (5.0, 7.0, 41.0, 43.0)  # 2 in wide, its near side 35 in from the point
    light = scene(bed_of(1, 4), latitude, (body("post", post, 120),), (spot(0, 0),)).light(0, day)
    half = degrees(atan2(1, 35))  # of the azimuth that the post's near side takes
    moments = (datetime(2026, 6, 15, 11, 30, tzinfo=UTC) + timedelta(seconds=step) for step in range(3600))
    place = Observer(latitude, 0, 0)
    azimuths = (zenith_and_azimuth(place, moment, with_refraction=False)[1] for moment in moments)
    seconds = sum(abs(azimuth - 180) < half for azimuth in azimuths)
    assert light.lost == pytest.approx(seconds / 3600, abs=MINUTE / 2)
    assert light.to == {"post": light.lost}


def test_at_the_equinox_the_shadow_of_a_wall_due_south_stays_where_it_is() -> None:
    """By hand: the sun's height seen along the meridian is then 90° less the latitude, all day.

    A wall 10 ft high shades 10 ft × tan 45° = 10 ft at 45°: a point 8 ft away lies in it all
    day, one 13 ft away never, but for a few minutes by the horizon, as the sun's
    declination drifts by 0.1° from noon to there.
    """
    for feet, hours in ((8, 0.0), (13, 12.0)):
        wall = thing("wall", 180, feet * 12, 1e6, 120)
        light = scene(bed_of(1, 1), 45, (), (spot(0, 0),), (wall,)).light(0, EQUINOX)
        assert light.sun == pytest.approx(hours, abs=0.1)
        assert light.around == pytest.approx(12 - hours, abs=0.1)
        assert light.lost == 0


@pytest.mark.parametrize(("latitude", "south"), [(40.0, 180), (-40.0, 0)])
def test_a_long_wall_on_the_sunny_side_at_midsummer(latitude: float, south: int) -> None:
    """By hand: the sun comes over the wall's top where its height along the meridian is that of the top.

    With declination d and hour angle H the sun lies ``sin f cos d cos H - cos f sin d`` to
    the south and ``sin f sin d + cos f cos d cos H`` up (f the latitude), so the top's
    slope k gives ``cos H = tan d (k cos f + sin f) / (k sin f - cos f)``.
    """
    d, f, slope = radians(23.43), radians(40), 6.0
    day = date(2026, 6, 21) if latitude > 0 else date(2026, 12, 21)
    wall = thing("house", south, 60, 1e6, 360)
    light = scene(bed_of(1, 1), latitude, (), (spot(0, 0),), (wall,)).light(0, day)
    over = tan(d) * (slope * cos(f) + sin(f)) / (slope * sin(f) - cos(f))
    shaded = 2 * degrees(_arc_cosine(over)) / 15
    assert 0 < shaded < light.open
    assert light.around == pytest.approx(shaded, abs=MINUTE)


def _arc_cosine(value: float) -> float:
    return atan2((1 - value * value) ** 0.5, value)


def test_a_leafless_tree_shades_nothing() -> None:
    tree = thing("tree", 180, 120, 300, 600, 11, 12, 1, 2, 3)
    bare = scene(bed_of(1, 1), 40, (), (spot(0, 0),), (tree,))
    assert bare.light(0, date(2026, 3, 31)).around == 0
    assert bare.light(0, date(2026, 4, 1)).around > 4
    assert bare.light(0, date(2026, 4, 1)).to_things == {"the tree": bare.light(0, date(2026, 4, 1)).around}


def test_what_is_no_higher_than_the_crop_takes_nothing() -> None:
    bodies = (body("low", (12, 24, 0, 12), 24),)
    for inches, lost in ((23.0, True), (24.0, False), (30.0, False)):
        light = scene(bed_of(2, 1), 45, bodies, (spot(0, 0, "own", inches),)).light(0, date(2026, 6, 1))
        assert bool(light.lost) is lost


def test_a_planting_shades_neither_itself_nor_those_it_stands_among() -> None:
    bodies = (body("tall", (0, 24, 0, 12), 60), body("tall", (0, 12, 12, 24), 60))
    spots = (spot(0, 0, "tall", 10), spot(1, 0, "among", 10), spot(1, 1, "behind", 10))
    lights = [scene(bed_of(2, 2), 45, bodies, spots).light(place, date(2026, 6, 1)) for place in range(3)]
    assert lights[0].lost == 0
    assert lights[1].to.keys() == {"tall"}  # from the other of its boxes alone
    assert lights[2].lost > lights[1].lost


def test_of_two_before_the_sun_at_once_both_are_named_and_the_loss_counts_once() -> None:
    near, far = body("near", (0, 12, 12, 24), 30), body("far", (0, 12, 24, 36), 60)
    light = scene(bed_of(1, 3), 45, (near, far), (spot(0, 0),)).light(0, date(2026, 9, 1))
    assert light.to.keys() == {"near", "far"}
    assert max(light.to.values()) <= light.lost < sum(light.to.values())


def test_what_stands_around_the_beds_comes_first() -> None:
    """An endless wall at the equinox takes all the sun: nothing is left to be lost to a neighbour."""
    wall = thing("fence", 180, 100, 1e6, 120)
    light = scene(bed_of(1, 2), 45, (body("tall", (0, 12, 12, 24), 60),), (spot(0, 0),), (wall,)).light(
        0, EQUINOX
    )
    assert light.lost == pytest.approx(0, abs=0.05)
    assert light.around == pytest.approx(12, abs=0.1)


def test_a_bed_may_lie_in_any_bearing() -> None:
    """The same body south of the same point takes the same sun, however the bed is turned."""
    hours = set()
    for bearing, column, row, box in (
        (90, 1, 0, (12.0, 24.0, 12.0, 24.0)),  # numbers run south
        (0, 1, 1, (0.0, 12.0, 12.0, 24.0)),  # letters run north
        (270, 1, 1, (12.0, 24.0, 0.0, 12.0)),  # numbers run north
        (180, 0, 1, (12.0, 24.0, 12.0, 24.0)),  # letters run south
    ):
        light = scene(bed_of(2, 2, bearing), 50, (body("tall", box, 40),), (spot(column, row),)).light(
            0, date(2026, 5, 10)
        )
        hours.add(round(light.lost, 6))
    assert len(hours) == 1
    assert hours.pop() > 1
