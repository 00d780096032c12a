"""A small garden put together by hand, for tests of what stands where."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from tallybed.garden.crops import Beginning, Crop, Habit, Variety
from tallybed.garden.days import Span
from tallybed.garden.garden import Garden, Season
from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.plan import LedOut, PlanRow, Start
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import INCH, OUNCE, Length, Weight
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Grade, Hold, Holding

SPAN = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))


def day(month: int, number: int) -> date:
    return date(2026, month, number)


def inches(amount: int) -> Length:
    return Length.of(amount, INCH)


def squares(text: str) -> tuple[Square, ...]:
    """``A1 B2`` of the long bed; ``elbow/A1`` of the elbow."""
    found = []
    for word in text.split():
        bed, _, label = word.rpartition("/")
        found.append(Square(bed or "long", ord(label[0]) - ord("A"), int(label[1:]) - 1))
    return tuple(found)


def a_crop(slug: str, spacing: int, letters: str, **other: Any) -> Crop:
    facts: dict[str, Any] = {
        "family": "Apiaceae",
        "habit": Habit.UPRIGHT,
        "start": Beginning.SOWN,
        "days": 60,
        "days_from": "sowing",
    }
    return Crop(
        slug=slug, name=slug, plural=slug + "s", letters=letters, spacing=inches(spacing), **facts | other
    )


CROPS = (
    a_crop("bean-bush", 4, "Bb", family="Fabaceae", general=("bean",)),
    a_crop("bean-pole", 6, "Bp", family="Fabaceae", general=("bean",), habit=Habit.CLIMBING),
    a_crop("carrot", 3, "Ca", varieties=(Variety(name="Amber Spike", spacing=inches(2), days=80),)),
    a_crop("lettuce", 6, "Le", family="Asteraceae", habit=Habit.ROSETTE, days=45),
    a_crop("radish", 3, "Ra", family="Brassicaceae", days=25),
    a_crop("squash", 24, "Sq", family="Cucurbitaceae", habit=Habit.RUNNING, days_from="setting out"),
    a_crop("tomato", 18, "To", family="Solanaceae", days=100, start=Beginning.SET_OUT),
)
BEDS = (
    Bed(name="long", title="The long bed", columns=6, rows=3),
    Bed(name="elbow", title="The elbow", columns=3, rows=3),
)


def name(slug: str) -> CropName:
    return CropName(typed=slug, slugs=("bean-bush", "bean-pole") if slug == "beans" else (slug,))


def plan_row(
    crop: str,
    where: str,
    begins: date,
    until: date = date(2026, 12, 1),
    start: Start = Start.SOW,
    **other: Any,
) -> PlanRow:
    return PlanRow(crop=crop, squares=squares(where), begins=begins, until=until, start=start, **other)


def line(verb: Verb, on: date, where: str = "", **other: Any) -> Event:
    return Event(verb=verb, day=on, subject="", squares=squares(where), **other)


def weighing(crop: str, on: date, where: str = "") -> Weighing:
    return Weighing(day=on, crops=(name(crop),), squares=squares(where), weight=Weight.of(5, OUNCE))


def planting(
    key: str,
    crop: str,
    planned: PlanRow | None = None,
    events: Iterable[Event] = (),
    weighings: Iterable[Weighing] = (),
    variety: str = "",
) -> Planting:
    told, picked = tuple(events), tuple(weighings)
    return Planting(
        season="2026",
        key=key,
        crop=name(crop),
        tag=key,
        variety=variety,
        planned=planned,
        events=told,
        weighings=picked,
        own=tuple(event.squares for event in told),
        picked=tuple(weighing.squares for weighing in picked),
    )


def hold(key: str, where: str, first: date, last: date, grade: Grade = Grade.SEEN) -> list[Hold]:
    return [
        Hold(planting=key, square=square, first=first, last=last, grade=grade) for square in squares(where)
    ]


def holding(today: date, plantings: Iterable[Planting], *holds: Iterable[Hold]) -> Holding:
    every = [each for some in holds for each in some]
    return Holding(
        season="2026",
        span=SPAN,
        today=today,
        plantings=tuple(sorted(plantings, key=lambda planting: planting.key)),
        holds=tuple(sorted(every, key=lambda each: (each.square, each.first, each.planting))),
    )


def season() -> Season:
    return Season(name="2026", span=SPAN)


GARDEN = Garden(name="Beds", beds=BEDS, crops=CROPS, seasons=(season(),))
LED_OUT = LedOut(side="F", reach=Length.of(60, INCH))
