"""What a crop gave for its ground, season by season, over the band that is printed for rows."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.strokes import cross
from tallybed.drawing.base.svg import Element, circle, group, line, path, rect, sheet, text
from tallybed.drawing.rows.scale import Scale, below, drawn, scaled

ROW = 24.0
"""Height of a season's line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GaveDot:
    """What one planting gave over ground like that of a row, in the unit of the printed range."""

    value: Fraction
    open: bool
    """Whether the true figure is more: not all was weighed, or it still goes on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedRange:
    """What is printed for rows, in one unit with the dots."""

    low: Fraction
    middle: Fraction
    high: Fraction


def gave_chart(
    seasons: Sequence[tuple[str, tuple[GaveDot, ...]]],
    printed: PrintedRange,
    *,
    unit: str,
    ident: str,
    title: str,
    told: str,
    narrow: bool = False,
) -> str:
    """Return the SVG markup of seasons' plantings as dots over the printed range.

    ``narrow``: the drawing for narrow pages; ``map.css`` shows one of the two.
    """
    size = look.CHART_TEXT[narrow]
    width = look.CHART_NARROW if narrow else look.CHART_WIDE
    left = look.PAD + max(width_of(name, size, bold=True) for name, _dots in seasons) + look.GAP * 2
    top = look.PAD + size * look.LINE + look.GAP
    bottom = top + ROW * len(seasons) + look.GAP
    greatest = max([printed.high, *(dot.value for _name, dots in seasons for dot in dots)])
    scale = scaled(greatest, left=left, width=width - left - look.PAD, top=top, bottom=bottom, size=size)
    return sheet(
        ident,
        width,
        bottom + below(size),
        _band(printed, scale),
        *drawn(scale, unit),
        *(_season(name, dots, top + ROW * (at + 0.5), scale) for at, (name, dots) in enumerate(seasons)),
        title=title,
        desc=told,
        class_=f"chart gave chart-{'narrow' if narrow else 'wide'}",
    )


def _band(printed: PrintedRange, scale: Scale) -> Element:
    """Draw the printed range, a line at its middle, and its name above."""
    start, end, middle = (scale.x(value) for value in (printed.low, printed.high, printed.middle))
    words, size = "printed for rows", scale.size
    half = width_of(words, size) / 2
    at = min(max((start + end) / 2, scale.left + half), scale.right - half)
    return group(
        rect(
            start,
            scale.top,
            max(end - start, 1.5),
            scale.bottom - scale.top,
            class_="d-printed",
            stroke_width=look.HAIR,
        ),
        line(middle, scale.top, middle, scale.bottom, class_="d-soft", stroke_width=look.FINE),
        text(at, scale.top - look.GAP, words, size, class_="d-figure", text_anchor="middle"),
        class_="d-print",
    )


def _season(name: str, dots: Iterable[GaveDot], y: float, scale: Scale) -> Element:
    """Draw one season: its name, its line, its plantings."""
    size = scale.size
    return group(
        text(look.PAD, y + look.MIDDLE * size, name, size, class_="d-title"),
        line(scale.left, y, scale.right, y, class_="d-twine", stroke_width=look.HAIR),
        *(shape for dot in dots for shape in _dot(dot, y, scale)),
        class_="d-season",
        data_name=name,
    )


def _dot(dot: GaveDot, y: float, scale: Scale) -> Iterator[Element]:
    """Yield one planting: a dot, open where the true figure is more, a cross where it gave nothing."""
    x = scale.x(dot.value)
    if not dot.value and not dot.open:
        yield path(cross(x, y, look.DOT_EARLIER), class_="d-ink", stroke_width=look.INK)
        return
    yield circle(x, y, look.DOT, class_="d-dot d-open" if dot.open else "d-dot", stroke_width=look.FINE * 1.4)
