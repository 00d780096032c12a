"""What a drawing needs around its bed, and the size of its text, fitted to each other."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from math import ceil

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.bedmap.layout import OPPOSITE, Edge, Layout, Rim, edge_of, units
from tallybed.garden.squares import Bed, BedPath, RunOut
from tallybed.garden.units import CENTIMETRE, FOOT, INCH, Showing, Unit, rounded


def scale_unit(bed: Bed, showing: Showing) -> Unit:
    """Return the unit of a bed's dimension lines: feet where a square is a whole number of them."""
    if showing.metric:
        return CENTIMETRE
    return FOOT if bed.side.within(FOOT).denominator == 1 else INCH


def figure(bed: Bed, squares: int, unit: Unit) -> str:
    """Return the length of so many squares as a dimension line writes it."""
    value = bed.side.within(unit) * squares
    return rounded(value, 0 if value.denominator == 1 or unit is CENTIMETRE else 1)


def laid_out(
    bed: Bed,
    reaches: Mapping[Edge, float],
    *,
    upright: bool,
    showing: Showing,
    smallest: float = look.SMALLEST_TEXT,
) -> Layout:
    """Lay out a bed's drawing: flat for wide pages and paper, its longer side down for narrow pages.

    ``reaches``: for edges that vines are led over, how far (units). ``smallest``: pixels the text
    has on the narrowest page the drawing is shown on; where it is larger than ``look.SMALLEST_TEXT``,
    a tag has room in a square all the same. As the text's size moves the margins, the two are fitted
    to each other in a few rounds.
    """
    return _laid_out(bed, tuple(sorted(reaches.items())), upright, showing, smallest)


@lru_cache(maxsize=256)
def _laid_out(
    bed: Bed, reached: tuple[tuple[Edge, float], ...], upright: bool, showing: Showing, smallest: float
) -> Layout:
    """Return the same: a bed is drawn for month after month."""
    reaches = dict(reached)
    turned = upright and stands_turned(bed)
    page = look.UPRIGHT_PAGE if upright else look.FLAT_PAGE
    text, most = look.TEXT, units(bed.side) * look.SIGN_SHARE
    for _round in range(12):
        fitted = _with_text(bed, reaches, text, turned=turned, narrow=upright, showing=showing)
        least = look.SMALLEST_TEXT * fitted.width / page
        text = max(least, min(smallest * fitted.width / page, most))
    laid = _with_text(bed, reaches, text, turned=turned, narrow=upright, showing=showing)
    if smallest == look.SMALLEST_TEXT:
        return laid
    laid = replace(laid, narrowest=0 if upright else laid.size[1])
    return replace(laid, smallest=look.SMALLEST_TEXT * laid.width / page)


def stands_turned(bed: Bed) -> bool:
    """Return whether a bed is turned a quarter where drawings stand: if it is longer than broad."""
    return bed.columns > bed.rows


def _with_text(
    bed: Bed, reaches: Mapping[Edge, float], text: float, *, turned: bool, narrow: bool, showing: Showing
) -> Layout:
    """Lay out a bed's drawing with a text of that size."""
    bare = {
        edge: _bare_rim(bed, edge, _reach(reaches.get(edge, 0), _level(edge) == turned and narrow), text)
        for edge in Edge
    }
    clear = {edge: _obstructed(rim, text) for edge, rim in bare.items()}
    names = (_names_edge(bare, Edge.FIRST), _names_edge(bare, Edge.START))
    scales = {_scale_edge(edge, clear) for edge in names}
    rims = {}
    for edge, rim in bare.items():
        along_page = _level(edge) != turned
        depth = clear[edge]
        named = scale = None
        if edge in names:
            named = depth + look.GAP
            depth = named + text * (look.LINE if along_page else look.ACROSS)
        if edge in scales:
            scale = depth + look.GAP
            room = text * 1.2 if along_page else _widest(bed, _level(edge), text, showing) + look.GAP
            depth = scale + look.TICK + room
        # Whole margins give whole corners, so that what lies on the bed's own grid has short numbers.
        rims[edge] = replace(rim, names=named, scale=scale, depth=ceil(depth + look.PAD))
    least = look.UPRIGHT_WIDTH if narrow else look.FLAT_WIDTH
    return Layout(
        bed=bed,
        turned=turned,
        text=text,
        smallest=text,
        least=least,
        narrowest=least,
        rims=rims,
        head=ceil(text * 3.9),
    )


def _level(edge: Edge) -> bool:
    """Return whether an edge runs along the rows."""
    return edge in (Edge.FIRST, Edge.LAST)


def _reach(reach: float, across_narrow_page: bool) -> float:
    """Return how deep ground with vines is drawn: less where it lies across a narrow page."""
    return min(reach, look.NARROW_REACH) if across_narrow_page else reach


def _names_edge(rims: Mapping[Edge, Rim], edge: Edge) -> Edge:
    """Return where names stand: at row 1 and column A, unless far deeper ground lies there than opposite."""
    other = OPPOSITE[edge]
    return other if rims[edge].ground > rims[other].ground + look.DEEP / 2 else edge


def _widest(bed: Bed, level: bool, text: float, showing: Showing) -> float:
    """Return the width of the longest figure at a dimension line."""
    unit = scale_unit(bed, showing)
    whole = figure(bed, bed.columns if level else bed.rows, unit)
    return max(width_of(whole, text), width_of(unit.symbol, text))


def _bare_rim(bed: Bed, edge: Edge, reach: float, text: float) -> Rim:
    """Return what lies outside an edge, before names and dimension lines have their places."""
    ladder = any(edge_of(bed, trellis.side) is edge for trellis in bed.trellises)
    ground = reach
    for run_out in bed.run_outs:
        if edge_of(bed, run_out.side) is edge and not reach:
            ground = max(ground, run_out_depth(run_out, text))
    for path in bed.paths:
        if edge_of(bed, path.side) is edge:
            ground = max(ground, look.BOARD + path_depth(path, text, ladder=ladder))
    return Rim(ladder=ladder, ground=ground and ground + look.ZIGZAG, reach=reach)


def path_depth(path: BedPath, text: float, *, ladder: bool) -> float:
    """Return how deep a path is drawn: its whole width, or what its name needs."""
    ladder_room = look.LADDER_OFF + look.LADDER if ladder else 0
    room = max(look.PATH_DEPTH, text * look.PATH_WORDS + ladder_room) + (text * look.LINE if ladder else 0)
    return min(units(path.width), room)


def run_out_depth(run_out: RunOut, text: float) -> float:
    """Return how deep a run-out without vines is drawn: its whole reach, or what its name needs."""
    return min(units(run_out.reach), max(look.BROKEN, look.BOARD + text * look.RUN_OUT_WORDS))


def _obstructed(rim: Rim, text: float) -> float:
    """Return how far from an edge paths, run-outs and trellis reach, in units."""
    trellis = look.LADDER_OFF + look.LADDER + text * look.LINE if rim.ladder else 0
    return max(rim.ground, look.BOARD + trellis)


def _scale_edge(names: Edge, clear: Mapping[Edge, float]) -> Edge:
    """Return where the dimension line runs: opposite the names, unless deep ground lies there."""
    other = OPPOSITE[names]
    return names if clear[other] > look.DEEP else other
