"""How far on a planting is: sown, growing, bearing, over or lost.

What log and ledger say comes first. Where they are silent, and for days still to
come, the plan's days and the day on which it is expected to bear stand in.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from fractions import Fraction

from tallybed.garden.crops import Crop
from tallybed.garden.days import ONE_DAY
from tallybed.garden.records.log import STARTING, TAKING_SOME, Event, Verb
from tallybed.garden.records.plan import Start
from tallybed.garden.squares import Square
from tallybed.reckoning.calendar.bearing import Bearing
from tallybed.reckoning.plantings.plantings import Planting

SPROUTING = timedelta(days=14)
"""Days for which a sowing counts as just sown where no record says more. Common practice, no source."""


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
    planting: Planting,
    crop: Crop | None,
    square: Square,
    first: date,
    day: date,
    today: date,
    bearing: Bearing,
) -> Stage:
    """Return the stage, on a day, of a planting that has held a square since ``first``."""
    start = _started(planting, square, min(day, today))
    recorded = _recorded(planting, start, min(day, today))
    if start is not None and day <= today:
        silent = recorded is Stage.SOWN and day >= start.day + SPROUTING
        return Stage.GROWING if silent and not _failed(planting, square, start, today) else recorded
    return max(recorded, _expected(planting, crop, start, first, day, bearing), key=ORDER.index)


def age(
    planting: Planting,
    crop: Crop | None,
    square: Square,
    first: date,
    day: date,
    today: date,
    bearing: Bearing,
) -> Fraction | None:
    """Return the days a planting has grown by a day, as a part of those until it should bear; may exceed 1.

    None where these are not known, or nobody knows when it began.
    """
    grows = growth(planting, crop, square, first, day, today, bearing)
    return None if grows is None else Fraction(max((day - grows.begun).days, 0), grows.days)


@dataclass(frozen=True, slots=True, kw_only=True)
class Growth:
    """From when a planting grows, and in how many days it should bear."""

    begun: date
    days: int
    set_out: bool
    """Whether it came into its square as a plant, not as seed."""


def growth(
    planting: Planting,
    crop: Crop | None,
    square: Square,
    first: date,
    day: date,
    today: date,
    bearing: Bearing,
) -> Growth | None:
    """Return from when a planting grows and how long, as known of a day; None as for ``age``."""
    start = _started(planting, square, min(day, today))
    came = _start_of(planting, start)
    bears = bearing.first(planting, crop, start.day if start else first, came)
    begun = _counted_from(planting, crop, start, first)
    if bears is None or bears <= begun:
        return None
    return Growth(begun=begun, days=(bears - begun).days, set_out=came is Start.SET_OUT)


def turning_days(
    planting: Planting, crop: Crop | None, first: date, last: date, today: date, bearing: Bearing
) -> tuple[date, ...]:
    """Return every day from ``first`` to ``last`` on which the stage may change, in order.

    ``first`` is the day the planting took the square; it is among them.
    """
    starts = [event for event, _own in planting.lines if event.verb in STARTING]
    changing = {first, today + ONE_DAY}
    changing |= {event.day for event, _own in planting.lines} | {
        weighing.day for weighing in planting.weighings
    }
    for begun, start in ((first, None), *((event.day, event) for event in starts)):
        bears = bearing.first(planting, crop, begun, _start_of(planting, start))
        changing |= {begun + SPROUTING, bears or first}
    return tuple(sorted(day for day in changing if first <= day <= last))


def _started(planting: Planting, square: Square, day: date) -> Event | None:
    """Return the last line up to a day that put the planting into the square."""
    starts = [
        event
        for event, own in planting.lines
        if event.verb in STARTING and event.day <= day and (not own or square in own)
    ]
    return max(starts, key=lambda event: (event.day, event.verb is Verb.RESOW), default=None)


def _failed(planting: Planting, square: Square, start: Event, today: date) -> bool:
    """Return whether nothing came of a start, by a line of the log up to today."""
    later = [
        event
        for event, own in planting.lines
        if start.day < event.day <= today and (not own or square in own)
    ]
    again = min((event.day for event in later if event.verb in STARTING), default=date.max)
    return any(event.verb is Verb.FAILED and event.day <= again for event in later)


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


def _expected(
    planting: Planting, crop: Crop | None, start: Event | None, first: date, day: date, bearing: Bearing
) -> Stage:
    """Return the stage that the plan and the day on which it should bear lead to."""
    begun = start.day if start else first
    in_bed_by = _start_of(planting, start)
    bears = bearing.first(planting, crop, begun, in_bed_by)
    if bears is not None and day >= bears:
        return Stage.BEARING
    if in_bed_by is Start.SOW and day < begun + SPROUTING:
        return Stage.SOWN
    return Stage.GROWING


def _counted_from(planting: Planting, crop: Crop | None, start: Event | None, first: date) -> date:
    """Return the day it grows from: the sowing indoors, where days to maturity count from that."""
    planned = planting.planned
    set_out = _start_of(planting, start) is Start.SET_OUT
    if crop and crop.days_from == "sowing" and set_out and planned and planned.sow_indoors:
        return planned.sow_indoors
    return start.day if start else first


def _start_of(planting: Planting, start: Event | None) -> Start | None:
    """Return how it came into the bed: by the log, else by the plan; None where neither says."""
    if start is not None:
        return start.begins_as
    return planting.planned.start if planting.planned else None
