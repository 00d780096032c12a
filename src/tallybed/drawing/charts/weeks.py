"""A chart of what each week gave."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import timedelta
from fractions import Fraction

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import Plot, axes, heading, height, nothing, plotted
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.svg import Element, group, num, path, rect, sheet, text
from tallybed.drawing.charts.figures import weight_figure
from tallybed.garden.days import ONE_DAY, Span, Week, short
from tallybed.garden.units import AT_LEAST_WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekBar:
    """What one week gave."""

    week: Week
    amount: Fraction
    at_least: bool = False


def weekly(
    bars: tuple[WeekBar, ...],
    *,
    span: Span,
    unit: str,
    ident: str,
    title: str,
    narrow: bool = False,
) -> str:
    """Return the SVG markup of what each ISO week gave, a bar a week, the best week with its figure."""
    width = look.CHART_NARROW if narrow else look.CHART_WIDE
    ordered = sorted((bar for bar in bars if bar.amount > 0 or bar.at_least), key=lambda bar: bar.week)
    greatest = max((bar.amount for bar in ordered), default=Fraction(1)) or Fraction(1)
    plot = plotted(span, greatest, narrow=narrow, width=width, height=look.CHART_BARS, right=look.PAD)
    best = next((bar for bar in ordered if bar.amount == greatest), None)
    body = [_bar(plot, bar) for bar in ordered] if ordered else [nothing(plot)]
    if best:
        body.append(_best(plot, best, unit))
    return sheet(
        ident,
        width,
        height(plot),
        heading(title, width, plot.size),
        axes(plot, unit),
        *body,
        title=title,
        desc=_told_weeks(ordered, unit),
        class_=f"chart chart-{'narrow' if narrow else 'wide'}",
    )


def _bar(plot: Plot, bar: WeekBar) -> Element:
    """Draw one week's bar; its lid is broken where more was picked than weighed."""
    left, right = plot.x(bar.week.first), plot.x(bar.week.last + ONE_DAY)
    air = min(1.2, (right - left) * 0.15)
    left, right = left + air, max(right - air, left + air)
    top = plot.y(bar.amount)
    sides = f"M{num(left)} {num(plot.bottom)}V{num(top)}"
    lid = f"M{num(left)} {num(top)}H{num(right)}"
    return group(
        rect(left, top, right - left, plot.bottom - top, class_="d-bar", stroke="none"),
        path(f"{sides}M{num(right)} {num(top)}V{num(plot.bottom)}", class_="d-ink", stroke_width=look.FINE),
        path(lid, class_="d-ink", stroke_width=look.FINE, stroke_dasharray="1.5 2" if bar.at_least else None),
        class_="d-week d-at-least" if bar.at_least else "week",
        data_week=str(bar.week),
    )


def _best(plot: Plot, bar: WeekBar, unit: str) -> Element:
    """Write the figure of a week over its bar, within the plot."""
    size = plot.size
    words = weight_figure(bar.amount, unit, at_least=bar.at_least)
    middle = (plot.x(bar.week.first) + plot.x(bar.week.last + ONE_DAY)) / 2
    half = width_of(words, size) / 2
    middle = min(max(middle, plot.left + half), plot.left + plot.width - half)
    return text(
        middle,
        plot.y(bar.amount) - size * 0.4,
        words,
        size,
        class_="d-line-name",
        text_anchor="middle",
        halo=look.HALO,
    )


def _told_weeks(bars: list[WeekBar], unit: str) -> str:
    """Return each week's weight in words."""
    if not bars:
        return "Nothing weighed yet."
    told = [
        f"{short(bar.week.first)} to {short(bar.week.first + timedelta(days=6))}: "
        f"{weight_figure(bar.amount, unit, at_least=bar.at_least, sign=AT_LEAST_WORDS)}"
        for bar in bars
    ]
    return f"{'; '.join(told)}."
