"""The key to season strips and contact sheets: the letters of crops, stages, lines, and the plan's band."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tallybed.drawing.base import look
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import group, rect, text
from tallybed.drawing.bedmap.legend import LegendItem, grade_items, stage_items
from tallybed.drawing.bedmap.swatches import HEIGHT, WIDTH, boxed, framed
from tallybed.drawing.season.description import letters_of
from tallybed.garden.crops import listed
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.calendar.strips import PlantingStrip
from tallybed.reckoning.squares.occupancy import Grade


def season_key(
    planting_strips: Iterable[PlantingStrip], *, ident: str, sheets: bool = False
) -> tuple[LegendItem, ...]:
    """Return what strips of these plantings show, crops by their letters; ``ident`` begins every id.

    ``sheets``: whether contact sheets stand beside them, which also show what is over.
    """
    every = tuple(planting_strips)
    phases = [phase for each in every for course in each.courses for phase in course.phases]
    stages = {phase.stage for phase in phases}
    if any(course.lost for each in every for course in each.courses):
        stages.add(Stage.LOST)
    if sheets:
        stages.add(Stage.OVER)
    grades = {phase.grade for phase in phases}
    if Grade.IMPLIED in grades:
        grades.add(Grade.SEEN)
    return (
        *_crops(every),
        *stage_items(stages, ident),
        *grade_items(grades),
        *_meant(every),
    )


def _crops(planting_strips: Iterable[PlantingStrip]) -> Iterator[LegendItem]:
    """Yield the crops by their letters."""
    found = {(letters_of(each), listed(each.name, each.kind)): each for each in planting_strips}
    for (letters, name), each in sorted(found.items()):
        yield LegendItem(
            kind="crop",
            sign="",
            words=name,
            crop=each.crop,
            swatch=_lettered(letters),
        )


def _lettered(letters: str) -> str:
    """Return a crop's letters in a box, as markup."""
    size = HEIGHT * 0.5
    return framed(
        boxed(),
        text(
            WIDTH / 2,
            HEIGHT / 2 + size * look.MIDDLE,
            letters,
            size,
            class_="d-letters",
            text_anchor="middle",
            halo=look.HALO,
        ),
    )


def _meant(planting_strips: Iterable[PlantingStrip]) -> Iterator[LegendItem]:
    """Yield what a strip shows besides its bars: the plan's band, and the cross of a loss."""
    if any(each.meant for each in planting_strips):
        band = rect(
            2,
            6,
            WIDTH - 4,
            HEIGHT - 12,
            class_="d-meant",
            stroke_width=look.FINE,
            stroke_dasharray=look.SEASON_DOTS,
            stroke_linecap="round",
        )
        yield LegendItem(
            kind="mark",
            sign="",
            words="what the plan meant, behind what came of it",
            swatch=framed(band),
        )
    if any(course.lost for each in planting_strips for course in each.courses):
        size = HEIGHT * 0.5
        cross = group(stage_mark(Stage.LOST, (WIDTH - size) / 2, HEIGHT / 2, size), class_="stage-lost")
        yield LegendItem(
            kind="mark",
            sign="",
            words="at the end of a bar: lost, or failed to come up",
            swatch=framed(cross),
        )
