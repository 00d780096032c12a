"""The titles of a log on a running total: above the line while it is low, below it once it has risen."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from datetime import date
from fractions import Fraction

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import Plot
from tallybed.drawing.base.flags import Flag, HungFlag, drawn, hung, knot
from tallybed.drawing.base.svg import Element, group


class _Line:
    """The line of a running total as it is drawn: level from picking to picking."""

    def __init__(self, plot: Plot, points: Sequence[tuple[date, Fraction]]) -> None:
        ordered = sorted(points)
        self._xs = [plot.x(day) for day, _total in ordered]
        self._ys = [plot.bottom, *(plot.y(total) for _day, total in ordered)]

    def y(self, x: float) -> float:
        """Return how high the line is at a place along it; the end goes on level."""
        return self._ys[bisect_right(self._xs, x)]


def titles(
    plot: Plot, points: Sequence[tuple[date, Fraction]], flags: Sequence[Flag], most: int
) -> Iterator[Element]:
    """Yield the titles of a season on its running total, as many as have room, and a mark for each day.

    ``points``: the line, as (day, total up to and with that day). ``most``: how many of the
    flags, from the first, room is looked for.
    """
    line = _Line(plot, points)
    pitch = plot.size * look.FLAG_ROW
    rows = int(plot.height // pitch)
    edges = (plot.left + look.GAP, plot.left + plot.width)

    def baseline(row: int, above: bool) -> float:
        """Return where the words of a row stand: rows count from the axis below, or from the plot's top."""
        return plot.bottom - look.GAP - pitch * row if above else plot.top + pitch * (row + 1)

    def hang(wanted: Sequence[Flag], above: bool) -> tuple[HungFlag, ...]:
        """Return the titles that have room on one side of the line, with no part of it behind the words."""

        def clear(left: float, right: float, row: int) -> bool:
            foot = baseline(row, above)
            if above:
                return foot + look.GAP * 2 < line.y(right)
            return foot - plot.size - look.GAP > line.y(left) and foot < plot.bottom - look.GAP

        return hung(wanted, x=plot.x, edges=edges, rows=rows, size=plot.size, clear=clear)

    # Late titles leave the room above the line to early ones, which have none below it.
    below = hang(flags[:most], False)
    placed = {one.flag for one in below}
    over = hang([flag for flag in flags[:most] if flag not in placed], True)
    for side, above in ((over, True), (below, False)):
        for one in sorted(side, key=lambda one: one.flag.day):
            yield drawn(one, axis=line.y(one.x), baseline=baseline(one.row, above), size=plot.size)
    marks = sorted({plot.x(flag.day) for flag in flags})
    yield group(*(knot(x, line.y(x)) for x in marks), class_="d-knots")
