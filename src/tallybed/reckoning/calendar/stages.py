"""How far on a planting is: sown, growing, bearing, over or lost.

What log and ledger say comes first. Where they are silent, and for days still to
come, the plan's days and the crop's days to maturity stand in.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from fractions import Fraction

from tallybed.garden.crops import Crop
from tallybed.garden.days import ONE_DAY
from tallybed.garden.naming import variety_of
from tallybed.garden.records.log import STARTING, TAKING_SOME, Event, Verb
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import Square
from tallybed.reckoning.plantings.plantings import Planting

SPROUTING = timedelta(days=14)
"""Days for which a sowing counts as just sown where no record says more. Common practice, no source."""

_LEAST_PART = 3
"""The part of its days that a plant wants in the bed at the least, however long it stood indoors, as the
windows of harvest have it. Our choice."""


class Stage(StrEnum):
    """How far on a planting is, in the order of its growing."""

    BARE = "bare"
    SOWN = "sown"
    GROWING = "growing"
    BEARING = "bearing"
    OVER = "over"
    LOST = "lost"


ORDER = tuple(Stage)
"""Stages from the first to the last."""


def after(end: Event | None) -> Stage:
    """Return the stage of a planting that has left a square."""
    return Stage.LOST if end is not None and end.verb in (Verb.LOST, Verb.FAILED) else Stage.OVER


def stage(
    planting: Planting, crop: Crop | None, square: Square, first: date, day: date, today: date
) -> Stage:
    """Return the stage, on a day, of a planting that has held a square since ``first``."""
    start = _started(planting, square, min(day, today))
    recorded = _recorded(planting, start, min(day, today))
    if start is not None and day <= today:
        silent = recorded is Stage.SOWN and day >= start.day + SPROUTING
        return Stage.GROWING if silent else recorded
    return max(recorded, _expected(planting, crop, start, first, day), key=ORDER.index)


def age(
    planting: Planting, crop: Crop | None, square: Square, first: date, day: date, today: date
) -> Fraction | None:
    """Return the days a planting has grown by a day, as a part of its days to maturity; may exceed 1.

    None where the days to maturity are not known, or nobody knows when it began.
    """
    grows = growth(planting, crop, square, first, day, today)
    return None if grows is None else Fraction(max((day - grows.begun).days, 0), grows.days)


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """From when a planting's days to maturity count, and how many they are."""

    begun: date
    days: int
    set_out: bool
    """Whether it came into its square as a plant, not as seed."""


def growth(
    planting: Planting, crop: Crop | None, square: Square, first: date, day: date, today: date
) -> Growth | None:
    """Return from when a planting grows and how long, as known of a day; None as for ``age``."""
    start = _started(planting, square, min(day, today))
    came = _start_of(planting, start)
    days = _days(planting, crop)
    if not days or came in (None, Start.CARRIED):
        return None
    begun = _counted_from(planting, crop, start, first)
    return Growth(begun=begun, days=days, set_out=came is Start.SET_OUT)


def turning_days(
    planting: Planting, crop: Crop | None, first: date, last: date, today: date
) -> tuple[date, ...]:
    """Return every day from ``first`` to ``last`` on which the stage may change, in order.

    ``first`` is the day the planting took the square; it is among them.
    """
    starts = [event.day for event, _own in planting.lines if event.verb in STARTING]
    indoors = planting.planned.sow_indoors if planting.planned else None
    days = _days(planting, crop)
    changing = {first, today + ONE_DAY}
    changing |= {event.day for event, _own in planting.lines} | {
        weighing.day for weighing in planting.weighings
    }
    for begun in (first, *starts, *([indoors] if indoors else [])):
        changing.add(begun + SPROUTING)
        if days is not None:
            changing |= {begun + timedelta(days=days), begun + timedelta(days=days // _LEAST_PART)}
    return tuple(sorted(day for day in changing if first <= day <= last))


def _started(planting: Planting, square: Square, day: date) -> Event | None:
    """Return the last line up to a day that put the planting into the square."""
    starts = [
        event
        for event, own in planting.lines
        if event.verb in STARTING and event.day <= day and (not own or square in own)
    ]
    return max(starts, key=lambda event: (event.day, event.verb is Verb.RESOW), default=None)


def _recorded(planting: Planting, start: Event | None, day: date) -> Stage:
    """Return the stage that records show on a day, from its last start on."""
    since = start.day if start else date.min
    if any(since <= weighing.day <= day for weighing in planting.weighings):
        return Stage.BEARING
    if start is not None and start.verb is Verb.SET_OUT:
        return Stage.GROWING
    if any(since < event.day <= day and _shows_growth(event) for event, _own in planting.lines):
        return Stage.GROWING
    return Stage.SOWN


def _shows_growth(event: Event) -> bool:
    """Return whether a line of the log shows that a planting is up."""
    if event.verb is Verb.OBSERVE:
        return event.crop is not None or bool(event.tag)
    in_part = event.verb in TAKING_SOME and event.plants is not None
    return event.verb.meaning.shows_growth or in_part


def _expected(planting: Planting, crop: Crop | None, start: Event | None, first: date, day: date) -> Stage:
    """Return the stage that the plan and the crop's days to maturity lead to."""
    begun = start.day if start else first
    in_bed_by = _start_of(planting, start)
    if in_bed_by is Start.CARRIED:
        return Stage.GROWING
    counted_from = _counted_from(planting, crop, start, first)
    days = _days(planting, crop)
    if days is not None and in_bed_by is not None:
        soonest = begun + timedelta(days=days // _LEAST_PART)
        if day >= max(counted_from + timedelta(days=days), soonest):
            return Stage.BEARING
    if in_bed_by is Start.SOW and day < begun + SPROUTING:
        return Stage.SOWN
    return Stage.GROWING


def _counted_from(planting: Planting, crop: Crop | None, start: Event | None, first: date) -> date:
    """Return the day that days to maturity are counted from: the sowing indoors, if it is to be that."""
    planned = planting.planned
    set_out = _start_of(planting, start) is Start.SET_OUT
    if crop and crop.days_from == "sowing" and set_out and planned and planned.sow_indoors:
        return planned.sow_indoors
    return start.day if start else first


def _start_of(planting: Planting, start: Event | None) -> Start | None:
    """Return how it came into the bed: by the log, else by the plan; None where neither says."""
    if start is not None:
        return Start.SET_OUT if start.verb is Verb.SET_OUT else Start.SOW
    return planting.planned.start if planting.planned else None


def _days(planting: Planting, crop: Crop | None) -> int | None:
    """Return days to maturity: the variety's, else the crop's."""
    if crop is None:
        return None
    variety = variety_of(crop, planting.variety)
    return (variety.days if variety else None) or crop.days
