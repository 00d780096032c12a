"""The course of a planting in a square: its stages from day to day, and how well they are known."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.garden.crops import Crop
from tallybed.garden.days import ONE_DAY
from tallybed.reckoning.calendar.bearing import Bearing
from tallybed.reckoning.calendar.stages import Stage, stage, turning_days
from tallybed.reckoning.squares.occupancy import Grade, Holding
from tallybed.reckoning.squares.stays import Stay


@dataclass(frozen=True, slots=True, kw_only=True)
class Phase:
    """Days on end of one stage and one grade, both days included."""

    first: date
    last: date
    stage: Stage
    grade: Grade


def phases_of(holding: Holding, stay: Stay, crop: Crop | None, bearing: Bearing) -> tuple[Phase, ...]:
    """Return the phases of a stay in order, without a gap, from its first day to its last.

    ``seen`` days count as ``implied``: that a log line names the day itself is told
    elsewhere, and a course of single days would say less.
    """
    planting, today = holding.planting(stay.planting), holding.today
    cuts = {hold.first for hold in stay.holds}
    cuts |= set(turning_days(planting, crop, stay.first, stay.last, today, bearing))
    days = sorted(cuts)
    phases = (
        Phase(
            first=day,
            last=last,
            stage=stage(planting, crop, stay.square, stay.first, day, today, bearing),
            grade=_grade(stay, day),
        )
        for day, last in zip(days, [*(day - ONE_DAY for day in days[1:]), stay.last], strict=True)
    )
    return tuple(_joined(phases))


def _grade(stay: Stay, day: date) -> Grade:
    """Return how well a stay is known on a day; at the best, implied."""
    grades = [hold.grade for hold in stay.holds if hold.first <= day <= hold.last]
    return max(min(grades, default=Grade.PLANNED), Grade.IMPLIED)


def _joined(phases: Iterator[Phase]) -> Iterator[Phase]:
    """Join phases that are alike."""
    last: Phase | None = None
    for phase in phases:
        if last and (last.stage, last.grade) == (phase.stage, phase.grade):
            last = Phase(first=last.first, last=phase.last, stage=phase.stage, grade=phase.grade)
            continue
        if last:
            yield last
        last = phase
    if last:
        yield last
