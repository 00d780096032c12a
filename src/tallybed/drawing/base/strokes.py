"""Curves that plants are drawn with, as path data; angles in radians, sizes in units."""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi, sin

from tallybed.drawing.base.svg import num, points

Place = tuple[float, float]


def curved(value: float) -> str:
    """Return a number of a curve to one decimal: a tenth of a unit is a sixtieth of an inch in the bed."""
    return num(value, 1)


def petal(turn: float, length: float, width: float, at: Place = (0.0, 0.0)) -> str:
    """Return a pointed leaf of a length in direction ``turn``.

    ``width``: half the leaf's width, as a share of its length; ``at``: where it starts from.
    """
    middle, half = length * 0.55, width * length
    corners = []
    for out, aside in ((0.0, 0.0), (middle, half), (length, 0.0), (middle, -half)):
        x = at[0] + out * cos(turn) - aside * sin(turn)
        y = at[1] + out * sin(turn) + aside * cos(turn)
        corners.append(f"{curved(x)} {curved(y)}")
    foot, one, tip, other = corners
    return f"M{foot}Q{one} {tip}Q{other} {foot}Z"


def cross(x: float, y: float, arm: float) -> str:
    """Return a slanting cross around a place; ``arm``: how far each of its ends is aside and up or down."""
    falling = points(((x - arm, y - arm), (x + arm, y + arm)), closed=False)
    return falling + points(((x - arm, y + arm), (x + arm, y - arm)), closed=False)


def broad_leaf(x: float, y: float, radius: float, turn: float) -> str:
    """Return a broad leaf of three lobes around a place, its stalk end away from ``turn``."""
    out = []
    for angle, reach in (
        (pi, 0.55),
        (-2.0, 1.05),
        (-1.3, 0.72),
        (-0.75, 1.0),
        (0, 1.0),
        (0.75, 1.0),
        (1.3, 0.72),
        (2.0, 1.05),
    ):
        out.append((x + radius * reach * cos(turn + angle), y + radius * reach * sin(turn + angle)))
    return smooth(out, closed=True)


def tendril(x: float, y: float, turn: float, size: float) -> str:
    """Return a thin shoot that curls up at its end."""
    reach = size * 1.1
    hook = [polar(turn + 0.3, reach * 0.5), polar(turn, reach), polar(turn - 0.35, reach * 1.15)]
    curl = [polar(turn - 0.45, reach * 0.85), polar(turn - 0.2, reach * 0.8)]
    return smooth([(x, y), *((x + dx, y + dy) for dx, dy in (*hook, *curl))])


def smooth(places: list[Place], *, closed: bool = False) -> str:
    """Return a curve through the middles between ``places``, bent towards them."""
    if closed:
        middles = [_middle(places[index - 1], place) for index, place in enumerate(places)]
        data = f"M{curved(middles[0][0])} {curved(middles[0][1])}"
        for index, (x, y) in enumerate(places):
            to = middles[(index + 1) % len(places)]
            data += f"Q{curved(x)} {curved(y)} {curved(to[0])} {curved(to[1])}"
        return data + "Z"
    data = f"M{curved(places[0][0])} {curved(places[0][1])}"
    for here, after in pairwise(places[1:]):
        to = after if after is places[-1] else _middle(here, after)
        data += f"Q{curved(here[0])} {curved(here[1])} {curved(to[0])} {curved(to[1])}"
    return data


def polar(turn: float, radius: float) -> Place:
    """Return the place in direction ``turn`` at distance ``radius`` from the origin."""
    return (radius * cos(turn), radius * sin(turn))


def _middle(one: Place, other: Place) -> Place:
    """Return the place halfway between two."""
    return ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
