"""A small map of a bed's month for a contact sheet: letters and stages, no plants."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import clipped
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import Element, group, path, points, sheet, text
from tallybed.drawing.bedmap.description import named, title_of
from tallybed.drawing.bedmap.view import Group, View, letters_of, viewed
from tallybed.drawing.small.frame import SmallFrame
from tallybed.garden.squares import Square, in_words
from tallybed.reckoning.calendar.month import BedMonth, Stage
from tallybed.reckoning.squares.occupancy import Grade

_NONE = "nothing stands"
_Sign = tuple[str, Stage, bool]
"""Letters, a stage, and whether the planting has gone."""


def sheet_map(month: BedMonth, *, ident: str) -> str:
    """Return the SVG markup of a small map of a month, drawn along its longer side so that it is narrow.

    A planting's letters and the mark of its stage stand once, in the square where there
    is room. A month to come has a dotted frame, the one that holds today a heavy one.
    """
    view = viewed(month)
    bed = month.bed
    frame = SmallFrame(bed=bed, upright=bed.columns > bed.rows, side=_side(month))
    width, height = frame.size
    weight = look.HEAVY if month.kind == "running" else look.FINE * 1.3
    return sheet(
        ident,
        width,
        height,
        frame.boards(look.FRAME_DASH[month.kind], weight),
        group(*_grounds(frame, view), class_="d-soils"),
        frame.strings(),
        group(*_outlines(frame, view), class_="d-stands"),
        group(*_signs(frame, view), class_="d-signs"),
        frame.names(),
        title=title_of(view),
        desc=told(view),
        class_=f"smallmap sheetmap kind-{month.kind}",
        width_=round(width),
    )


def told(view: View) -> str:
    """Return who stands where and at what stage, in one line."""
    parts = [
        f"{in_words(each.squares, with_bed=False)} {named(each)}, {look.STAGE_WORDS[_stage(each)]}"
        for each in view.groups
    ]
    return "; ".join(parts) or _NONE


def _side(month: BedMonth) -> float:
    """Return the side of a square: less in a bed so broad that it would not fit a narrow page."""
    across = min(month.bed.columns, month.bed.rows)
    room = look.UPRIGHT_PAGE - look.SMALL_TEXT * 1.5 - look.PAD
    return max(look.SHEET_LEAST, min(look.SMALL_SQUARE, room / across))


def _stage(each: Group) -> Stage:
    """Return the stage of most of a group's squares, the later one where two have as many."""
    counts: dict[Stage, int] = {}
    for _grade, stage, squares in each.parts:
        counts[stage] = counts.get(stage, 0) + len(squares)
    return max(counts, key=lambda stage: (counts[stage], list(Stage).index(stage)))


def _grounds(frame: SmallFrame, view: View) -> Iterator[Element]:
    """Yield the coloured ground; squares that several share are parted between them."""
    for each in view.standing:
        for grade, stage, squares in each.parts:
            data = "".join(_part(frame, view, each, square) for square in squares)
            yield path(data, class_=f"d-ground stage-{stage} grade-{grade.word}", stroke="none")


def _part(frame: SmallFrame, view: View, each: Group, square: Square) -> str:
    """Return the part of a square that is a group's share, as path data."""
    holders = sorted(
        (other.drawn.planting, float(other.holders[square].share))
        for other in view.standing
        if square in other.holders
    )
    whole = max(sum(share for _planting, share in holders), 1.0) if len(holders) > 1 else 1.0
    before = sum(share for planting, share in holders if planting < each.drawn.planting) / whole
    own = 1.0 if len(holders) == 1 else float(each.holders[square].share) / whole
    left, top = frame.box(square)
    start, end = left + frame.side * before, left + frame.side * (before + own)
    return points(((start, top), (end, top), (end, top + frame.side), (start, top + frame.side)))


def _outlines(frame: SmallFrame, view: View) -> Iterator[Element]:
    """Yield each group's outline, in the line of its grade."""
    for each in view.standing:
        inset = look.SHEET_INSET + look.SHEET_NEST * view.place(each)
        for grade, _stage, squares in each.parts:
            planned = grade is Grade.PLANNED
            yield path(
                frame.ring(squares, -inset),
                class_=f"d-outline grade-{grade.word}",
                stroke_width=look.FINE * 1.3,
                stroke_dasharray=look.SHEET_DASH[grade],
                stroke_linecap="round" if planned else None,
                stroke_linejoin="round",
            )


def _signs(frame: SmallFrame, view: View) -> Iterator[Element]:
    """Yield letters and marks, once for squares of a planting that are alike: in the first that has none."""
    placed: dict[Square, list[_Sign]] = {}
    for each in view.groups:
        for _grade, stage, squares in each.parts:
            square = min(squares, key=lambda one: (len(placed.get(one, ())), frame.drawn_place(one)))
            placed.setdefault(square, []).append((letters_of(each.drawn), stage, each.gone))
    for square, here in placed.items():
        yield group(*_in_square(frame, square, here), data_square=square.label)


def _in_square(frame: SmallFrame, square: Square, here: list[_Sign]) -> Iterator[Element]:
    """Yield what one square says: its holders' letters, and the mark of the stage of one alone."""
    size, side = look.SMALL_TEXT, frame.side
    left, top = frame.box(square)
    words = [letters for letters, _stage, _gone in here]
    if len(words) > 2:
        words = [words[0], f"+ {len(words) - 1}"]
    lone = len(here) == 1
    base = top + side / 2 + size * (look.MIDDLE - 0.46 * (1 if lone else len(words) - 1))
    faint = all(gone for _letters, _stage, gone in here)
    for index, each in enumerate(words):
        yield text(
            left + side / 2,
            base + index * size * 1.04,
            clipped(each, size, side - 1, bold=True),
            size,
            class_="d-letters d-faint" if faint else "d-letters",
            text_anchor="middle",
            halo=look.SEASON_HALO,
        )
    if lone:
        stage, width = here[0][1], look.SHEET_MARK
        drawn = stage_mark(stage, left + (side - width) / 2, base + size * 0.68, width)
        yield group(drawn, class_=f"stage-{stage}")
