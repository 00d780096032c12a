"""The bars of a season strip: what was meant behind, what happened before it, with letters and marks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.patterns import textured
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import Element, group, link, path, points, rect, text
from tallybed.drawing.season.description import letters_of, told
from tallybed.drawing.season.lanes import Block, Lanes
from tallybed.drawing.season.ruled_sheet import SeasonPage
from tallybed.garden.days import ONE_DAY
from tallybed.garden.squares import Bed, in_words
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.calendar.strips import PlantingStrip
from tallybed.reckoning.squares.occupancy import Grade


def meant(page: SeasonPage, placed: Lanes) -> Iterator[Element]:
    """Yield the plan behind: a pale band within dots, the full height of its line."""
    for block in placed.meant:
        top, bottom = page.band(block, inset=look.SEASON_MEANT)
        left, right = page.x(block.first), page.x(block.last + ONE_DAY)
        yield group(
            rect(
                left,
                top,
                right - left,
                bottom - top,
                class_="d-meant",
                stroke_width=look.FINE,
                stroke_dasharray=look.SEASON_DOTS,
                stroke_linecap="round",
            ),
            *_plan_letters(page, placed, block, left, right, (top + bottom) / 2),
            data_stand=block.planting,
            data_squares=_squares(page.bed, block),
            data_first=block.first.isoformat(),
            data_last=block.last.isoformat(),
        )


def _plan_letters(
    page: SeasonPage, placed: Lanes, block: Block, left: float, right: float, middle: float
) -> Iterator[Element]:
    """Yield the letters of what was meant, where nothing of the kind came and nothing lies before them."""
    size = page.letters
    wide = width_of(block.letters, size, bold=True) + 2 * look.SEASON_AIR
    covered = any(
        bar.overlaps(block) and page.x(bar.first) < left + wide and page.x(bar.last + ONE_DAY) > left
        for bar in placed.bars
    )
    if not covered and wide <= right - left:
        yield text(
            left + look.SEASON_AIR,
            middle + look.MIDDLE * size,
            block.letters,
            size,
            class_="d-letters d-faint",
        )


def bars(
    page: SeasonPage,
    placed: Lanes,
    planting_strips: tuple[PlantingStrip, ...],
    ident: str,
    links: Mapping[str, str],
) -> Iterator[Element]:
    """Yield each planting's bars, as a link to its page where there is one."""
    for each in planting_strips:
        own = [bar for bar in placed.bars if bar.planting == each.planting]
        shapes = [_bar(page, placed, bar, ident) for bar in own]
        written = [letters for bar in own for letters in _letters(page, placed, bar)]
        names = {"class_": "d-strand", "data_stand": each.planting}
        if shapes and each.planting in links:
            # The link shows its letters once, as its name says them once; further bars repeat them beside it.
            yield link(
                links[each.planting], f"{letters_of(each)} {told(each)}", *shapes, *written[:1], **names
            )
            if written[1:]:
                yield group(*written[1:], class_="d-again", aria_hidden="true")
        elif shapes:
            yield group(*shapes, *written, **names)


def _bar(page: SeasonPage, placed: Lanes, bar: Block, ident: str) -> Element:
    """Draw one bar: its phases, its edge, its letters and marks."""
    top, bottom = page.band(bar, inset=look.SEASON_BAR)
    height = bottom - top
    shapes: list[Element] = []
    for phase in bar.phases:
        left, right = page.x(phase.first), page.x(phase.last + ONE_DAY)
        box = (left, top, right - left, height)
        shapes.append(rect(*box, class_="d-under", stroke="none"))
        shapes.append(rect(*box, class_=f"d-ground stage-{phase.stage}", stroke="none"))
        corners = ((left, top), (right, top), (right, bottom), (left, bottom))
        shapes += textured(ident, phase.stage, points(corners))
    shapes += _outlines(page, bar, top, bottom)
    shapes += _signs(page, placed, bar, (top + bottom) / 2)
    return group(
        *shapes,
        class_="d-spell",
        data_squares=_squares(page.bed, bar),
        data_first=bar.first.isoformat(),
        data_last=bar.last.isoformat(),
    )


def _outlines(page: SeasonPage, bar: Block, top: float, bottom: float) -> Iterator[Element]:
    """Yield the bar's edge, apart where it is known differently: dashed if supposed, dotted if planned."""
    stretches: list[tuple[Grade, float, float]] = []
    for phase in bar.phases:
        left, right = page.x(phase.first), page.x(phase.last + ONE_DAY)
        if stretches and look.GRADE_DASH[stretches[-1][0]] == look.GRADE_DASH[phase.grade]:
            stretches[-1] = (stretches[-1][0], stretches[-1][1], right)
        else:
            stretches.append((phase.grade, left, right))
    for index, (grade, left, right) in enumerate(stretches):
        edge = ((left, top), (right, top)), ((left, bottom), (right, bottom))
        data = "".join(points(each, closed=False) for each in edge)
        if not index:
            data += points(((left, top), (left, bottom)), closed=False)
        if index == len(stretches) - 1:
            data += points(((right, top), (right, bottom)), closed=False)
        planned = grade is Grade.PLANNED
        yield path(
            data,
            class_=f"d-outline grade-{grade.word}",
            stroke_width=look.FINE * 1.4,
            stroke_dasharray=look.SEASON_DOTS if planned else "4 2.5" if grade is Grade.SUPPOSED else None,
            stroke_linecap="round" if planned else None,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Room:
    """Where the letters of a bar have room: within it, behind it if it is short, or nowhere."""

    inside: bool
    behind: bool
    wide: float
    """Width of the letters."""
    cross: float
    """Width kept for the cross of what was lost."""


def _room(page: SeasonPage, placed: Lanes, bar: Block) -> _Room:
    """Return where a bar's letters have room."""
    start, end = page.x(bar.first), page.x(bar.last + ONE_DAY)
    following = placed.after(bar)
    free = page.right if following is None else page.x(following)
    wide = width_of(bar.letters, page.letters, bold=True)
    cross = look.SEASON_MARK + look.SEASON_AIR if bar.lost else 0.0
    inside = wide + 2 * look.SEASON_AIR + cross <= end - start
    behind = not inside and end + look.SEASON_AIR + cross + wide <= free
    return _Room(inside=inside, behind=behind, wide=wide, cross=cross)


def _letters(page: SeasonPage, placed: Lanes, bar: Block) -> Iterator[Element]:
    """Yield a bar's letters; one too short for them has them behind it, if nothing stands there."""
    room, size = _room(page, placed, bar), page.letters
    if not (room.inside or room.behind):
        return
    x = look.SEASON_AIR + (page.x(bar.first) if room.inside else page.x(bar.last + ONE_DAY) + room.cross)
    top, bottom = page.band(bar, inset=look.SEASON_BAR)
    y = (top + bottom) / 2 + look.MIDDLE * size
    yield text(x, y, bar.letters, size, class_="d-letters", halo=look.SEASON_HALO)


def _signs(page: SeasonPage, placed: Lanes, bar: Block, middle: float) -> Iterator[Element]:
    """Yield the mark of each stage of a bar that has room, and a cross where it was lost."""
    room, side, air = _room(page, placed, bar), look.SEASON_MARK, look.SEASON_AIR
    start, end = page.x(bar.first), page.x(bar.last + ONE_DAY)
    outside = room.behind or (bar.lost and not room.inside and side + air > end - start)
    if bar.lost:
        at = end + air / 2 if outside else end - side - air / 2
        yield group(stage_mark(Stage.LOST, at, middle, side), class_="stage-lost d-end-lost")
    taken = start + air + room.wide if room.inside else start
    limit = end if outside else end - room.cross
    shown = None
    for phase in bar.phases:
        left = max(page.x(phase.first), taken) + air
        if phase.stage is not shown and left + side <= min(page.x(phase.last + ONE_DAY), limit):
            yield group(stage_mark(phase.stage, left, middle, side), class_=f"stage-{phase.stage}")
            taken, shown = left + side, phase.stage


def _squares(bed: Bed, block: Block) -> str:
    """Return the squares of a bar in words."""
    return in_words(bed.squares[block.top : block.bottom + 1], with_bed=False)
