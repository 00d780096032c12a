"""One dot a planting, over the printed range of its crop: how far it lies from what rows give.

The scale is in doublings of the crop's own printed figure in the middle, so that crops of
any yield stand below each other, and twice as much lies as far to the right as half as
much lies to the left.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, log2

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import head, heading
from tallybed.drawing.base.lettering import clipped, width_of
from tallybed.drawing.base.strokes import cross
from tallybed.drawing.base.svg import Element, circle, group, line, path, points, rect, sheet, text
from tallybed.garden.plurals import figured

_WORDS = {-4: "1/16", -3: "1/8", -2: "1/4", -1: "half", 0: "as rows", 1: "twice", 2: "4 times", 3: "8 times"}


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantingDot:
    """One planting's yield, in one unit with its crop's printed range."""

    name: str
    """For those who hear the drawing."""
    value: Fraction
    """Over its like-for-like ground."""
    twin: Fraction
    """Over its squares alone."""
    present: bool
    """Whether it is of the season shown."""
    open: bool
    """Whether the true figure is more: not all was weighed, or it still goes on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CropDots:
    """A crop: its printed range and its plantings."""

    name: str
    verdict: str
    low: Fraction
    middle: Fraction
    """Above nothing."""
    high: Fraction
    near: tuple[Fraction, Fraction]
    """From where to where a median is about the same."""
    median: Fraction | None
    """Of the plantings that may be judged."""
    dots: tuple[PlantingDot, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Axis:
    """Where doublings lie from left to right."""

    left: float
    width: float
    first: int
    """Doublings at the left end; nothing lies there too."""
    last: int
    size: float

    def at(self, octave: float) -> float:
        """Return where a doubling lies; what is beyond the ends lies at them."""
        share = (octave - self.first) / (self.last - self.first)
        return self.left + self.width * min(max(share, 0.0), 1.0)

    def x(self, value: Fraction, middle: Fraction) -> float:
        """Return where a yield lies beside the one in the middle."""
        return self.at(log2(value / middle)) if value > 0 else self.left


def planting_dots(
    crops: tuple[CropDots, ...], *, season: str, ident: str, title: str, narrow: bool = False
) -> str:
    """Return the SVG markup of crops below each other, a line for each planting.

    ``narrow``: the drawing for narrow pages; ``map.css`` shows one of the two.
    """
    width = look.CHART_NARROW if narrow else look.CHART_WIDE
    size = look.CHART_TEXT[narrow]
    left = look.PAD + look.DOTS_NAMES[narrow] + look.DOT
    first, last = _reach(crops)
    axis = _Axis(left=left, width=width - look.PAD - look.DOT - left, first=first, last=last, size=size)
    top = head(size)
    body, y = [], top
    for crop in crops:
        body.append(_crop(crop, y, axis, narrow=narrow))
        y += _height(crop, size, narrow=narrow)
    keys, bottom = _key(season, _signs(crops), y + size * 3.4, width, size)
    return sheet(
        ident,
        width,
        bottom,
        heading(title, width, size),
        *_scale(axis, top, y),
        *body,
        *keys,
        title=title,
        desc=_told(crops),
        class_=f"chart chart-{'narrow' if narrow else 'wide'}",
    )


def _reach(crops: Iterable[CropDots]) -> tuple[int, int]:
    """Return the first and last doubling that hold every bar and dot."""
    first, last = look.DOTS_OCTAVES
    for crop in crops:
        values = [crop.near[0], crop.near[1], *(each for dot in crop.dots for each in (dot.value, dot.twin))]
        octaves = [log2(value / crop.middle) for value in values if value > 0]
        first = min(first, *(floor(one) for one in octaves))
        last = max(last, *(ceil(one) for one in octaves))
    return first, last


def _height(crop: CropDots, size: float, *, narrow: bool) -> float:
    """Return the height of a crop’s lines with the air around them."""
    lines = max(len(crop.dots) * look.DOTS_STEP, look.DOTS_LEAST[narrow])
    return lines + look.GAP * 2 + (size * look.LINE * 1.1 if narrow else 0)


def _crop(crop: CropDots, top: float, axis: _Axis, *, narrow: bool) -> Element:
    """Draw a crop: its name, its verdict, its band and its dots."""
    size = axis.size
    shapes: list[Element] = []
    if narrow:
        room = axis.width - width_of(crop.verdict, size) - look.GAP * 2
        name = clipped(crop.name, size, room, bold=True)
        shapes.append(text(look.PAD, top + size, name, size, class_="d-line-name"))
        end = axis.left + axis.width
        shapes.append(text(end, top + size, crop.verdict, size, class_="d-figure", text_anchor="end"))
        top += size * look.LINE * 1.1
    else:
        name = clipped(crop.name, size, look.DOTS_NAMES[narrow] - look.GAP, bold=True)
        shapes.append(text(look.PAD, top + size, name, size, class_="d-line-name"))
        shapes.append(text(look.PAD, top + size * 2.2, crop.verdict, size, class_="d-figure"))
    high = max(len(crop.dots) * look.DOTS_STEP, look.DOTS_LEAST[narrow])
    shapes += _bar(crop, top, high, axis)
    first = top + (high - len(crop.dots) * look.DOTS_STEP) / 2 + look.DOTS_STEP / 2
    shapes += [
        _dot(dot, first + look.DOTS_STEP * index, crop.middle, axis) for index, dot in enumerate(crop.dots)
    ]
    return group(*shapes, class_="d-crop", data_name=crop.name)


def _bar(crop: CropDots, top: float, high: float, axis: _Axis) -> Iterator[Element]:
    """Draw the printed band, what is about the same around it, and the median."""
    low, most = axis.x(crop.low, crop.middle), axis.x(crop.high, crop.middle)
    near = [axis.x(one, crop.middle) for one in crop.near]
    yield rect(low, top, max(most - low, 1.6), high, class_="d-printed", stroke_width=look.HAIR)
    edges = "".join(points(((x, top), (x, top + high)), closed=False) for x in near)
    yield path(edges, class_="d-ink", stroke_width=look.FINE, stroke_dasharray="2 2.4")
    if crop.median is not None:
        x = axis.x(crop.median, crop.middle)
        yield line(x, top - 1, x, top + high + 1, class_="d-ink", stroke_width=look.INK)


def _dot(dot: PlantingDot, y: float, middle: Fraction, axis: _Axis) -> Element:
    """Draw one planting: its dot, its twin, and the line between them."""
    x, twin = axis.x(dot.value, middle), axis.x(dot.twin, middle)
    name = "d-dot" if dot.present else "d-dot d-earlier"
    shapes: list[Element] = []
    if dot.value > 0:
        shapes += [
            line(x, y, twin, y, class_="d-soft", stroke_width=look.HAIR),
            circle(twin, y, look.DOT_TWIN, class_="d-twin", stroke_width=look.HAIR),
        ]
    if dot.value == 0 and not dot.open:
        shapes.append(path(cross(x, y, look.DOT_EARLIER), class_="d-ink", stroke_width=look.INK))
    else:
        radius = look.DOT if dot.present else look.DOT_EARLIER
        kind = f"{name} d-open" if dot.open else name
        shapes.append(circle(x, y, radius, class_=kind, stroke_width=look.FINE * 1.4))
    return group(*shapes, class_="d-planting", data_name=dot.name)


def _scale(axis: _Axis, top: float, bottom: float) -> Iterator[Element]:
    """Draw a string at each doubling, the strong one where plantings give as much as rows."""
    size = axis.size
    octaves = range(axis.first, axis.last + 1)
    strings = "".join(
        points(((axis.at(one), top), (axis.at(one), bottom)), closed=False) for one in octaves if one
    )
    yield path(strings, class_="d-twine", stroke_width=look.FINE, stroke_dasharray="1 3")
    yield line(axis.at(0), top, axis.at(0), bottom, class_="d-soft", stroke_width=look.FINE)
    taken = -1.0
    for one in octaves:
        words = _WORDS.get(one, f"{2**one} times" if one > 0 else f"1/{2**-one}")
        half = width_of(words, size) / 2
        middle = min(max(axis.at(one), axis.left + half), axis.left + axis.width - half)
        if middle - half < taken:
            continue
        taken = middle + half + look.GAP
        for y in (top - size * 0.6, bottom + size * 1.2):
            yield text(middle, y, words, size, class_="d-figure", text_anchor="middle")


def _signs(crops: Iterable[CropDots]) -> set[str]:
    """Return the signs that a drawing of crops has."""
    found = {"bar", "near"}
    for crop in crops:
        found |= {"median"} if crop.median is not None else set()
        for dot in crop.dots:
            if dot.value == 0 and not dot.open:
                found.add("nothing")
                continue
            found.add("open" if dot.open else "dot" if dot.present else "earlier")
            found |= {"twin"} if dot.twin != dot.value else set()
    return found


def _key(
    season: str, shown: Collection[str], top: float, width: float, size: float
) -> tuple[list[Element], float]:
    """Draw what the signs mean, as many beside each other as have room; return them and where they end."""
    signs: tuple[tuple[str, str], ...] = (
        ("dot", f"a planting of {season}"),
        ("earlier", "of another season"),
        ("open", "at least, or still going on"),
        ("nothing", "gave nothing"),
        ("twin", "over its squares alone"),
        ("bar", "printed for rows"),
        ("near", "no more apart than equal plots"),
        ("median", "the median"),
    )
    found: list[Element] = []
    x, y = look.PAD, top
    for sign, words in signs:
        if sign not in shown:
            continue
        wide = 16 + width_of(words, size) + look.GAP * 3
        if x > look.PAD and x + wide > width:
            x, y = look.PAD, y + size * 1.6
        found += _sign(sign, x + 6, y - size * look.MIDDLE, size)
        found.append(text(x + 16, y, words, size, class_="d-figure"))
        x += wide
    return found, y + look.PAD + size * 0.5


def _sign(sign: str, x: float, y: float, size: float) -> list[Element]:
    """Draw one sign of the key."""
    half = size / 2
    up = points(((x, y - half), (x, y + half)), closed=False)
    shapes = {
        "dot": circle(x, y, look.DOT, class_="d-dot", stroke_width=look.FINE * 1.4),
        "earlier": circle(x, y, look.DOT_EARLIER, class_="d-dot d-earlier", stroke_width=look.FINE * 1.4),
        "open": circle(x, y, look.DOT, class_="d-dot d-open", stroke_width=look.FINE * 1.4),
        "nothing": path(cross(x, y, look.DOT_EARLIER), class_="d-ink", stroke_width=look.INK),
        "twin": circle(x, y, look.DOT_TWIN, class_="d-twin", stroke_width=look.HAIR),
        "bar": rect(x - 5, y - half, 10, size, class_="d-printed", stroke_width=look.HAIR),
        "near": path(up, class_="d-ink", stroke_width=look.FINE, stroke_dasharray="2 2.4"),
        "median": path(up, class_="d-ink", stroke_width=look.INK),
    }
    return [shapes[sign]]


def _told(crops: Iterable[CropDots]) -> str:
    """Return the drawing in words."""
    told = [f"{crop.name}: {crop.verdict}, {figured(len(crop.dots), 'planting')}" for crop in crops]
    return f"{'; '.join(told)}." if told else "No planting of a crop with a printed row yield yet."
