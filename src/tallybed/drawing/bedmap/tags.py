"""The tags of plantings: the everyday name where it has room, else the planting's own tag, else letters."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import count

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import broken, width_of
from tallybed.drawing.base.svg import Element, group, num, path, runs
from tallybed.drawing.bedmap.layout import Layout, Point
from tallybed.drawing.bedmap.view import Group, View, gone_since, letters_of, short_tag
from tallybed.drawing.bedmap.waiting import marked
from tallybed.garden.crops import everyday
from tallybed.garden.days import short, without_year
from tallybed.garden.squares import Square
from tallybed.reckoning.calendar.stages import Stage

_EDGE = 1.5
"""Clear room between a tag and the sides of its squares."""
_TALL = 0.35
"""Share of a square's height from which a tag over its one plant says the letters alone."""
_SEAM = "\t"
"""Parts a planting's name from its own tag within a line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MapTag:
    """Where a group's tag stands and what it says."""

    square: Square
    x: float
    y: float
    stage: Stage
    lines: tuple[str, ...]
    """From above; name and tag apart by a tab where both stand in a line."""
    size: float
    """That of its text."""
    width: float
    height: float
    pointed: bool
    """Whether it has a point below, as one stuck into the ground; not where a single square has it all."""


def tags(layout: Layout, view: View) -> Iterator[tuple[Group, MapTag]]:
    """Yield each group with its tag, low in the square in which it can say most.

    Plantings that share all their squares have theirs in different squares, or
    above each other where there is one square only.
    """
    taken: dict[Square, float] = {}
    for each in view.groups:
        tag = _placed(layout, view, each, taken)
        taken[tag.square] = taken.get(tag.square, 0) + tag.height + (look.TAG_POINT if tag.pointed else 0) + 1
        yield each, tag


def tag_drawn(tag: MapTag) -> Element:
    """Draw a tag with its words."""
    point, size = look.TAG_POINT, tag.size
    foot = f"h{num(-tag.width)}"
    if tag.pointed:
        foot = f"h{num(-(tag.width - 2 * point))}l{num(-point)} {num(point)}l{num(-point)} {num(-point)}"
    shape = f"M{num(tag.x)} {num(tag.y)}h{num(tag.width)}v{num(tag.height)}{foot}Z"
    words = []
    for number, line in enumerate(tag.lines):
        name, _seam, beside = line.partition(_SEAM)
        parts = [(name, size, "d-tag-name" if number else "d-letters")]
        parts += [(beside, size, "d-tag-name")] if beside else []
        x, y = tag.x + size * look.TAG_PAD, tag.y + size * (look.TAG_LINE * number + 1)
        words.append(runs(x, y, *parts))
    return group(
        path(shape, class_="d-tag-shape", stroke_width=look.FINE, stroke_linejoin="round"),
        *words,
        class_=f"d-tag stage-{tag.stage}",
    )


def _placed(layout: Layout, view: View, each: Group, taken: Mapping[Square, float]) -> MapTag:
    """Return a group's tag in the square where most of its words have room; of equal ones the lowest left."""
    alone = [square for square in each.squares if view.alone(square)]
    side, size = layout.side * look.PER_INCH, layout.text
    tries = []
    for square in alone or each.squares:
        edge = _EDGE if alone else _within_outlines(view, square)
        if _wide((letters_of(each.drawn),), size) > side - 2 * edge:
            edge = _EDGE
        row, column = layout.drawn_cell(square)
        used = taken.get(square, 0)
        for across, down in _rooms(layout, square, alone or [square], gone=each.gone):
            room = across * side - 2 * edge
            options = _options(each, size, room)
            if len(each.squares) == len(each.spots) == 1 and size * look.TAG_LINE > side * _TALL:
                options = options[-1:]
            high = down * side - 2 * edge - used
            number = next(
                (n for n, one in enumerate(options) if _fits(one, size, room, high)), len(options) - 1
            )
            tries.append((number, used, -row, column, square, options[number], room, edge))
    _number, used, _row, _column, square, lines, room, edge = min(tries)
    if len(lines) == 1 and _wide(lines, size) > room:
        # Smaller, but whole: two letters with one cut off are in no list of what letters mean.
        size *= room / _wide(lines, size)
    tag = MapTag(
        square=square,
        x=layout.block(square, square)[0] + edge,
        y=0,
        stage=each.holders[square].stage,
        lines=lines,
        size=size,
        width=min(_wide(lines, size), room),
        height=size * look.TAG_LINE * len(lines),
        pointed=len(each.squares) > 1 and not used,
    )
    return _set_down(layout, each, tag, used, edge, frozenset(marked(view)))


def _within_outlines(view: View, square: Square) -> float:
    """Return how far within a square that several share a tag keeps clear of all their outlines."""
    sharing = sum(square in each.holders for each in view.standing)
    return look.INSET + look.NEST * (sharing - 1) + _EDGE


def _set_down(
    layout: Layout, each: Group, tag: MapTag, used: float, edge: float, waiting: frozenset[Square]
) -> MapTag:
    """Set a tag at the foot of its square, or at the head where it then leaves more plants to be seen."""
    _left, top, _width, height = layout.block(tag.square, tag.square)
    low = top + height - edge - used - tag.height - (look.TAG_POINT if tag.pointed else 0)
    # At the head stands the mark of squares that nobody picks from.
    at_foot = used or each.gone or not waiting.isdisjoint(each.squares)
    tries = [replace(tag, y=low)] + ([] if at_foot else [replace(tag, y=top + edge)])
    places = [layout.at(float(spot.x), float(spot.y)) for spot in each.spots]
    return min(tries, key=lambda one: sum(_covers(one, place) for place in places))


def _covers(tag: MapTag, place: Point) -> bool:
    """Return whether a place lies under a tag."""
    return tag.x <= place[0] <= tag.x + tag.width and tag.y <= place[1] <= tag.y + tag.height


def _options(each: Group, size: float, room: float) -> list[tuple[str, ...]]:
    """Return what a tag may say, most first, the last of it always: the letters; nothing where it may not.

    What stands has one line in a single square, so that its plant is seen; what is over or lost says
    since when, in as many lines as that takes.
    """
    name = everyday(each.drawn.name, each.drawn.kind)
    tag, letters = short_tag(each.drawn), letters_of(each.drawn)
    both = f"{name}{_SEAM}{tag}" if tag else name
    heads: list[tuple[str, ...]] = [(both,), (name,), (), ()]
    first, rest = broken(name, size * look.BOLD, room - 2 * look.TAG_PAD * size)
    if rest and f"{first} {rest}" == name and len(each.squares) > 1:
        heads[2:] = [(first, f"{rest}{_SEAM}{tag}" if tag else rest), (first, rest)]
    heads += [(tag,) if tag and not tag.isdigit() else (), (letters,)]
    if not each.gone:
        return heads
    return [*(head and head + end for end in _ends(each) for head in heads), *heads]


def _ends(each: Group) -> Iterator[tuple[str, ...]]:
    """Yield how a tag may say that a planting is over or lost: since when, at length or briefly."""
    stage, day = look.STAGE_WORDS[each.parts[0][1]], gone_since(each)
    for said in (without_year(day), short(day)) if day else ():
        yield (f"{stage} since {said}",)
        yield (f"{stage} since", said)
        yield (stage, f"since {said}")
        yield (stage, "since", said)
    if day:
        yield (stage, short(day))
    yield (stage,)


def _fits(lines: tuple[str, ...], size: float, room: float, down: float) -> bool:
    """Return whether a tag of these lines has room across and down."""
    return (
        bool(lines)
        and _wide(lines, size) <= room
        and len(lines) * size * look.TAG_LINE + look.TAG_POINT <= down
    )


@lru_cache(maxsize=5_000)
def _wide(lines: tuple[str, ...], size: float) -> float:
    """Return the width of a tag of these lines: the first in bold up to its seam."""
    found = []
    for number, line in enumerate(lines):
        name, seam, beside = line.partition(_SEAM)
        found.append(width_of(name, size, bold=not number) + (width_of(f" {beside}", size) if seam else 0))
    return max(found) + 2 * look.TAG_PAD * size


def _rooms(
    layout: Layout, square: Square, squares: Sequence[Square], *, gone: bool
) -> Iterator[tuple[int, int]]:
    """Yield how many of ``squares`` lie beside each other from one on, and above each other, as drawn.

    Only what has no plants left may have a tag higher than a square.
    """
    places = {layout.drawn_cell(each) for each in squares}
    row, column = layout.drawn_cell(square)
    yield next(n for n in count(1) if (row, column + n) not in places), 1
    if gone:
        yield 1, next(n for n in count(1) if (row - n, column) not in places)
