"""The bars of a season strip: what was meant behind, what happened before it, drawn as on the maps."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from tallybed.drawing.base import look
from tallybed.drawing.base.glyphs import glyph
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.patterns import textured
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import Element, group, link, path, points, rect, text, use
from tallybed.drawing.season.description import told
from tallybed.drawing.season.lanes import Block, Lanes
from tallybed.drawing.season.ruled_sheet import SeasonPage
from tallybed.garden.crops import Habit
from tallybed.garden.days import ONE_DAY, Month
from tallybed.garden.squares import in_words
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
            data_planting=block.planting,
            data_squares=in_words(placed.squares(block), with_bed=False),
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
        shapes = [_bar(page, placed, bar, ident, each) for bar in own]
        written = [letters for bar in own for letters in _letters(page, placed, bar)]
        names = {"class_": "d-planting-strip", "data_planting": each.planting}
        if shapes and each.planting in links:
            # The link shows its letters once, as its name says them once; further bars repeat them beside it.
            yield link(
                links[each.planting], _link_name(page, placed, each, own), *shapes, *written[:1], **names
            )
            if written[1:]:
                yield group(*written[1:], class_="d-again", aria_hidden="true")
        elif shapes:
            yield group(*shapes, *written, **names)


def _link_name(page: SeasonPage, placed: Lanes, each: PlantingStrip, own: list[Block]) -> str:
    """Return the name of a planting's link: the crop first, and the letters where they stand for its name."""
    seen = next((room.words for bar in own if (room := _room(page, placed, bar)).words), "")
    words = told(each)
    alone = re.search(rf"(?<!\w){re.escape(seen)}(?!\w)", words)
    return words if alone else f"{each.name} {seen}{words.removeprefix(each.name)}"


def _bar(page: SeasonPage, placed: Lanes, bar: Block, ident: str, each: PlantingStrip) -> Element:
    """Draw one bar: the ground of its phases, its edge, its plants as they grow."""
    top, bottom = page.band(bar, inset=look.SEASON_BAR)
    shapes: list[Element] = []
    for phase in bar.phases:
        left, right = page.x(phase.first), page.x(phase.last + ONE_DAY)
        shapes += _ground((left, top, right, bottom), phase.stage, ident)
    shapes += _outlines(page, bar, top, bottom)
    shapes += _plants(page, placed, bar, ident, each, (top + bottom) / 2)
    return group(
        *_after(page, placed, bar, ident),
        *shapes,
        class_="d-spell",
        data_squares=in_words(placed.squares(bar), with_bed=False),
        data_first=bar.first.isoformat(),
        data_last=bar.last.isoformat(),
    )


def _ground(sides: tuple[float, float, float, float], stage: Stage, ident: str) -> Iterator[Element]:
    """Yield the ground of one stage within left, top, right and bottom."""
    left, top, right, bottom = sides
    yield rect(left, top, right - left, bottom - top, class_="d-under", stroke="none")
    yield rect(left, top, right - left, bottom - top, class_=f"d-ground stage-{stage}", stroke="none")
    yield from textured(ident, stage, points(((left, top), (right, top), (right, bottom), (left, bottom))))


def _after(page: SeasonPage, placed: Lanes, bar: Block, ident: str) -> Iterator[Element]:
    """Yield the ground after a bar as its month's map has it: over or lost, up to what follows."""
    following = placed.after(bar)
    ends = min(Month.of(bar.last).last, page.span.last) + ONE_DAY
    left, right = page.x(bar.last + ONE_DAY), page.x(min(ends, following) if following else ends)
    if right - left >= look.FINE:
        top, bottom = page.band(bar, inset=look.SEASON_BAR)
        yield group(
            *_ground((left, top, right, bottom), Stage.LOST if bar.lost else Stage.OVER, ident),
            class_="d-after",
        )


def plant_id(ident: str, habit: Habit, radius: float, stage: Stage, *, has_fruit: bool) -> str:
    """Return the id of a plant as strips draw it."""
    return f"{ident}-{habit}-{round(radius * 10)}-{stage}{'-fruit' if has_fruit else ''}"


def plants_of(ident: str, planting_strips: Iterable[PlantingStrip]) -> Iterator[Element]:
    """Yield the definitions of the plants of these plantings at each size and stage, each once."""
    strips = tuple(planting_strips)
    for habit in sorted({each.habit for each in strips}):
        for radius in look.SEASON_PLANTS:
            yield _defined(ident, habit, radius, Stage.GROWING, has_fruit=False)
        for has_fruit in sorted({each.has_fruit for each in strips if each.habit is habit}):
            yield _defined(ident, habit, look.SEASON_PLANTS[-1], Stage.BEARING, has_fruit=has_fruit)


def _defined(ident: str, habit: Habit, radius: float, stage: Stage, *, has_fruit: bool) -> Element:
    """Return the definition of one plant."""
    name = plant_id(ident, habit, radius, stage, has_fruit=has_fruit)
    return glyph(name, habit, stage, radius, has_fruit=has_fruit)


def _plants(
    page: SeasonPage, placed: Lanes, bar: Block, ident: str, each: PlantingStrip, middle: float
) -> Iterator[Element]:
    """Yield plants along a bar that widen while it grows and show what is picked while it bears."""
    room = _room(page, placed, bar)
    free = page.x(bar.first) + (look.SEASON_AIR + room.wide if room.inside else 0)
    limit = page.x(bar.last + ONE_DAY) - room.cross
    sizes, step = look.SEASON_PLANTS, look.SEASON_STEP
    for phase in bar.phases:
        left, right = page.x(phase.first), page.x(phase.last + ONE_DAY)
        if phase.stage not in (Stage.GROWING, Stage.BEARING):
            continue
        uses = []
        for index in range(int((right - left) / step)):
            x = left + (index + 0.5) * step
            share = (x - left) / (right - left)
            bearing = phase.stage is Stage.BEARING
            radius = sizes[-1] if bearing else sizes[min(int(share * len(sizes)), len(sizes) - 1)]
            if x - radius > free and x + radius < min(right, limit):
                fruit = bearing and each.has_fruit
                name = plant_id(ident, each.habit, radius, phase.stage, has_fruit=fruit)
                uses.append(use(name, x, middle, class_="d-grown"))
        if uses:
            yield group(*uses, class_=f"d-planted stage-{phase.stage} grade-{phase.grade.word}")
    if bar.lost:
        side, end = look.SEASON_MARK, page.x(bar.last + ONE_DAY)
        short = room.behind or (not room.inside and side + look.SEASON_AIR > end - page.x(bar.first))
        at = end + look.SEASON_AIR / 2 if short else end - side - look.SEASON_AIR / 2
        yield group(stage_mark(Stage.LOST, at, middle, side, paper=True), class_="d-end-lost")


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
    """What is written of a bar, and where: within it, behind it if it is short, or nowhere."""

    words: str
    """Its name, its letters, or nothing."""
    inside: bool
    behind: bool
    wide: float
    """Width of the words."""
    cross: float
    """Width kept for the cross of what was lost."""


def _room(page: SeasonPage, placed: Lanes, bar: Block) -> _Room:
    """Return what has room at a bar: its name within it, else its letters, within it or behind it."""
    start, end = page.x(bar.first), page.x(bar.last + ONE_DAY)
    following = placed.after(bar)
    free = page.right if following is None else page.x(following)
    cross = look.SEASON_MARK + look.SEASON_AIR if bar.lost else 0.0
    for words in (bar.name, bar.letters):
        wide = width_of(words, page.letters, bold=True)
        if wide + 2 * look.SEASON_AIR + cross <= end - start:
            return _Room(words=words, inside=True, behind=False, wide=wide, cross=cross)
    behind = end + look.SEASON_AIR + cross + wide <= free
    return _Room(words=bar.letters if behind else "", inside=False, behind=behind, wide=wide, cross=cross)


def _letters(page: SeasonPage, placed: Lanes, bar: Block) -> Iterator[Element]:
    """Yield what is written of a bar."""
    room, size = _room(page, placed, bar), page.letters
    if not room.words:
        return
    x = look.SEASON_AIR + (page.x(bar.first) if room.inside else page.x(bar.last + ONE_DAY) + room.cross)
    top, bottom = page.band(bar, inset=look.SEASON_BAR)
    y = (top + bottom) / 2 + look.MIDDLE * size
    yield text(x, y, room.words, size, class_="d-letters", halo=look.SEASON_HALO)
