"""The answer as a drawing: the ground that rows would have needed, beside the ground that the beds took."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import head, heading
from tallybed.drawing.base.lettering import clipped, width_of
from tallybed.drawing.base.svg import Element, group, line, path, points, rect, sheet, text
from tallybed.drawing.rows.scale import Scale, below, drawn, scaled


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerBar:
    """One area, in the drawing's unit."""

    name: str
    words: str
    """What is written at its end."""
    low: Fraction
    middle: Fraction
    high: Fraction
    """Equal for an area that is known."""
    near: tuple[Fraction, Fraction] | None = None
    """From where to where an area is taken to be about the same."""
    rows: bool = False
    """Whether it is the ground of ordinary rows."""


def answer_bars(
    bars: tuple[AnswerBar, ...], *, unit: str, ident: str, title: str, narrow: bool = False
) -> str:
    """Return the SVG markup of areas below each other on one scale.

    ``narrow``: the drawing for narrow pages; ``map.css`` shows one of the two.
    """
    width = look.CHART_NARROW if narrow else look.CHART_WIDE
    size = look.CHART_TEXT[narrow]
    lane = look.ROWS_LANE + (size * look.LINE if narrow else 0)
    top = head(size) - size
    bottom = top + lane * len(bars) + look.GAP
    names = look.ROWS_NAMES[narrow]
    left = look.PAD + names
    ends = max((width_of(bar.words, size, bold=True) for bar in bars), default=0) + look.GAP * 2
    greatest = max((_end(bar) for bar in bars), default=Fraction(1))
    scale = scaled(
        greatest, left=left, width=width - look.PAD - left - ends, top=top, bottom=bottom, size=size
    )
    body = [_bar(bar, top + lane * index, scale, narrow=narrow) for index, bar in enumerate(bars)]
    return sheet(
        ident,
        width,
        bottom + below(size),
        heading(title, width, size),
        *drawn(scale, unit),
        *body,
        title=title,
        desc="; ".join(f"{bar.name}: {bar.words} {unit}" for bar in bars) + ".",
        class_=f"chart chart-{'narrow' if narrow else 'wide'}",
    )


def _end(bar: AnswerBar) -> Fraction:
    """Return the furthest that a bar is drawn."""
    return max(bar.high, bar.near[1]) if bar.near else bar.high


def _bar(bar: AnswerBar, top: float, scale: Scale, *, narrow: bool) -> Element:
    """Draw one area with its name and its figure."""
    size = scale.size
    shapes: list[Element] = []
    name_class = "d-line-name" if bar.rows or bar.near else "d-figure"
    if narrow:
        name = clipped(bar.name, size, scale.right - scale.left + 90, bold=True)
        shapes.append(text(look.PAD, top + size, name, size, class_=name_class))
        top += size * look.LINE
    else:
        name = clipped(bar.name, size, look.ROWS_NAMES[narrow] - look.GAP, bold=True)
        shapes.append(
            text(look.PAD, top + look.ROWS_LANE / 2 + size * look.MIDDLE, name, size, class_=name_class)
        )
    middle = top + look.ROWS_LANE / 2
    shapes += _rows(bar, middle, scale) if bar.rows else _ground(bar, middle, scale)
    end = scale.x(_end(bar)) + look.GAP
    words = text(end, middle + size * look.MIDDLE, bar.words, size, class_=name_class)
    return group(*shapes, words, class_="d-area-bar", data_name=bar.name)


def _rows(bar: AnswerBar, middle: float, scale: Scale) -> list[Element]:
    """Draw a range: a band from low to high, and an upright at the middle."""
    half = look.ROWS_BAR / 2
    low, high = scale.x(bar.low), scale.x(bar.high)
    return [
        line(
            scale.left, middle, low, middle, class_="d-soft", stroke_width=look.FINE, stroke_dasharray="1 3"
        ),
        rect(low, middle - half, high - low, 2 * half, class_="d-printed", stroke_width=look.FINE),
        line(
            scale.x(bar.middle),
            middle - half - 3,
            scale.x(bar.middle),
            middle + half + 3,
            class_="d-ink",
            stroke_width=look.HEAVY,
        ),
    ]


def _ground(bar: AnswerBar, middle: float, scale: Scale) -> list[Element]:
    """Draw an area; the one that is like the rows' own stands stronger, with what is about the same of it."""
    half = look.ROWS_BAR / 2 if bar.near else look.ROWS_BAR / 3
    end = scale.x(bar.middle)
    shapes: list[Element] = [
        rect(
            scale.left,
            middle - half,
            end - scale.left,
            2 * half,
            class_="d-taken" if bar.near else "d-taken d-part",
            stroke_width=look.FINE,
        )
    ]
    if bar.near:
        low, high = (scale.x(one) for one in bar.near)
        edge = "".join(
            points(((x, middle - half - 3), (x, middle + half + 3)), closed=False) for x in (low, high)
        )
        edge += points(((low, middle), (high, middle)), closed=False)
        shapes.append(path(edge, class_="d-ink", stroke_width=look.FINE, stroke_dasharray="3 2"))
    return shapes
