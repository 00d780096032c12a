"""The ground outside the frame: paths, run-outs, trellises."""

from __future__ import annotations

from collections.abc import Iterable

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import clipped, width_of
from tallybed.drawing.base.patterns import HATCH, filled_with
from tallybed.drawing.base.svg import Element, group, path, points, rect, text
from tallybed.drawing.bedmap.layout import Edge, Layout, Toward, edge_of, units
from tallybed.drawing.bedmap.margins import path_depth
from tallybed.garden.squares import BedPath, RunOut, Square, Trellis
from tallybed.garden.units import Length, Showing

Run = tuple[float, float]
"""A stretch along an edge, in inches from its start."""


def grounds(layout: Layout, ident: str, showing: Showing) -> Element:
    """Draw paths, then the run-outs that lie over them."""
    bed = layout.bed
    paths = [
        _path(layout, ident, each, run, showing)
        for each in bed.paths
        for run in runs(layout, each.side, bed.along(each.side))
    ]
    led = [
        _run_out(layout, each, run, showing)
        for each in bed.run_outs
        for run in runs(layout, each.side, each.squares)
    ]
    return group(*paths, *led, class_="d-grounds")


def trellises(layout: Layout, showing: Showing) -> Element:
    """Draw each trellis as a ladder along its side, over its squares."""
    drawn = [
        _trellis(layout, each, run, showing)
        for each in layout.bed.trellises
        for run in runs(layout, each.side, each.squares)
    ]
    return group(*drawn, class_="d-trellises")


def runs(layout: Layout, side: str, squares: Iterable[Square]) -> tuple[Run, ...]:
    """Return the unbroken stretches that squares take along an edge."""
    level = edge_of(layout.bed, side) in (Edge.FIRST, Edge.LAST)
    found: list[Run] = []
    for place in sorted({square.column if level else square.row for square in squares}):
        start, end = place * layout.side, (place + 1) * layout.side
        if found and abs(found[-1][1] - start) < 1e-6:
            found[-1] = (found[-1][0], end)
        else:
            found.append((start, end))
    return tuple(found)


def _path(layout: Layout, ident: str, ground: BedPath, run: Run, showing: Showing) -> Element:
    edge = edge_of(layout.bed, ground.side)
    ladder = layout.rims[edge].ladder
    depth = path_depth(ground, layout.text, ladder=ladder)
    near, far = look.BOARD, look.BOARD + depth
    middle = far - layout.text * 0.8 if ladder else (near + far) / 2
    box = _box(layout, edge, run, near, far)
    return group(
        rect(*box, class_="d-hatched", fill=filled_with(ident, HATCH), stroke="none"),
        path(_sides(layout, edge, run, near, far), class_="d-soft", stroke_width=look.HAIR),
        path(
            _break(layout, edge, run, far, whole=depth == units(ground.width)),
            class_="d-soft",
            stroke_width=look.FINE,
        ),
        _label(layout, edge, run, middle, "path", ground.width, showing),
        class_="d-path",
        data_side=ground.side,
    )


def _run_out(layout: Layout, ground: RunOut, run: Run, showing: Showing) -> Element:
    edge = edge_of(layout.bed, ground.side)
    whole = units(ground.reach)
    depth = min(whole, layout.rims[edge].reach or look.BROKEN)
    return group(
        rect(*_box(layout, edge, run, 0, depth), class_="d-open", stroke="none"),
        path(
            _sides(layout, edge, run, look.BOARD, depth),
            class_="d-soft",
            stroke_width=look.FINE,
            stroke_dasharray=look.GROUND_DASH,
        ),
        path(
            _break(layout, edge, run, depth, whole=depth == whole),
            class_="d-soft",
            stroke_width=look.FINE,
            stroke_dasharray=look.GROUND_DASH if depth == whole else None,
        ),
        _label(layout, edge, run, depth - layout.text, "run-out", ground.reach, showing),
        class_="d-run-out",
        data_side=ground.side,
        data_depth=depth,
    )


def _trellis(layout: Layout, trellis: Trellis, run: Run, showing: Showing) -> Element:
    edge = edge_of(layout.bed, trellis.side)
    near = look.BOARD + look.LADDER_OFF
    far = near + look.LADDER
    rails = "".join(
        points((layout.beyond(edge, run[0], out), layout.beyond(edge, run[1], out)), closed=False)
        for out in (near, far)
    )
    count = max(1, round((run[1] - run[0]) * look.PER_INCH / look.RUNG))
    step = (run[1] - run[0]) / count
    rungs = "".join(
        points(
            (
                layout.beyond(edge, run[0] + index * step, near),
                layout.beyond(edge, run[0] + index * step, far),
            ),
            closed=False,
        )
        for index in range(count + 1)
    )
    return group(
        path(rails, class_="d-ink", stroke_width=look.FINE),
        path(rungs, class_="d-ink", stroke_width=look.HAIR),
        _label(layout, edge, run, far + layout.text * 0.65, "trellis", trellis.height, showing),
        class_="d-trellis",
        data_side=trellis.side,
    )


def _box(layout: Layout, edge: Edge, run: Run, near: float, far: float) -> tuple[float, float, float, float]:
    return layout.box(layout.beyond(edge, run[0], near), layout.beyond(edge, run[1], far))


def _sides(layout: Layout, edge: Edge, run: Run, near: float, far: float) -> str:
    return "".join(
        points((layout.beyond(edge, along, near), layout.beyond(edge, along, far)), closed=False)
        for along in run
    )


def _break(layout: Layout, edge: Edge, run: Run, out: float, *, whole: bool) -> str:
    """Return the outer line: straight where the ground ends, with a notch where the drawing breaks it off."""
    start, end = run
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
    layout: Layout, edge: Edge, run: Run, out: float, word: str, length: Length, showing: Showing
) -> Element:
    """Write what the ground is and how wide, along its edge; the word alone where there is no room."""
    room = (run[1] - run[0]) * look.PER_INCH - look.GAP
    words = f"{word} {showing.length(length)}"
    if width_of(words, layout.text) > room:
        words = clipped(word, layout.text, room)
    x, y = layout.beyond(edge, (run[0] + run[1]) / 2, out)
    turn = -90 if layout.toward(edge) in (Toward.LEFT, Toward.RIGHT) else 0
    dx, dy = (look.MIDDLE * layout.text, 0) if turn else (0, look.MIDDLE * layout.text)
    return text(
        x + dx,
        y + dy,
        words,
        layout.text,
        turn=turn,
        class_="d-note",
        text_anchor="middle",
        halo=look.HALO,
    )
