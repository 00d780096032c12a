"""What is written in the squares: a planting's tag, and the strip of who came and went in the month."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from tallybed.drawing import look
from tallybed.drawing.layout import Layout
from tallybed.drawing.lettering import width_of
from tallybed.drawing.marks import mark
from tallybed.drawing.svg import Element, group, num, path, rect, runs, text
from tallybed.drawing.view import Group, Strip, Turn, View, letters_of, short_tag
from tallybed.garden.squares import Square
from tallybed.reckoning.monthly import Stage

_NARROW = 3.5
"""Room a strip leaves beside itself, in units."""
_BETWEEN = 1.5
"""Room between the boxes of a strip."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tag:
    """Where a group's tag stands and what it says."""

    square: Square
    x: float
    y: float
    stage: Stage
    lines: tuple[str, ...]
    """Letters; letters and the planting's own tag apart by a tab; or the two on a line each."""
    height: float


def tags(layout: Layout, view: View) -> Iterator[tuple[Group, Tag]]:
    """Yield each group with its tag, at the lower left of its lowest square that it has alone.

    Plantings that share all their squares have theirs in different squares, or
    above each other where there is one square only.
    """
    for each in view.groups:
        alone = [square for square in each.squares if view.alone(square)]
        ordered = _lowest_first(layout, alone or each.squares)
        place = 0 if alone else view.place(each)
        square = ordered[min(place, len(ordered) - 1)]
        above = max(0, place - len(ordered) + 1)
        inset = look.INSET + 2 + (0 if alone else look.NEST * view.place(each))
        room = (
            (_free(layout, square, alone) if alone else layout.side * look.PER_INCH) - inset - look.INSET - 2
        )
        lines = _lines(letters_of(each.drawn), short_tag(each.drawn), layout.text, room)
        if len(lines) > 1 and (not alone or _too_low(layout, view, square)):
            lines = lines[:1]
        tall = layout.text * (1.5 if len(lines) == 1 else 2.65)
        left, top, _width, height = layout.block(square, square)
        bottom = (
            top + height - look.INSET - look.TAG_POINT - 2 - above * (layout.text * 1.5 + look.TAG_POINT + 1)
        )
        yield (
            each,
            Tag(
                square=square,
                x=left + inset,
                y=bottom - tall,
                stage=each.segments[square].stage,
                lines=lines,
                height=tall,
            ),
        )


def tag_drawn(tag: Tag, size: float) -> Element:
    """Draw a tag: the mark of its stage and its letters, with a point, as one stuck into the ground."""
    letters, _tab, beside = tag.lines[0].partition("\t")
    wide = _wide(letters, size)
    inner = tag.x + size * (look.MARK + 0.45)
    parts = [(letters, size * look.LETTERS, "d-letters")]
    if beside:
        parts.append((beside, size, "d-tag-name"))
        wide += _gap(size) + width_of(beside, size)
    words = [runs(inner, tag.y + size * 1.2, *parts, gap=_gap(size))]
    if len(tag.lines) > 1:
        words.append(text(tag.x + size * 0.3, tag.y + size * 2.35, tag.lines[1], size, class_="d-tag-name"))
        wide = max(wide, width_of(tag.lines[1], size) + size * 0.6)
    point = look.TAG_POINT
    shape = (
        f"M{num(tag.x)} {num(tag.y)}h{num(wide)}v{num(tag.height)}h{num(-(wide - 2 * point))}"
        f"l{num(-point)} {num(point)}l{num(-point)} {num(-point)}Z"
    )
    return group(
        path(shape, class_="d-tag-shape", stroke_width=look.FINE, stroke_linejoin="round"),
        mark(tag.stage, tag.x + size * 0.24, tag.y + size * 0.75, size * look.MARK),
        *words,
        class_=f"d-tag stage-{tag.stage}",
    )


def strips(layout: Layout, view: View) -> Element:
    """Draw the strips of all squares that changed hands."""
    heights: dict[Square, float] = {}
    for _group, tag in tags(layout, view):
        _left, top, _width, height = layout.block(tag.square, tag.square)
        heights[tag.square] = max(heights.get(tag.square, 0), top + height - tag.y)
    return group(*(_strip(layout, each, heights) for each in view.strips), class_="d-strips")


def _strip(layout: Layout, each: Strip, heights: dict[Square, float]) -> Element:
    """Draw the turns of a block of squares along its top, each holder in order with its days.

    They take as many lines as the tags in the block leave free; where that is too
    few the arrows close up, and if need be the last line counts those left out.
    """
    left, top, width, height = layout.block(each.first, each.last)
    size = layout.text
    room = width - 2 * _NARROW
    taken = max((heights.get(square, 0) for square in _within(each)), default=0)
    allowed = max(1, int((height - taken - _NARROW) / (size * look.STRIP + 1.5)))
    loose = [turn.words if _boxed(turn.words, size) <= room else turn.closed_up for turn in each.turns]
    lines = _flowed(loose, size, room)
    if len(lines) > allowed:
        lines = _flowed([turn.closed_up for turn in each.turns], size, room)
    if len(lines) > allowed:
        lines = _cut(lines, allowed)
    boxes, index = [], 0
    for number, line in enumerate(lines):
        x = left + _NARROW
        y = top + _NARROW + number * (size * look.STRIP + 1.5)
        for words in line:
            wide = min(room, _boxed(words, size))
            boxes.append(_box(x, y, wide, size, words, each.turns[min(index, len(each.turns) - 1)]))
            x += wide + _BETWEEN
            index += 1
    return group(*boxes, class_="d-strip", data_squares=f"{each.first.label}:{each.last.label}")


def _flowed(words: list[str], size: float, room: float) -> list[list[str]]:
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


def _cut(lines: list[list[str]], allowed: int) -> list[list[str]]:
    """Keep the first holders, and the count of the others in place of the last one that has room."""
    every = [words for line in lines for words in line]
    kept = lines[:allowed]
    if sum(map(len, kept)) > 1:
        kept = [*kept[:-1], kept[-1][:-1]]
    rest = len(every) - sum(map(len, kept))
    return [*kept[:-1], [*kept[-1], f"+ {rest}"]]


def _box(x: float, y: float, wide: float, size: float, words: str, turn: Turn) -> Element:
    dash = "2.5 1.8" if look.GRADE_DASH[turn.grade] else None
    return group(
        rect(
            x,
            y,
            wide,
            size * look.STRIP,
            class_=f"d-turn grade-{turn.grade.word}",
            stroke_width=look.HAIR,
            stroke_dasharray=dash,
        ),
        text(x + 2, y + size * 0.98, words, size, class_="d-note"),
    )


def _boxed(words: str, size: float) -> float:
    return width_of(words, size) + 4


def _within(each: Strip) -> Iterator[Square]:
    for row in range(each.first.row, each.last.row + 1):
        for column in range(each.first.column, each.last.column + 1):
            yield Square(each.first.bed, column, row)


def _too_low(layout: Layout, view: View, square: Square) -> bool:
    """Return whether a strip leaves a square no room for a tag of two lines."""
    room = (
        layout.side * look.PER_INCH
        - layout.text * (look.STRIP + 2.65)
        - look.TAG_POINT
        - 2 * look.INSET
        - _NARROW
    )
    return room < 0 and any(square in _within(each) for each in view.strips)


def _lowest_first(layout: Layout, squares: Iterable[Square]) -> list[Square]:
    """Return squares from the lowest leftmost as drawn."""
    return sorted(squares, key=lambda square: (-layout.drawn_cell(square)[0], layout.drawn_cell(square)[1]))


def _free(layout: Layout, square: Square, squares: Iterable[Square]) -> float:
    """Return the width free from a square to the right among ``squares``, as drawn."""
    places = {layout.drawn_cell(each) for each in squares}
    row, column = layout.drawn_cell(square)
    across = 1
    while (row, column + across) in places:
        across += 1
    return across * layout.side * look.PER_INCH


def _lines(letters: str, words: str, size: float, room: float) -> tuple[str, ...]:
    """Return letters and tag on one line or two, or the letters alone, as the room allows."""
    if not words:
        return (letters,)
    if _wide(letters, size) + _gap(size) + width_of(words, size) <= room:
        return (f"{letters}\t{words}",)
    return (letters, words) if width_of(words, size) + size * 0.6 <= room else (letters,)


def _wide(letters: str, size: float) -> float:
    return size * (look.MARK + 0.8) + width_of(letters, size * look.LETTERS, bold=True)


def _gap(size: float) -> float:
    return size * 0.35
