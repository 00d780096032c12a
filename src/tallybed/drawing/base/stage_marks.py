"""The mark of a stage, so that nothing rests on its colour."""

from __future__ import annotations

from math import pi

from tallybed.drawing.base import look
from tallybed.drawing.base.strokes import petal
from tallybed.drawing.base.svg import Element, circle, group, num, path
from tallybed.reckoning.calendar.stages import Stage


def stage_mark(stage: Stage, x: float, y: float, size: float, *, paper: bool = False) -> Element:
    """Return a stage's mark in a box of ``size`` with its middle left at ``x``, ``y``.

    ``paper``: on a round piece of paper, so that it is seen on any ground.

    Sown: three seeds. Growing: a shoot with two leaves. Bearing: a full fruit.
    Over: an empty fruit struck through. Lost: a cross. Bare: an empty ring of dots.
    """
    half = size / 2
    move = f"translate({num(x + half)} {num(y)})"
    under = (circle(0, 0, half * 1.4, class_="d-chip", stroke="none"),) if paper else ()
    return group(*under, *_strokes(stage, half), class_="d-mark", transform=move)


def _strokes(stage: Stage, half: float) -> tuple[Element, ...]:
    """Return the shapes of a stage's mark around the origin; ``half`` is half its width."""
    match stage:
        case Stage.BARE:
            return (circle(0, 0, half * 0.8, stroke_width=look.FINE, stroke_dasharray="1.2 1.8"),)
        case Stage.SOWN:
            return tuple(
                circle(dx * half, dy * half, half * 0.24, class_="d-full", stroke_width=0.4)
                for dx, dy in ((-0.6, 0.4), (0, -0.4), (0.6, 0.4))
            )
        case Stage.GROWING:
            leaves = petal(-0.6, half, 0.34) + petal(pi + 0.6, half, 0.34)
            stem = path(f"M0 {num(half)}V0", stroke_width=look.FINE)
            return (stem, path(leaves, class_="d-full", stroke_width=0.4))
        case Stage.BEARING:
            stalk = f"M0 {num(-half * 0.4)}Q0 {num(-half)} {num(half * 0.6)} {num(-half)}"
            fruit = circle(0, half * 0.2, half * 0.7, class_="d-full", stroke_width=0.4)
            return (fruit, path(stalk, stroke_width=look.FINE))
        case Stage.OVER:
            slash = f"M{num(-half)} {num(half)}L{num(half)} {num(-half)}"
            return (circle(0, 0, half * 0.66, stroke_width=look.FINE), path(slash, stroke_width=look.FINE))
        case Stage.LOST:
            low, high = num(-half * 0.8), num(half * 0.8)
            cross = f"M{low} {low}L{high} {high}M{high} {low}L{low} {high}"
            return (path(cross, stroke_width=look.INK),)
