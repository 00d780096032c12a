"""A chart's plot: days along, weights up, with month names and round figures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import ceil

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import clipped, width_of
from tallybed.drawing.base.svg import Element, group, line, path, points, text
from tallybed.garden.days import ONE_DAY, Span
from tallybed.garden.units import rounded

_STEPS = tuple(Fraction(step) * Fraction(10) ** power for power in range(-3, 7) for step in (1, 2, 5))


@dataclass(frozen=True, slots=True, kw_only=True)
class Plot:
    """Where days and weights lie on a chart."""

    span: Span
    top_value: Fraction
    """The greatest figure on the axis."""
    step: Fraction
    left: float
    top: float
    width: float
    height: float
    size: float
    """Of text."""

    def x(self, day: date) -> float:
        """Return where a day begins; days outside the season lie at its ends."""
        return along(self.span, day, self.left, self.width)

    def y(self, value: Fraction) -> float:
        """Return where a weight lies; less than nothing lies at nothing."""
        share = max(value, Fraction(0)) / self.top_value
        return self.top + self.height * (1 - float(share))

    @property
    def bottom(self) -> float:
        """Where nothing lies."""
        return self.top + self.height


def along(span: Span, day: date, left: float, width: float) -> float:
    """Return where a day begins on an axis from ``left``; days outside the season lie at its ends."""
    passed = min(max((day - span.first).days, 0), span.days)
    return left + width * passed / span.days


def plotted(
    span: Span, greatest: Fraction, *, narrow: bool, width: float, height: float, right: float
) -> Plot:
    """Return a plot for weights up to ``greatest``, ``right`` units clear at its end for names."""
    step, top_value = rounds(greatest)
    size = look.CHART_TEXT[narrow]
    left = width_of(figure(top_value, step), size) + look.GAP * 2 + look.TICK
    return Plot(
        span=span,
        top_value=top_value,
        step=step,
        left=left,
        top=head(size),
        width=width - left - right,
        height=height,
        size=size,
    )


def rounds(greatest: Fraction) -> tuple[Fraction, Fraction]:
    """Return the step between round figures, and the least of them that is not below ``greatest``."""
    greatest = max(greatest, Fraction(0)) or Fraction(1)
    step = next((step for step in _STEPS if greatest <= 5 * step), _STEPS[-1])
    return step, step * max(1, -(-greatest // step))


def axes(plot: Plot, unit: str) -> Element:
    """Draw the figures and strings across, the ticks and month names below."""
    across, figures = [], []
    count = int(plot.top_value / plot.step)
    for index in range(count + 1):
        value = plot.step * index
        y = plot.y(value)
        right = plot.left + plot.width
        if index:
            across.append(points(((plot.left, y), (right, y)), closed=False))
        label = figure(value, plot.step)
        figures.append(
            text(
                plot.left - look.TICK - look.GAP,
                y + look.MIDDLE * plot.size,
                label,
                plot.size,
                class_="d-figure",
                text_anchor="end",
            )
        )
    figures.append(
        text(plot.left - look.TICK, plot.top - plot.size * 0.9, unit, plot.size, class_="d-figure")
    )
    staples = "".join(
        points(
            ((plot.left - look.TICK, plot.y(plot.step * index)), (plot.left, plot.y(plot.step * index))),
            closed=False,
        )
        for index in range(count + 1)
    )
    return group(
        path("".join(across), class_="d-twine", stroke_width=look.FINE, stroke_dasharray="1 3")
        if across
        else group(),
        path(staples, class_="d-ink", stroke_width=look.FINE),
        line(plot.left, plot.top, plot.left, plot.bottom, class_="d-ink", stroke_width=look.HAIR),
        line(
            plot.left, plot.bottom, plot.left + plot.width, plot.bottom, class_="d-ink", stroke_width=look.INK
        ),
        *figures,
        *months(plot),
        class_="d-axes",
    )


def head(size: float) -> float:
    """Return the room above a plot, for title and unit in text of a size."""
    return look.PAD + size * 4


def heading(title: str, width: float, text_size: float, short: str = "") -> Element:
    """Write a chart's title, a little larger than its text; in ``short``, if told, where it has no room."""
    size = text_size * 1.1
    if short and width_of(title, size, bold=True) > width - 2 * look.PAD:
        title = short
    return text(
        look.PAD,
        look.PAD + size,
        clipped(title, size, width - 2 * look.PAD, bold=True),
        size,
        class_="d-title",
    )


def height(plot: Plot) -> float:
    """Return the height of a whole chart."""
    return plot.bottom + look.TICK + plot.size * 1.4 + look.PAD


def nothing(plot: Plot) -> Element:
    """Say that there is nothing to draw."""
    return text(
        plot.left + plot.width / 2,
        plot.top + plot.height / 2,
        "Nothing weighed yet",
        plot.size,
        class_="d-figure",
        text_anchor="middle",
    )


def months(plot: Plot) -> list[Element]:
    """Return ticks where months begin, and as many of their names as have room."""
    months = plot.span.months
    ticks = [plot.span.first, *(month.first for month in months[1:]), plot.span.last + ONE_DAY]
    data = "".join(
        points(((plot.x(day), plot.bottom), (plot.x(day), plot.bottom + look.TICK)), closed=False)
        for day in ticks
    )
    names = [
        text(
            middle,
            plot.bottom + look.TICK + plot.size,
            name,
            plot.size,
            class_="d-figure",
            text_anchor="middle",
        )
        for middle, name in named_months(plot.span, plot.left, plot.width, plot.size)
    ]
    return [path(data, class_="d-ink", stroke_width=look.FINE), *names]


def named_months(span: Span, left: float, width: float, size: float) -> Iterator[tuple[float, str]]:
    """Yield the names of as many months as have room along an axis, and where the middle of each lies.

    A month that the span has a few days of stays without where its name would run into the next,
    or out of the drawing.
    """
    months = span.months
    ends = [*(max(month.first, span.first) for month in months), span.last + ONE_DAY]
    widest = max((width_of(month.name[:3], size) for month in months), default=0) + look.GAP / 2
    every = max(1, ceil(widest * len(months) / width))
    for index in range(0, len(months), every):
        first, last = (along(span, day, left, width) for day in ends[index : index + 2])
        middle = (first + last) / 2
        if (every > 1 or last - first >= widest) and middle + widest / 2 <= left + width + look.PAD:
            yield middle, months[index].name[:3]


def figure(value: Fraction, step: Fraction) -> str:
    """Return a figure of an axis with as many decimals as its step needs."""
    places = next(places for places in range(4) if (step * 10**places).denominator == 1)
    return rounded(value, places)
