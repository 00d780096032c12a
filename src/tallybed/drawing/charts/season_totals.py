"""Seasons beside each other: one small running total each, by week of the season, all on one scale."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import figure, head, heading, rounds
from tallybed.drawing.base.lettering import clipped, width_of
from tallybed.drawing.base.svg import Element, circle, group, line, num, path, points, sheet, text
from tallybed.drawing.charts.figures import total_figure
from tallybed.garden.units import AT_LEAST_WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonLine:
    """The running total of one season."""

    name: str
    points: tuple[tuple[int, Fraction], ...]
    """(week of the season from 1, total up to and with it), in the chart's unit."""
    until: int
    """The last week it is known for: the season's last, or that of the day of the records."""
    at_least: bool = False
    running: bool = False
    """Whether the season still goes on, so that its total is only so far."""

    @property
    def total(self) -> Fraction:
        """The newest total."""
        return max(self.points)[1] if self.points else Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Panel:
    left: float
    top: float
    width: float
    weeks: int
    greatest: Fraction
    size: float
    """Of text."""

    def x(self, week: int) -> float:
        """Return where a week ends."""
        return self.left + self.width * min(max(week, 0), self.weeks) / self.weeks

    def y(self, total: Fraction) -> float:
        """Return the height at which a total is drawn."""
        return self.top + look.PANEL_PLOT * (1 - float(max(total, Fraction(0)) / self.greatest))

    @property
    def bottom(self) -> float:
        """Where the panel's plot ends, from above."""
        return self.top + look.PANEL_PLOT


def season_lines(
    seasons: tuple[SeasonLine, ...], *, weeks: int, unit: str, ident: str, title: str, narrow: bool = False
) -> str:
    """Return the SVG markup of a panel for each season, in the order given.

    Each has its own line strong, with its total, and those of the others faint behind.
    ``weeks``: weeks of the longest season. ``narrow``: the drawing for narrow pages.
    """
    width = look.CHART_NARROW if narrow else look.CHART_WIDE
    step, greatest = rounds(max((one.total for one in seasons), default=Fraction(0)))
    size = look.CHART_TEXT[narrow]
    left = width_of(figure(greatest, step), size) + look.GAP * 2 + look.TICK
    across = max(1, min(look.PANELS[narrow], len(seasons)))
    wide = (width - left - look.PAD - (across - 1) * look.PANEL_GAP) / across
    deep = look.PANEL_PLOT + size * 4.2
    panels = []
    for index in range(len(seasons)):
        row, column = divmod(index, across)
        panels.append(
            _Panel(
                left=left + column * (wide + look.PANEL_GAP),
                top=head(size) + size + row * deep,
                width=wide,
                weeks=max(weeks, 1),
                greatest=greatest,
                size=size,
            )
        )
    rows = -(-len(seasons) // across)
    drawn = [
        _panel(panel, one, seasons, step, unit if not index % across else "")
        for index, (panel, one) in enumerate(zip(panels, seasons, strict=True))
    ]
    return sheet(
        ident,
        width,
        head(size) + rows * deep + look.PAD,
        heading(title, width, size),
        *drawn,
        title=title,
        desc=_told(seasons, unit),
        class_=f"chart chart-{'narrow' if narrow else 'wide'}",
    )


def _panel(
    panel: _Panel, own: SeasonLine, seasons: Iterable[SeasonLine], step: Fraction, unit: str
) -> Element:
    """Draw one season's line, the other seasons' faint behind it."""
    size = panel.size
    others = [_step(panel, one, "d-other") for one in seasons if one is not own and one.points]
    body: list[Element] = [*_scale(panel, step, unit), *others]
    if own.points:
        body += [_step(panel, own, "d-step"), *_end(panel, own)]
    else:
        body.append(
            text(
                panel.left + panel.width / 2,
                panel.top + look.PANEL_PLOT / 2,
                clipped("Nothing weighed", size, panel.width),
                size,
                class_="d-figure",
                text_anchor="middle",
            )
        )
    name = text(
        panel.left,
        panel.top - size * look.PANEL_NAME,
        clipped(own.name, size, panel.width, bold=True),
        size,
        class_="d-title",
    )
    return group(name, *body, class_="d-panel line-1", data_name=own.name)


def _scale(panel: _Panel, step: Fraction, unit: str) -> Iterator[Element]:
    """Yield the strings across and the weeks along; the first panel of a row has the unit, and figures."""
    size = panel.size
    count = int(panel.greatest / step)
    across = "".join(
        points(
            ((panel.left, panel.y(step * index)), (panel.left + panel.width, panel.y(step * index))),
            closed=False,
        )
        for index in range(1, count + 1)
    )
    yield path(across, class_="d-twine", stroke_width=look.FINE, stroke_dasharray="1 3")
    yield line(
        panel.left,
        panel.bottom,
        panel.left + panel.width,
        panel.bottom,
        class_="d-ink",
        stroke_width=look.INK,
    )
    if unit:
        for index in range(count + 1):
            yield text(
                panel.left - look.GAP,
                panel.y(step * index) + look.MIDDLE * size,
                figure(step * index, step),
                size,
                class_="d-figure",
                text_anchor="end",
            )
        yield text(
            panel.left - look.GAP,
            panel.top - size * look.PANEL_NAME,
            unit,
            size,
            class_="d-figure",
            text_anchor="end",
        )
    yield from _weeks(panel)


def _weeks(panel: _Panel) -> Iterator[Element]:
    """Yield ticks and figures at round weeks, as many as have room."""
    size = panel.size
    room = width_of("week 00", size) / panel.width * panel.weeks
    every = next((step for step in look.WEEK_STEPS if step >= room), panel.weeks)
    ticks = ""
    names = []
    for week in range(every, panel.weeks + 1, every):
        x = panel.x(week)
        ticks += points(((x, panel.bottom), (x, panel.bottom + look.TICK)), closed=False)
        words = f"week {week}" if week == every else str(week)
        half = width_of(words, size) / 2
        middle = min(max(x, panel.left + half), panel.left + panel.width - half)
        names.append(
            text(
                middle, panel.bottom + look.TICK + size, words, size, class_="d-figure", text_anchor="middle"
            )
        )
    yield path(ticks, class_="d-ink", stroke_width=look.FINE) if ticks else group()
    yield from names


def _step(panel: _Panel, one: SeasonLine, name: str) -> Element:
    """Draw a stepped line from nothing to the season's end."""
    ordered = sorted(one.points)
    data = f"M{num(panel.x(0))} {num(panel.bottom)}"
    for week, total in ordered:
        data += f"H{num(panel.x(week))}V{num(panel.y(total))}"
    data += f"H{num(panel.x(max(one.until, ordered[-1][0])))}"
    strong = name == "d-step"
    return path(
        data,
        class_=name,
        stroke_width=look.INK * 1.15 if strong else look.FINE,
        stroke_linejoin="round",
    )


def _end(panel: _Panel, own: SeasonLine) -> Iterator[Element]:
    """Yield the dot at a line's end and its total: above where there is room, else after it, else below."""
    size = panel.size
    x, y = panel.x(max(own.until, max(own.points)[0])), panel.y(own.total)
    words = total_words(own)
    half = width_of(words, size, bold=True) / 2
    middle = min(max(x, panel.left + half), panel.left + panel.width - half)
    above = y - size * 0.5
    after = x + look.GAP * 2 + half
    if above > panel.top:
        place = middle, above
    elif after + half <= panel.left + panel.width:
        place = after, y + look.MIDDLE * size
    else:
        place = middle, y + size * 1.3
    yield circle(x, y, 2.6, class_="d-end", stroke="none")
    yield text(
        *place,
        words,
        size,
        class_="d-line-name",
        text_anchor="middle",
        halo=look.HALO,
    )


def total_words(one: SeasonLine) -> str:
    """Return a season's total: ``≥ 80.7``, ``71.1 so far``."""
    return f"{total_figure(one.total, at_least=one.at_least)}{' so far' if one.running else ''}"


def _told(seasons: Iterable[SeasonLine], unit: str) -> str:
    """Return each season's total in words."""
    told = [
        f"{one.name}: {total_figure(one.total, unit, at_least=one.at_least, sign=AT_LEAST_WORDS)}"
        f"{' so far' if one.running else ''} by week {one.until}"
        if one.points
        else f"{one.name}: nothing weighed"
        for one in seasons
    ]
    return f"{'; '.join(told)}." if told else "No season yet."
