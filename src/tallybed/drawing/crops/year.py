"""A crop's year on one axis: what print advises, pale behind; what was done here, as marks and lines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from itertools import groupby

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import Plot, months
from tallybed.drawing.base.lettering import clipped, width_of
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import Element, group, line, path, points, rect, sheet, text
from tallybed.drawing.crops.printed_days import PrintedDays, bands, heads, placed
from tallybed.garden.days import ONE_DAY, Span, short
from tallybed.reckoning.calendar.stages import Stage

LANE = 25.0
"""Height of a planting's line with its days above it."""
MARK = 10.0
"""Width of a mark."""
_AIR = 4.0
"""Room below the string under a season's name."""
_LINE = 0.68
"""Where in its lane a line lies."""
_BAND = 4.6
"""Height of the line while it is picked."""
_NAMES = 58.0
"""Width of the names before the lines, at the most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Did:
    """A mark on a planting's line: what was done on a day."""

    day: date
    sign: Stage
    """The map's sign for it: seeds for a sowing, a shoot for setting out, a fruit for the first picking."""
    weighty: int = 0
    """Whose day is written first where not all have room; the least first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantingLine:
    """One planting, its days moved to the season of the axis."""

    season: str
    name: str
    """Its tag, or what else it is told apart by."""
    indoors: date | None
    first: date | None
    """Its first day in the bed; None where it never came there."""
    past: date | None
    """The last day in the bed that is past; None where all of it is to come."""
    last: date | None
    away: tuple[Span, ...]
    """Days between those on which it had no square of the bed."""
    did: tuple[Did, ...]
    picked: tuple[date, ...]
    """Every day of a picking."""
    gone: bool
    """Whether it has left the bed, and did not only outlast its season."""
    lost: bool
    told: str
    """The same in words, for those who hear it."""


def crop_year(
    lines: Sequence[PlantingLine],
    advised: Sequence[PrintedDays],
    span: Span,
    *,
    ident: str,
    title: str,
    nothing: str,
    narrow: bool = False,
) -> str:
    """Return the SVG markup of a crop's year.

    ``lines`` in the order they are drawn, a season's together. ``span``: the days of the axis.
    ``nothing``: what is written where there is no line. ``narrow``: the drawing for narrow
    pages; ``map.css`` shows one of the two.
    """
    size = look.SEASON_TEXT[narrow]
    width = look.SEASON_NARROW if narrow else look.SEASON_WIDE
    seasons = [(season, list(own)) for season, own in groupby(lines, key=lambda one: one.season)]
    left = look.PAD + _names(lines, size) + look.GAP
    tabs = placed(advised, span, left=left, right=width - look.PAD, size=size)
    top = look.PAD + (1 + max((tab.row for tab in tabs), default=-1)) * size * look.LINE * 1.15 + look.GAP
    held = sum(_head(size) + _AIR + LANE * len(own) for _season, own in seasons)
    high = held + look.GAP if held else LANE * 1.4
    plot = Plot(
        span=span,
        top_value=Fraction(1),
        step=Fraction(1),
        left=left,
        top=top,
        width=width - look.PAD - left,
        height=high,
        size=size,
    )
    return sheet(
        ident,
        width,
        plot.bottom + look.TICK + size * 1.4 + look.PAD,
        group(*bands(tabs, plot), class_="d-advised-all"),
        group(*heads(tabs, plot), class_="d-heads"),
        _axis(plot),
        *_lanes(seasons, plot),
        *([] if lines else [_empty(plot, nothing)]),
        title=title,
        desc=_described(lines, advised, nothing),
        class_=f"strip cropyear strip-{'narrow' if narrow else 'wide'}",
    )


def _names(lines: Iterable[PlantingLine], size: float) -> float:
    """Return the width of the names before the lines."""
    words = {one.name for one in lines} | {one.season for one in lines}
    return min(_NAMES, max((width_of(each, size, bold=True) for each in words), default=0.0))


def _head(size: float) -> float:
    """Return the height of the line with a season's name."""
    return size * look.LINE * 1.1


def _axis(plot: Plot) -> Element:
    """Draw the days: a line below, ticks and names of the months."""
    right = plot.left + plot.width
    return group(
        line(plot.left, plot.bottom, right, plot.bottom, class_="d-ink", stroke_width=look.INK),
        *months(plot),
        class_="d-axes",
    )


def _lanes(seasons: Iterable[tuple[str, list[PlantingLine]]], plot: Plot) -> Iterator[Element]:
    """Yield each season's name over a string, and its plantings below it."""
    y, size = plot.top, plot.size
    for season, own in seasons:
        base = y + _head(size)
        yield group(
            line(look.PAD, base, plot.left + plot.width, base, class_="d-twine", stroke_width=look.HAIR),
            text(look.PAD, base - size * 0.3, season, size, class_="d-name"),
            class_="d-season",
        )
        for index, one in enumerate(own):
            yield _lane(one, base + _AIR + LANE * index, plot)
        y = base + _AIR + LANE * len(own)


def _lane(one: PlantingLine, top: float, plot: Plot) -> Element:
    """Draw one planting: its name, its line, its marks with their days."""
    y, size = top + LANE * _LINE, plot.size
    name = clipped(one.name, size, plot.left - look.PAD - look.GAP / 2)
    return group(
        text(look.PAD, y + look.MIDDLE * size, name, size, class_="d-figure"),
        *_strokes(one, y, plot),
        *(stage_mark(did.sign, plot.x(did.day) - MARK / 2, y, MARK, paper=True) for did in one.did),
        *_days(one, y, plot),
        class_="d-planting",
        data_name=one.name,
        data_season=one.season,
    )


def _strokes(one: PlantingLine, y: float, plot: Plot) -> Iterator[Element]:
    """Yield a planting's line: thin indoors, full in the bed, green while it is picked, dots to come."""
    if one.indoors is not None:
        out = plot.x(one.first or one.indoors)
        yield line(plot.x(one.indoors), y, out, y, class_="d-ink", stroke_width=look.FINE)
    if one.first is None or one.last is None:
        return
    start, end = plot.x(one.first), plot.x(one.last + ONE_DAY)
    known = start if one.past is None else plot.x(one.past + ONE_DAY)
    for left, right in _there(one, start, end, plot):
        if min(right, known) > left:
            yield line(left, y, min(right, known), y, class_="d-ink", stroke_width=look.HEAVY)
        if right > max(left, known):
            yield line(
                max(left, known),
                y,
                right,
                y,
                class_="d-soft",
                stroke_width=look.INK,
                stroke_dasharray=look.SEASON_DOTS,
                stroke_linecap="round",
            )
    if one.picked:
        yield from _ripe([plot.x(day) for day in one.picked], y)
    if one.lost:
        marks = [plot.x(did.day) for did in one.did]
        beside = max(end, max(marks, default=start) + MARK)  # what is lost at once stands beside its sowing
        yield stage_mark(Stage.LOST, beside - MARK / 2, y, MARK, paper=True)
    elif one.gone:
        yield line(end, y - MARK / 2, end, y + MARK / 2, class_="d-ink", stroke_width=look.INK)


def _there(one: PlantingLine, start: float, end: float, plot: Plot) -> Iterator[tuple[float, float]]:
    """Yield the parts of a planting's line on which it had squares."""
    for away in one.away:
        yield start, plot.x(away.first)
        start = plot.x(away.last + ONE_DAY)
    yield start, end


def _ripe(xs: Sequence[float], y: float) -> Iterator[Element]:
    """Yield the part of a line on which it is picked, with a stroke for each picking."""
    wide = max(xs[-1] - xs[0], 1.0)
    yield rect(xs[0], y - _BAND / 2, wide, _BAND, class_="d-ripe", stroke_width=look.HAIR)
    strokes = "".join(points(((x, y - _BAND), (x, y + _BAND)), closed=False) for x in xs)
    yield path(strokes, class_="d-ink", stroke_width=look.FINE)


def _days(one: PlantingLine, y: float, plot: Plot) -> Iterator[Element]:
    """Yield the days of marks, the weighty first, as far as they have room beside each other."""
    size, taken = plot.size, [(0.0, plot.left - look.GAP)]
    wanted = [(did.day, did.weighty) for did in one.did]
    if one.gone and one.last:
        wanted.append((one.last + ONE_DAY, 3))
    for day, _weight in sorted(wanted, key=lambda each: (each[1], each[0])):
        words = short(day)
        half = width_of(words, size) / 2
        at = min(max(plot.x(day), plot.left + half), plot.left + plot.width - half)
        if all(at - half > right or at + half < left for left, right in taken):
            taken.append((at - half - look.GAP / 2, at + half + look.GAP / 2))
            yield text(
                at,
                y - MARK * 0.72,
                words,
                size,
                halo=look.SEASON_HALO,
                class_="d-day",
                text_anchor="middle",
            )


def _empty(plot: Plot, words: str) -> Element:
    """Say that nothing was grown."""
    middle = plot.left + plot.width / 2
    return text(
        middle,
        plot.top + plot.height / 2 + look.MIDDLE * plot.size,
        clipped(words, plot.size, plot.width),
        plot.size,
        halo=look.SEASON_HALO,
        class_="d-figure",
        text_anchor="middle",
    )


def _described(lines: Iterable[PlantingLine], advised: Iterable[PrintedDays], nothing: str) -> str:
    """Return the drawing in words: what is advised, then line by line what was done."""
    printed = "; ".join(one.told for one in advised)
    done = "; ".join(one.told for one in lines)
    return f"{f'Advised: {printed}. ' if printed else ''}{done or nothing}."
