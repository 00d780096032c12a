"""The key to season strips and contact sheets: stages, lines, the plan's band, and the cross of a loss."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tallybed.drawing.base import look
from tallybed.drawing.base.stage_marks import stage_mark
from tallybed.drawing.base.svg import group, rect
from tallybed.drawing.bedmap.legend import LegendItem, grade_items, stage_items
from tallybed.drawing.bedmap.swatches import HEIGHT, WIDTH, framed
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.calendar.strips import PlantingStrip
from tallybed.reckoning.squares.occupancy import Grade


def season_key(planting_strips: Iterable[PlantingStrip], *, ident: str) -> tuple[LegendItem, ...]:
    """Return what strips of these plantings show besides letters; ``ident`` begins every id.

    What is over is among it, since the contact sheets beside the strips show it.
    """
    every = tuple(planting_strips)
    phases = [phase for each in every for course in each.courses for phase in course.phases]
    stages = {Stage.OVER, *(phase.stage for phase in phases)}
    if any(course.lost for each in every for course in each.courses):
        stages.add(Stage.LOST)
    grades = {phase.grade for phase in phases}
    if Grade.IMPLIED in grades:
        grades.add(Grade.SEEN)
    return (
        *stage_items(stages, ident),
        *grade_items(grades),
        *_meant(every),
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
            words="what the plan meant, behind what came of it",
            swatch=framed(band),
        )
    if any(course.lost for each in planting_strips for course in each.courses):
        size = HEIGHT * 0.5
        cross = group(stage_mark(Stage.LOST, (WIDTH - size) / 2, HEIGHT / 2, size), class_="stage-lost")
        yield LegendItem(
            kind="mark",
            words="at the end of a bar: lost, or failed",
            swatch=framed(cross),
        )
