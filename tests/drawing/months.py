"""Bed months of an invented garden, for the tests of drawings."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from fractions import Fraction

from tallybed.garden.crops import Habit
from tallybed.garden.days import Month
from tallybed.garden.records.plan import LedOut
from tallybed.garden.squares import Bed, BedPath, RunOut, Square, Trellis, column_number
from tallybed.garden.units import CENTIMETRE, FOOT, INCH, Length
from tallybed.reckoning.calendar.month import BedMonth, DrawnPlanting, Holder
from tallybed.reckoning.calendar.month_state import MonthState
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.room.spacing import most, place
from tallybed.reckoning.squares.occupancy import Grade

MAY = Month(2026, 5)
SEPTEMBER = Month(2026, 9)


def squares(text: str, bed: str = "long") -> tuple[Square, ...]:
    """Return the squares of ``A1:B2 C3``."""
    found = []
    for part in text.split():
        first, _colon, last = part.partition(":")
        (left, top), (right, bottom) = _cell(first), _cell(last or first)
        found += [
            Square(bed, column, row) for row in range(top, bottom + 1) for column in range(left, right + 1)
        ]
    return tuple(found)


def _cell(name: str) -> tuple[int, int]:
    letters = name.rstrip("0123456789")
    return column_number(letters), int(name[len(letters) :]) - 1


LONG = Bed(
    name="long",
    title="The long bed",
    columns=10,
    rows=3,
    bearing=Fraction(90),
    trellises=(Trellis(side="1", squares=squares("A1:F1"), height=Length.of(6, FOOT)),),
    paths=(BedPath(side="3", width=Length.of(3, FOOT)),),
    run_outs=(RunOut(side="J", squares=squares("J1:J3"), reach=Length.of(5, FOOT)),),
)
ELBOW = Bed(
    name="elbow",
    title="The elbow",
    columns=6,
    rows=5,
    side=Length.of(30, CENTIMETRE),
    bearing=Fraction(35),
    omitted=frozenset(squares("D3:F5", "elbow")),
    trellises=(Trellis(side="A", squares=squares("A1:A4", "elbow"), height=Length.of(5, FOOT)),),
)


def plan_row(
    bed: Bed,
    planting: str,
    where: str,
    *,
    crop: str,
    spacing: int,
    plants: int | None = None,
    spread: float | None = None,
    stage: Stage = Stage.GROWING,
    grade: Grade = Grade.SEEN,
    share: Fraction = Fraction(1),
    led_out: LedOut | None = None,
    days: tuple[date, date] = (MAY.first, MAY.last),
    why: str = "",
) -> tuple[DrawnPlanting, tuple[Holder, ...]]:
    """Return a planting as drawn with its holders, its plants placed by the spacing in inches."""
    name, habit, letters = _CROPS[crop]
    held = squares(where, bed.name)
    width = Length.of(spacing, INCH)
    spots = most(bed, held, width) if plants is None else place(bed, held, width, plants).spots
    month = Month.of(days[0])
    first, last = days
    drawn = DrawnPlanting(
        planting=planting,
        crop=crop,
        name=name,
        variety="",
        tag=planting if planting.isupper() or planting[:1].isupper() else "",
        letters=letters,
        habit=habit,
        stage=stage,
        squares=held,
        standing=last == month.last,
        spots=spots,
        spread=spread if spread is not None else float(spacing),
        led_out=led_out,
    )
    holders = tuple(
        Holder(
            square=square,
            planting=planting,
            first=first,
            last=last,
            starts=first if first > month.first else None,
            ends=date.fromordinal(last.toordinal() + 1) if last < month.last else None,
            grade=grade,
            end=grade if last < month.last else None,
            stage=stage,
            share=share,
            plants=sum(spot.square == square for spot in spots),
            why=why,
        )
        for square in held
    )
    return drawn, holders


_CROPS: Mapping[str, tuple[str, Habit, str]] = {
    "pea-garden": ("pea", Habit.CLIMBING, "Pe"),
    "bean-bush": ("bush bean", Habit.UPRIGHT, "Bb"),
    "spinach": ("spinach", Habit.ROSETTE, "Sp"),
    "carrot": ("carrot", Habit.ROOT, "Ca"),
    "radish": ("radish", Habit.ROOT, "Ra"),
    "lettuce-leaf": ("leaf lettuce", Habit.ROSETTE, "Ll"),
    "onion-bulb": ("bulb onion", Habit.UPRIGHT, "On"),
    "broccoli": ("broccoli", Habit.ROSETTE, "Br"),
    "tomato-indeterminate": ("staked tomato", Habit.CLIMBING, "To"),
    "squash-winter": ("winter squash", Habit.RUNNING, "Ws"),
    "basil": ("basil", Habit.UPRIGHT, "Ba"),
    "sweet-corn": ("sweet corn", Habit.UPRIGHT, "Sc"),
    "okra": ("okra", Habit.UPRIGHT, "Ok"),
    "strawberry": ("strawberry", Habit.ROSETTE, "St"),
}


def led_out_over(side: str, where: str, *, feet: int, bed: Bed = LONG) -> BedMonth:
    """Return a month of one squash led out over a side."""
    squash = plan_row(
        bed,
        "WS1",
        where,
        crop="squash-winter",
        spacing=24,
        plants=1,
        spread=20,
        led_out=LedOut(side=side, reach=Length.of(feet, FOOT)),
    )
    return month_of(bed, (squash,))


def month_of(
    bed: Bed,
    plantings: Iterable[tuple[DrawnPlanting, tuple[Holder, ...]]],
    *,
    month: Month = MAY,
    kind: str = "recorded",
    as_of: date | None = None,
) -> BedMonth:
    """Return a bed's month of these plantings."""
    every = list(plantings)
    holders = [holder for _drawn, parts in every for holder in parts]
    return BedMonth(
        season=str(month.year),
        bed=bed,
        month=month,
        first=month.first,
        last=month.last,
        as_of=as_of or month.last,
        kind=MonthState(kind),
        holders=tuple(
            sorted(holders, key=lambda each: (each.square.row, each.square.column, each.first, each.planting))
        ),
        drawn=tuple(sorted((drawn for drawn, _parts in every), key=lambda each: each.planting)),
        changes=(),
    )


def may() -> BedMonth:
    """A month of everything: all five habits, a change of hands, a shared square, a loss, vines led out."""
    five_feet = LedOut(side="J", reach=Length.of(5, FOOT))
    return month_of(
        LONG,
        (
            plan_row(LONG, "PE1", "A1:F1", crop="pea-garden", spacing=3, spread=5, stage=Stage.BEARING),
            plan_row(
                LONG,
                "SP1",
                "A2:A3",
                crop="spinach",
                spacing=4,
                stage=Stage.OVER,
                days=(MAY.first, date(2026, 5, 21)),
            ),
            plan_row(
                LONG,
                "BB1",
                "A2:A3",
                crop="bean-bush",
                spacing=4,
                stage=Stage.SOWN,
                days=(date(2026, 5, 24), MAY.last),
            ),
            plan_row(
                LONG,
                "SP2",
                "B2:B3",
                crop="spinach",
                spacing=4,
                stage=Stage.OVER,
                grade=Grade.IMPLIED,
                days=(MAY.first, date(2026, 5, 26)),
            ),
            plan_row(LONG, "CA1", "C2:D2", crop="carrot", spacing=3, share=Fraction(2, 3)),
            plan_row(
                LONG,
                "radish",
                "C2",
                crop="radish",
                spacing=3,
                plants=6,
                share=Fraction(1, 3),
                stage=Stage.BEARING,
            ),
            plan_row(
                LONG, "LL1", "E2:F2", crop="lettuce-leaf", spacing=8, stage=Stage.BEARING, grade=Grade.IMPLIED
            ),
            plan_row(LONG, "ON1", "C3:E3", crop="onion-bulb", spacing=4, spread=3.5, grade=Grade.SUPPOSED),
            plan_row(LONG, "BR1", "G1", crop="broccoli", spacing=12, plants=1, spread=14),
            plan_row(
                LONG,
                "BR2",
                "H1",
                crop="broccoli",
                spacing=12,
                plants=1,
                stage=Stage.LOST,
                days=(MAY.first, date(2026, 5, 11)),
                why="cutworm",
            ),
            plan_row(
                LONG,
                "TO1",
                "G2:H3",
                crop="tomato-indeterminate",
                spacing=24,
                plants=1,
                spread=20,
                days=(date(2026, 5, 12), MAY.last),
            ),
            plan_row(
                LONG,
                "WS1",
                "I1:J2",
                crop="squash-winter",
                spacing=24,
                plants=1,
                spread=20,
                led_out=five_feet,
                days=(date(2026, 5, 20), MAY.last),
            ),
            plan_row(LONG, "BA1", "I3:J3", crop="basil", spacing=8, grade=Grade.SUPPOSED),
        ),
    )


def crowded(bed: Bed = LONG, *, holders: int) -> BedMonth:
    """Single squares that each had several holders, under a tag that would take two lines."""
    days = [(2, 9), (10, 19), (20, 31)][-holders:]
    return month_of(
        bed,
        [
            plan_row(
                bed,
                f"{where[0]}X{number}",
                where,
                crop="radish",
                spacing=3,
                days=(date(2026, 5, first), date(2026, 5, last)),
            )
            for where in ("A1", "C2", "F3")
            for number, (first, last) in enumerate(days)
        ],
    )


def shared() -> BedMonth:
    """Two plantings in one square, two in the same two squares, and one that shares its last square."""
    half = Fraction(1, 2)
    return month_of(
        LONG,
        (
            plan_row(LONG, "SP1x", "A1", crop="spinach", spacing=6, share=half),
            plan_row(LONG, "RA1", "A1", crop="radish", spacing=6, share=half),
            plan_row(LONG, "LL1", "C1:D1", crop="lettuce-leaf", spacing=8, share=half),
            plan_row(LONG, "PE1", "C1:D1", crop="pea-garden", spacing=6, share=half),
            plan_row(LONG, "ON1", "F1:F3", crop="onion-bulb", spacing=4, share=half),
            plan_row(LONG, "CA1", "F3", crop="carrot", spacing=4, share=half),
        ),
    )


def planned() -> BedMonth:
    """A month wholly to come."""
    elbow = [
        plan_row(
            ELBOW,
            "BB2",
            "A1:A4",
            crop="bean-bush",
            spacing=4,
            grade=Grade.PLANNED,
            days=(SEPTEMBER.first, SEPTEMBER.last),
        ),
        plan_row(
            ELBOW,
            "LL3",
            "B1:C3",
            crop="lettuce-leaf",
            spacing=8,
            grade=Grade.PLANNED,
            days=(date(2026, 9, 5), SEPTEMBER.last),
        ),
        plan_row(
            ELBOW,
            "OK1",
            "D1:F2",
            crop="okra",
            spacing=12,
            stage=Stage.OVER,
            grade=Grade.PLANNED,
            days=(SEPTEMBER.first, date(2026, 9, 19)),
        ),
        plan_row(
            ELBOW,
            "ST1",
            "B4:C5",
            crop="strawberry",
            spacing=12,
            spread=9,
            grade=Grade.PLANNED,
            days=(SEPTEMBER.first, SEPTEMBER.last),
        ),
    ]
    return month_of(ELBOW, elbow, month=SEPTEMBER, kind="planned")


def turned_about(month: BedMonth) -> BedMonth:
    """Return the same month with its records the other way round."""
    return replace(month, holders=month.holders[::-1], drawn=month.drawn[::-1])
