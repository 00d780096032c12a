"""Every mark of the bed map that needs a word of explanation: one row of ``MARKS`` each.

A row says when the mark is shown, how it is drawn on the map and in its swatch, and what
legend and description say of it; map, legend and description go through the rows. To add
one: a row here, its colours in ``map.css``, and in ``margins.py`` the room it needs if it
lies outside the frame. What explains itself (boards, twine, names, figures, north) and
what a planting shows (its name, stage and outline) have no row.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from enum import Enum

from tallybed.drawing.base import look
from tallybed.drawing.base.patterns import HATCH
from tallybed.drawing.base.svg import Element, circle, group, line, path, points, rect
from tallybed.drawing.bedmap import outside, planted, surround, waiting
from tallybed.drawing.bedmap.layout import Layout
from tallybed.drawing.bedmap.swatches import HEIGHT, WIDTH, boxed, framed, tiled
from tallybed.drawing.bedmap.tags import MapTag
from tallybed.drawing.bedmap.view import Group, View
from tallybed.garden.squares import in_words
from tallybed.garden.units import Showing

KINDS = ("ground", "mark")
"""The headings under which the legend has marks, in its order."""


class Layer(Enum):
    """How high a mark lies on the map, from the lowest."""

    OUTSIDE = "the ground outside the frame"
    SOIL = "the ground of the squares, under the twine and what is planted"
    SIDES = "along the boards, over the twine"
    PLANTS = "what grows, under outlines and tags"
    CHANGES = "over outlines and tags"
    TOP = "over the names and dimension lines"


@dataclass(frozen=True, slots=True, kw_only=True)
class Canvas:
    """One map being drawn."""

    layout: Layout
    view: View
    ident: str
    """It begins every id."""
    showing: Showing
    tags: tuple[tuple[Group, MapTag], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MapMark:
    """One thing that the bed map draws."""

    name: str
    """Short and unique: it is a part of ids."""
    kind: str
    """Under which heading the legend has it: one of ``KINDS``."""
    layer: Layer
    shown: Callable[[View], bool]
    """Whether the map of a month has it; then legend and description have it too."""
    drawn: Callable[[Canvas], Iterable[Element]]
    """How the map shows it."""
    pattern: str = ""
    """The ground pattern it is filled with, if any."""
    swatch: Callable[[str], str]
    """How the legend shows it: markup, its ids beginning with the text given."""
    words: str
    """What the legend says of it."""
    where: Callable[[View], str] = lambda _view: ""
    """What the legend says beside the words: its squares."""
    told: Callable[[View], Iterable[str]]
    """The sentences of the description."""
    classes: tuple[str, ...]
    """Classes of its shapes that ``map.css`` gives their colours."""


def shown(view: View) -> Iterator[MapMark]:
    """Yield the marks that the map of a month has, in the order of ``MARKS``."""
    return (mark for mark in MARKS if mark.shown(view))


def drawn(canvas: Canvas, layer: Layer) -> Iterator[Element]:
    """Yield the shapes of one layer's marks."""
    for mark in shown(canvas.view):
        if mark.layer is layer:
            yield from mark.drawn(canvas)


def _untold(_view: View) -> tuple[str, ...]:
    """Say nothing: the description tells the marked corner first, and no more of the bed's surroundings."""
    return ()


def _grown(view: View) -> bool:
    """Return whether any plant is drawn."""
    return any(each.spots for each in view.standing)


def _bare_in(view: View) -> str:
    """Return the bare squares in words."""
    return in_words(view.bare, with_bed=False)


def _plant_swatch(_ident: str) -> str:
    """Show the room of one plant."""
    return framed(circle(WIDTH / 2, HEIGHT / 2, HEIGHT * 0.36, class_="d-canopy", stroke_width=look.FINE))


def _run_out_swatch(_ident: str) -> str:
    """Show ground with a dashed edge."""
    size = (6, 5, WIDTH - 12, HEIGHT - 10)
    return framed(rect(*size, class_="d-soft", stroke_width=look.FINE, stroke_dasharray=look.GROUND_DASH))


def _trellis_swatch(_ident: str) -> str:
    """Show a piece of ladder."""
    top, bottom = (HEIGHT - look.LADDER) / 2, (HEIGHT + look.LADDER) / 2
    rails = points(((3, top), (WIDTH - 3, top)), closed=False) + points(
        ((3, bottom), (WIDTH - 3, bottom)), closed=False
    )
    count = int((WIDTH - 6) / look.RUNG)
    step = (WIDTH - 6) / count
    rungs = "".join(
        points(((3 + i * step, top), (3 + i * step, bottom)), closed=False) for i in range(count + 1)
    )
    return framed(path(rails + rungs, class_="d-ink", stroke_width=look.FINE))


def _stake_swatch(_ident: str) -> str:
    """Show the crossed square of the stake."""
    x, y, side = (WIDTH - look.STAKE) / 2, (HEIGHT - look.STAKE) / 2, look.STAKE
    stake = group(
        rect(x, y, side, side, class_="d-stake", stroke_width=look.INK),
        line(x, y, x + side, y + side, class_="d-ink", stroke_width=look.FINE),
        line(x + side, y, x, y + side, class_="d-ink", stroke_width=look.FINE),
    )
    return framed(stake)


MARKS: tuple[MapMark, ...] = (
    MapMark(
        name="plant",
        kind="mark",
        layer=Layer.PLANTS,
        shown=_grown,
        drawn=lambda canvas: planted.plants(canvas.layout, canvas.ident, canvas.view),
        swatch=_plant_swatch,
        words="a plant at its place, drawn about as wide as it has grown by then",
        told=lambda _view: ("Plants are drawn about as wide as they have grown by then.",),
        classes=("d-canopy", "d-leaf"),
    ),
    MapMark(
        name="stake",
        kind="mark",
        layer=Layer.TOP,
        shown=lambda _view: True,
        drawn=lambda canvas: (surround.stake(canvas.layout),),
        swatch=_stake_swatch,
        words="stake at the marked corner, from which squares are named",
        told=_untold,
        classes=("d-stake", "d-ink"),
    ),
    MapMark(
        name="bare",
        kind="ground",
        layer=Layer.SOIL,
        shown=lambda view: bool(view.bare),
        drawn=lambda canvas: (planted.bare(canvas.layout, canvas.view),),
        swatch=lambda _ident: framed(boxed()),
        words="bare",
        where=_bare_in,
        told=lambda view: (f"Bare: {_bare_in(view)}.",),
        classes=("d-bare",),
    ),
    MapMark(
        name="path",
        kind="ground",
        layer=Layer.OUTSIDE,
        shown=lambda view: bool(view.month.bed.paths),
        drawn=lambda canvas: outside.paths(canvas.layout, canvas.ident),
        pattern=HATCH,
        swatch=lambda ident: tiled(ident, HATCH),
        words="path",
        told=_untold,
        classes=("d-pattern", "d-soft"),
    ),
    MapMark(
        name="run-out",
        kind="ground",
        layer=Layer.OUTSIDE,
        shown=lambda view: bool(view.month.bed.run_outs),
        drawn=lambda canvas: outside.run_outs(canvas.layout),
        swatch=_run_out_swatch,
        words="ground outside the bed that vines may be led over",
        told=_untold,
        classes=("d-soft",),
    ),
    MapMark(
        name="trellis",
        kind="ground",
        layer=Layer.SIDES,
        shown=lambda view: bool(view.month.bed.trellises),
        drawn=lambda canvas: outside.trellises(canvas.layout),
        swatch=_trellis_swatch,
        words="trellis",
        told=_untold,
        classes=("d-ink",),
    ),
    MapMark(
        name="waiting",
        kind="mark",
        layer=Layer.TOP,
        shown=waiting.waits,
        drawn=lambda canvas: waiting.rings(canvas.layout, canvas.view),
        swatch=waiting.swatch,
        words="not to be picked from, or to keep off, on the day of the map",
        where=lambda view: in_words(waiting.marked(view), with_bed=False),
        told=waiting.told,
        classes=("d-barred",),
    ),
)
"""Legend and description tell them in this order, the legend by kinds; on the map their layers decide."""
