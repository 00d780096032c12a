"""What stands in the squares: ground as its stage has it, plants at their places, vines, outlines."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tallybed.drawing.base import look
from tallybed.drawing.base.glyphs import glyph
from tallybed.drawing.base.patterns import textured
from tallybed.drawing.base.svg import Element, group, num, path, points, use
from tallybed.drawing.bedmap.layout import Edge, Layout, edge_of
from tallybed.drawing.bedmap.surround import ring
from tallybed.drawing.bedmap.view import Group, View, reach_over
from tallybed.drawing.bedmap.vines import vine
from tallybed.garden.squares import Square
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.room.spacing import Spot
from tallybed.reckoning.squares.occupancy import Grade


def bare(layout: Layout, view: View) -> Element:
    """Leave the squares that nothing has held as the paper is."""
    return path(ring(layout, view.bare, 0), stroke="none", class_="d-bare")


def grounds(layout: Layout, ident: str, view: View) -> Iterator[Element]:
    """Yield each planting's ground in the tone of its stage, with its texture if it has one."""
    for each in view.groups:
        for _grade, stage, squares in each.parts:
            data = _area(layout, view, each, squares)
            yield path(data, class_=f"d-ground stage-{stage}", stroke="none")
            yield from textured(ident, stage, data)


def definitions(ident: str, view: View) -> Iterator[Element]:
    """Yield the glyph of each planting and stage that is shown."""
    for number, (planting, stage) in enumerate(_kinds(view)):
        drawn = next(each.drawn for each in view.standing if each.drawn.planting == planting)
        radius = drawn.spread * look.PER_INCH / 2
        yield glyph(f"{ident}-plant-{number}", drawn.habit, stage, radius, has_fruit=drawn.has_fruit)


def plants(layout: Layout, ident: str, view: View) -> Iterator[Element]:
    """Yield every plant at its place and its size; led-out vines first, so that they lie under them."""
    numbers = {kind: number for number, kind in enumerate(_kinds(view))}
    for each in view.standing:
        for grade, stage, squares in each.parts:
            glyph_id = f"{ident}-plant-{numbers[each.drawn.planting, stage]}"
            inside = frozenset(squares)
            standing = [spot for spot in each.spots if spot.square in inside]
            yield group(
                *(_vines(layout, each, standing) if stage not in (Stage.SOWN, Stage.BARE) else ()),
                *(_plant(layout, each, glyph_id, spot, index) for index, spot in enumerate(standing)),
                class_=f"d-planted stage-{stage} grade-{grade.word}",
            )


def layer(ident: str) -> str:
    """Return the id of the layer with what grows on the map whose ids begin with ``ident``."""
    return f"{ident}-plants"


def shown_again(layout: Layout, there: Layout, ident: str) -> Element:
    """Return what grows on the flat map ``ident``, brought to its places on another layout of the bed."""
    left, top = layout.corner
    x, y = there.corner
    if there.turned:
        return use(layer(ident), x + there.breadth * look.PER_INCH + top, y - left, 90)
    return use(layer(ident), x - left, y - top)


def outline(layout: Layout, view: View, each: Group) -> Iterator[Element]:
    """Yield a group's outline, its line telling how well it is known, and the area it encloses."""
    inset = look.INSET + look.NEST * view.nesting(each)
    yield path(ring(layout, each.squares, 0), class_="d-area", stroke="none", fill_opacity="0")
    for grade, _stage, squares in each.parts:
        dash = look.GRADE_DASH[grade]
        yield path(
            ring(layout, squares, inset),
            class_=f"d-outline grade-{grade.word}",
            stroke_width=look.FINE if each.gone else look.INK * (1.15 if grade is Grade.PLANNED else 1),
            stroke_dasharray=dash,
            stroke_linecap="round" if grade is Grade.PLANNED else None,
            stroke_linejoin="round",
        )


def _kinds(view: View) -> list[tuple[str, Stage]]:
    """Return the planting and stage of each glyph that is needed, sorted."""
    return sorted(
        {(each.drawn.planting, stage) for each in view.standing for _grade, stage, _squares in each.parts}
    )


def _plant(layout: Layout, each: Group, glyph_id: str, spot: Spot, index: int) -> Element:
    """Draw one plant by its glyph, turned against its neighbours."""
    x, y = layout.at(float(spot.x), float(spot.y))
    return use(
        glyph_id,
        x,
        y,
        round(index * look.TURN % 360),
        class_="plant",
        data_planting=each.drawn.planting,
        data_square=spot.square.label,
        data_x=num(float(spot.x)),
        data_y=num(float(spot.y)),
    )


def _vines(layout: Layout, each: Group, spots: list[Spot]) -> Iterator[Element]:
    """Yield vines from the plants over the side they are led out over, spread along its ground."""
    led = each.drawn.led_out
    if led is None or not spots:
        return
    edge = edge_of(layout.bed, led.side)
    level = edge in (Edge.FIRST, Edge.LAST)
    lanes = _lanes(layout, edge, each)
    reach = min(reach_over(layout.bed, each), layout.rims[edge].reach)
    count = max(1, min(look.VINES_A_PLANT * len(spots), 2 * len(lanes)))
    start = lanes[0] * layout.side
    width = (lanes[-1] + 1) * layout.side - start
    ordered = sorted(
        spots, key=lambda spot: (float(spot.x if level else spot.y), float(spot.y if level else spot.x))
    )
    swing = min(each.drawn.spread * look.PER_INCH / 5, width / count * look.PER_INCH / 3, reach * 0.12)
    for index in range(count):
        spot = ordered[index * len(ordered) // count]
        along = start + (index + 0.5) / count * width
        end = layout.beyond(edge, along, reach * look.VINE_REACH * (1 - 0.13 * (index * 2 % 3)))
        strokes = vine(layout.at(float(spot.x), float(spot.y)), end, swing=swing, bent=1 if index % 2 else -1)
        yield group(*strokes, class_="d-led-out", data_planting=each.drawn.planting, data_side=led.side)


def _lanes(layout: Layout, edge: Edge, each: Group) -> list[int]:
    """Return the columns or rows before whose squares the vines may lie."""
    bed = layout.bed
    told = [
        square for ground in bed.run_outs if edge_of(bed, ground.side) is edge for square in ground.squares
    ]
    squares = told or each.squares
    level = edge in (Edge.FIRST, Edge.LAST)
    return sorted({square.column if level else square.row for square in squares})


def _area(layout: Layout, view: View, each: Group, squares: Iterable[Square]) -> str:
    """Return the ground of a group: whole squares as one shape, shared ones as a band of its share."""
    whole, data = [], ""
    for square in squares:
        holders = sorted(
            (other.drawn.planting, other.holders[square].share)
            for other in view.standing
            if square in other.holders
        )
        if each.gone or len(holders) == 1:
            whole.append(square)
            continue
        total = max(sum(float(share) for _planting, share in holders), 1.0)
        before = sum(float(share) for planting, share in holders if planting < each.drawn.planting)
        left, top, width, height = layout.block(square, square)
        start = left + width * before / total
        end = start + width * float(each.holders[square].share) / total
        data += points(((start, top), (end, top), (end, top + height), (start, top + height)))
    return ring(layout, whole, 0) + data
