"""The tags of plantings: letters, the mark of their stage, and their own tag where there is room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import Element, group, num, path, runs, text
from tallybed.drawing.bedmap.changed_hands import free_below, within
from tallybed.drawing.bedmap.layout import Layout
from tallybed.drawing.bedmap.view import Group, View, letters_of, short_tag
from tallybed.garden.squares import Square
from tallybed.reckoning.calendar.month import Stage

_ONE, _TWO = 1.5, 2.65
"""Height of a tag of one line and of two, as multiples of the text size."""
_BELOW = look.INSET + look.TAG_POINT + 2
"""Room below a tag, for its point and the outline."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MapTag:
    """Where a group's tag stands and what it says."""

    square: Square
    x: float
    y: float
    stage: Stage
    lines: tuple[str, ...]
    """Letters; letters and the planting's own tag apart by a tab; or the two on a line each.

    None where the square's strip is so full that it says them itself.
    """
    height: float


def tags(layout: Layout, view: View) -> Iterator[tuple[Group, MapTag]]:
    """Yield each group with its tag, at the lower left of its lowest square that has room for it.

    Plantings that share all their squares have theirs in different squares, or
    above each other where there is one square only.
    """
    taken: dict[Square, float] = {}
    for each in view.groups:
        alone = [square for square in each.squares if view.alone(square)]
        square = _best(layout, view, alone or each.squares, taken)
        used = taken.get(square, 0)
        inset = look.INSET + 2 + (0 if alone else look.NEST * view.place(each))
        across = _free(layout, square, alone) if alone else layout.side * look.PER_INCH
        room = across - inset - look.INSET - 2
        lines = _lines(letters_of(each.drawn), short_tag(each.drawn), layout.text, room)
        low = free_below(layout, view, square) < layout.text * _TWO + _BELOW + used
        if len(lines) > 1 and (not alone or low):
            lines = lines[:1]
        if _told_above(layout, view, each, square):
            lines = ()
        tall = layout.text * (0, _ONE, _TWO)[len(lines)]
        left, top, _width, height = layout.block(square, square)
        bottom = top + height - (_BELOW + used if lines else 0)
        taken[square] = used + (tall + look.TAG_POINT + 1 if lines else 0)
        stage = each.holders[square].stage
        yield (
            each,
            MapTag(square=square, x=left + inset, y=bottom - tall, stage=stage, lines=lines, height=tall),
        )


def tag_drawn(tag: MapTag, size: float) -> Element:
    """Draw a tag: the mark of its stage and its letters, with a point, as one stuck into the ground."""
    if not tag.lines:
        return group(class_="d-tag")
    letters, _tab, beside = tag.lines[0].partition("\t")
    wide = _wide(letters, size)
    inner = tag.x + size * (look.MARK + 0.45)
    parts = [(letters, size * look.LETTERS, "d-letters")]
    if beside:
        parts.append((beside, size, "d-tag-name"))
        wide += _gap(size) + width_of(beside, size)
    words = [runs(inner, tag.y + size * 1.2, *parts)]
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
        stage_mark(tag.stage, tag.x + size * 0.24, tag.y + size * 0.75, size * look.MARK),
        *words,
        class_=f"d-tag stage-{tag.stage}",
    )


def _told_above(layout: Layout, view: View, each: Group, square: Square) -> bool:
    """Return whether the strip of a group's only square tells it, and leaves no room for a tag."""
    strip = next((strip for strip in view.strips if square in within(strip)), None)
    if strip is None or strip.first != strip.last or len(each.squares) > 1 or not view.alone(square):
        return False
    last = strip.handovers[-1].planting == each.drawn.planting
    return last and free_below(layout, view, square) < layout.text * _ONE + _BELOW


def _best(layout: Layout, view: View, squares: Iterable[Square], taken: Mapping[Square, float]) -> Square:
    """Return the lowest leftmost square as drawn; first of all one that has room and no other tag."""
    room = layout.text * _ONE + _BELOW

    def rank(square: Square) -> tuple[bool, float, int, int]:
        """Order squares: with room, few tags, low, left."""
        row, column = layout.drawn_cell(square)
        return (free_below(layout, view, square) < room, taken.get(square, 0), -row, column)

    return min(squares, key=rank)


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
    """Return the width of a tag with its mark and letters alone."""
    return size * (look.MARK + 0.8) + width_of(letters, size * look.LETTERS, bold=True)


def _gap(size: float) -> float:
    """Return the width of a space."""
    return width_of(" ", size)
