"""A chart of running totals, crop by crop.

Lines are told apart by colour, by dash and by a name at their end.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import Plot, axes, heading, height, nothing, plotted
from tallybed.drawing.base.flags import Flag
from tallybed.drawing.base.lettering import broken, clipped, width_of
from tallybed.drawing.base.svg import Element, circle, group, num, path, points, sheet, text
from tallybed.drawing.charts.figures import total_figure
from tallybed.drawing.charts.titles import titles
from tallybed.garden.days import Span, in_full
from tallybed.garden.units import AT_LEAST_WORDS

Points = tuple[tuple[date, Fraction], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """The running total of one crop."""

    name: str
    points: Points
    """(day, total up to and with that day), in the chart's unit."""
    at_least: bool = False
    """Whether more was picked than was weighed."""

    @property
    def total(self) -> Fraction:
        """The newest total."""
        return max(self.points)[1] if self.points else Fraction(0)


def cumulative(
    series: tuple[Series, ...],
    *,
    span: Span,
    unit: str,
    ident: str,
    title: str,
    until: date | None = None,
    flags: Sequence[Flag] = (),
    narrow: bool = False,
) -> str:
    """Return the SVG markup of running totals as stepped lines, the heaviest crops by name.

    ``flags``: titles to hang on the heaviest line, those first that room is looked for.
    ``until``: the day the lines run to, by default the newest with a point. Beyond
    eight crops the lightest are left to the table. ``narrow``: the drawing for narrow
    pages; ``map.css`` shows one of the two.
    """
    shown = _shown(series)
    last = until or max((day for each in shown for day, _total in each.points), default=span.first)
    width = look.CHART_NARROW if narrow else look.CHART_WIDE
    greatest = max((each.total for each in shown), default=Fraction(1)) or Fraction(1)
    plot = plotted(
        span,
        greatest,
        narrow=narrow,
        width=width,
        height=look.CHART_PLOT,
        right=width * look.CHART_ROOM[narrow],
    )
    lines = [_line(plot, each, last, rank) for rank, each in enumerate(shown)]
    named = _names(plot, shown, last, width, narrow=narrow)
    marked = titles(plot, shown[0].points, flags, look.FLAG_MOST[narrow]) if shown and flags else ()
    body = [*lines, *marked, named] if shown else [nothing(plot)]
    return sheet(
        ident,
        width,
        height(plot),
        heading(title, width, plot.size),
        axes(plot, unit),
        *body,
        title=title,
        desc=_told_totals(shown, unit, last),
        linked=any(flag.to for flag in flags),
        class_=f"chart chart-{'narrow' if narrow else 'wide'}",
    )


def _shown(series: Iterable[Series]) -> list[Series]:
    """Return the series drawn, heaviest first: as many as have a line of their own."""
    ranked = sorted((each for each in series if each.points), key=lambda each: (-each.total, each.name))
    return ranked[: look.CHART_LINES]


def _line(plot: Plot, each: Series, last: date, rank: int) -> Element:
    """Draw one stepped line: level between pickings, up on the day of one."""
    ordered = sorted(each.points)
    x, y = plot.x(ordered[0][0]), plot.bottom
    data = f"M{num(x)} {num(y)}"
    for day, total in ordered:
        data += f"H{num(plot.x(day))}V{num(plot.y(total))}"
    end = _end(plot, each, last)
    data += f"H{num(end)}"
    pen = {"stroke_dasharray": look.CHART_DASHES[rank], "stroke_linejoin": "round"}
    return group(
        path(data, stroke_width=look.INK * 1.15, class_="d-step", **pen),
        circle(end, plot.y(ordered[-1][1]), 2.6, class_="d-end", stroke="none"),
        class_=f"d-line line-{rank + 1}",
        data_name=each.name,
    )


def _names(plot: Plot, shown: list[Series], last: date, width: float, *, narrow: bool) -> Element:
    """Write each line's name and total beside its end; names that would touch are moved apart."""
    size = plot.size
    ends = max((_end(plot, each, last) for each in shown), default=plot.left)
    left = ends + look.LEAD
    room = width - left - look.PAD
    said = [_said(each, size, room) for each in shown]
    wanted = sorted(range(len(shown)), key=lambda rank: (plot.y(shown[rank].total), rank))
    places = apart(
        [plot.y(shown[rank].total) for rank in wanted],
        [len(said[rank]) * size * look.CHART_LINE + look.CHART_APART[narrow] for rank in wanted],
        plot.top,
        plot.bottom - size * 0.3,
    )
    names = []
    for rank, y in zip(wanted, places, strict=True):
        each = shown[rank]
        corners = (
            (_end(plot, each, last), plot.y(each.total)),
            (ends, plot.y(each.total)),
            (left - look.GAP, y),
        )
        lead = path(points(corners, closed=False), class_="d-lead", stroke_width=look.HAIR)
        names.append(group(lead, _label(left, y, said[rank], size), class_=f"line-{rank + 1}"))
    return group(*names, class_="d-line-names")


def _said(each: Series, size: float, room: float) -> tuple[str, ...]:
    """Return a line's name and total in as few lines as have room, two at the most."""
    number = total_figure(each.total, at_least=each.at_least)
    if width_of(f"{each.name} {number}", size) <= room:
        return (f"{each.name} {number}",)
    first, rest = broken(each.name, size, room)
    rest = clipped(rest, size, room - width_of(f" {number}", size)) if rest else ""
    return first, f"{rest} {number}".strip()


def _label(left: float, middle: float, lines: tuple[str, ...], size: float) -> Element:
    """Write lines of text, the middle of all of them at a height."""
    top = middle + look.MIDDLE * size - (len(lines) - 1) * size * look.CHART_LINE / 2
    return group(
        *(
            text(left, top + index * size * look.CHART_LINE, words, size, halo=look.HALO)
            for index, words in enumerate(lines)
        ),
        class_="d-line-name",
    )


def _end(plot: Plot, each: Series, last: date) -> float:
    """Return where a line ends: at the chart's last day, or at a later point of its own."""
    return plot.x(max(last, max(each.points)[0]))


def apart(wanted: list[float], heights: list[float], top: float, bottom: float) -> list[float]:
    """Return middles of labels that do not touch, as near as may be to those wanted (in rising order).

    They stay between ``top`` and ``bottom`` where there is room for all.
    """
    places: list[float] = []
    least = top
    for place, high in zip(wanted, heights, strict=True):
        places.append(max(place, least + high / 2))
        least = places[-1] + high / 2
    limit = bottom
    for index in range(len(places) - 1, -1, -1):
        places[index] = min(places[index], limit - heights[index] / 2)
        limit = places[index] - heights[index] / 2
    return places


def _told_totals(shown: list[Series], unit: str, last: date) -> str:
    """Return the totals of the lines in words, the heaviest first."""
    if not shown:
        return "Nothing weighed yet."
    told = [
        f"{each.name} {total_figure(each.total, unit, at_least=each.at_least, sign=AT_LEAST_WORDS)}"
        for each in shown
    ]
    return f"Totals to {in_full(last)}: {'; '.join(told)}."
