"""What is written around a marking-out plan: distances along each side, its length, the names of stakes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import every_that_fits, width_of
from tallybed.drawing.base.svg import Element, group, path, points, text
from tallybed.garden.squares import Bed
from tallybed.garden.units import Length, Showing
from tallybed.reckoning.marking_out import Corner, MarkedSide, Stakes

Place = tuple[float, float]
_Box = tuple[float, float, float, float]
_BESIDE = look.PLAN_BOARD + look.PLAN_TICK + look.GAP * 0.6
"""Distance from an upright side of the figures at its marks."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """Where corners counted in squares lie on the drawing."""

    bed: Bed
    turned: bool
    text: float
    """Size of text."""
    square: float
    edge: float
    """Room around the bed for figures."""
    behind: float
    """Distance from an upright side of its length, which stands behind the figures at its marks."""

    @classmethod
    def of(cls, bed: Bed, narrow: bool, showing: Showing) -> PlanView:
        """Lay out a bed's plan; a long bed stands on a narrow page, a high one lies on a wide one."""
        if narrow:
            return cls._laid(bed, narrow=True, turned=bed.columns > bed.rows, showing=showing)
        views = [cls._laid(bed, narrow=False, turned=turned, showing=showing) for turned in (False, True)]
        standing, lying = views
        return lying if standing.square < min(look.PLAN_LEAST, lying.square) else standing

    @classmethod
    def _laid(cls, bed: Bed, *, narrow: bool, turned: bool, showing: Showing) -> PlanView:
        """Lay out a plan turned or not, its squares as large as there is room for."""
        size = look.PLAN_TEXT[narrow]
        across = bed.rows if turned else bed.columns
        down = bed.columns if turned else bed.rows
        figures = (showing.ticked(bed.side * step) for step in range(1, down))
        widest = max((width_of(each, size) for each in figures), default=0.0)
        behind = max(look.PLAN_OFF[1], _BESIDE + widest + look.GAP)
        edge = behind + size + look.HAIR
        square = min(look.PLAN_SQUARE, ((look.PLAN_NARROW if narrow else look.PLAN_WIDE) - 2 * edge) / across)
        if not narrow:
            square = min(square, (look.PLAN_HIGH - 2 * edge) / down)
        return cls(bed=bed, turned=turned, text=size, square=square, edge=edge, behind=behind)

    @property
    def size(self) -> Place:
        """Width and height of the drawing."""
        across, down = (self.bed.columns, self.bed.rows)
        if self.turned:
            across, down = down, across
        return across * self.square + 2 * self.edge, down * self.square + 2 * self.edge

    def at(self, x: float, y: float) -> Place:
        """Return the drawn place of a corner counted in squares."""
        if self.turned:
            x, y = self.bed.rows - y, x
        return self.edge + x * self.square, self.edge + y * self.square

    def out(self, edge: MarkedSide) -> Place:
        """Return the step of one unit, as drawn, from a side away from the bed."""
        (ax, ay), (bx, by) = edge.start.at, edge.end.at
        there = {(one.column, one.row) for one in self.bed.squares}
        if ay == by:
            step = (0, -1) if (min(ax, bx), ay) in there else (0, 1)
        else:
            step = (-1, 0) if (ax, min(ay, by)) in there else (1, 0)
        return (-step[1], step[0]) if self.turned else step


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanWords:
    """What is written beside a side, and where."""

    x: float
    y: float
    words: str
    name: str
    """The class it is drawn with."""
    size: float
    anchor: str = "middle"
    turn: int = 0

    @property
    def box(self) -> _Box:
        """Left, top, right and bottom of what it fills."""
        wide = width_of(self.words, self.size, bold=self.name != "d-figure")
        high = self.size * look.CAPITAL_WIDTH
        before = {"start": 0.0, "middle": wide / 2, "end": wide}[self.anchor]
        if self.turn:
            left = self.x - (high if self.turn < 0 else 0.0)
            return (left, self.y - before, left + high, self.y - before + wide)
        return (self.x - before, self.y - high, self.x - before + wide, self.y)

    def drawn(self) -> Element:
        """Return it as a line of text."""
        return text(
            self.x,
            self.y,
            self.words,
            self.size,
            turn=self.turn,
            class_=self.name,
            text_anchor=self.anchor,
        )


def sides(view: PlanView, stakes: Stakes, showing: Showing) -> Iterator[Element]:
    """Yield the marks along each side with their distances, and its length.

    Of words that would lie over each other, as in a hole of one square, those go first that tell the most:
    names of stakes, lengths of sides, the longer first. The table beside the drawing tells all of them.
    """
    lengths = {edge: tuple(_length(view, edge, showing)) for edge in stakes.edges}
    figures = {edge: tuple(_figures(view, edge, showing)) for edge in stakes.edges}
    longest = sorted(stakes.edges, key=lambda edge: -edge.length.nanometres)
    found = [
        *(one for edge in longest for one in lengths[edge]),
        *(one for edge in longest for one in figures[edge]),
    ]
    taken = [corner_name(view, corner, stakes).box for corner in stakes.corners]
    kept = set()
    for one in found:
        if not any(_meet(one.box, other) for other in taken):
            taken.append(one.box)
            kept.add(one)
    for edge in stakes.edges:
        ticks = "".join(_ticks(view, edge))
        yield group(
            path(ticks, class_="d-ink", stroke_width=look.FINE) if ticks else group(),
            *(one.drawn() for one in (*figures[edge], *lengths[edge]) if one in kept),
            class_="d-side",
            data_side=f"{edge.start.name}{edge.end.name}",
        )


def _meet(one: _Box, other: _Box) -> bool:
    """Return whether two boxes lie over each other."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def _places(view: PlanView, edge: MarkedSide) -> Iterator[tuple[Length, Place]]:
    """Yield each mark of a side with its drawn place."""
    (ax, ay), (bx, by) = view.at(*edge.start.at), view.at(*edge.end.at)
    for mark in edge.marks:
        part = float(mark.nanometres / edge.length.nanometres)
        yield mark, (ax + (bx - ax) * part, ay + (by - ay) * part)


def _ticks(view: PlanView, edge: MarkedSide) -> Iterator[str]:
    """Yield a tick outside the boards at each mark of a side, as path data."""
    ox, oy = view.out(edge)
    start, end = look.PLAN_BOARD, look.PLAN_BOARD + look.PLAN_TICK
    for _mark, (x, y) in _places(view, edge):
        yield points(((x + ox * start, y + oy * start), (x + ox * end, y + oy * end)), closed=False)


def _figures(view: PlanView, edge: MarkedSide, showing: Showing) -> Iterator[PlanWords]:
    """Yield the distances at the marks of a side: each, or each second, fifth … so that they do not touch."""
    ox, oy = view.out(edge)
    widest = max((width_of(showing.ticked(mark), view.text) for mark in edge.marks), default=0.0)
    every = every_that_fits((widest if oy else view.text * look.CAPITAL_WIDTH) + look.GAP, view.square)
    for number, (mark, (x, y)) in enumerate(_places(view, edge), start=1):
        if number % every == 0:
            off = _BESIDE if ox else look.PLAN_OFF[0]
            yield PlanWords(
                x=x + ox * off,
                y=y + oy * off + view.text * look.MIDDLE,
                words=showing.ticked(mark),
                name="d-figure",
                size=view.text,
                anchor="middle" if oy else "end" if ox < 0 else "start",
            )


def _length(view: PlanView, edge: MarkedSide, showing: Showing) -> Iterator[PlanWords]:
    """Yield the length of a side beside its middle, along it; nothing at a short one without room."""
    if not edge.marks and view.square < look.PLAN_ROOMY:
        return
    ox, oy = view.out(edge)
    (ax, ay), (bx, by) = view.at(*edge.start.at), view.at(*edge.end.at)
    off = look.PLAN_OFF[0] if not edge.marks else view.behind if ox else look.PLAN_OFF[1]
    yield PlanWords(
        x=(ax + bx) / 2 + ox * off,
        y=(ay + by) / 2 + oy * off + (view.text * look.MIDDLE if oy else 0),
        words=showing.taped(edge.length),
        name="d-measure",
        size=view.text,
        turn=-90 * (ox < 0) + 90 * (ox > 0),
    )


def corner_name(view: PlanView, corner: Corner, stakes: Stakes) -> PlanWords:
    """Return where the name of a stake stands: away from the bed."""
    x, y = view.at(*corner.at)
    outs = [view.out(edge) for edge in stakes.edges if corner in (edge.start, edge.end)]
    dx, dy = (float(sum(steps)) for steps in zip(*outs, strict=True))
    return PlanWords(
        x=x + dx * look.PLAN_STAKE_OFF,
        y=y + dy * look.PLAN_STAKE_OFF + view.text * 1.15 * look.MIDDLE,
        words=corner.name,
        name="d-letters",
        size=view.text * 1.15,
    )
