"""A crop's spacing as a sketch with its measures: plants over a few squares, the distance between two."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tallybed.drawing.base import look
from tallybed.drawing.base.glyphs import glyph
from tallybed.drawing.base.svg import Element, defs, group, line, path, points, rect, sheet, text, use
from tallybed.garden.crops import Habit
from tallybed.garden.units import Length
from tallybed.reckoning.calendar.stages import Stage

WIDTH = 300.0
"""Width of the sketch, in units that are pixels on the narrowest page."""
_SIZE = 12.0
"""Of its text."""
_EDGE = 30.0
"""Room around the block for its measures."""
_LARGEST = 140.0
"""Side of a square as drawn, at the most."""


def spacing_sketch(
    spacing: Length, side: Length, habit: Habit, *, ident: str, apart: str, square: str
) -> str:
    """Return the SVG markup of plants at their spacing over a block of squares of that side.

    ``apart`` and ``square``: the two lengths in words.
    Each plant is drawn as wide as its room. Half the spacing is kept at the edges, or
    more where the block leaves more. Raises ValueError for lengths that are not above zero.
    """
    if spacing.nanometres <= 0 or side.nanometres <= 0:
        raise ValueError(f"no sketch of {spacing} in squares of {side}")
    columns, rows = block(spacing, side)
    unit = min(_LARGEST, (WIDTH - 2 * _EDGE) / columns, 150 / rows)
    gap = unit * float(spacing.nanometres / side.nanometres)
    left = (WIDTH - columns * unit) / 2
    xs = _along(columns * unit, gap, left)
    ys = _along(rows * unit, gap, _EDGE)
    bottom = _EDGE + rows * unit
    plant = f"{ident}-plant"
    return sheet(
        ident,
        WIDTH,
        bottom + _EDGE,
        defs(glyph(plant, habit, Stage.GROWING, gap / 2, has_fruit=False)),
        rect(left, _EDGE, columns * unit, rows * unit, class_="d-ground stage-growing", stroke="none"),
        _strings(left, unit, columns, rows),
        group(*(use(plant, x, y) for y in ys for x in xs), class_="d-planted grade-seen"),
        _measure(xs[0], xs[1] if len(xs) > 1 else xs[0] + gap, ys[0], apart),
        _side(left, unit, bottom, square),
        title=f"Spacing: {apart} from plant to plant",
        desc=f"Plants {apart} apart, over squares of {square}, seen from above.",
        class_="layoutplan spacing",
    )


def block(spacing: Length, side: Length) -> tuple[int, int]:
    """Return how many squares across and down show the distance between two plants."""
    share = spacing.nanometres / side.nanometres
    if share < Fraction(1, 4):
        return 1, 1
    if share <= Fraction(1, 2):
        return 2, 1
    return max(2, _up(2 * share)), max(1, _up(share))


def _up(value: Fraction) -> int:
    """Return the next whole number."""
    return -(-value.numerator // value.denominator)


def _along(room: float, apart: float, start: float) -> list[float]:
    """Return the places of plants along a side, half the spacing or more from its ends."""
    count = max(1, int(room / apart + 1e-9))
    return [start + (room - (count - 1) * apart) / 2 + apart * index for index in range(count)]


def _strings(left: float, unit: float, columns: int, rows: int) -> Element:
    """Draw the strings between squares and the edge of the block."""
    right, bottom = left + columns * unit, _EDGE + rows * unit
    down = [((left + unit * at, _EDGE), (left + unit * at, bottom)) for at in range(1, columns)]
    across = [((left, _EDGE + unit * at), (right, _EDGE + unit * at)) for at in range(1, rows)]
    data = "".join(points(each, closed=False) for each in (*down, *across))
    return group(
        *([path(data, class_="d-twine", stroke_width=look.TWINE)] if data else []),
        rect(left, _EDGE, right - left, bottom - _EDGE, class_="d-frame", stroke_width=look.INK),
    )


def _measure(start: float, end: float, y: float, words: str) -> Element:
    """Draw the distance between two plants above the block, with lines up from their middles."""
    at = _EDGE - 9
    up = "".join(points(((x, y), (x, at - 4)), closed=False) for x in (start, end))
    return group(
        path(up, class_="d-soft", stroke_width=look.FINE, stroke_dasharray="2 2"),
        *_dimension(start, end, at),
        text(
            (start + end) / 2,
            at - 7,
            words,
            _SIZE * 1.1,
            halo=look.HALO,
            class_="d-measure",
            text_anchor="middle",
        ),
        class_="d-spacing",
    )


def _side(left: float, unit: float, bottom: float, words: str) -> Element:
    """Draw the side of the first square below the block."""
    at = bottom + 10
    return group(
        *_dimension(left, left + unit, at),
        text(left + unit / 2, at + _SIZE * 1.15, words, _SIZE, class_="d-figure", text_anchor="middle"),
        class_="d-square-side",
    )


def _dimension(start: float, end: float, y: float) -> Iterator[Element]:
    """Yield a line of measure with a tick at each end."""
    half = look.TICK / 2
    ticks = "".join(points(((x - half, y + half), (x + half, y - half)), closed=False) for x in (start, end))
    yield line(start, y, end, y, class_="d-ink", stroke_width=look.FINE)
    yield path(ticks, class_="d-ink", stroke_width=look.INK)
