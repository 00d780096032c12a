"""The legend of a bed's month, and the lines of its short key: what its map shows, each with a swatch."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache

from tallybed.drawing.base import look
from tallybed.drawing.base.glyphs import glyph
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.base.patterns import textured, textures
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import Element, defs, group, points, rect, swatch
from tallybed.drawing.bedmap.description import grown, listed_words
from tallybed.drawing.bedmap.marks import KINDS, MARKS, MapMark, shown
from tallybed.drawing.bedmap.swatches import HEIGHT, WHOLE, WIDTH, Box, framed, outlined
from tallybed.drawing.bedmap.tags import MapTag, tag_drawn
from tallybed.drawing.bedmap.view import Group, View, letters_of, short_tag, viewed
from tallybed.garden.grouping import grouped
from tallybed.garden.squares import in_words
from tallybed.garden.units import IN_FEET, Showing
from tallybed.reckoning.calendar.month import BedMonth
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.squares.occupancy import Grade

CROP_WIDTH = 76.0
"""Width of a crop's swatch, which also holds its letters."""
_IDENT = "legend"
"""What every id in its swatches begins with."""
_TEXT = 11.0
"""Size of a swatch's text."""
_SWATCHES = 500
"""Swatches that are remembered: the same few stand beside every map."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LegendItem:
    """One line of a legend."""

    kind: str
    """``crop``, ``stage``, ``grade``, ``ground`` or ``mark``, in this order."""
    sign: str = ""
    """What the map writes: a crop's letters, else empty."""
    words: str
    """What it stands for: ``spinach Bloomsdale (SP1)``, ``growing``."""
    detail: str = ""
    """For a crop its squares, stage and grade."""
    crop: str = ""
    """Slug of the crop, for a link; empty where the name is a general one."""
    planting: str = ""
    """Key of the planting, for a link; empty where it is not of one planting."""
    swatch: str
    """A small drawing of it, as markup; the words say the same."""


def legend(month: BedMonth, *, showing: Showing = IN_FEET) -> tuple[LegendItem, ...]:
    """Return what the map of a month shows and its short key does not say: crops, ground, marks.

    Ids in its swatches begin with ``legend-``: a page has one legend at the most.
    """
    view = viewed(month)
    return (
        *_crops(view, showing),
        *_marks(view),
    )


def _crops(view: View, showing: Showing) -> Iterator[LegendItem]:
    """Yield the plantings of the map, by their letters, tags and keys."""
    by_planting = grouped(view.groups, lambda each: each.drawn.planting)
    first = {planting: groups[0] for planting, groups in by_planting.items()}
    ordered = sorted(
        first,
        key=lambda planting: (letters_of(first[planting].drawn), short_tag(first[planting].drawn), planting),
    )
    for number, planting in enumerate(ordered):
        drawn = first[planting].drawn
        groups = by_planting[planting]
        where = in_words((square for each in groups for square in each.squares), with_bed=False)
        states = sorted({(stage, grade) for each in groups for grade, stage, _squares in each.parts})
        how = "; ".join(f"{look.STAGE_WORDS[stage]}, {look.GRADE_WORDS[grade]}" for stage, grade in states)
        yield LegendItem(
            kind="crop",
            sign=letters_of(drawn),
            words=listed_words(drawn),
            detail="; ".join(part for part in (f"{where}: {how}", grown(drawn.sizes, showing)) if part),
            crop=drawn.crop,
            planting=planting,
            swatch=_crop_swatch(first[planting], f"{_IDENT}-{number}"),
        )


def _crop_swatch(each: Group, ident: str) -> str:
    """Return a planting's ground, one of its plants, its outline and its letters, as markup."""
    grade, stage, _squares = each.parts[0]
    box = (1.5, 1.5, CROP_WIDTH - 3, HEIGHT - 3)
    radius = HEIGHT * 0.4
    plant = glyph(f"{ident}-plant", each.drawn.habit, stage, radius, has_fruit=each.drawn.has_fruit)
    place = group(plant, transform=f"translate({CROP_WIDTH - radius - 4:g} {HEIGHT / 2:g})")
    return swatch(
        CROP_WIDTH,
        HEIGHT,
        *ground(box, stage, ident),
        group(*([] if each.gone else [place]), class_=f"d-planted stage-{stage} grade-{grade.word}"),
        outlined(box, grade),
        tag_drawn(_tag(each, stage)),
        class_="swatch",
    )


def _tag(each: Group, stage: Stage) -> MapTag:
    """Return a planting's tag with its letters alone."""
    letters = letters_of(each.drawn)
    return MapTag(
        square=each.squares[0],
        x=4,
        y=5,
        stage=stage,
        lines=(letters,),
        size=_TEXT,
        width=width_of(letters, _TEXT, bold=True) + 2 * look.TAG_PAD * _TEXT,
        height=_TEXT * look.TAG_LINE,
        pointed=True,
    )


def ground(box: Box, stage: Stage, ident: str) -> tuple[Element, ...]:
    """Draw a box of ground at a stage, as maps and strips draw it; ``ident`` begins its ids."""
    left, top, width, height = box
    data = points(((left, top), (left + width, top), (left + width, top + height), (left, top + height)))
    return (
        defs(*textures(ident, [stage], look.TEXT)),
        group(rect(*box, class_="d-ground", stroke="none"), class_=f"stage-{stage}"),
        *textured(ident, stage, data),
    )


def stage_items(shown: Collection[Stage], ident: str) -> Iterator[LegendItem]:
    """Yield the stages that are shown, each with its ground and its mark; ``ident`` begins their ids."""
    for stage in Stage:
        if stage in shown:
            found = _stage_swatch(stage, f"{ident}-{stage}")
            yield LegendItem(kind="stage", words=look.STAGE_WORDS[stage], swatch=found)


@lru_cache(maxsize=_SWATCHES)
def _stage_swatch(stage: Stage, ident: str) -> str:
    """Return the ground of a stage and its mark."""
    size = HEIGHT * 0.5
    shape = stage_mark(stage, (WIDTH - size) / 2, HEIGHT / 2, size, paper=True)
    return framed(*ground(WHOLE, stage, ident), group(shape, class_=f"stage-{stage}"))


def grade_items(shown: Collection[Grade]) -> Iterator[LegendItem]:
    """Yield the lines that are shown, each with what it says."""
    by_line = grouped(sorted(shown), lambda grade: look.GRADE_DASH[grade])
    for grades in by_line.values():
        yield LegendItem(
            kind="grade",
            words=" or ".join(look.GRADE_WORDS[grade] for grade in grades),
            swatch=_grade_swatch(grades[0]),
        )


@cache
def _grade_swatch(grade: Grade) -> str:
    """Return the line of a grade."""
    return framed(outlined((6, 6, WIDTH - 12, HEIGHT - 12), grade))


def waiting_items(months: Iterable[BedMonth]) -> Iterator[LegendItem]:
    """Yield the mark of squares that wait, where one of some small maps shows it."""
    if any(month.waiting or month.kept_off for month in months):
        mark = next(one for one in MARKS if one.name == "waiting")
        yield LegendItem(kind=mark.kind, words=mark.words, swatch=mark.swatch(""))


def _marks(view: View) -> Iterator[LegendItem]:
    """Yield the map's marks: the ground first."""
    for mark in sorted(shown(view), key=lambda each: KINDS.index(each.kind)):
        yield LegendItem(
            kind=mark.kind,
            words=mark.words,
            detail=mark.where(view),
            swatch=_mark_swatch(mark, f"{_IDENT}-{mark.name}"),
        )


@lru_cache(maxsize=_SWATCHES)
def _mark_swatch(mark: MapMark, ident: str) -> str:
    """Return how the legend shows a mark."""
    return mark.swatch(ident)
