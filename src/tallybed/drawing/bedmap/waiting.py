"""The mark of squares from which nothing is picked, or in which nobody works: a barred ring."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.drawing.base import look
from tallybed.drawing.base.svg import Element, circle, group, line
from tallybed.drawing.bedmap.layout import Layout
from tallybed.drawing.bedmap.swatches import HEIGHT, WIDTH, framed
from tallybed.drawing.bedmap.view import View
from tallybed.garden.squares import Square, by_row, in_words

RADIUS = 8.0
_SLANT = 0.7071
"""Share of the radius that the bar reaches to each side: half a right angle."""
_FROM_EDGE = 5.0


def waits(view: View) -> bool:
    """Return whether any square of the month is marked."""
    return bool(view.month.waiting or view.month.kept_off)


def marked(view: View) -> tuple[Square, ...]:
    """Return the squares that are marked, in bed order."""
    found = {*view.month.waiting, *view.month.kept_off}
    return tuple(sorted(found, key=by_row))


def rings(layout: Layout, view: View) -> Iterator[Element]:
    """Yield the mark of each square, in its upper right corner."""
    for square in marked(view):
        left, top, width, _height = layout.block(square, square)
        yield barred(left + width - RADIUS - _FROM_EDGE, top + RADIUS + _FROM_EDGE)


def barred(x: float, y: float, radius: float = RADIUS, pen: float = look.INK) -> Element:
    """Draw a barred ring about a point."""
    reach = radius * _SLANT
    return group(
        circle(x, y, radius, class_="d-barred", stroke_width=pen),
        line(x - reach, y - reach, x + reach, y + reach, class_="d-barred", stroke_width=pen),
    )


def swatch(_ident: str) -> str:
    """Show a barred ring."""
    return framed(barred(WIDTH / 2, HEIGHT / 2))


def told(view: View) -> Iterator[str]:
    """Yield the sentences that name the squares."""
    if view.month.waiting:
        yield f"Not to be picked from: {in_words(view.month.waiting, with_bed=False)}."
    if view.month.kept_off:
        yield f"Keep off: {in_words(view.month.kept_off, with_bed=False)}."
