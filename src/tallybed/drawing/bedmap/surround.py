"""The bed as a surveyor draws it: boards, twine and staples, names, dimension lines, north, the stake."""

from __future__ import annotations

from collections.abc import Iterable
from math import cos, radians, sin

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


def scales(layout: Layout, showing: Showing) -> Element:
    """Draw the dimension lines: a tick at every string, figures in feet or centimetres."""
    drawn = [
        _scale(layout, edge, rim.scale, showing) for edge, rim in layout.rims.items() if rim.scale is not None
    ]
    return group(*drawn, class_="d-scales")


def _scale(layout: Layout, edge: Edge, out: float, showing: Showing) -> Element:
    """Draw one dimension line, ``out`` units from its edge."""
    count = layout.bed.columns if edge in (Edge.FIRST, Edge.LAST) else layout.bed.rows
    total = count * layout.side
    ticks = [points((layout.beyond(edge, 0, out), layout.beyond(edge, total, out)), closed=False)]
    for index in range(count + 1):
        along = index * layout.side
        long = look.TICK if index in (0, count) else look.TICK * 0.7
        ticks.append(
            points((layout.beyond(edge, along, out), layout.beyond(edge, along, out + long)), closed=False)
        )
    figures = []
    toward = layout.toward(edge)
    level = toward in (Toward.TOP, Toward.BOTTOM)
    size = layout.text
    for index, label in _figures(layout, count, showing, level=level):
        x, y = layout.beyond(edge, index * layout.side, out + look.TICK)
        match toward:
            case Toward.TOP:
                place, anchor = (x, y - size * 0.25), "middle"
            case Toward.BOTTOM:
                place, anchor = (x, y + size * 0.95), "middle"
            case Toward.LEFT:
                place, anchor = (x - look.GAP, y + look.MIDDLE * size), "end"
            case Toward.RIGHT:
                place, anchor = (x + look.GAP, y + look.MIDDLE * size), "start"
        figures.append(text(*place, label, size, class_="d-figure", text_anchor=anchor))
        # Where figures fill their squares, the level line alone says the unit: both have the same.
        if index == count and not level and size * 2 <= layout.side * look.PER_INCH:
            unit = scale_unit(layout.bed, showing).symbol
            figures.append(text(place[0], place[1] + size, unit, size, class_="d-figure", text_anchor=anchor))
    return group(path("".join(ticks), class_="d-ink", stroke_width=look.FINE), *figures, class_="d-scale")


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

    They lie over the bed; over a bed so narrow that it would cut them short, over the sheet.
    """
    big = layout.text * 1.15
    beside = 2 * look.PAD + layout.text * 4
    widest = max(width_of(title, big, bold=True), width_of(status, layout.text))
    right = layout.size[0] if widest + beside <= layout.size[0] else layout.width
    words = group(
        text(look.PAD, look.PAD + big, clipped(title, big, right - beside, bold=True), big, class_="d-title"),
        text(
            look.PAD,
            look.PAD + big + layout.text * 1.35,
            clipped(status, layout.text, right - beside),
            layout.text,
            class_=f"d-status d-status-{kind}",
        ),
        class_="d-heading",
    )
    return words, _compass(layout, right)


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
