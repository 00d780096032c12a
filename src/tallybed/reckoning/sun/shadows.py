"""When one body's shadow lies on a point: the planes through the point and the body's edges.

A body that stands on the ground shades a point below its top while the sun is between
the two upright planes through its outermost corners, and lower than each plane through
an upper edge that faces the point. A leaning screen has leaning sides; it is cut off at
the point's height, as nothing below that can shade it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import atan2, pi, sqrt

from tallybed.reckoning.sun.arcs import (
    NEVER_TURNS,
    NONE,
    Frame,
    Plane,
    Stretches,
    both,
    crossing,
    opposite,
    over,
    over_arc,
    turning,
)
from tallybed.reckoning.sun.bodies import Box
from tallybed.reckoning.sun.position import SolarDay

Vector = tuple[float, float, float]
_EDGE_ON = 1e-9
"""Below this a point lies in the plane of a screen, which then shades it for no time."""


@dataclass(frozen=True, slots=True)
class Outline:
    """A box or an upright face as a point sees it, whatever its height."""

    sides: tuple[int, int]
    """The planes through its first and its last corner, going round from x to y, by number."""
    tops: tuple[tuple[float, float, float, float, float], ...]
    """Its sides that face the point: what each edge adds to ``cos H``, ``sin H`` and the tangent of the
    declination for each inch that it rises above the point, and what its distance takes of the first
    and the last."""


@dataclass(slots=True)
class Views:
    """How points of one bed see what stands there; planes that many points share are kept once."""

    frame: Frame
    planes: list[Plane] = field(default_factory=list)
    """Upright planes, by number."""
    _numbers: dict[tuple[float, float], int] = field(default_factory=dict)
    _outlines: dict[Box, Outline | None] = field(default_factory=dict)

    def outline(self, box: Box, x: float, y: float) -> Outline | None:
        """Return how a point sees a box; None from within it, or edge-on."""
        away = (box[0] - x, box[1] - x, box[2] - y, box[3] - y)
        if away not in self._outlines:
            self._outlines[away] = self._outline(*away)
        return self._outlines[away]

    def _outline(self, low_x: float, high_x: float, low_y: float, high_y: float) -> Outline | None:
        facing = ((1.0, 0.0, low_x), (-1.0, 0.0, -high_x), (0.0, 1.0, low_y), (0.0, -1.0, -high_y))
        tops = tuple(one for one in facing if one[2] > 0)
        if not tops:
            return None
        first, last = _outermost(((low_x, low_y), (high_x, low_y), (high_x, high_y), (low_x, high_y)))
        if first[0] * last[1] - first[1] * last[0] < _EDGE_ON:
            return None
        return Outline((self._upright(*first), self._upright(*last)), tuple(self._edge(*top) for top in tops))

    def face(self, middle: tuple[float, float], toward: tuple[float, float], half: float) -> Outline | None:
        """Return how a point sees an upright face, by its middle, a direction square to it, half its width.

        None where the point lies in its plane.
        """
        distance = middle[0] * toward[0] + middle[1] * toward[1]
        if distance < 0:
            toward, distance = (-toward[0], -toward[1]), -distance
        if distance < _EDGE_ON:
            return None
        along = (-toward[1] * half, toward[0] * half)
        first = self._upright(middle[0] - along[0], middle[1] - along[1])
        last = self._upright(middle[0] + along[0], middle[1] + along[1])
        return Outline((first, last), (self._edge(*toward, distance),))

    def _edge(self, x: float, y: float, distance: float) -> tuple[float, float, float, float, float]:
        """Return how an upper edge is seen, by the direction squarely towards it and how far it is."""
        along, across, up = self.frame.x, self.frame.y, self.frame.z
        a, b, m = (x * one + y * other for one, other in zip(along, across, strict=True))
        return (a, b, m, distance * up[0], distance * up[2])

    def _upright(self, x: float, y: float) -> int:
        """Return the number of the upright plane through the point and a place; over it lies y from x."""
        key = (x, y)
        if key not in self._numbers:
            self._numbers[key] = len(self.planes)
            self.planes.append(self.frame.plane(-y, x, 0.0))
        return self._numbers[key]


class Sky:
    """The sun's way over one bed on one day."""

    __slots__ = ("_crossings", "_drift", "_planes", "_sectors", "_tangent", "_turn", "day", "frame", "up")

    def __init__(self, views: Views, day: SolarDay) -> None:
        self.frame = views.frame
        self.day = day
        self._tangent, self._drift = day.tangent, day.drift
        self.up = over(views.frame.plane(0.0, 0.0, 1.0), day)
        """When the sun's middle is above the level horizon."""
        self._planes = views.planes
        self._turn = turning(views.frame, day)
        self._crossings: list[float | None] = [None] * len(views.planes)
        self._sectors: dict[tuple[int, int], Stretches] = {}

    def shaded(self, outline: Outline, above: float) -> Stretches:
        """Return when a box that rises so far above a point keeps the sun from it."""
        found = self._sectors.get(outline.sides)
        if found is None:
            found = self._sector(outline.sides)
        tangent, drift = self._tangent, self._drift
        for a_inch, b_inch, m_inch, a_back, m_back in outline.tops:
            if not found:
                break
            a, b, m = a_inch * above - a_back, b_inch * above, m_inch * above - m_back
            size = sqrt(a * a + b * b)
            if size * NEVER_TURNS <= abs(m):
                found = found if m * tangent >= 0 else NONE
            else:
                found = over_arc(atan2(b, a), m / size, tangent, drift, found)
        return found

    def _sector(self, sides: tuple[int, int]) -> Stretches:
        """Return when the sun stands between two upright planes, above the horizon."""
        first, last = sides
        if self._turn:
            start, end = self._crossing(first), self._crossing(last)
            if self._turn < 0:
                start, end = end, start
            arcs = ((start, end),) if start < end else ((-pi, end), (start, pi))
            found = both(self.up, arcs)
        else:
            # Over the plane of the last corner lies what comes after it: what comes before is the rest.
            found = over(self._planes[first], self.day, self.up)
            found = over(opposite(self._planes[last]), self.day, found)
        self._sectors[sides] = found
        return found

    def _crossing(self, number: int) -> float:
        """Return when the sun crosses an upright plane."""
        found = self._crossings[number]
        if found is None:
            found = self._crossings[number] = crossing(self._planes[number], self.day, self._turn)
        return found

    def behind(self, corners: Sequence[Vector]) -> Stretches:
        """Return when a flat figure without hollows, seen from the origin, hides the sun."""
        middle = tuple(sum(corner[axis] for corner in corners) for axis in range(3))
        found = self.up
        for place, corner in enumerate(corners):
            x, y, z = _cross(corner, corners[place - 1])
            side = x * middle[0] + y * middle[1] + z * middle[2]
            if abs(side) < _EDGE_ON:
                return NONE
            sign = 1 if side > 0 else -1
            found = over(self.frame.plane(sign * x, sign * y, sign * z), self.day, found)
            if not found:
                return NONE
        return found


def leaning(
    box: Box, lean: tuple[float, float], x: float, y: float, low: float, high: float
) -> tuple[Vector, ...]:
    """Return a leaning screen from the height ``low`` to its top, as seen from a point at that height."""
    start, end = (box[0] - x, box[2] - y), (box[1] - x, box[3] - y)
    foot, top = (lean[0] * low, lean[1] * low), (lean[0] * high, lean[1] * high)
    above = high - low
    return (
        (start[0] + foot[0], start[1] + foot[1], 0.0),
        (end[0] + foot[0], end[1] + foot[1], 0.0),
        (end[0] + top[0], end[1] + top[1], above),
        (start[0] + top[0], start[1] + top[1], above),
    )


def _outermost(corners: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the corners of a box that, going round from x to y, come before and after all others."""
    first = last = corners[0]
    for corner in corners[1:]:
        if first[0] * corner[1] - first[1] * corner[0] < 0:
            first = corner
        if last[0] * corner[1] - last[1] * corner[0] > 0:
            last = corner
    return first, last


def _cross(one: Vector, other: Vector) -> Vector:
    return (
        one[1] * other[2] - one[2] * other[1],
        one[2] * other[0] - one[0] * other[2],
        one[0] * other[1] - one[1] * other[0],
    )
