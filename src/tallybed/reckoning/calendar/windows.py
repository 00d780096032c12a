"""When a crop can go in, when it can be expected to bear, and when it is too late.

Spring windows are the crop's published weeks from the last spring freeze. The
latest day for a fall crop is the crop's published weeks before the first fall
freeze where there are any, and beside it the day counted back by the formula of
Virginia Cooperative Extension, publication 426-334, Fall Vegetable Gardening: days
to harvest, and two weeks for the slow growth of shortening days, and two more for
a crop that frost kills.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from tallybed.garden.crops import Beginning, Crop, Figure
from tallybed.garden.days import Span
from tallybed.garden.garden import FreezeDates
from tallybed.garden.naming import variety_of
from tallybed.garden.plan import Start
from tallybed.reckoning.calendar.freeze import first_fall, last_spring

FALL_FACTOR = 14
"""Days added for slow growth in fall (Virginia Cooperative Extension, 426-334)."""
TENDER_FACTOR = 14
"""Days more for a crop that frost kills: it should ripen two weeks before the freeze (the same)."""
TENDER = frozenset({"tender", "very tender", "warm-season"})
"""Classes of hardiness that a freeze kills."""


_LAID = frozenset({Beginning.SETS, Beginning.TUBERS, Beginning.CLOVES, Beginning.SLIPS})
"""Beginnings that are laid in the bed: whoever says ``sow`` and who says ``set out`` mean the same day."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The days on which a crop can go in, in one garden and season. None: not known."""

    spring_first: date | None = None
    spring_last: date | None = None
    """The usual spring window ends; later sowings are summer ones, not mistakes."""
    fall_last: date | None = None
    """The latest day by the crop's published weeks before the first fall freeze."""
    counted_back: date | None = None
    """The latest day by counting back the days to harvest."""
    indoors_first: date | None = None
    indoors_last: date | None = None

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


def tender(crop: Crop) -> bool:
    """Return whether a freeze kills the crop, by its published class of hardiness."""
    figure = crop.used("hardiness")
    return figure is not None and figure.text in TENDER


def days_to_harvest(crop: Crop, variety: str, start: Start) -> tuple[int, bool] | None:
    """Return days to the first harvest, and whether they count from another beginning; None if unknown.

    A variety's own days win. A crop set out has its days from setting out, a sown
    one from sowing; where only the other is known, that is returned, and said.
    """
    own = variety_of(crop, variety)
    if own and own.days:
        return own.days, False
    names = ("days from sowing", "days from setting out")
    order = names if start is Start.SOW else names[::-1]
    for name in order:
        figure = crop.used(name)
        if figure and figure.low is not None and figure.high is not None:
            return round((figure.low + figure.high) / 2), name != order[0] and crop.start not in _LAID
    return (crop.days, False) if crop.days else None


def window(
    crop: Crop, dates: FreezeDates, span: Span, *, variety: str = "", start: Start | None = None
) -> Window:
    """Return when a crop can go in, in a season of that span, for a garden with those freeze dates."""
    start = start or (Start.SOW if crop.start == "sown" else Start.SET_OUT)
    spring, fall = last_spring(dates, span), first_fall(dates, span)
    first, last = _weeks(spring.middle if spring else None, crop.used("spring planting offset"))
    _early, fall_last = _weeks(fall.middle if fall else None, crop.used("fall planting offset"))
    days = days_to_harvest(crop, variety, start)
    counted = None
    if fall and days:
        back = days[0] + FALL_FACTOR + (TENDER_FACTOR if tender(crop) else 0)
        counted = fall.middle - timedelta(days=back)
    indoors = crop.used("weeks indoors")
    return Window(
        spring_first=first,
        spring_last=last,
        fall_last=fall_last,
        counted_back=counted,
        indoors_first=_before(first, indoors.high if indoors else None),
        indoors_last=_before(last, indoors.low if indoors else None),
    )


def expected(
    crop: Crop, dates: FreezeDates, span: Span, begins: date, *, variety: str = "", start: Start
) -> Expected | None:
    """Return when a planting begun on a day should bear, or None where its days are not known."""
    days = days_to_harvest(crop, variety, start)
    if days is None:
        return None
    spring, fall = last_spring(dates, span), first_fall(dates, span)
    slow = FALL_FACTOR if fall and spring and begins > _midway(spring.middle, fall.middle) else 0
    first = begins + timedelta(days=days[0] + slow)
    picking = crop.used("usable days after first harvest")
    last = first + timedelta(days=round(picking.high)) if picking and picking.high is not None else None
    if last and fall and tender(crop):
        last = max(first, min(last, fall.middle))
    return Expected(days=days[0] + slow, first=first, last=last, allowance=slow, other_start=days[1])


def _midway(spring: date, fall: date) -> date:
    """Return the day in the middle between two freezes."""
    return spring + (fall - spring) / 2


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
