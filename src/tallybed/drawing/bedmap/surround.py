"""The bed as a surveyor draws it: boards, twine and staples, names, dimension lines, north, the stake."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, radians, sin
from typing import NamedTuple

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import clipped, every_that_fits, width_of
from tallybed.drawing.base.svg import Element, group, line, num, path, points, rect, text
from tallybed.drawing.bedmap.layout import Edge, Layout, Toward
from tallybed.drawing.bedmap.margins import figure, scale_unit
from tallybed.garden.outline import inner_lines, outlines, shifted
from tallybed.garden.squares import Square, column_letters
from tallybed.garden.units import Showing


def ring(layout: Layout, squares: Iterable[Square], inwards: float) -> str:
    """Return path data of the outline of squares, moved ``inwards`` by so many units."""
    cells = [(square.column, square.row) for square in squares]
    step = inwards / (layout.side * look.PER_INCH)
    return "".join(
        points(layout.at(x * layout.side, y * layout.side) for x, y in shifted(outline, step))
        for outline in outlines(cells)
    )


def boards(layout: Layout, kind: str) -> Element:
    """Draw the frame: boards along the outline, whatever its shape."""
    inner = ring(layout, layout.bed.squares, 0)
    outer = ring(layout, layout.bed.squares, -look.BOARD)
    dash = look.FRAME_DASH[kind]
    return group(
        path(outer + inner, class_="d-board", fill_rule="evenodd", stroke="none"),
        path(inner, class_="d-ink", stroke_width=look.HAIR),
        path(
            outer,
            class_="d-frame",
            stroke_width=look.HEAVY,
            stroke_linejoin="miter" if dash is None else "round",
            stroke_linecap=None if dash is None else "round",
            stroke_dasharray=dash,
        ),
        class_="d-boards",
    )


def twine(layout: Layout) -> Element:
    """Draw the twine between the squares, stapled to the boards at both ends."""
    over = look.BOARD / 2 / look.PER_INCH
    half = look.STAPLE / 2 / look.PER_INCH
    strings, staples = [], []
    cells = [(square.column, square.row) for square in layout.bed.squares]
    for (ax, ay), (bx, by) in inner_lines(cells):
        dx, dy = (over, 0.0) if ay == by else (0.0, over)
        start = (ax * layout.side - dx, ay * layout.side - dy)
        end = (bx * layout.side + dx, by * layout.side + dy)
        strings.append(points((layout.at(*start), layout.at(*end)), closed=False))
        wx, wy = (0.0, half) if ay == by else (half, 0.0)
        for x, y in (start, end):
            bar = (layout.at(x - wx, y - wy), layout.at(x + wx, y + wy))
            staples.append(points(bar, closed=False))
    strung = "".join(strings)
    return group(
        path(strung, class_="d-twine", stroke_width=look.TWINE),
        path(strung, class_="d-twist", stroke_width=look.HAIR, stroke_dasharray=look.TWIST),
        path("".join(staples), class_="d-staple", stroke_width=look.FINE),
        class_="d-grid",
    )


def names(layout: Layout) -> Element:
    """Write column letters and row numbers outside the frame."""
    columns = sorted({square.column for square in layout.bed.squares})
    rows = sorted({square.row for square in layout.bed.squares})
    words = []
    for edge, rim in layout.rims.items():
        if rim.names is None:
            continue
        level = edge in (Edge.FIRST, Edge.LAST)
        labels = [
            (each, column_letters(each) if level else str(each + 1)) for each in (columns if level else rows)
        ]
        flat = layout.toward(edge) in (Toward.TOP, Toward.BOTTOM)
        across = layout.text * (look.LINE if flat else 1.1)
        widest = max(width_of(label, layout.text) for _index, label in labels) if flat else layout.text
        every = every_that_fits(widest, layout.side * look.PER_INCH)
        for index, label in labels:
            if index % every:
                continue
            x, y = layout.beyond(edge, (index + 0.5) * layout.side, rim.names + across / 2)
            words.append(
                text(
                    x,
                    y + look.MIDDLE * layout.text,
                    label,
                    layout.text,
                    class_="d-name",
                    text_anchor="middle",
                )
            )
    return group(*words, class_="d-names")


class _Figure(NamedTuple):
    """What is written at a dimension line."""

    x: float
    y: float
    words: str
    anchor: str

    def ends(self, size: float) -> tuple[float, float]:
        """Return where it begins and ends, from the left."""
        wide = width_of(self.words, size)
        left = self.x - wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]
        return left, left + wide


def scales(layout: Layout, showing: Showing) -> Element:
    """Draw the dimension lines: a tick at every string, figures in feet or centimetres.

    The unit stands with the last figure of the line that runs level, and below that of the other where the
    level line's leave it room.
    """
    outs = {edge: rim.scale for edge, rim in layout.rims.items() if rim.scale is not None}
    placed = {edge: _placed(layout, edge, out, showing) for edge, out in outs.items()}
    level = [figure for edge, figures in placed.items() if _runs_level(layout, edge) for figure in figures]
    for edge, figures in placed.items():
        if not _runs_level(layout, edge):
            figures += _unit_below(layout, figures[-1], level, showing)
    drawn = [_scale(layout, edge, out, placed[edge]) for edge, out in outs.items()]
    return group(*drawn, class_="d-scales")


def _runs_level(layout: Layout, edge: Edge) -> bool:
    """Return whether a dimension line outside an edge runs level on the drawing."""
    return layout.toward(edge) in (Toward.TOP, Toward.BOTTOM)


def _scale(layout: Layout, edge: Edge, out: float, figures: Iterable[_Figure]) -> Element:
    """Draw one dimension line, ``out`` units from its edge, with its figures."""
    count = layout.bed.columns if edge in (Edge.FIRST, Edge.LAST) else layout.bed.rows
    total = count * layout.side
    ticks = [points((layout.beyond(edge, 0, out), layout.beyond(edge, total, out)), closed=False)]
    for index in range(count + 1):
        along = index * layout.side
        long = look.TICK if index in (0, count) else look.TICK * 0.7
        ticks.append(
            points((layout.beyond(edge, along, out), layout.beyond(edge, along, out + long)), closed=False)
        )
    return group(
        path("".join(ticks), class_="d-ink", stroke_width=look.FINE),
        *(
            text(one.x, one.y, one.words, layout.text, class_="d-figure", text_anchor=one.anchor)
            for one in figures
        ),
        class_="d-scale",
    )


def _placed(layout: Layout, edge: Edge, out: float, showing: Showing) -> list[_Figure]:
    """Return the figures of one dimension line in their places."""
    count = layout.bed.columns if edge in (Edge.FIRST, Edge.LAST) else layout.bed.rows
    size, found = layout.text, []
    for index, label in _figures(layout, count, showing, level=_runs_level(layout, edge)):
        x, y = layout.beyond(edge, index * layout.side, out + look.TICK)
        match layout.toward(edge):
            case Toward.TOP:
                place, anchor = (x, y - size * 0.25), "middle"
            case Toward.BOTTOM:
                place, anchor = (x, y + size * 0.95), "middle"
            case Toward.LEFT:
                place, anchor = (x - look.GAP, y + look.MIDDLE * size), "end"
            case Toward.RIGHT:
                place, anchor = (x + look.GAP, y + look.MIDDLE * size), "start"
        found.append(_Figure(*place, label, anchor))
    return found


def _unit_below(layout: Layout, last: _Figure, level: Iterable[_Figure], showing: Showing) -> list[_Figure]:
    """Return the unit below the last figure of an upright line; none where it would meet others.

    Where figures fill their squares, the level line alone says the unit: both have the same.
    """
    size = layout.text
    if size * 2 > layout.side * look.PER_INCH:
        return []
    unit = _Figure(last.x, last.y + size, scale_unit(layout.bed, showing).symbol, last.anchor)
    left, right = unit.ends(size)
    near = (one.ends(size) for one in level if abs(one.y - unit.y) < size)
    return [] if any(start < right and left < end for start, end in near) else [unit]


def _figures(layout: Layout, count: int, showing: Showing, *, level: bool) -> list[tuple[int, str]]:
    """Return the figures of a dimension line: as many as have room.

    The last one carries the unit where the line runs level; else it stands below.
    """
    unit = scale_unit(layout.bed, showing)
    last = figure(layout.bed, count, unit) + (f" {unit.symbol}" if level else "")
    room = width_of(last, layout.text) + look.GAP * 2 if level else layout.text * look.LINE
    square = layout.side * look.PER_INCH
    every = every_that_fits(room, square)
    kept = [(index, figure(layout.bed, index, unit)) for index in range(0, count, every)]
    if len(kept) > 1 and (count - kept[-1][0]) * square < room:
        kept.pop()
    return [*kept, (count, last)]


def stake(layout: Layout) -> Element:
    """Draw the stake at the marked corner, from which squares are named."""
    off = look.BOARD / 2 / look.PER_INCH
    x, y = layout.at(-off, -off)
    half = look.STAKE / 2
    return group(
        rect(x - half, y - half, look.STAKE, look.STAKE, class_="d-stake", stroke_width=look.INK),
        path(
            points(((x - half, y - half), (x + half, y + half)), closed=False)
            + points(((x + half, y - half), (x - half, y + half)), closed=False),
            class_="d-ink",
            stroke_width=look.FINE,
        ),
        class_="d-marked-corner",
    )


def head(layout: Layout, title: str, status: str, kind: str) -> tuple[Element, Element]:
    """Write the drawing's title and what it rests on, and draw north beside them.

    They lie over the bed; over a bed so narrow that it would cut them short, over the sheet. Where they
    have no room there either, they are as much smaller as the smallest text allows.
    """
    beside = 2 * look.PAD + layout.text * 4
    widest = max(width_of(title, layout.text * 1.15, bold=True), width_of(status, layout.text))
    right = layout.size[0] if widest + beside <= layout.size[0] else layout.width
    room = right - beside
    big = _fitting(layout, title, 1.15, room, bold=True)
    small = min(_fitting(layout, status, 1, room), big)
    words = group(
        text(look.PAD, look.PAD + big, clipped(title, big, room, bold=True), big, class_="d-title"),
        text(
            look.PAD,
            look.PAD + big + small * 1.35,
            clipped(status, small, room),
            small,
            class_=f"d-status d-status-{kind}",
        ),
        class_="d-heading",
    )
    return words, _compass(layout, right)


def _fitting(layout: Layout, words: str, times: float, room: float, *, bold: bool = False) -> float:
    """Return the size at which words have room, ``times`` the text's or less, down to the smallest text."""
    size = layout.text * times
    wide = width_of(words, size, bold=bold)
    # A hair less than would fill the room: else the last place of a fraction may cut a letter off.
    return size if wide <= room else max(size * room / wide * 0.999, layout.smallest)


def _compass(layout: Layout, right: float) -> Element:
    """Draw north as a hair through a small ring, one half of its head filled, the letter at its tip."""
    radius = layout.text * 1.25
    room = max(look.PAD + layout.text * 1.9, layout.text * 2.17)  # the letter, too, lies on the sheet
    x, y = right - room, room
    turn = -float(layout.up)
    head, foot, half = radius * 0.25, radius * 0.35, radius * 0.3
    hair = group(
        line(0, radius, 0, -radius, class_="d-ink", stroke_width=look.HAIR),
        line(-half, 0, half, 0, class_="d-ink", stroke_width=look.HAIR),
        path(
            f"M0 {num(-radius)}L{num(half)} {num(-head)}L0 {num(-foot)}Z",
            class_="d-needle",
            stroke_width=look.HAIR,
        ),
        path(
            f"M0 {num(-radius)}L{num(-half)} {num(-head)}L0 {num(-foot)}",
            class_="d-ink",
            stroke_width=look.HAIR,
        ),
        transform=f"translate({num(x)} {num(y)})rotate({num(turn)})",
        data_turn=turn % 360,
        class_="d-hair",
    )
    away = radius + layout.text * 0.55
    nx, ny = x + away * sin(radians(turn)), y - away * cos(radians(turn))
    label = text(nx, ny + look.MIDDLE * layout.text, "N", layout.text, class_="d-name", text_anchor="middle")
    return group(hair, label, class_="d-compass")
