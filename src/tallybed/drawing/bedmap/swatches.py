"""What the swatches of a legend are drawn with: their size, and the shapes several of them share."""

from __future__ import annotations

from tallybed.drawing.base import look
from tallybed.drawing.base.patterns import filled_with, tiles
from tallybed.drawing.base.svg import Element, defs, rect, swatch
from tallybed.reckoning.squares.occupancy import Grade

WIDTH, HEIGHT = 48.0, 28.0
"""Size of a swatch, in units that are pixels."""

Box = tuple[float, float, float, float]
"""Left, top, width and height."""
WHOLE: Box = (1.5, 1.5, WIDTH - 3, HEIGHT - 3)
"""The ground of a swatch."""


def framed(*shapes: Element) -> str:
    """Return the markup of one swatch of the usual size."""
    return swatch(WIDTH, HEIGHT, *shapes, class_="swatch")


def boxed() -> Element:
    """Draw the edge of plain ground."""
    return rect(*WHOLE, class_="d-soft", stroke_width=look.HAIR)


def tiled(ident: str, name: str) -> str:
    """Return a swatch of ground with a pattern; ``ident`` begins the pattern's id."""
    filled = rect(*WHOLE, stroke="none", fill=filled_with(ident, name))
    return framed(defs(*tiles(ident, [name])), filled, boxed())


def outlined(box: Box, grade: Grade) -> Element:
    """Draw a planting's outline in the line of its grade."""
    return rect(
        *box,
        class_=f"d-outline grade-{grade.word}",
        stroke_width=look.INK,
        stroke_dasharray=look.GRADE_DASH[grade],
        stroke_linecap="round" if grade is Grade.PLANNED else None,
    )
