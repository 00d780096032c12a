"""When a crop can go in, when it can be expected to bear, and when it is too late.

Spring windows are the crop's published weeks from the last spring freeze. The
latest day for a fall crop is the crop's published weeks before the first fall
freeze where there are any, and beside it the day counted back by the formula of
Virginia Cooperative Extension, publication 426-334, Fall Vegetable Gardening: days
to harvest, and two weeks for the slow growth of shortening days, and two more for
a crop that frost kills. What stands over winter has a cycle of its own (``winter``).

Days that count from sowing are never taken for days from setting out, nor the reverse:
where only the other ones are known, the weeks that the crop usually spends indoors lie
between them, and that is said.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction

from tallybed.garden.crops import Beginning, Crop, Figure
from tallybed.garden.days import Span
from tallybed.garden.garden import FreezeDates
from tallybed.garden.naming import variety_of
from tallybed.garden.records.plan import Start
from tallybed.reckoning.calendar.windows.freeze import (
    Freeze,
    first_fall,
    growing_span,
    last_spring,
    nearest_fall,
    next_spring,
)
from tallybed.reckoning.calendar.windows.winter import (
    LASTING,
    hardly_any_winter,
    harvest_after,
    is_mild,
    planted_before_winter,
    winter_only,
)

OF_NEXT_YEAR = 240
"""Days to a first harvest from which a crop that stands the cold bears in the year after, as rhubarb does.
Our choice: few places have as many days without a freeze."""
FALL_FACTOR = 14
"""Days added for slow growth in fall (Virginia Cooperative Extension, 426-334)."""
TENDER_FACTOR = 14
"""Days more for a crop that frost kills: it should ripen two weeks before the freeze (the same)."""
AFTER_FREEZE = 21
"""Days after the average first fall freeze on which what stands the winter may still be ready in fall. Our
choice."""


_LAID = frozenset({Beginning.TUBERS, Beginning.CLOVES, Beginning.SLIPS})
"""Beginnings that are laid in the bed: whoever says ``sow`` and who says ``set out`` mean the same day. Not
sets: what is sown of onions and their like is seed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The days on which a crop can go in, in one garden and season. None: not known."""

    spring_first: date | None = None
    spring_last: date | None = None
    """The usual spring window ends; later sowings are summer ones, not mistakes."""
    spring_safe: date | None = None
    """The first day of spring on which a freeze it does not stand is unlikely: for a tender crop the day
    after which one year in ten still freezes."""
    fall_first: date | None = None
    """The first day of planting for fall, of a crop that is planted for fall alone."""
    fall_last: date | None = None
    """The latest day by the crop's published weeks before the first fall freeze."""
    counted_back: date | None = None
    """The latest day by counting back the days to harvest."""
    indoors_first: date | None = None
    indoors_last: date | None = None
    winter_first: date | None = None
    winter_last: date | None = None
    """The days on which it is planted before winter, to bear in the next year."""
    winter_ready: tuple[date, date] | None = None
    """When that is ready."""
    all_winter: bool = False
    """Whether it goes in all fall and winter, as there is hardly any: then no day is the latest."""

    @property
    def last(self) -> date | None:
        """The later of the two latest days: a planting after it is late by both."""
        return max((day for day in (self.fall_last, self.counted_back) if day), default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """What to expect of one planting."""

    days: int
    """Days to the first harvest that were used, the fall allowance among them."""
    first: date
    last: date | None
    """End of the usual picking; for a tender crop not after the first fall freeze."""
    allowance: int = 0
    """Days of them added because the crop ripens in the shortening days."""
    other_start: bool = False
    """Whether the days are counted from another beginning than the planting has."""
    over_winter: bool = False
    """Whether it stands over winter first."""


def days_to_harvest(crop: Crop, variety: str, start: Start) -> tuple[int, bool] | None:
    """Return days to the first harvest, and whether they are converted; None if unknown.

    A variety's own days win; they count from what the crop's days count from. A crop set out
    has its days from setting out, a sown one from sowing. Where only the other is known, the
    weeks that it is printed to spend indoors are added or taken off (half the days are left at least).
    """
    sown = start is Start.SOW
    wanted = "sowing" if sown else "setting out"
    known = _known_days(crop, variety)
    if wanted in known:
        return known[wanted], False
    if crop.start in _LAID and known:
        return next(iter(known.values())), False
    indoors = crop.used("weeks indoors")
    if not known or indoors is None or indoors.low is None or indoors.high is None:
        return None
    (days,) = known.values()
    between = round((indoors.low + indoors.high) / 2 * 7)
    return (days + between if sown else max(days - between, days // 2)), True


def _known_days(crop: Crop, variety: str) -> dict[str, int]:
    """Return the days to harvest by what they count from; a variety's own stand alone."""
    own = variety_of(crop, variety)
    if own and own.days:
        return {crop.days_since: own.days}
    found = {}
    for name in ("sowing", "setting out"):
        figure = crop.used(f"days from {name}")
        if figure and figure.low is not None and figure.high is not None:
            found[name] = round((figure.low + figure.high) / 2)
    return found or ({crop.days_since: crop.days} if crop.days else {})


def _days_of(crop: Crop, variety: str, start: Start, raised: int | None) -> tuple[int, bool] | None:
    """Return days to the first harvest, from the days it was raised indoors where they stand for others."""
    days = days_to_harvest(crop, variety, start)
    known = _known_days(crop, variety).get("sowing")
    if (days is None or days[1]) and start is not Start.SOW and raised is not None and known:
        return max(known - raised, known // 3), True
    return days


def window(
    crop: Crop,
    dates: FreezeDates,
    span: Span,
    *,
    variety: str = "",
    start: Start | None = None,
    raised: int | None = None,
) -> Window:
    """Return when a crop can go in, in a season of that span, for a garden with those freeze dates.

    ``raised``: the days that a planting was raised indoors, from which its days from sowing are counted.
    """
    spring, fall = last_spring(dates, span), first_fall(dates, span)
    first, last = _weeks(spring.middle if spring else None, crop.used("spring planting offset"))
    safe = first
    if first and last and spring and spring.late and crop.is_tender:
        safe = max(first, spring.late)
        last = max(last, safe)
    fall_first, fall_last = _weeks(fall.middle if fall else None, crop.used("fall planting offset"))
    only_fall = crop.used("earliest harvest in fall") is not None
    own_time = only_fall or winter_only(crop)
    may_grow_on = not own_time and not _waits_for_spring(crop)
    all_winter = may_grow_on and fall is not None and hardly_any_winter(dates, fall.middle)
    days = _days_of(crop, variety, start or crop.usual_start, raised)
    counted = None
    if fall and days and not (own_time or all_winter):
        counted = _counted_back(crop, fall.middle, days[0])
    goes_in = (fall_first, fall_last) if only_fall else (first, last)
    indoors = crop.used("weeks indoors")
    return replace(
        _before_winter(crop, dates, fall),
        spring_first=first,
        spring_last=last,
        spring_safe=safe,
        fall_first=fall_first if only_fall else None,
        fall_last=None if all_winter else fall_last,
        counted_back=counted,
        all_winter=all_winter,
        indoors_first=_before(goes_in[0], indoors.high if indoors else None),
        indoors_last=_before(goes_in[1], indoors.low if indoors else None),
    )


def _counted_back(crop: Crop, fall: date, days: int) -> date | None:
    """Return the latest day by counting back from a freeze; None for what need not bear before it."""
    stands_on = not crop.is_tender and (crop.slug in LASTING or days >= OF_NEXT_YEAR)
    allowed = FALL_FACTOR + (TENDER_FACTOR if crop.is_tender else 0)
    return None if stands_on else fall - timedelta(days=days + allowed)


def _waits_for_spring(crop: Crop) -> bool:
    """Return whether even a winter with few freezes is none for it: a freeze kills it, or its tubers rot.

    Of a crop of the garden's own nobody knows how hardy it is, so it is not said to grow all winter.
    """
    return crop.is_tender or crop.start is Beginning.TUBERS or crop.hardiness is None


def before_winter(crop: Crop, dates: FreezeDates, day: date) -> Window:
    """Return the window of planting before the winter nearest to a day, empty for a crop that stands none."""
    return _before_winter(crop, dates, nearest_fall(dates, day))


def _before_winter(crop: Crop, dates: FreezeDates, fall: Freeze | None) -> Window:
    """Return the window of planting before the winter that a freeze begins."""
    if fall is None:
        return Window()
    mild = is_mild(dates, fall.middle)
    name = "planting before a mild winter" if mild else "planting before winter"
    first, last = _weeks(fall.middle, crop.used(name))
    if first is None or last is None:
        return Window()
    ready = harvest_after(crop, dates, max(last, fall.middle))
    told = (ready.first, ready.last) if ready and crop.used("harvest after winter") else None
    return Window(winter_first=first, winter_last=last, winter_ready=told)


def expected(
    crop: Crop,
    dates: FreezeDates,
    span: Span,
    begins: date,
    *,
    variety: str = "",
    start: Start,
    indoors: date | None = None,
) -> Expected | None:
    """Return when a planting begun on a day should bear, or None where its days are not known, or it rests.

    ``indoors``: the day it was sown indoors, from which days from sowing are counted.
    """
    days = _days_of(crop, variety, start, (begins - indoors).days if indoors else None)
    growing = growing_span(dates, span, begins)
    spring, fall = last_spring(dates, growing), first_fall(dates, growing)
    slow = FALL_FACTOR if fall and spring and begins > _midway(spring.middle, fall.middle) else 0
    wintered = planted_before_winter(crop, dates, begins)
    if wintered and (winter_only(crop) or not days or _too_late_for_fall(dates, begins, days[0])):
        return Expected(
            days=(wintered.first - begins).days,
            first=wintered.first,
            last=wintered.last,
            over_winter=True,
        )
    if days is None:
        return None
    first = begins + timedelta(days=days[0] + slow)
    if _rests(dates, begins, first):
        return None
    earliest = _earliest(crop, nearest_fall(dates, first))
    first = max(first, earliest) if earliest else first
    picking = crop.used("usable days after first harvest")
    last = first + timedelta(days=round(picking.high)) if picking and picking.high is not None else None
    if last and fall and crop.is_tender:
        last = max(first, min(last, fall.middle))
    return Expected(days=(first - begins).days, first=first, last=last, allowance=slow, other_start=days[1])


def _rests(dates: FreezeDates, begins: date, first: date) -> bool:
    """Return whether what begins on a day would have to ripen in the winter then beginning, which none does.

    A winter begins with the average first fall freeze. From its middle on the printed days count again, and
    in a mild one they always do. Our choice.
    """
    fall = nearest_fall(dates, begins)
    spring = next_spring(dates, fall.middle) if fall else None
    if fall is None or spring is None or is_mild(dates, begins):
        return False
    return fall.middle < begins < _midway(fall.middle, spring.middle) and first < spring.middle


def _too_late_for_fall(dates: FreezeDates, begins: date, days: int) -> bool:
    """Return whether what begins on a day is ready too long after the freeze it grows into."""
    fall = nearest_fall(dates, begins)
    return fall is not None and begins + timedelta(days=days) > fall.middle + timedelta(days=AFTER_FREEZE)


def _earliest(crop: Crop, fall: Freeze | None) -> date | None:
    """Return the earliest day on which a crop that bears in fall alone is picked; None for others."""
    figure = crop.used("earliest harvest in fall")
    return _after(fall.middle, figure.low) if fall and figure and figure.low is not None else None


def _midway(first: date, last: date) -> date:
    """Return the day in the middle between two."""
    return first + (last - first) / 2


def _weeks(freeze: date | None, offset: Figure | None) -> tuple[date | None, date | None]:
    """Return the first and last day of a range of weeks from a freeze; None, None where one is not known."""
    if freeze is None or offset is None or offset.low is None or offset.high is None:
        return None, None
    return _after(freeze, offset.low), _after(freeze, offset.high)


def _after(day: date, weeks: Fraction) -> date:
    """Return the day so many weeks later, to the nearest whole day."""
    return day + timedelta(days=round(weeks * 7))


def _before(day: date | None, weeks: Fraction | None) -> date | None:
    """Return the day so many weeks earlier; None where either is not known."""
    return _after(day, -weeks) if day and weeks is not None else None
