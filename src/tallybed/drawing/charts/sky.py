"""A chart of a season's weather: each day from its lowest to its highest temperature, each week's rain."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import ceil, floor

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import Plot, head, heading, months
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.svg import Element, circle, group, line, num, path, points, rect, sheet, text
from tallybed.garden.days import ONE_DAY, Span, Week

_STEP = {"°F": 20, "°C": 10}
"""Degrees between two figures of the axis, by its unit."""
FREEZE = {"°F": Fraction(32), "°C": Fraction(0)}
"""Where water freezes, by the unit."""
_LEAST = {"°F": (Fraction(20), Fraction(80)), "°C": (Fraction(-10), Fraction(30))}
"""What the axis shows at the least, so that a mild week does not look like a wild one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DayBar:
    """A day's lowest and highest temperature, in the chart's unit."""

    day: date
    low: Fraction
    high: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class RainBar:
    """The rain of a week, in the chart's unit, and as it is written."""

    week: Week
    amount: Fraction
    said: str


def weather_chart(
    days: tuple[DayBar, ...],
    rain: tuple[RainBar, ...],
    *,
    span: Span,
    unit: str,
    rain_words: str,
    ident: str,
    title: str,
    told: str,
    narrow: bool = False,
) -> str:
    """Return the SVG markup of a season's weather.

    ``unit``: ``°F`` or ``°C``. ``rain_words``: what the bars are, such as ``inches of rain a week``.
    ``told``: the same in words. Days without a figure are gaps. A dot stands below each day on which it
    froze, so that freezes are seen where their colour is not.
    """
    width = look.CHART_NARROW if narrow else look.CHART_WIDE
    size = look.CHART_TEXT[narrow]
    top, high = head(size), look.CHART_BARS if days else 0.0
    scale = _Scale.of(days, unit, size, top=top, high=high)
    rain_top = top + high + (look.PANEL_GAP + 2 * size if days else 0.0)
    rain_high = look.CHART_RAIN if rain else 0.0
    plot = Plot(
        span=span,
        top_value=Fraction(1),
        step=Fraction(1),
        left=scale.left,
        top=rain_top if rain else top,
        width=width - scale.left - look.PAD,
        height=rain_high if rain else high,
        size=size,
    )
    parts: list[Element] = []
    if days:
        parts.append(_temperatures(plot, scale, days))
    if rain:
        parts.append(_rain(plot, rain, rain_words))
    return sheet(
        ident,
        width,
        plot.bottom + look.TICK + size * 1.4 + look.PAD,
        heading(title, width, size),
        *parts,
        group(*months(plot), class_="d-axes"),
        title=title,
        desc=told,
        class_=f"chart chart-{'narrow' if narrow else 'wide'}",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scale:
    """The axis of temperatures."""

    unit: str
    step: int
    lowest: int
    highest: int
    left: float
    """Where the plot begins, beside the figures."""
    top: float
    high: float

    @classmethod
    def of(cls, days: Iterable[DayBar], unit: str, size: float, *, top: float, high: float) -> _Scale:
        """Return the axis that holds every day and the freezing point, ending at round figures."""
        least, most = _LEAST[unit]
        kept = list(days)
        step = _STEP[unit]
        lowest = floor(min([least, *(one.low for one in kept)]) / step) * step
        highest = ceil(max([most, *(one.high for one in kept)]) / step) * step
        figures = max(width_of(_figure(value), size) for value in range(lowest, highest + 1, step))
        return cls(
            unit=unit,
            step=step,
            lowest=lowest,
            highest=highest,
            left=figures + look.GAP * 2 + look.TICK,
            top=top,
            high=high,
        )

    def y(self, value: Fraction) -> float:
        """Return where a temperature lies."""
        return self.top + self.high * float((self.highest - value) / (self.highest - self.lowest))


def _figure(value: int) -> str:
    return str(value).replace("-", "−")


def _temperatures(plot: Plot, scale: _Scale, days: tuple[DayBar, ...]) -> Element:
    """Draw the days from low to high, with the axis, the freezing point and a dot for each freeze."""
    right, size, y = plot.left + plot.width, plot.size, scale.y
    values = [Fraction(value) for value in range(scale.lowest, scale.highest + 1, scale.step)]
    across = "".join(points(((plot.left, y(one)), (right, y(one))), closed=False) for one in values)
    figures = [
        text(
            plot.left - look.TICK - look.GAP,
            y(one) + look.MIDDLE * size,
            _figure(int(one)),
            size,
            class_="d-figure",
            text_anchor="end",
        )
        for one in values
    ]
    freezing = y(FREEZE[scale.unit])
    bodies = [_run(plot, run, scale) for run in _runs(days)]
    frozen = [one for one in days if one.low <= FREEZE[scale.unit]]
    dots = [
        circle(_middle(plot, one.day), y(one.low) + look.GAP, 1.6, class_="d-froze d-full", stroke="none")
        for one in frozen
    ]
    return group(
        text(plot.left - look.TICK, scale.top - size * 0.9, scale.unit, size, class_="d-figure"),
        path(across, class_="d-twine", stroke_width=look.FINE, stroke_dasharray="1 3"),
        *bodies,
        line(
            plot.left,
            freezing,
            right,
            freezing,
            class_="d-ink",
            stroke_width=look.FINE,
            stroke_dasharray="5 3",
        ),
        *dots,
        line(plot.left, scale.top, plot.left, scale.top + scale.high, class_="d-ink", stroke_width=look.HAIR),
        *figures,
        class_="d-axes",
    )


def _runs(days: Iterable[DayBar]) -> Iterator[list[DayBar]]:
    """Yield days without a gap between them."""
    run: list[DayBar] = []
    for one in days:
        if run and one.day != run[-1].day + ONE_DAY:
            yield run
            run = []
        run.append(one)
    if run:
        yield run


def _run(plot: Plot, run: list[DayBar], scale: _Scale) -> Element:
    """Draw days on end as one body with stepped edges, from each day's low to its high."""
    upper, lower = "", ""
    for one in run:
        left, right = num(plot.x(one.day)), num(plot.x(one.day + ONE_DAY))
        upper += f"L{left} {num(scale.y(one.high))}H{right}"
        lower = f"L{right} {num(scale.y(one.low))}H{left}" + lower
    body = f"M{upper[1:]}{lower}Z"
    return path(body, class_="d-warmth d-printed", stroke_width=look.HAIR)


def _middle(plot: Plot, day: date) -> float:
    return (plot.x(day) + plot.x(day + ONE_DAY)) / 2


def _rain(plot: Plot, bars: tuple[RainBar, ...], said: str) -> Element:
    """Draw each week's rain as a bar, the wettest with its figure."""
    most = max((bar.amount for bar in bars), default=Fraction(0))
    size = plot.size
    shapes: list[Element] = []
    for bar in bars:
        if not bar.amount:
            continue
        left, right = plot.x(bar.week.first), plot.x(bar.week.last + ONE_DAY)
        air = min(1.2, (right - left) * 0.15)
        tall = plot.height * float(bar.amount / most)
        shapes.append(
            rect(
                left + air,
                plot.bottom - tall,
                max(right - left - 2 * air, 0.1),
                tall,
                class_="d-rain d-dot",
                stroke_width=look.HAIR,
            )
        )
    words: list[Element] = [text(plot.left, plot.top - size * 1.7, said, size, class_="d-figure")]
    if most:
        wettest = next(bar for bar in bars if bar.amount == most)
        half = width_of(wettest.said, size) / 2
        middle = (plot.x(wettest.week.first) + plot.x(wettest.week.last + ONE_DAY)) / 2
        middle = min(max(middle, plot.left + half), plot.left + plot.width - half)
        words.append(
            text(
                middle,
                plot.top - size * 0.4,
                wettest.said,
                size,
                class_="d-line-name",
                text_anchor="middle",
                halo=look.HALO,
            )
        )
    ground = line(
        plot.left, plot.bottom, plot.left + plot.width, plot.bottom, class_="d-ink", stroke_width=look.INK
    )
    return group(*shapes, ground, *words, class_="d-axes")
