"""Squares that changed hands: each holder of the month in order with its days, drawn and told."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import Element, group, rect, text
from tallybed.drawing.bedmap.layout import Layout
from tallybed.drawing.bedmap.view import ChangedSquares, Handover, View
from tallybed.garden.days import short
from tallybed.garden.squares import Square
from tallybed.reckoning.calendar.month import Stage
from tallybed.reckoning.squares.occupancy import Grade

_BESIDE = 3.5
"""Room a strip leaves beside and above itself, in units."""
_BETWEEN = 1.5
"""Room between the boxes of a strip."""


def strips(
    layout: Layout, view: View, heights: Mapping[Square, float], stages: Mapping[Square, Stage]
) -> Iterator[Element]:
    """Yield the strips of all squares that changed hands.

    ``heights``: what tags take of their squares, from below. ``stages``: the stage
    of what stands in the squares whose strip must tell it, for want of a tag.
    """
    return (_strip(layout, each, heights, stages.get(each.first)) for each in view.strips)


def told(each: ChangedSquares) -> str:
    """Return who held squares in turn, in a sentence: ``Changed in A1:B1: pea until 8 May, then …``."""
    where = each.first.label if each.first == each.last else f"{each.first.label}:{each.last.label}"
    return f"Changed in {where}: {', then '.join(map(_told, each.handovers))}."


def _told(handover: Handover) -> str:
    """Return one holder with the days it came and went, in words."""
    words = handover.name
    if handover.starts:
        words += f" from {short(handover.starts)}"
    if handover.ends:
        words += f" lost {short(handover.ends)}" if handover.lost else f" until {short(handover.ends)}"
    if handover.grade >= Grade.SUPPOSED:
        words += f" ({look.GRADE_WORDS[handover.grade]})"
    return words


def free_below(layout: Layout, view: View, square: Square) -> float:
    """Return how much of a square, from below, its strip leaves free when it tells every holder."""
    side = layout.side * look.PER_INCH
    for each in view.strips:
        if square in within(each):
            _left, top, width, height = layout.block(each.first, each.last)
            lines = _fitted(each, layout.text, width - 2 * _BESIDE, height)
            ends = top + _BESIDE + len(lines) * _line(layout.text)
            _x, low, _w, _h = layout.block(square, square)
            return min(side, low + side - ends)
    return side


def within(each: ChangedSquares) -> Iterator[Square]:
    """Yield the squares of a strip."""
    for row in range(each.first.row, each.last.row + 1):
        for column in range(each.first.column, each.last.column + 1):
            yield Square(each.first.bed, column, row)


def _strip(
    layout: Layout, each: ChangedSquares, heights: Mapping[Square, float], stage: Stage | None
) -> Element:
    """Draw the holders of a block of squares along its top.

    They take as many lines as the tags in the block leave free; where that is too
    few the arrows close up, and if need be the first box counts earlier holders.
    A box that would not fit its square at all leaves its days to the table.
    """
    left, top, width, height = layout.block(each.first, each.last)
    size = layout.text
    taken = max((heights.get(square, 0) for square in within(each)), default=0)
    lines = _fitted(each, size, width - 2 * _BESIDE, height - taken - _BESIDE)
    boxes, handovers = [], list(each.handovers[-sum(map(len, lines)) :])
    x = y = 0.0
    for number, line in enumerate(lines):
        x = left + _BESIDE
        y = top + _BESIDE + number * _line(size)
        for words in line:
            handover = handovers.pop(0)
            wide = min(width - 2 * _BESIDE, _boxed(words, size))
            boxes.append(_box(x, y, wide, size, words, handover))
            x += wide + _BETWEEN
    if stage is not None:
        boxes.append(_marked(layout, each, stage, (x, y + _line(size))))
    return group(*boxes, class_="d-strip", data_squares=f"{each.first.label}:{each.last.label}")


def _marked(layout: Layout, each: ChangedSquares, stage: Stage, end: tuple[float, float]) -> Element:
    """Draw the mark of a stage below in a square that has no room for a tag.

    It stands left, or right where it would lie over the strip, which ends at ``end``.
    """
    left, top, width, height = layout.block(each.first, each.last)
    chip = layout.text * look.MARK * 1.4
    x, y = left + look.INSET + 2, top + height - look.INSET - 2 - chip
    if y < end[1] - _BETWEEN:
        right, bottom = left + width - 1, top + height - 1
        chip = min(chip, max(right - end[0], bottom - end[1], chip / 2))
        x, y = right - chip, bottom - chip
    size = chip / 1.4
    return group(
        rect(x, y, chip, chip, class_="d-chip", stroke_width=look.FINE),
        stage_mark(stage, x + size * 0.2, y + size * 0.7, size),
        class_=f"stage-{stage}",
    )


def _fitted(each: ChangedSquares, size: float, room: float, height: float) -> list[list[str]]:
    """Return the lines of a strip that has ``room`` across and ``height`` down."""
    allowed = max(1, int(height / _line(size)))

    def fits(words: str) -> bool:
        """Return whether words in their box fit the width."""
        return _boxed(words, size) <= room

    tight = [one.closed_up if fits(one.closed_up) else one.shortest for one in each.handovers]
    loose = [
        one.words if fits(one.words) else words for one, words in zip(each.handovers, tight, strict=True)
    ]
    tries = [loose, tight, *([f"+ {cut}", *tight[cut:]] for cut in range(1, len(tight)))]
    flowed = [_flowed(words, size, room) for words in tries]
    return next((lines for lines in flowed if len(lines) <= allowed), [[f"+ {len(tight)}"]])


def _flowed(words: list[str], size: float, room: float) -> list[list[str]]:
    """Return words line by line, as many to a line as fit ``room``."""
    lines: list[list[str]] = [[]]
    used = 0.0
    for each in words:
        wide = _boxed(each, size)
        if lines[-1] and used + wide > room:
            lines.append([])
            used = 0.0
        lines[-1].append(each)
        used += wide + _BETWEEN
    return lines


def _box(x: float, y: float, wide: float, size: float, words: str, handover: Handover) -> Element:
    """Draw one holder's box with its words."""
    dash = "2.5 1.8" if look.GRADE_DASH[handover.grade] else None
    return group(
        rect(
            x,
            y,
            wide,
            size * look.STRIP,
            class_=f"d-turn grade-{handover.grade.word}",
            stroke_width=look.HAIR,
            stroke_dasharray=dash,
        ),
        text(x + 2, y + size * 0.98, words, size, class_="d-note"),
    )


def _boxed(words: str, size: float) -> float:
    """Return the width of a box around words."""
    return width_of(words, size) + 4


def _line(size: float) -> float:
    """Return the height of one line of a strip, with the room below it."""
    return size * look.STRIP + _BETWEEN
