"""A plan for marking out a bed, to scale: stakes, lines, staples, the marks on each side, the diagonals."""

from __future__ import annotations

from math import hypot

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.svg import Element, circle, group, line, num, path, points, rect, sheet, text
from tallybed.drawing.marking_sides import Place, PlanView, corner_name, sides
from tallybed.garden.outline import outlines, shifted
from tallybed.garden.squares import Bed
from tallybed.garden.units import Showing
from tallybed.reckoning.marking_out import Corner, Marks, Stakes


def layout_plan(
    bed: Bed, found: Marks, stakes: Stakes, *, ident: str, showing: Showing, narrow: bool = False
) -> str:
    """Return the SVG markup of a bed's marking-out plan.

    ``narrow``: for a page of 360 pixels; a bed longer than it is wide is then turned
    a quarter to the right, as the bed map is. Figures are feet and inches, or
    centimetres, as ``showing`` says.
    """
    view = PlanView.of(bed, narrow, showing)
    width, height = view.size
    return sheet(
        ident,
        width,
        height,
        _boards(view),
        _lines(view, found),
        _diagonals(view, stakes, showing),
        _names(view),
        group(*sides(view, stakes, showing), class_="d-sides"),
        _stakes(view, stakes),
        title=f"Marking-out plan of {bed.called}",
        desc=_described(found, stakes, showing),
        width_=f"{num(width / look.PLAN_EM)}em",
        class_=f"layoutplan {'layoutplan-narrow' if narrow else 'layoutplan-wide'}",
    )


def _boards(view: PlanView) -> Element:
    """Draw the boards around the bed."""
    cells = [(square.column, square.row) for square in view.bed.squares]
    rings = outlines(cells)

    def ring(out: float) -> str:
        """Return the bed's outline moved outwards by so many units, as path data."""
        moved = (shifted(outline, -out / view.square) for outline in rings)
        return "".join(points(view.at(x, y) for x, y in corners) for corners in moved)

    return group(
        path(ring(look.PLAN_BOARD) + ring(0), class_="d-board", fill_rule="evenodd", stroke="none"),
        path(ring(look.PLAN_BOARD), class_="d-frame", stroke_width=look.INK),
        class_="d-boards",
    )


def _names(view: PlanView) -> Element:
    """Write the name of each square, where it has room."""
    size = view.text
    widest = max(width_of(square.label, size) for square in view.bed.squares)
    if view.square < widest + look.GAP:
        return group(class_="d-names")
    places = ((square.label, view.at(square.column + 0.5, square.row + 0.5)) for square in view.bed.squares)
    return group(
        *(
            text(
                x,
                y + size * look.MIDDLE,
                label,
                size,
                halo=look.HALO,
                class_="d-figure",
                text_anchor="middle",
            )
            for label, (x, y) in places
        ),
        class_="d-names",
    )


def _lines(view: PlanView, found: Marks) -> Element:
    """Draw the twine, and a staple across each of its ends."""
    twine, staples = [], []
    for one in found.lines:
        (ax, ay), (bx, by) = view.at(*one.start), view.at(*one.end)
        twine.append(points(((ax, ay), (bx, by)), closed=False))
        along = hypot(bx - ax, by - ay)
        dx, dy = (by - ay) / along * look.STAPLE / 2, (ax - bx) / along * look.STAPLE / 2
        for x, y in ((ax, ay), (bx, by)):
            staples.append(points(((x - dx, y - dy), (x + dx, y + dy)), closed=False))
    return group(
        path("".join(twine), class_="d-twine", stroke_width=look.TWINE),
        path("".join(staples), class_="d-staple", stroke_width=look.HEAVY),
        class_="d-strings",
    )


def _diagonals(view: PlanView, stakes: Stakes, showing: Showing) -> Element:
    """Draw the diagonals that square the bed, the length on the first."""
    drawn: list[Element] = []
    size = view.text
    for place, one in enumerate(stakes.diagonals):
        (ax, ay), (bx, by) = view.at(*one.start.at), view.at(*one.end.at)
        drawn.append(
            line(ax, ay, bx, by, class_="d-soft", stroke_width=look.FINE, stroke_dasharray=look.PLAN_DIAGONAL)
        )
        words = showing.ticked(one.length)
        wide, high = width_of(words, size, bold=True), size * look.LINE
        at = None if place else _on_a_line(view, (ax, ay), (bx, by), wide)
        if at:
            x, y = at
            # A halo alone would let the line through where the words have a space.
            drawn += [
                rect(x - wide / 2, y - high / 2, wide, high, class_="d-bare", stroke="none"),
                text(x, y + size * look.MIDDLE, words, size, class_="d-measure", text_anchor="middle"),
            ]
    return group(*drawn, class_="d-diagonals")


def _on_a_line(view: PlanView, start: Place, end: Place, wide: float) -> Place | None:
    """Return where on a diagonal its length stands: over a line between squares, clear of names and boards.

    That is about a quarter of the way along, or the nearest place where words so wide lie within the bed.
    Where they lie so nowhere there is none: the table beside the drawing tells the length.
    """
    (ax, ay), (bx, by) = start, end
    rows, columns = round(abs(by - ay) / view.square), round(abs(bx - ax) / view.square)
    lines = rows if rows > 1 else columns
    parts = [line / lines for line in range(1, lines)] or [0.25]
    nearest = sorted(parts, key=lambda part: abs(part - 0.25))
    places = [(ax + (bx - ax) * part, ay + (by - ay) * part) for part in nearest]
    middles = [view.at(square.column + 0.5, square.row + 0.5) for square in view.bed.squares]

    def inside(x: float, y: float) -> bool:
        return any(max(abs(x - mx), abs(y - my)) <= view.square / 2 for mx, my in middles)

    def clear(x: float, y: float) -> bool:
        high = view.text * look.LINE
        ends = ((x + side * wide / 2, y + up * high / 2) for side in (-1, 1) for up in (-1, 1))
        return all(inside(*one) for one in ends)

    return next((place for place in places if clear(*place)), None)


def _stakes(view: PlanView, stakes: Stakes) -> Element:
    """Draw the stake at each corner."""
    return group(*(_stake(view, corner, stakes) for corner in stakes.corners), class_="d-stakes")


def _stake(view: PlanView, corner: Corner, stakes: Stakes) -> Element:
    """Draw a stake, full at the marked corner, and its name on the side away from the bed."""
    x, y = view.at(*corner.at)
    radius = look.PLAN_BOARD + 1.5
    marked = corner.at == (0, 0)
    shape = (
        rect(x - radius, y - radius, 2 * radius, 2 * radius, class_="d-corner", stroke="none")
        if marked
        else circle(x, y, radius, class_="d-stake", stroke_width=look.INK)
    )
    name = corner_name(view, corner, stakes)
    return group(
        shape,
        name.drawn(),
        data_corner=corner.name,
    )


def _described(found: Marks, stakes: Stakes, showing: Showing) -> str:
    """Return sides, lines, staples and diagonals in words."""
    sides = "; ".join(
        f"{edge.start.name} to {edge.end.name} {showing.taped(edge.length)}" for edge in stakes.edges
    )
    across = "; ".join(
        f"{one.start.name} to {one.end.name} {showing.taped(one.length)}" for one in stakes.diagonals
    )
    said = f"Sides: {sides}. {len(found.lines)} lines of twine between {found.staples} staples."
    return f"{said} Corner to corner: {across}." if across else said
