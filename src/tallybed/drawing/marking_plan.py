"""A plan for marking out a bed, to scale: stakes, lines, staples, the marks on each side, the diagonals."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.svg import Element, circle, group, line, path, points, rect, sheet, text
from tallybed.garden.outline import outlines, shifted
from tallybed.garden.squares import Bed
from tallybed.garden.units import Showing
from tallybed.reckoning.marking_out import Corner, MarkedSide, Marks, Stakes

_Place = tuple[float, float]


def layout_plan(
    bed: Bed, found: Marks, stakes: Stakes, *, ident: str, showing: Showing, narrow: bool = False
) -> str:
    """Return the SVG markup of a bed's marking-out plan.

    ``narrow``: for a page of 360 pixels; a bed longer than it is wide is then turned
    a quarter to the right, as the bed map is. Figures are feet and inches, or
    centimetres, as ``showing`` says.
    """
    view = _View.of(bed, narrow)
    width, height = view.size
    return sheet(
        ident,
        width,
        height,
        _boards(view),
        _lines(view, found),
        _diagonals(view, stakes, showing),
        _names(view),
        group(*(_side(view, edge, showing) for edge in stakes.edges), class_="d-sides"),
        _stakes(view, stakes),
        title=f"Marking-out plan of {bed.called}",
        desc=_described(found, stakes, showing),
        class_=f"layoutplan {'layoutplan-narrow' if narrow else 'layoutplan-wide'}",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _View:
    """Where corners counted in squares lie on the drawing."""

    bed: Bed
    turned: bool
    square: float
    edge: float
    """Room around the bed for figures."""

    @classmethod
    def of(cls, bed: Bed, narrow: bool) -> _View:
        """Lay out a bed's plan; a long bed is turned upright on a narrow page."""
        turned = narrow and bed.columns > bed.rows
        across = bed.rows if turned else bed.columns
        edge = look.PLAN_OFF[1] + look.PLAN_TEXT
        room = (look.PLAN_NARROW if narrow else look.PLAN_WIDE) - 2 * edge
        return cls(bed=bed, turned=turned, square=min(look.PLAN_SQUARE, room / across), edge=edge)

    @property
    def size(self) -> _Place:
        """Width and height of the drawing."""
        across, down = (self.bed.columns, self.bed.rows)
        if self.turned:
            across, down = down, across
        return across * self.square + 2 * self.edge, down * self.square + 2 * self.edge

    def at(self, x: float, y: float) -> _Place:
        """Return the drawn place of a corner counted in squares."""
        if self.turned:
            x, y = self.bed.rows - y, x
        return self.edge + x * self.square, self.edge + y * self.square

    def out(self, edge: MarkedSide) -> _Place:
        """Return the step of one unit, as drawn, from a side away from the bed."""
        (ax, ay), (bx, by) = edge.start.at, edge.end.at
        there = {(one.column, one.row) for one in self.bed.squares}
        if ay == by:
            step = (0, -1) if (min(ax, bx), ay) in there else (0, 1)
        else:
            step = (-1, 0) if (ax, min(ay, by)) in there else (1, 0)
        return (-step[1], step[0]) if self.turned else step


def _boards(view: _View) -> Element:
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


def _names(view: _View) -> Element:
    """Write the name of each square, where it has room."""
    size = look.PLAN_TEXT
    if view.square < 2.6 * size:
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


def _lines(view: _View, found: Marks) -> Element:
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


def _diagonals(view: _View, stakes: Stakes, showing: Showing) -> Element:
    """Draw the diagonals that square the bed, the length on the first."""
    drawn: list[Element] = []
    size = look.PLAN_TEXT
    for place, one in enumerate(stakes.diagonals):
        (ax, ay), (bx, by) = view.at(*one.start.at), view.at(*one.end.at)
        drawn.append(
            line(ax, ay, bx, by, class_="d-soft", stroke_width=look.FINE, stroke_dasharray=look.PLAN_DIAGONAL)
        )
        if not place:
            words = showing.ticked(one.length)
            wide = width_of(words, size, bold=True)
            x, y = _on_a_line(view, (ax, ay), (bx, by), wide)
            # A halo alone would let the line through where the words have a space.
            drawn += [
                rect(x - wide / 2, y - size, wide, size * 1.3, class_="d-bare", stroke="none"),
                text(x, y, words, size, class_="d-measure", text_anchor="middle"),
            ]
    return group(*drawn, class_="d-diagonals")


def _on_a_line(view: _View, start: _Place, end: _Place, wide: float) -> _Place:
    """Return where on a diagonal its length stands: over a line between rows, clear of names and boards.

    That is about a quarter of the way along, or the nearest place where words so wide lie within the bed.
    """
    (ax, ay), (bx, by) = start, end
    rows = round(abs(by - ay) / view.square)
    parts = [row / rows for row in range(1, rows)] or [0.5]
    nearest = sorted(parts, key=lambda part: abs(part - 0.25))
    places = [(ax + (bx - ax) * part, ay + (by - ay) * part) for part in nearest]
    middles = [view.at(square.column + 0.5, square.row + 0.5) for square in view.bed.squares]

    def inside(x: float, y: float) -> bool:
        return any(max(abs(x - mx), abs(y - my)) <= view.square / 2 for mx, my in middles)

    def clear(x: float, y: float) -> bool:
        ends = ((x + side * wide / 2, y + up * view.square / 4) for side in (-1, 1) for up in (-1, 1))
        return all(inside(*one) for one in ends)

    return next((place for place in places if clear(*place)), places[0])


def _side(view: _View, edge: MarkedSide, showing: Showing) -> Element:
    """Draw the marks along one side with their distances, and the length of the side."""
    ox, oy = view.out(edge)
    (ax, ay), (bx, by) = view.at(*edge.start.at), view.at(*edge.end.at)
    ticks, figures = [], []
    every = _every(view, edge, showing, level=oy != 0)
    for number, mark in enumerate(edge.marks, start=1):
        part = float(mark.nanometres / edge.length.nanometres)
        x, y = ax + (bx - ax) * part, ay + (by - ay) * part
        start, end = look.PLAN_BOARD, look.PLAN_BOARD + look.PLAN_TICK
        ticks.append(points(((x + ox * start, y + oy * start), (x + ox * end, y + oy * end)), closed=False))
        if number % every == 0:
            figures.append(_beside(x, y, (ox, oy), look.PLAN_OFF[0], showing.ticked(mark), "d-figure"))
    if edge.marks or view.square >= look.PLAN_ROOMY:
        middle = ((ax + bx) / 2, (ay + by) / 2)
        off = look.PLAN_OFF[1 if edge.marks else 0]
        figures.append(_beside(*middle, (ox, oy), off, showing.taped(edge.length), "d-measure"))
    return group(
        path("".join(ticks), class_="d-ink", stroke_width=look.FINE) if ticks else group(),
        *figures,
        class_="d-side",
        data_side=f"{edge.start.name}{edge.end.name}",
    )


def _every(view: _View, edge: MarkedSide, showing: Showing, *, level: bool) -> int:
    """Return how many marks go on one figure, so that the figures do not touch."""
    if not level or not edge.marks:
        return 1
    widest = max(width_of(showing.ticked(mark), look.PLAN_TEXT) for mark in edge.marks) + look.GAP
    return max(1, -(-int(widest) // int(view.square)))


def _beside(x: float, y: float, out: _Place, off: float, words: str, name: str) -> Element:
    """Write words beside a side; along an upright one they are turned to run along it where they are long."""
    size = look.PLAN_TEXT
    ox, oy = out
    if ox and name == "d-measure":
        at = (x + ox * off, y)
        return text(*at, words, size, turn=-90 if ox < 0 else 90, class_=name, text_anchor="middle")
    anchor = "middle" if oy else ("end" if ox < 0 else "start")
    gap = (look.PLAN_BOARD + look.PLAN_TICK + look.GAP * 0.6) if ox else off
    return text(x + ox * gap, y + oy * gap + size * look.MIDDLE, words, size, class_=name, text_anchor=anchor)


def _stakes(view: _View, stakes: Stakes) -> Element:
    """Draw the stake at each corner."""
    return group(*(_stake(view, corner, stakes) for corner in stakes.corners), class_="d-stakes")


def _stake(view: _View, corner: Corner, stakes: Stakes) -> Element:
    """Draw a stake, full at the marked corner, and its name on the side away from the bed."""
    x, y = view.at(*corner.at)
    size, radius = look.PLAN_TEXT * 1.15, look.PLAN_BOARD + 1.5
    dx = dy = 0.0
    for edge in stakes.edges:
        if corner in (edge.start, edge.end):
            ox, oy = view.out(edge)
            dx, dy = dx + ox, dy + oy
    off = 15.0
    marked = corner.at == (0, 0)
    shape = (
        rect(x - radius, y - radius, 2 * radius, 2 * radius, class_="d-corner", stroke="none")
        if marked
        else circle(x, y, radius, class_="d-stake", stroke_width=look.INK)
    )
    return group(
        shape,
        text(
            x + dx * off,
            y + dy * off + size * look.MIDDLE,
            corner.name,
            size,
            class_="d-letters",
            text_anchor="middle",
        ),
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
