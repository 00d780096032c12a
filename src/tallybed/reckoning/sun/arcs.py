"""When the sun stands over a plane: stretches of hour angle, in closed form.

An edge that shades a point spans a plane with it, and the edge's shadow crosses the
point as the sun crosses that plane. With the sun at hour angle H and declination d,
being on the plane's one side is ``a cos H + b sin H + m tan d >= 0``: over a day that
holds for one arc round ``atan2(b, a)``, or for all of the day, or for none of it. The
shadow of a body is where the arcs of all its edges overlap.

Stretches are pairs (from, to) of hour angles from midnight (-pi) to midnight (pi), in
order and apart.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import acos, atan2, cos, hypot, pi, radians, sin, sqrt
from typing import NamedTuple

from tallybed.reckoning.sun.position import SolarDay

Stretch = tuple[float, float]
Stretches = Sequence[Stretch]
ALL: Stretches = ((-pi, pi),)
NONE: Stretches = ()
_TURN = 2 * pi
NEVER_TURNS = 1e9
"""The ratio of a plane that the sun does not cross within a day: it lies square to the earth's axis."""
_GRAZING = 0.02
"""The sun crosses a plane no slower than this for the drift's sake; slower, it stays over it for minutes."""


class Plane(NamedTuple):
    """A plane through a point, as the turning sky sees it. A tuple, as very many are made."""

    centre: float
    """Hour angle at which the sun stands highest over the plane."""
    ratio: float
    """What a tangent of declination of 1 adds, as a multiple of what turning adds."""


@dataclass(frozen=True, slots=True)
class Frame:
    """Directions on a bed (x along its letters, y along its numbers, z up) as the sky sees them.

    Each is (a, b, m): what ``cos H``, ``sin H`` and the tangent of the declination add to
    the sun's part along that direction, all over the cosine of the declination.
    """

    x: tuple[float, float, float]
    y: tuple[float, float, float]
    z: tuple[float, float, float]

    @classmethod
    def of(cls, latitude: float, bearing: float) -> Frame:
        """Return the frame of a bed whose letters run in a bearing; both in degrees."""
        south, up = sin(radians(latitude)), cos(radians(latitude))
        east, north = sin(radians(bearing)), cos(radians(bearing))
        return cls(
            x=(-south * north, -east, up * north),
            y=(south * east, -north, -up * east),
            z=(up, 0.0, south),
        )

    def plane(self, x: float, y: float, z: float) -> Plane:
        """Return the plane square to (x, y, z); the sun counts as over it on that side."""
        own_x, own_y, own_z = self.x, self.y, self.z
        a = x * own_x[0] + y * own_y[0] + z * own_z[0]
        b = x * own_x[1] + y * own_y[1]
        m = x * own_x[2] + y * own_y[2] + z * own_z[2]
        size = hypot(a, b)
        if size * NEVER_TURNS <= abs(m):
            return Plane(0.0, NEVER_TURNS if m > 0 else -NEVER_TURNS)
        return Plane(atan2(b, a), m / size)


def over(plane: Plane, day: SolarDay, within: Stretches = ALL) -> Stretches:
    """Return when the sun stands over a plane, within some stretches.

    An arc longer than half a day is found by its gap. While the sun turns from an arc's
    middle to its ends its declination drifts on, which moves both ends the same way.
    """
    return over_arc(*plane, day.tangent, day.drift, within)


def over_arc(centre: float, ratio: float, tangent: float, drift: float, within: Stretches) -> Stretches:
    """Return the same by the parts of plane and day: it is asked a thousand times for each day."""
    gap = ratio * tangent > 0
    if gap:
        centre, ratio = (centre - pi if centre > 0 else centre + pi), -ratio
    c = ratio * (tangent + drift * centre)
    if c <= -1:
        return within if gap else NONE
    if c >= 1:
        return NONE if gap else within
    crossed = sqrt(1 - c * c)
    half, slip = acos(-c), ratio * drift / (crossed if crossed > _GRAZING else _GRAZING)
    moved = centre + slip * half
    first, last = moved - half, moved + half
    if first < -pi:  # it runs over midnight: what it leaves of the day is in one piece
        first, last, gap = last, first + _TURN - slip * _TURN, not gap
    elif last > pi:
        first, last, gap = last - _TURN - slip * _TURN, first, not gap
    if first >= last:
        return within if gap else NONE
    return _without(within, first, last) if gap else both(within, ((first, last),))


def _without(stretches: Stretches, first: float, last: float) -> Stretches:
    """Return stretches less one."""
    found = []
    for start, end in stretches:
        if start < first:
            found.append((start, first if first < end else end))
        if last < end:
            found.append((last if last > start else start, end))
    return found


def opposite(plane: Plane) -> Plane:
    """Return the same plane with its sides changed."""
    return Plane(plane.centre - pi if plane.centre > 0 else plane.centre + pi, -plane.ratio)


def turning(frame: Frame, day: SolarDay) -> int:
    """Return which way round the sun goes all day: 1 from x to y (as seen from above), -1 back, 0 neither.

    Between the tropics it may turn on its way, seen from a point on the ground.
    """
    up, north = frame.z[0], frame.z[2]
    if abs(north) <= up * (abs(day.tangent) + abs(day.drift) * pi + _GRAZING):
        return 0
    return 1 if north > 0 else -1


def crossing(plane: Plane, day: SolarDay, turn: int) -> float:
    """Return when the sun, going round one way, crosses an upright plane on the side of its place."""
    centre, ratio = plane
    c = ratio * (day.tangent + day.drift * centre)
    crossed = sqrt(1 - c * c)
    half, slip = acos(-c), ratio * day.drift / (crossed if crossed > _GRAZING else _GRAZING)
    found = centre - half + slip * half if turn > 0 else centre + half + slip * half
    if found < -pi:
        return found + _TURN - slip * _TURN
    return found - _TURN - slip * _TURN if found > pi else found


def both(one: Stretches, other: Stretches) -> Stretches:
    """Return where two sets of stretches overlap."""
    if len(one) == len(other) == 1:
        (first, last), (start, end) = one[0], other[0]
        low, high = first if first > start else start, last if last < end else end
        return ((low, high),) if low < high else NONE
    found = []
    for first, last in one:
        for start, end in other:
            low = first if first > start else start
            high = last if last < end else end
            if low < high:
                found.append((low, high))
    return found


def length(stretches: Sequence[Stretch]) -> float:
    """Return how long stretches are together, overlaps once, in radians."""
    if len(stretches) == 1:
        ((first, last),) = stretches
        return last - first
    total, end = 0.0, -pi
    for first, last in sorted(stretches):
        if last > end:
            total += last - (first if first > end else end)
            end = last
    return total
