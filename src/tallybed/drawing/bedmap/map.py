"""The map of one bed in one month."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tallybed.drawing.base import look
from tallybed.drawing.base.patterns import textures, tiles
from tallybed.drawing.base.svg import Element, defs, group, link, sheet
from tallybed.drawing.bedmap import outside, planted, surround
from tallybed.drawing.bedmap.description import described, link_name, status_of, title_of
from tallybed.drawing.bedmap.layout import Edge, Layout, edge_of, units
from tallybed.drawing.bedmap.margins import laid_out
from tallybed.drawing.bedmap.marks import Canvas, Layer, drawn, shown
from tallybed.drawing.bedmap.tags import tag_drawn, tags
from tallybed.drawing.bedmap.view import Group, View, reach_over, stages_of, viewed
from tallybed.garden.squares import Bed
from tallybed.garden.units import IN_FEET, Showing
from tallybed.reckoning.calendar.month import BedMonth


def bed_maps(
    month: BedMonth,
    *,
    ident: str,
    links: Mapping[str, str],
    showing: Showing = IN_FEET,
    smallest: float = look.SMALLEST_TEXT,
) -> tuple[str, str]:
    """Return the SVG markup of a bed's month lying flat and standing upright, for a page that holds both.

    ``ident`` begins every id, so it must be unique in the page. ``links``: address of a
    planting by its key, or of a crop by its slug. The upright one is for narrow pages: the
    longer side down, for a long bed by a quarter turn to the right; square names stay with
    their squares. The style sheet ``map.css`` gives them their colours, and shows ``bedmap-flat``
    or ``bedmap-upright`` by page width. ``smallest``: pixels the text of the flat one has on the narrowest
    page. All drawings are shown equally wide, so that their text is equally large. The plants are drawn
    once: the upright map shows the flat one's, turned with the bed, unless vines are led out, which end
    where the paper does.
    """
    view = viewed(month)
    flat = _layout(view, upright=False, showing=showing, smallest=smallest)
    upright = _layout(view, upright=True, showing=showing, smallest=look.SMALLEST_TEXT)
    name, other = f"{ident}-flat", f"{ident}-upright"
    led_out = any(each.drawn.led_out for each in view.standing)
    again = None if led_out else planted.shown_again(flat, upright, name)
    return (
        _sheet(flat, view, ident=name, links=links, upright=False, showing=showing),
        _sheet(upright, view, ident=other, links=links, upright=True, showing=showing, plants=again),
    )


def _layout(view: View, *, upright: bool, showing: Showing, smallest: float) -> Layout:
    """Return the frame of a month's map."""
    return laid_out(view.month.bed, reached(view), upright=upright, showing=showing, smallest=smallest)


def _sheet(
    layout: Layout,
    view: View,
    *,
    ident: str,
    links: Mapping[str, str],
    upright: bool,
    showing: Showing,
    plants: Element | None = None,
) -> str:
    """Return the markup of one map; ``plants`` stands for what grows where it is drawn elsewhere."""
    month = view.month
    canvas = Canvas(layout=layout, view=view, ident=ident, showing=showing, tags=tuple(tags(layout, view)))
    linked = {each.drawn.planting for each in view.groups if _address(each, links)}
    growing = drawn(canvas, Layer.PLANTS) if plants is None else (plants,)
    return sheet(
        ident,
        layout.width,
        layout.size[1],
        defs(
            *tiles(ident, (mark.pattern for mark in shown(view) if mark.pattern)),
            *textures(ident, stages_of(view), layout.grain),
            *(planted.definitions(ident, view) if plants is None else ()),
        ),
        group(*drawn(canvas, Layer.OUTSIDE), class_="d-grounds"),
        surround.boards(layout, month.kind),
        group(*drawn(canvas, Layer.SOIL), *planted.grounds(layout, ident, view), class_="d-soils"),
        surround.twine(layout),
        group(*drawn(canvas, Layer.SIDES), class_="d-trellises"),
        group(*growing, class_="d-plants", id=planted.layer(ident), aria_hidden="true"),
        group(*outside.names(layout, showing), class_="d-around"),
        group(*_plantings(canvas, links), class_="d-plantings"),
        *drawn(canvas, Layer.CHANGES),
        surround.names(layout),
        surround.scales(layout, showing),
        *drawn(canvas, Layer.TOP),
        *surround.head(layout, month.bed.title, status_of(view), month.kind),
        title=title_of(view),
        desc=described(view, turned=layout.turned, linked=linked),
        linked=bool(linked),
        width_=round(layout.least * look.GROWS),
        class_=f"bedmap bedmap-{'upright' if upright else 'flat'} kind-{month.kind}",
    )


def reached(view: View) -> dict[Edge, float]:
    """Return how deep the ground over each edge is drawn where vines lie in it, in units."""
    bed = view.month.bed
    reaches: dict[Edge, float] = {}
    for each in view.standing:
        reach = reach_over(bed, each)
        if reach and each.drawn.led_out:
            edge = edge_of(bed, each.drawn.led_out.side)
            reaches[edge] = max(reaches.get(edge, 0), reach, _ground(bed, edge))
    return reaches


def _ground(bed: Bed, edge: Edge) -> float:
    """Return how deep the run-out along an edge is, in units; 0 where there is none."""
    return max((units(each.reach) for each in bed.run_outs if edge_of(bed, each.side) is edge), default=0)


def _plantings(canvas: Canvas, links: Mapping[str, str]) -> Iterator[Element]:
    """Yield each group's outline and tag, as a link where there is one."""
    for each, tag in canvas.tags:
        shapes = [*planted.outline(canvas.layout, canvas.view, each), tag_drawn(tag)]
        names = {"class_": "d-planting", "data_planting": each.drawn.planting}
        address = _address(each, links)
        yield (
            link(address, link_name(each, tag.lines), *shapes, **names)
            if address
            else group(*shapes, **names)
        )


def _address(each: Group, links: Mapping[str, str]) -> str | None:
    """Return where a planting leads: to its own page, else to its crop's."""
    return links.get(each.drawn.planting) or (links.get(each.drawn.crop) if each.drawn.crop else None)
