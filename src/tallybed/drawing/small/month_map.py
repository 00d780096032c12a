"""A small map of a bed's month: names or letters, ground as on the large map, no plants."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import clipped, width_of
from tallybed.drawing.base.patterns import texture_of, textured, textures
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import Element, defs, group, num, path, points, rect, sheet, text
from tallybed.drawing.bedmap import waiting
from tallybed.drawing.bedmap.description import named, title_of
from tallybed.drawing.bedmap.view import Group, View, letters_of, since, stages_of, viewed
from tallybed.drawing.small.frame import SmallFrame
from tallybed.garden.crops import everyday
from tallybed.garden.days import in_full
from tallybed.garden.squares import Square, in_words
from tallybed.reckoning.calendar.month import BedMonth
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.squares.occupancy import Grade

_NONE = "nothing stands"


def sheet_map(month: BedMonth, *, ident: str, upright: bool) -> str:
    """Return the SVG markup of a small map of a month; it lies as the large map of the page does.

    What stands is named once, where there is room. A month to come has a dotted frame,
    the one that holds today a heavy one.
    """
    view = viewed(month)
    frame = SmallFrame.fitting(month.bed, upright=upright)
    return sheet(
        ident,
        *frame.size,
        defs(*textures(ident, stages_of(view), look.SMALL_TEXT)),
        *_drawn(frame, view, ident),
        title=title_of(view),
        desc=told(view),
        class_=f"smallmap sheetmap smallmap-{'upright' if upright else 'flat'} kind-{month.kind}",
        width_=round(frame.size[0]),
    )


def months_together(months: Sequence[BedMonth], ident: str, *, title: str) -> str:
    """Return the SVG markup of one small drawing of all beds in a month, lying flat and to one scale."""
    views = [viewed(month) for month in months]
    frames = [SmallFrame.fitting(month.bed, upright=False) for month in months]
    places, (width, height) = _side_by_side([frame.size for frame in frames])
    stages = {stage for view in views for stage in stages_of(view)}
    return sheet(
        ident,
        width,
        height,
        defs(*textures(ident, stages, look.SMALL_TEXT)),
        *(
            group(
                *_drawn(frame, view, ident),
                transform=f"translate({num(x)} {num(y)})",
                class_=f"kind-{view.month.kind}",
            )
            for frame, view, (x, y) in zip(frames, views, places, strict=True)
        ),
        title=title,
        desc=" ".join(
            f"{view.month.bed.title}, {in_full(view.month.as_of)}: {told(view)}." for view in views
        ),
        class_="smallmap sheetmap",
        preserveAspectRatio="xMinYMin meet",
    )


def _drawn(frame: SmallFrame, view: View, ident: str) -> Iterator[Element]:
    """Yield the shapes of one bed's month."""
    weight = look.HEAVY if view.month.kind == "running" else look.FINE * 1.3
    yield frame.boards(look.FRAME_DASH[view.month.kind], weight)
    yield group(*_grounds(frame, view, ident), class_="d-soils")
    yield frame.strings()
    yield group(*_outlines(frame, view), class_="d-plantings")
    yield group(*_signs(frame, view), class_="d-signs")
    yield from _rings(frame, view)
    yield frame.names()


def _rings(frame: SmallFrame, view: View) -> Iterator[Element]:
    """Yield the barred ring of each square that waits, in the corner that neither name nor stage needs."""
    radius = frame.side * look.SHEET_BARRED
    rings = []
    for square in waiting.marked(view):
        left, top = frame.box(square)
        corner = frame.side - radius - look.SHEET_INSET
        rings.append(waiting.barred(left + corner, top + corner, radius, look.FINE * 1.3))
    if rings:
        yield group(*rings, class_="d-waiting")


def told(view: View) -> str:
    """Return who stands where and at what stage, in one line, and what is not to be picked from."""
    parts = [
        f"{in_words(each.squares, with_bed=False)} {named(each)}, "
        f"{look.STAGE_WORDS[_stage(each)]}{since(each)}"
        for each in view.groups
    ]
    return ". ".join(("; ".join(parts) or _NONE, *(one.removesuffix(".") for one in waiting.told(view))))


def _side_by_side(
    sizes: Sequence[tuple[float, float]],
) -> tuple[list[tuple[float, float]], tuple[float, float]]:
    """Return the places of boxes put beside each other in rows, and the size of the whole."""
    area = sum(width * height for width, height in sizes)
    widest = max([area**0.5, *(width for width, _height in sizes)], default=0.0)
    places: list[tuple[float, float]] = []
    x = y = deep = reached = 0.0
    for width, height in sizes:
        if x and x + width > widest:
            x, y, deep = 0.0, y + deep, 0.0
        places.append((x, y))
        x, deep = x + width, max(deep, height)
        reached = max(reached, x)
    return places, (reached, y + deep)


def _stage(each: Group) -> Stage:
    """Return the stage of most of a group's squares, the later one where two have as many."""
    counts: dict[Stage, int] = {}
    for _grade, stage, squares in each.parts:
        counts[stage] = counts.get(stage, 0) + len(squares)
    return max(counts, key=lambda stage: (counts[stage], list(Stage).index(stage)))


def _grounds(frame: SmallFrame, view: View, ident: str) -> Iterator[Element]:
    """Yield the ground of each stage; squares that several share are parted between them."""
    for each in view.groups:
        for _grade, stage, squares in each.parts:
            data = "".join(_part(frame, view, each, square) for square in squares)
            yield path(data, class_=f"d-ground stage-{stage}", stroke="none")
            yield from textured(ident, stage, data)


def _part(frame: SmallFrame, view: View, each: Group, square: Square) -> str:
    """Return the part of a square that is a group's share, as path data."""
    holders = sorted(
        (other.drawn.planting, float(other.holders[square].share))
        for other in view.standing
        if square in other.holders
    )
    holders = holders or [(each.drawn.planting, 1.0)]
    whole = max(sum(share for _planting, share in holders), 1.0) if len(holders) > 1 else 1.0
    before = sum(share for planting, share in holders if planting < each.drawn.planting) / whole
    own = 1.0 if len(holders) == 1 else float(each.holders[square].share) / whole
    left, top = frame.box(square)
    start, end = left + frame.side * before, left + frame.side * (before + own)
    return points(((start, top), (end, top), (end, top + frame.side), (start, top + frame.side)))


def _outlines(frame: SmallFrame, view: View) -> Iterator[Element]:
    """Yield each group's outline, in the line of its grade; of one that has gone, finer."""
    for each in view.groups:
        inset = look.SHEET_INSET + look.SHEET_NEST * view.nesting(each)
        for grade, _stage, squares in each.parts:
            planned = grade is Grade.PLANNED
            yield path(
                frame.ring(squares, -inset),
                class_=f"d-outline grade-{grade.word}",
                stroke_width=look.HAIR if each.gone else look.FINE * 1.3,
                stroke_dasharray=look.SHEET_DASH[grade],
                stroke_linecap="round" if planned else None,
                stroke_linejoin="round",
            )


def _signs(frame: SmallFrame, view: View) -> Iterator[Element]:
    """Yield the names of what stands or has gone, once for squares that are alike, else letters."""
    shared: dict[Square, list[str]] = {}
    for each in view.groups:
        for _grade, stage, squares in each.parts:
            alone = [square for square in squares if view.alone(square)]
            if not alone:
                square = min(squares, key=lambda one: (len(shared.get(one, ())), frame.drawn_place(one)))
                shared.setdefault(square, []).append(letters_of(each.drawn))
                continue
            square, across = _longest(frame, alone)
            yield _sign(frame, each, stage, square, across * frame.side)
    for square, letters in shared.items():
        yield _letters(frame, square, letters)


def _longest(frame: SmallFrame, squares: Sequence[Square]) -> tuple[Square, int]:
    """Return the first square with most of the others to its right, and how many that are with it."""
    places = {frame.drawn_place(square) for square in squares}

    def run(square: Square) -> int:
        """Return how many squares lie beside each other from this one on."""
        row, column = frame.drawn_place(square)
        return next(step for step in range(1, len(places) + 2) if (row, column + step) not in places)

    best = min(squares, key=lambda square: (-run(square), frame.drawn_place(square)))
    return best, run(best)


def _sign(frame: SmallFrame, each: Group, stage: Stage, square: Square, room: float) -> Element:
    """Write a planting's name with the mark of its stage below, or its letters where there is no room."""
    size, side, mark = look.SMALL_TEXT, frame.side, look.SHEET_MARK
    left, top = frame.box(square)
    name = everyday(each.drawn.name, each.drawn.kind)
    named = width_of(name, size, bold=True) + 3 <= room
    words = name if named else clipped(letters_of(each.drawn), size, side - 0.5, bold=True)
    wide = width_of(words, size, bold=True)
    x = left + (2 if named else (side - wide) / 2)
    base = top + side / 2 + size * (look.MIDDLE - 0.46)
    paper = (x - 1, base - size * 0.9, min(wide + 2, room - 2), size * 1.12)
    return group(
        *((rect(*paper, class_="d-chip", stroke="none"),) if texture_of(stage) else ()),
        text(x, base, words, size, class_="d-letters d-faint" if each.gone else "d-letters"),
        stage_mark(stage, x + (1 if named else (wide - mark) / 2), base + size * 0.68, mark, paper=True),
        data_square=square.label,
        data_planting=each.drawn.planting,
    )


def _letters(frame: SmallFrame, square: Square, letters: Sequence[str]) -> Element:
    """Write the letters of those that share a square, two lines at the most."""
    size, side = look.SMALL_TEXT, frame.side
    left, top = frame.box(square)
    words = list(letters) if len(letters) <= 2 else [letters[0], f"+ {len(letters) - 1}"]
    base = top + side / 2 + size * (look.MIDDLE - 0.46 * (len(words) - 1))
    return group(
        rect(
            left + 2, base - size * 0.95, side - 4, size * (1.12 + 1.04 * (len(words) - 1)), class_="d-chip"
        ),
        *(
            text(
                left + side / 2,
                base + index * size * 1.04,
                clipped(each, size, side - 0.5, bold=True),
                size,
                class_="d-letters",
                text_anchor="middle",
            )
            for index, each in enumerate(words)
        ),
        data_square=square.label,
    )
