"""Hours of sun over 200 beds thrown together at random, against rays cast one by one.

Nothing here is shared with the reckoning but the records it is given: the sun's place is
astral's, minute by minute; a ray is a straight line that meets a box by its slabs, and a
leaning or far-off face by its two triangles; edges are found by halving.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from math import cos, radians, sin
from random import Random

import pytest
from astral import Observer
from astral.sun import zenith_and_azimuth

from tallybed.garden.squares import Bed
from tallybed.garden.surroundings import Thing
from tallybed.garden.units import INCH
from tallybed.reckoning.sun.bodies import Body, Spot
from tallybed.reckoning.sun.scene import Light
from tests.reckoning.sun.beds import bed_of, body, scene, spot, thing

Vector = tuple[float, float, float]
Hides = Callable[[Vector], bool]
BEDS = 200
STEP = timedelta(minutes=2)
ONE_DAY = timedelta(days=1)


def _drawn(random: Random) -> tuple[Bed, float, int, list[Body], list[Spot], list[Thing], date]:
    columns, rows = random.randint(1, 6), random.randint(1, 4)
    bed = bed_of(columns, rows, random.randrange(360))
    bodies = []
    for number in range(random.randint(1, 5)):
        low_x, low_y = random.randrange(columns), random.randrange(rows)
        high_x, high_y = random.randint(low_x + 1, columns), random.randint(low_y + 1, rows)
        box = (12.0 * low_x, 12.0 * high_x, 12.0 * low_y, 12.0 * high_y)
        bodies.append(body(f"P{number}", box, random.uniform(2, 80)))
    if random.random() < 0.5:
        most = random.uniform(30, 80)
        lean = random.choice((0.0, random.uniform(-12, 12) / most))
        edge, down = random.choice(((0.0, lean), (12.0 * rows, -lean)))
        screen = body("screen", (0.0, 12.0 * columns, edge, edge), random.uniform(10, 100))
        bodies.append(replace(screen, most=most, lean=(0.0, down)))
    spots = [
        spot(random.randrange(columns), random.randrange(rows), "own", random.choice((None, 0, 5, 20)))
        for _number in range(2)
    ]
    things = [
        thing(
            "wall",
            random.randrange(360),
            12 * random.randint(6, 40),
            12 * random.randint(2, 60),
            12 * random.randint(3, 40),
        )
        for _number in range(random.choice((0, 0, 1, 2)))
    ]
    latitude, longitude = random.uniform(-66, 66), random.randrange(-180, 180)
    day = date(2026, 1, 1) + timedelta(days=random.randrange(365))
    return bed, round(latitude, 3), longitude, bodies, spots, things, day


@pytest.mark.parametrize("part", range(4))
def test_hours_are_those_of_rays_cast_one_by_one(part: int) -> None:
    random, far, lost = Random(part), 0.0, 0
    for _bed in range(BEDS // 4):
        bed, latitude, longitude, bodies, spots, things, day = _drawn(random)
        found = scene(bed, latitude, bodies, spots, things, longitude)
        track = _Track(latitude, longitude, day, float(bed.bearing))
        for place, own in enumerate(spots):
            light = found.light(place, day)
            cast = _cast(track, bed, bodies, own, things, day)
            lost += bool(light.lost)
            for name, mine, by_rays in _compared(light, cast):
                far = max(far, abs(mine - by_rays))
                assert abs(mine - by_rays) < 2 / 60, (
                    name,
                    bed,
                    latitude,
                    longitude,
                    day,
                    own,
                    bodies,
                    things,
                )
    assert lost > BEDS // 8
    print(f"part {part}: at most {far * 60:.2f} minutes apart")


def _compared(light: Light, cast: Light) -> list[tuple[str, float, float]]:
    told = [("open", light.open, cast.open), ("sun", light.sun, cast.sun), ("lost", light.lost, cast.lost)]
    told.append(("around", light.around, cast.around))
    told += [(name, light.to.get(name, 0.0), cast.to.get(name, 0.0)) for name in light.to | cast.to]
    return told


class _Track:
    """The sun's way on a day as directions on the bed: x along its letters, y to their right, z up."""

    def __init__(self, latitude: float, longitude: float, day: date, bearing: float) -> None:
        self._observer = Observer(latitude, longitude, 0)
        self._bearing = bearing
        noon = datetime(day.year, day.month, day.day, 12, tzinfo=UTC) - timedelta(minutes=4 * longitude)
        self.first = min((noon + timedelta(minutes=minute) for minute in range(-740, -700)), key=self._height)
        """Midnight by the sun."""
        self.steps = [(self.first + step * STEP) for step in range(721)]
        self.directions = [self.at(moment) for moment in self.steps]

    def _height(self, moment: datetime) -> float:
        return -zenith_and_azimuth(self._observer, moment, with_refraction=False)[0]

    def at(self, moment: datetime) -> Vector:
        zenith, azimuth = zenith_and_azimuth(self._observer, moment, with_refraction=False)
        flat, turned = sin(radians(zenith)), radians(azimuth - self._bearing)
        return flat * cos(turned), flat * sin(turned), cos(radians(zenith))

    def hours(self, when: Callable[[Vector], bool]) -> float:
        """Return for how long something holds, its edges found to a second."""
        total, held, since = timedelta(), False, self.first
        for before, moment, direction in zip((None, *self.steps), self.steps, self.directions, strict=False):
            now = when(direction)
            if now != held:
                edge = moment if before is None else self._edge(when, before, moment)
                if held:
                    total += edge - since
                held, since = now, edge
        return (total + (self.steps[-1] - since if held else timedelta())) / timedelta(hours=1)

    def _edge(self, when: Callable[[Vector], bool], low: datetime, high: datetime) -> datetime:
        first = when(self.at(low))
        while high - low > timedelta(seconds=1):
            middle = low + (high - low) / 2
            low, high = (middle, high) if when(self.at(middle)) == first else (low, middle)
        return low


def _cast(track: _Track, bed: Bed, bodies: list[Body], own: Spot, things: list[Thing], day: date) -> Light:
    eye = (own.x, own.y, own.rise.on(day) if own.rise else 0.0)
    near: dict[str, list[Hides]] = {}
    for one in bodies:
        near.setdefault(one.planting, []).append(_of_body(one, eye, one.on(day)))
    far = [_of_face(_corners(one, bed), eye) for one in things]

    def up(ray: Vector) -> bool:
        return ray[2] > 0

    def behind_things(ray: Vector) -> bool:
        return up(ray) and any(hides(ray) for hides in far)

    def lost_to(*names: str) -> float:
        chosen = [hides for name in names for hides in near[name]]
        return track.hours(
            lambda ray: up(ray) and not any(one(ray) for one in far) and any(one(ray) for one in chosen)
        )

    return Light(
        1,
        track.hours(up),
        lost_to(*near),
        track.hours(behind_things),
        {name: lost_to(name) for name in near},
    )


def _of_body(one: Body, eye: Vector, top: float) -> Hides:
    (low_x, high_x, low_y, high_y), *_more = one.boxes
    if one.most is not None:
        foot, head = (0.0, 0.0), (one.lean[0] * top, one.lean[1] * top)
        corners = [
            (x + lean[0], y + lean[1], z)
            for x, y, lean, z in (
                (low_x, low_y, foot, 0.0),
                (high_x, high_y, foot, 0.0),
                (high_x, high_y, head, top),
                (low_x, low_y, head, top),
            )
        ]
        return _of_face(corners, eye)
    if low_x < eye[0] < high_x and low_y < eye[1] < high_y:
        return lambda _ray: False
    lows, highs = (low_x, low_y, 0.0), (high_x, high_y, top)

    def hides(ray: Vector) -> bool:
        enter, leave = 0.0, float("inf")
        for axis in range(3):
            if ray[axis] == 0:
                if not lows[axis] <= eye[axis] <= highs[axis]:
                    return False
                continue
            ends = sorted(((lows[axis] - eye[axis]) / ray[axis], (highs[axis] - eye[axis]) / ray[axis]))
            enter, leave = max(enter, ends[0]), min(leave, ends[1])
        return enter < leave

    return hides


def _corners(one: Thing, bed: Bed) -> list[Vector]:
    turned = radians(float(one.bearing - bed.bearing))
    away, half = float(one.distance.within(INCH)), float(one.width.within(INCH)) / 2
    x, y = 6 * bed.columns + away * cos(turned), 6 * bed.rows + away * sin(turned)
    top = float(one.height.within(INCH))
    along = (-sin(turned) * half, cos(turned) * half)
    left, right = (x - along[0], y - along[1]), (x + along[0], y + along[1])
    return [(*left, 0.0), (*right, 0.0), (*right, top), (*left, top)]


def _of_face(corners: list[Vector], eye: Vector) -> Hides:
    a, b, c, d = corners
    return lambda ray: _meets(eye, ray, a, b, c) or _meets(eye, ray, a, c, d)


def _meets(eye: Vector, ray: Vector, a: Vector, b: Vector, c: Vector) -> bool:
    """Return whether a ray meets a triangle (Möller and Trumbore, Journal of Graphics Tools, 1997)."""
    one, other = _less(b, a), _less(c, a)
    across = _cross(ray, other)
    size = _dot(one, across)
    if abs(size) < 1e-12:
        return False
    away = _less(eye, a)
    u = _dot(away, across) / size
    turned = _cross(away, one)
    v = _dot(ray, turned) / size
    return u >= 0 and v >= 0 and u + v <= 1 and _dot(other, turned) / size > 0


def _less(one: Vector, other: Vector) -> Vector:
    return one[0] - other[0], one[1] - other[1], one[2] - other[2]


def _dot(one: Vector, other: Vector) -> float:
    return one[0] * other[0] + one[1] * other[1] + one[2] * other[2]


def _cross(one: Vector, other: Vector) -> Vector:
    return (
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    )
