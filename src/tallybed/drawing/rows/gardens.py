"""Whole gardens on one strip: a dot for each measured yield, this garden's own figures among them."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import head, heading
from tallybed.drawing.base.lettering import broken, clipped
from tallybed.drawing.base.svg import Element, circle, group, line, path, points, sheet, text
from tallybed.drawing.rows.scale import Scale, below, drawn, scaled


@dataclass(frozen=True, slots=True, kw_only=True)
class GardenDot:
    """One garden's yield; ``low`` and ``high`` are equal for a single figure."""

    name: str
    words: str
    """The figure as it is told."""
    low: Fraction
    high: Fraction
    own: bool = False
    """Whether it is a figure of this garden."""
    second_hand: bool = False


def garden_strip(
    gardens: tuple[GardenDot, ...], *, unit: str, ident: str, title: str, narrow: bool = False
) -> str:
    """Return the SVG markup of gardens below each other on one scale, in the order given.

    ``narrow``: the drawing for narrow pages; ``map.css`` shows one of the two.
    """
    width = look.CHART_NARROW if narrow else look.CHART_WIDE
    size = look.CHART_TEXT[narrow]
    left = look.PAD + look.DOT + (0 if narrow else look.ROWS_NAMES[narrow])
    top = head(size) - size
    room = width - 2 * look.PAD if narrow else left - look.PAD - look.GAP * 3
    names = [_lines(one.name, size, room) for one in gardens]
    lanes = [_height(lines, size, narrow=narrow) for lines in names]
    bottom = top + sum(lanes) + look.GAP
    greatest = max((one.high for one in gardens), default=Fraction(1)) or Fraction(1)
    scale = scaled(
        greatest, left=left, width=width - look.PAD - look.DOT - left, top=top, bottom=bottom, size=size
    )
    tops = accumulate(lanes[:-1], initial=top)
    body = [
        _lane(one, lines, above, high, scale, narrow=narrow)
        for one, lines, above, high in zip(gardens, names, tops, lanes, strict=True)
    ]
    return sheet(
        ident,
        width,
        bottom + below(size),
        heading(title, width, size),
        *drawn(scale, unit),
        *body,
        title=title,
        desc="; ".join(f"{one.name}: {one.words}" for one in gardens) + ".",
        class_=f"chart chart-{'narrow' if narrow else 'wide'}",
    )


def _lines(name: str, size: float, room: float) -> tuple[str, ...]:
    """Return a garden's name in one line, or in two where it has no room in one."""
    first, rest = broken(name, size, room)
    return (first, clipped(rest, size, room)) if rest else (first,)


def _height(lines: tuple[str, ...], size: float, *, narrow: bool) -> float:
    """Return how high a garden's line is: on narrow pages its name stands above its dot, else beside it."""
    more = (len(lines) - 1) * look.LINE
    return size * (look.LINE * 2.1 + more if narrow else 1.7 + more)


def _lane(
    one: GardenDot, lines: tuple[str, ...], top: float, lane: float, scale: Scale, *, narrow: bool
) -> Element:
    """Draw one garden’s line."""
    size = scale.size
    strong = "d-line-name" if one.own else "d-figure"
    step = size * look.LINE
    first = top + (size if narrow else lane / 2 + size * look.MIDDLE - step * (len(lines) - 1) / 2)
    name = [
        text(look.PAD, first + step * number, words, size, class_=strong)
        for number, words in enumerate(lines)
    ]
    y = top + lane - size * 0.55 if narrow else top + lane / 2
    low, high = scale.x(one.low), scale.x(one.high)
    shapes: list[Element] = []
    if low != high:
        shapes.append(line(low, y, high, y, class_="d-ink", stroke_width=look.INK))
    for x in dict.fromkeys((low, high)):
        if one.own:
            arm = look.DOT + 1
            diamond = points(((x - arm, y), (x, y - arm), (x + arm, y), (x, y + arm)))
            shapes.append(path(diamond, class_="d-dot", stroke_width=look.FINE))
        else:
            kind = "d-dot d-open" if one.second_hand else "d-dot d-earlier"
            shapes.append(circle(x, y, look.DOT_EARLIER + 0.5, class_=kind, stroke_width=look.FINE * 1.3))
    return group(*name, *shapes, class_="d-garden d-own" if one.own else "d-garden", data_name=one.name)
