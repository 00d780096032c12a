"""The vines of a planting that are led out of the bed."""

from __future__ import annotations

from math import atan2, cos, hypot, pi, sin

from tallybed.drawing.base import look
from tallybed.drawing.base.strokes import Place, broad_leaf, smooth, tendril
from tallybed.drawing.base.svg import Element, path


def vine(start: Place, end: Place, *, swing: float, bent: int) -> tuple[Element, ...]:
    """Return a vine from ``start`` to ``end`` in units: its stem, its leaves, its tendrils.

    ``swing``: how far it strays from the straight line; ``bent``: 1 or -1, the side
    it strays to first. It is straight at both ends, so it goes no further than they do.
    """
    length = hypot(end[0] - start[0], end[1] - start[1])
    if not length:
        return ()
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    across = (-along[1], along[0])
    heading = atan2(along[1], along[0])
    waves = max(1.0, length / 130)
    count = max(8, int(length / 12))

    def place(step: float) -> Place:
        """Return the place at a share of the way, strayed to one side and the other."""
        stray = bent * swing * sin(step * waves * 2 * pi) * sin(step * pi)
        return (
            start[0] + along[0] * step * length + across[0] * stray,
            start[1] + along[1] * step * length + across[1] * stray,
        )

    stem = smooth([place(step / count) for step in range(count + 1)])
    leaves, tendrils = [], []
    number = max(2, int(length / (look.VINE_LEAF_INCHES * look.PER_INCH)))
    size = swing * 0.55
    for index in range(1, number + 1):
        x, y = place(index / (number + 0.4))
        side = 1 if index % 2 else -1
        lean = heading + side * 0.9
        leaves.append(broad_leaf(x + size * cos(lean), y + size * sin(lean), size, lean))
        if index % 2 == 0:
            tendrils.append(tendril(x, y, heading - side * 1.1, size))
    return (
        path(stem, class_="d-vine", stroke_width=look.INK),
        path("".join(tendrils), class_="d-stem", stroke_width=look.HAIR),
        path("".join(leaves), class_="d-leaf", stroke_width=look.HAIR),
    )
