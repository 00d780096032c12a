"""Crops across seasons: a small panel for each crop, a bar for each season, each crop on its own scale."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import head, heading
from tallybed.drawing.base.lettering import clipped, width_of
from tallybed.drawing.base.svg import Element, group, line, path, points, rect, sheet, text
from tallybed.drawing.charts.figures import total_figure
from tallybed.garden.units import AT_LEAST_WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonBar:
    """What a crop gave in one season."""

    season: str
    amount: Fraction | None
    """In the chart's unit; None where it was grown or picked but not weighed, or not grown at all."""
    said: str = ""
    """What is written where there is no amount: ``not weighed``, ``not grown``."""
    at_least: bool = False
    running: bool = False
    """Whether the season still goes on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CropPanel:
    """One crop, and what it gave in each season."""

    name: str
    bars: tuple[SeasonBar, ...]


def crop_bars(
    crops: tuple[CropPanel, ...], *, unit: str, ident: str, title: str, narrow: bool = False
) -> str:
    """Return the SVG markup of a panel for each crop, its best season the full width.

    ``narrow``: the drawing for narrow pages; ``map.css`` shows one of the two.
    """
    width = look.CHART_NARROW if narrow else look.CHART_WIDE
    size = look.CHART_TEXT[narrow]
    across = max(1, min(look.BAR_COLUMNS[narrow], len(crops)))
    wide = (width - 2 * look.PAD - (across - 1) * look.PANEL_GAP) / across
    rows = -(-len(crops) // across)
    tops = [head(size)]
    for row in range(rows):
        here = crops[row * across : (row + 1) * across]
        tops.append(tops[-1] + max(_height(each, size) for each in here))
    panels = []
    for index, crop in enumerate(crops):
        row, column = divmod(index, across)
        left = look.PAD + column * (wide + look.PANEL_GAP)
        panels.append(_panel(crop, left, tops[row], wide, size, unit))
    return sheet(
        ident,
        width,
        tops[-1] + look.PAD,
        heading(title, width, size),
        *panels,
        title=title,
        desc=_told(crops, unit),
        class_=f"chart chart-{'narrow' if narrow else 'wide'}",
    )


def _height(crop: CropPanel, size: float) -> float:
    """Return the height of a crop's panel."""
    return size * 1.7 + look.BAR_ROW * len(crop.bars) + look.PANEL_GAP * 0.8


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rows:
    """How the bars of one panel are set."""

    base: float
    """Where bars begin."""
    room: float
    """Length of the best season's bar."""
    best: Fraction
    size: float
    """Of text."""
    unit: str


def _panel(crop: CropPanel, left: float, top: float, wide: float, size: float, unit: str) -> Element:
    """Draw one crop's bars, a season below the other."""
    first = top + size * 1.7
    labels = max((width_of(bar.season, size) for bar in crop.bars), default=0) + look.GAP
    figures = max((width_of(_words(bar, unit), size) for bar in crop.bars), default=0) + look.GAP
    rows = _Rows(
        base=left + labels,
        room=max(wide - labels - figures, 10.0),
        best=max((bar.amount for bar in crop.bars if bar.amount is not None), default=Fraction(0)),
        size=size,
        unit=unit,
    )
    drawn = [_bar(bar, first + index * look.BAR_ROW, rows) for index, bar in enumerate(crop.bars)]
    upright = line(
        rows.base,
        first - look.GAP / 2,
        rows.base,
        first + look.BAR_ROW * len(crop.bars) - look.GAP / 2,
        class_="d-ink",
        stroke_width=look.FINE,
    )
    name = text(left, top + size * 0.9, clipped(crop.name, size, wide, bold=True), size, class_="d-title")
    return group(name, *drawn, upright, class_="d-panel", data_name=crop.name)


def _bar(bar: SeasonBar, y: float, rows: _Rows) -> Element:
    """Draw one season's bar with its name before it and its figure behind it; ``y`` is its upper edge."""
    base, size = rows.base, rows.size
    high = look.BAR_ROW - look.GAP
    middle = y + high / 2 + size * look.MIDDLE
    wide = rows.room * float(bar.amount / rows.best) if bar.amount and rows.best else 0.0
    shapes: list[Element] = [
        text(base - look.GAP, middle, bar.season, size, class_="d-figure", text_anchor="end")
    ]
    if wide:
        edge = points(((base, y), (base + wide, y)), closed=False)
        edge += points(((base, y + high), (base + wide, y + high)), closed=False)
        lid = points(((base + wide, y), (base + wide, y + high)), closed=False)
        shapes += [
            rect(base, y, wide, high, class_="d-bar", stroke="none"),
            path(edge, class_="d-ink", stroke_width=look.FINE),
            # A bar whose season goes on, or of which more was picked than weighed, has an open end.
            path(
                lid,
                class_="d-ink",
                stroke_width=look.FINE,
                stroke_dasharray="1.5 2" if bar.at_least or bar.running else None,
            ),
        ]
    words = text(
        base + wide + look.GAP,
        middle,
        _words(bar, rows.unit),
        size,
        class_="d-line-name" if bar.amount is not None else "d-figure",
    )
    open_end = " d-at-least" if bar.at_least or bar.running else ""
    return group(*shapes, words, class_=f"d-season{open_end}", data_season=bar.season)


def _words(bar: SeasonBar, unit: str, sign: str = "≥ ") -> str:
    """Return a bar's figure, or why there is none."""
    if bar.amount is None:
        return bar.said
    so_far = " so far" if bar.running else ""
    return f"{total_figure(bar.amount, unit, at_least=bar.at_least, sign=sign)}{so_far}"


def _told(crops: Iterable[CropPanel], unit: str) -> str:
    """Return every bar in words."""
    told = []
    for crop in crops:
        parts = (f"{bar.season} {_words(bar, unit, AT_LEAST_WORDS)}" for bar in crop.bars)
        told.append(f"{crop.name}: {', '.join(parts)}")
    return f"{'; '.join(told)}."
