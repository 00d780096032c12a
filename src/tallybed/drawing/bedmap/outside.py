"""The ground outside the frame: paths, run-outs, trellises."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.patterns import HATCH, filled_with
from tallybed.drawing.base.svg import Element, group, path, points, rect, text
from tallybed.drawing.bedmap.layout import Edge, Layout, Toward, edge_of, units
from tallybed.drawing.bedmap.margins import path_depth, run_out_depth
from tallybed.garden.squares import BedPath, RunOut, Square, Trellis
from tallybed.garden.units import Length, Showing

Part = tuple[float, float]
"""A part of an edge: its two ends, in inches from the edge's start."""


def paths(layout: Layout, ident: str) -> Iterator[Element]:
    """Yield the paths along the bed's sides."""
    for each in layout.bed.paths:
        for part in parts(layout, each.side, layout.bed.along(each.side)):
            yield _path(layout, ident, each, part)


def run_outs(layout: Layout) -> Iterator[Element]:
    """Yield the ground that vines may be led over."""
    for each in layout.bed.run_outs:
        for part in parts(layout, each.side, each.squares):
            yield _run_out(layout, each, part)


def trellises(layout: Layout) -> Iterator[Element]:
    """Yield each trellis as a ladder along its side, over its squares."""
    for each in layout.bed.trellises:
        for part in parts(layout, each.side, each.squares):
            yield _trellis(layout, each, part)


def names(layout: Layout, showing: Showing, *, run_outs: bool = True) -> Iterator[Element]:
    """Yield what each path, run-out and trellis is, and how wide or high: above whatever grows over it."""
    bed = layout.bed
    for path_ in bed.paths:
        for part in parts(layout, path_.side, bed.along(path_.side)):
            edge = edge_of(bed, path_.side)
            ladder = layout.rims[edge].ladder
            near, far = look.BOARD, look.BOARD + path_depth(path_, layout.text, ladder=ladder)
            middle = far - layout.text * 0.8 if ladder else (near + far) / 2
            yield from _label(layout, edge, part, middle, "path", path_.width, showing)
    for ground in bed.run_outs if run_outs else ():
        for part in parts(layout, ground.side, ground.squares):
            edge = edge_of(bed, ground.side)
            out = _run_out_drawn(layout, ground) - layout.text
            yield from _label(layout, edge, part, out, "run-out", ground.reach, showing)
    for trellis in bed.trellises:
        for part in parts(layout, trellis.side, trellis.squares):
            edge = edge_of(bed, trellis.side)
            out = look.BOARD + look.LADDER_OFF + look.LADDER + layout.text * 0.65
            yield from _label(layout, edge, part, out, "trellis", trellis.height, showing)


def parts(layout: Layout, side: str, squares: Iterable[Square]) -> tuple[Part, ...]:
    """Return the unbroken parts that squares take along an edge."""
    level = edge_of(layout.bed, side) in (Edge.FIRST, Edge.LAST)
    found: list[Part] = []
    for place in sorted({square.column if level else square.row for square in squares}):
        start, end = place * layout.side, (place + 1) * layout.side
        if found and abs(found[-1][1] - start) < 1e-6:
            found[-1] = (found[-1][0], end)
        else:
            found.append((start, end))
    return tuple(found)


def _path(layout: Layout, ident: str, ground: BedPath, part: Part) -> Element:
    """Draw a path along a part of an edge: hatched, its far side broken where it is not drawn whole."""
    edge = edge_of(layout.bed, ground.side)
    depth = path_depth(ground, layout.text, ladder=layout.rims[edge].ladder)
    near, far = look.BOARD, look.BOARD + depth
    box = _box(layout, edge, part, near, far)
    return group(
        rect(*box, class_="d-hatched", fill=filled_with(ident, HATCH), stroke="none"),
        path(_sides(layout, edge, part, near, far), class_="d-soft", stroke_width=look.HAIR),
        path(
            _break(layout, edge, part, far, whole=depth == units(ground.width)),
            class_="d-soft",
            stroke_width=look.FINE,
        ),
        class_="d-path",
        data_side=ground.side,
    )


def _run_out_drawn(layout: Layout, ground: RunOut) -> float:
    """Return how deep a run-out is drawn."""
    rim = layout.rims[edge_of(layout.bed, ground.side)]
    return min(units(ground.reach), rim.reach or run_out_depth(ground, layout.text))


def _run_out(layout: Layout, ground: RunOut, part: Part) -> Element:
    """Draw open ground along a part of an edge, with dashed sides."""
    edge = edge_of(layout.bed, ground.side)
    whole = units(ground.reach)
    depth = _run_out_drawn(layout, ground)
    return group(
        rect(*_box(layout, edge, part, 0, depth), class_="d-open", stroke="none"),
        path(
            _sides(layout, edge, part, look.BOARD, depth),
            class_="d-soft",
            stroke_width=look.FINE,
            stroke_dasharray=look.GROUND_DASH,
        ),
        path(
            _break(layout, edge, part, depth, whole=depth == whole),
            class_="d-soft",
            stroke_width=look.FINE,
            stroke_dasharray=look.GROUND_DASH if depth == whole else None,
        ),
        class_="d-run-out",
        data_side=ground.side,
        data_depth=depth,
    )


def _trellis(layout: Layout, trellis: Trellis, part: Part) -> Element:
    """Draw a ladder along a part of an edge."""
    edge = edge_of(layout.bed, trellis.side)
    near = look.BOARD + look.LADDER_OFF
    far = near + look.LADDER
    rails = "".join(
        points((layout.beyond(edge, part[0], out), layout.beyond(edge, part[1], out)), closed=False)
        for out in (near, far)
    )
    count = max(1, round((part[1] - part[0]) * look.PER_INCH / look.RUNG))
    step = (part[1] - part[0]) / count
    rungs = "".join(
        points(
            (
                layout.beyond(edge, part[0] + index * step, near),
                layout.beyond(edge, part[0] + index * step, far),
            ),
            closed=False,
        )
        for index in range(count + 1)
    )
    return group(
        path(rails, class_="d-ink", stroke_width=look.FINE),
        path(rungs, class_="d-ink", stroke_width=look.HAIR),
        class_="d-trellis",
        data_side=trellis.side,
    )


def _box(
    layout: Layout, edge: Edge, part: Part, near: float, far: float
) -> tuple[float, float, float, float]:
    """Return the box over a part of an edge, between two distances from the bed in units."""
    return layout.box(layout.beyond(edge, part[0], near), layout.beyond(edge, part[1], far))


def _sides(layout: Layout, edge: Edge, part: Part, near: float, far: float) -> str:
    """Return the two short sides of ground along a part of an edge, as path data."""
    return "".join(
        points((layout.beyond(edge, along, near), layout.beyond(edge, along, far)), closed=False)
        for along in part
    )


def _break(layout: Layout, edge: Edge, part: Part, out: float, *, whole: bool) -> str:
    """Return the outer line: straight where the ground ends, with a notch where the drawing breaks it off."""
    start, end = part
    if whole:
        return points((layout.beyond(edge, start, out), layout.beyond(edge, end, out)), closed=False)
    middle, notch = start + (end - start) * 0.88, look.ZIGZAG / look.PER_INCH
    corners = (
        (start, 0.0),
        (middle - notch, 0.0),
        (middle - notch * 0.4, look.ZIGZAG),
        (middle + notch * 0.4, -look.ZIGZAG),
        (middle + notch, 0.0),
        (end, 0.0),
    )
    return points((layout.beyond(edge, along, out + off) for along, off in corners), closed=False)


def _label(
    layout: Layout, edge: Edge, part: Part, out: float, word: str, length: Length, showing: Showing
) -> Iterator[Element]:
    """Write what the ground is and how wide, along its edge; less of it or nothing where there is no room."""
    room = (part[1] - part[0]) * look.PER_INCH - look.GAP
    words = f"{word} {showing.length(length)}"
    if width_of(words, layout.text) > room:
        words = word
    if width_of(words, layout.text) > room:
        return
    x, y = layout.beyond(edge, (part[0] + part[1]) / 2, out)
    turn = -90 if layout.toward(edge) in (Toward.LEFT, Toward.RIGHT) else 0
    dx, dy = (look.MIDDLE * layout.text, 0) if turn else (0, look.MIDDLE * layout.text)
    yield text(
        x + dx,
        y + dy,
        words,
        layout.text,
        turn=turn,
        class_=f"d-note d-{word}-words",
        text_anchor="middle",
        halo=look.HALO,
    )
