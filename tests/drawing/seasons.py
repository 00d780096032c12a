"""Plantings of an invented season, for the tests of strips."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from tallybed.garden.crops import Habit
from tallybed.garden.days import Span
from tallybed.reckoning.calendar.phases import Phase
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.calendar.strips import Course, Meant, PlantingStrip
from tallybed.reckoning.squares.occupancy import Grade
from tests.drawing.months import LONG, squares

SPAN = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
TODAY = date(2026, 9, 14)
SOWN, GROWING, BEARING = Stage.SOWN, Stage.GROWING, Stage.BEARING


def day(month: int, number: int) -> date:
    return date(2026, month, number)


def planting_strip(
    planting: str,
    where: str,
    first: date,
    last: date,
    *,
    letters: str = "Ca",
    name: str = "carrot",
    stages: Iterable[Stage] = (SOWN, GROWING, BEARING),
    grade: Grade = Grade.IMPLIED,
    lost: bool = False,
    meant: tuple[str, date, date] | None = None,
) -> PlantingStrip:
    """Return a planting whose days are parted evenly between the stages."""
    found = list(stages)
    days = (last - first).days + 1
    cuts = [first + timedelta(days=days * index // len(found)) for index in range(len(found))]
    ends = [cut - timedelta(days=1) for cut in cuts[1:]] + [last]
    phases = tuple(
        Phase(first=start, last=end, stage=stage, grade=grade)
        for start, end, stage in zip(cuts, ends, found, strict=True)
        if start <= end
    )
    return PlantingStrip(
        planting=planting,
        name=name,
        variety="",
        tag=planting,
        letters=letters,
        habit=Habit.UPRIGHT,
        courses=tuple(Course(square=square, phases=phases, lost=lost) for square in squares(where)),
        meant=tuple(Meant(square=square, first=meant[1], last=meant[2]) for square in squares(meant[0]))
        if meant
        else (),
    )


def usual() -> tuple[PlantingStrip, ...]:
    """A season of everything: a late start, a loss, shared squares, a supposed and a planned crop."""
    return (
        planting_strip("CA1", "A1:B1", day(4, 14), day(7, 20), meant=("A1:B1", day(4, 1), day(7, 10))),
        planting_strip("LH1", "C1", day(4, 11), day(4, 24), letters="Lh", stages=[GROWING], lost=True),
        planting_strip("PE1", "E1:F1", day(4, 4), day(6, 19), letters="Pe"),
        planting_strip("LE1", "E1:F1", day(4, 18), day(6, 8), letters="Ll"),
        planting_strip("BA1", "G1", day(5, 26), day(9, 14), letters="Ba", grade=Grade.SUPPOSED),
        planting_strip("GA1", "A2", day(10, 3), day(11, 30), letters="Ga", grade=Grade.PLANNED),
        planting_strip("OK1", "J3", day(5, 26), day(6, 1), letters="Ok", stages=[SOWN], lost=True),
    )


def crowded(number: int) -> tuple[PlantingStrip, ...]:
    """Return so many short plantings, over and over the same thirty squares."""
    found = []
    for index in range(number):
        square = LONG.squares[index * 7 % len(LONG.squares)].label
        first = SPAN.first + timedelta(days=index * 13 % 240)
        found.append(
            planting_strip(
                f"T{index}",
                square,
                first,
                first + timedelta(days=9 + index % 25),
                letters="Mm"[: 1 + index % 2],
            )
        )
    return tuple(found)
