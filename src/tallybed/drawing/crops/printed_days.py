"""The days that print advises for a crop: pale bands behind its year, each with a tab that names it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.drawing.base import look
from tallybed.drawing.base.axes import Plot
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import Element, group, rect, text
from tallybed.garden.days import ONE_DAY, Span
from tallybed.reckoning.calendar.stages import Stage

MARK = 9.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedDays:
    """Days on which something is advised; both are the same where it is a last day alone."""

    words: str
    sign: Stage
    first: date
    last: date
    told: str
    """The same in words with its days."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tab:
    """Printed days with the place of their words above the plot."""

    days: PrintedDays
    row: int
    """Counted from the plot upwards."""
    at: float
    """Where its sign and words begin."""


def placed(
    advised: Iterable[PrintedDays], span: Span, *, left: float, right: float, size: float
) -> list[Tab]:
    """Return where the words of each stand: over their days, in as few rows as keep them apart."""
    found: list[Tab] = []
    rows: list[list[tuple[float, float]]] = []
    for one in sorted(advised, key=lambda each: (each.first, each.last)):
        wide = MARK + look.GAP + width_of(one.words, size)
        middle = (_x(one.first, span, left, right) + _x(one.last + ONE_DAY, span, left, right)) / 2
        at = min(max(middle - wide / 2, left), right - wide)
        row = next(
            (
                index
                for index, taken in enumerate(rows)
                if all(at > end + look.GAP * 2 or at + wide < start - look.GAP * 2 for start, end in taken)
            ),
            len(rows),
        )
        if row == len(rows):
            rows.append([])
        rows[row].append((at, at + wide))
        found.append(Tab(days=one, row=row, at=at))
    return found


def _x(day: date, span: Span, left: float, right: float) -> float:
    """Return where a day begins on an axis from ``left`` to ``right``."""
    return left + (right - left) * min(max((day - span.first).days, 0), span.days) / span.days


def bands(tabs: Iterable[Tab], plot: Plot) -> Iterator[Element]:
    """Yield each band, from its words down through the lines."""
    for tab in tabs:
        start, end = plot.x(tab.days.first), plot.x(tab.days.last + ONE_DAY)
        top = plot.top - tab.row * _step(plot.size) - look.GAP / 2
        ripe = tab.days.sign is Stage.BEARING
        yield rect(
            start,
            top,
            max(end - start, 1.5),
            plot.bottom - top,
            class_="d-advised d-advised-ripe" if ripe else "d-advised",
            stroke_width=look.HAIR,
            data_first=tab.days.first.isoformat(),
            data_last=tab.days.last.isoformat(),
        )


def heads(tabs: Iterable[Tab], plot: Plot) -> Iterator[Element]:
    """Yield the sign and the words of each band."""
    for tab in tabs:
        base = plot.top - tab.row * _step(plot.size) - look.GAP - plot.size * 0.25
        yield group(
            stage_mark(tab.days.sign, tab.at, base - plot.size * look.MIDDLE, MARK, paper=True),
            text(
                tab.at + MARK + look.GAP,
                base,
                tab.days.words,
                plot.size,
                halo=look.SEASON_HALO,
                class_="d-head",
            ),
        )


def _step(size: float) -> float:
    """Return the height of a row of words."""
    return size * look.LINE * 1.15
