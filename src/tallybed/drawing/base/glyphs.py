"""Plants from above: five glyphs by habit, and a seed.

A glyph is drawn around the origin at its real size. Leaves take the custom properties
``--leaf`` and ``--edge``, which a planting's class sets: green, and hollow where the
planting is only supposed or planned. Shapes inside a definition carry one class each, since
rules that look at ancestors do not reach a copy made by ``use``.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache
from math import pi

from tallybed.drawing.base import look
from tallybed.drawing.base.strokes import broad_leaf, curved, petal, polar, smooth
from tallybed.drawing.base.svg import Element, circle, group, path, rect
from tallybed.garden.crops import Habit
from tallybed.reckoning.calendar.stages import Stage

_Made = tuple[Element, ...]


def glyph(ident: str, habit: Habit, stage: Stage, radius: float, *, has_fruit: bool) -> Element:
    """Return the definition of one plant: its canopy behind, its habit before.

    ``radius``: of the canopy, in units. ``has_fruit``: whether it shows fruit while it bears, not
    a heart. What is sown shows as a seed in the room its plant will take.
    """
    radius = max(radius, look.SEED)
    pen = _pen(radius)
    if stage in (Stage.SOWN, Stage.BARE):
        room = circle(0, 0, radius, class_="d-room", stroke_width=pen, stroke_dasharray="1 3")
        return group(room, circle(0, 0, look.SEED, class_="d-seed", stroke="none"), id=ident)
    fine = "d-fine" if radius < look.SMALL_PLANT else None
    picked = _picked_of(habit, radius, has_fruit=has_fruit) if stage is Stage.BEARING else ()
    return group(*_plant(habit, radius), *picked, id=ident, class_=fine)


@lru_cache(maxsize=1000)
def _plant(habit: Habit, radius: float) -> _Made:
    """Return the shapes of one plant; many drawings show the same ones, and nobody changes a shape."""
    pen = _pen(radius)
    canopy = circle(0, 0, radius, class_="d-canopy", stroke_width=pen)
    return (canopy, *_HABITS[habit](radius, pen))


@lru_cache(maxsize=1000)
def _picked_of(habit: Habit, radius: float, *, has_fruit: bool) -> _Made:
    """Lay on a bearing plant what is picked of it: its heart, the shoulder of its root, or its fruit."""
    if not has_fruit or radius < look.SMALL_PLANT:
        share = 0.26 if habit in (Habit.ROSETTE, Habit.ROOT) else 0.15
        return (_picked(0, 0, max(radius * share, look.FRUIT_LEAST)),)
    number = 5 if radius > look.LARGE_PLANT else 3
    size = min(max(radius * 0.14, look.FRUIT_LEAST), 5.0)
    places = (polar(0.6 + step * 2 * pi / number, radius * 0.55) for step in range(number))
    return tuple(_picked(x, y, size) for x, y in places)


def _picked(x: float, y: float, radius: float) -> Element:
    """Draw one fruit, with a rim that parts it from the leaves."""
    return circle(x, y, radius, class_="d-fruit", stroke_width=look.FINE)


def _pen(radius: float) -> float:
    """Return the line weight for a plant: finer for small ones, which stand close."""
    least, more, most = look.PLANT_PEN
    return min(most, least + more * radius)


def _rosette(radius: float, pen: float) -> _Made:
    """Set leaves all around one heart, ring within ring."""
    if radius < look.SMALL_PLANT:
        return (_leaves(6, 0, radius * 0.95, 0.27, pen), _crown(radius * 0.13))
    outer = _leaves(8 if radius > look.LARGE_PLANT else 7, 0, radius * 0.98, 0.27, pen)
    return (outer, _leaves(6, 26, radius * 0.64, 0.26, pen), _leaves(4, 10, radius * 0.32, 0.3, pen))


def _upright(radius: float, pen: float) -> _Made:
    """Set narrow leaves in pairs around one stem, each pair across the one below."""
    if radius < look.SMALL_PLANT:
        return (_leaves(4, 0, radius * 0.95, 0.15, pen), _crown(radius * 0.16))
    if radius > look.LARGE_PLANT:
        lower = _leaves(8, 22.5, radius * 0.97, 0.13, pen)
        return (
            lower,
            _leaves(4, 0, radius * 0.7, 0.18, pen),
            _leaves(4, 45, radius * 0.42, 0.2, pen),
            _crown(radius * 0.07),
        )
    return (
        _leaves(4, 0, radius * 0.97, 0.18, pen),
        _leaves(4, 45, radius * 0.6, 0.18, pen),
        _crown(radius * 0.11),
    )


def _climbing(radius: float, pen: float) -> _Made:
    """Wind a stem around its support, with leaves along it."""
    turns = 2.2 if radius > look.LARGE_PLANT else 1.4
    steps = int(turns * 10)
    winding = [
        (radius * (0.12 + 0.56 * step / steps), 2 * pi * turns * step / steps) for step in range(steps + 1)
    ]
    coil = smooth([polar(turn, reach) for reach, turn in winding])
    number = 13 if radius > look.LARGE_PLANT else 4
    leaves = ""
    for index in range(number):
        reach, turn = winding[steps - int(index * steps * 0.8 / number)]
        aside = (0.55 if index % 2 else -0.35) if number > 4 else 0.5
        leaves += petal(turn + aside, radius * 0.34, 0.42, polar(turn, reach))
    half = min(radius * 0.1, 4.0)
    support = rect(-half, -half, 2 * half, 2 * half, class_="d-seed", stroke="none")
    return (
        path(leaves, class_="d-leaf", stroke_width=pen),
        path(coil, class_="d-stem", stroke_width=pen * 1.2),
        support,
    )


def _running(radius: float, pen: float) -> _Made:
    """Run stems along the ground, each with broad leaves."""
    number = 7 if radius > look.LARGE_PLANT else 5
    stems, leaves = "", ""
    for step in range(number):
        turn = step * 2 * pi / number
        long = 0.64 if step % 2 else 0.7
        x, y = polar(turn, radius * long)
        bx, by = polar(turn + 0.5, radius * 0.4)
        stems += f"M0 0Q{curved(bx)} {curved(by)} {curved(x)} {curved(y)}"
        leaves += broad_leaf(x, y, radius * (0.3 if number > 5 else 0.34), turn)
        if number > 5:
            ix, iy = polar(turn + 0.42, radius * 0.36)
            leaves += broad_leaf(ix, iy, radius * 0.17, turn + 1)
    return (
        path(stems, class_="d-stem", stroke_width=pen * 1.4),
        path(leaves, class_="d-leaf", stroke_width=pen),
        _crown(min(radius * 0.1, 4.0)),
    )


def _root(radius: float, pen: float) -> _Made:
    """Bend ferny leaves out from the shoulder of a root."""
    fronds = ""
    large = radius >= look.SMALL_PLANT * 1.6
    for step in range(7 if large else 5):
        turn = step * 2 * pi / (7 if large else 5)
        bend, tip = polar(turn + 0.1, radius * 0.6), polar(turn + 0.75, radius * 0.95)
        fronds += f"M0 0Q{curved(bend[0])} {curved(bend[1])} {curved(tip[0])} {curved(tip[1])}"
        if large:
            for reach, angle in ((0.5, 0.16), (0.72, 0.36)):
                foot = polar(turn + angle, radius * reach)
                for side in (-0.75, 0.95):
                    twig = polar(turn + angle + side, radius * 0.2)
                    fronds += f"M{curved(foot[0])} {curved(foot[1])}l{curved(twig[0])} {curved(twig[1])}"
    return (
        path(fronds, class_="d-stem", stroke_width=pen * 1.15),
        circle(0, 0, radius * 0.3, class_="d-leaf", stroke_width=pen * 1.3),
        _crown(radius * 0.07),
    )


_HABITS: Mapping[Habit, Callable[[float, float], _Made]] = {
    Habit.ROSETTE: _rosette,
    Habit.UPRIGHT: _upright,
    Habit.CLIMBING: _climbing,
    Habit.RUNNING: _running,
    Habit.ROOT: _root,
}


def _leaves(count: int, first: float, length: float, width: float, pen: float) -> Element:
    """Draw so many leaves around the origin, the first in direction ``first`` in degrees."""
    turns = [first * pi / 180 + step * 2 * pi / count for step in range(count)]
    return path("".join(petal(turn, length, width) for turn in turns), class_="d-leaf", stroke_width=pen)


def _crown(radius: float) -> Element:
    """Draw the middle that the leaves grow from."""
    return circle(0, 0, radius, class_="d-crown", stroke_width=look.HAIR)
