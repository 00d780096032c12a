"""Last spring freeze and first fall freeze: their dates in a season, and the chances around them.

Published tables give dates by chance: in spring the chance that it freezes
*after* the date, in fall the chance that it has frozen *before* it (NOAA
National Centers for Environmental Information, freeze occurrence probabilities;
so also Minnesota DNR State Climatology Office). Between and beyond the
published dates the chance follows a normal curve, one half for each side of the
middle date, so that the 10, 50 and 90 % dates come out as they were given. That
freeze dates are near enough normal is the finding of H. C. S. Thom and R. H.
Shaw, "Climatological analysis of freeze data for Iowa", Monthly Weather Review,
1958 (from memory); the National Weather Service tables in the tests bear it out.
"""

from __future__ import annotations

from calendar import isleap
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from statistics import NormalDist

from tallybed.garden.days import Span
from tallybed.garden.garden import FreezeDates

FREEZE = 32
"""Freeze threshold in °F (National Weather Service)."""

_NORMAL = NormalDist()
_TENTH = _NORMAL.inv_cdf(0.9)
_HALF_YEAR = 183


@dataclass(frozen=True, slots=True, kw_only=True)
class Freeze:
    """When the last spring or the first fall freeze comes, in one season."""

    spring: bool
    threshold: int
    """Temperature in °F."""
    middle: date
    """The date of 50 %; the average where only that is known."""
    early: date | None = None
    """The date that one year in ten has its last (spring) or first (fall) freeze before."""
    late: date | None = None
    """The date that one year in ten has it after."""

    def chance(self, day: date) -> float | None:
        """Return the chance from 0 to 1: in spring of a freeze after ``day``, in fall of one by ``day``.

        None where the garden told only an average, from which no chance follows.
        """
        if self.early is None or self.late is None:
            return None
        apart = (day - self.middle).days
        side = (self.late - self.middle).days if apart > 0 else (self.middle - self.early).days
        come = _NORMAL.cdf(apart * _TENTH / side) if side > 0 else float(apart >= 0)
        return 1 - come if self.spring else come


@lru_cache(maxsize=256)
def freezes(dates: FreezeDates, span: Span) -> tuple[Freeze, ...]:
    """Return the garden's freezes as they fall in a season: spring before fall, 32 °F before 28 °F.

    They are those of the growing time that the season holds most of, from a last spring freeze
    to the first fall freeze after it. So a season across the new year has its fall in the year that
    follows, whether its spring is in September or its first day in October. A season that holds none of it
    has the spring freeze nearest to its first day.
    """
    found: list[Freeze] = []
    near = _growing_from(dates, span)
    for threshold, chances in dates.spring:
        found.append(_freeze(dict(chances), near, threshold, spring=True))
    after = min((freeze.middle for freeze in found), default=near)
    for threshold, chances in dates.fall:
        found.append(_freeze(dict(chances), after + timedelta(days=_HALF_YEAR), threshold, spring=False))
    return tuple(sorted(found, key=lambda freeze: (not freeze.spring, -freeze.threshold)))


def _growing_from(dates: FreezeDates, span: Span) -> date:
    """Return the day that begins the growing time of which a season holds most: a last spring freeze.

    Where only one of the two freezes is told, the growing time is half a year.
    """
    half = timedelta(days=_HALF_YEAR)
    springs, falls = ([dict(told)[50] for _threshold, told in side] for side in (dates.spring, dates.fall))
    found = []
    for middle in (date(year, 7, 1) for year in range(span.first.year - 1, span.last.year + 2)):
        begins = _nearest(springs[0], middle) if springs else None
        near = begins + half if begins else middle
        ends = _nearest(falls[0], near) if falls else near
        found.append((begins or ends - half, ends))

    def held(growing: tuple[date, date]) -> tuple[int, int]:
        first, last = growing
        days = (min(last, span.last) - max(first, span.first)).days + 1
        return max(days, 0), -abs((first - span.first).days)

    return max(found, key=held)[0]


@lru_cache(maxsize=1024)
def growing_span(dates: FreezeDates, span: Span, day: date) -> Span:
    """Return a span whose freezes are those of the growing time that something begun on a day is for.

    It is the season's own, but for a season that holds parts of two: whatever begins nearer to the spring
    after its fall freeze than to that freeze is for the next; whatever begins before the fall freeze of
    the year before is still for that one.
    """
    spring, fall = last_spring(dates, span), first_fall(dates, span)
    if spring is None or fall is None:
        return span
    if day > fall.middle:
        after = next_spring(dates, fall.middle)
        if after and after.middle - day < day - fall.middle:
            return Span(first=after.middle, last=after.middle)
    before = fall_before(dates, spring.middle)
    if before and day <= before.middle:
        return Span(first=before.middle, last=before.middle)
    return span


def last_spring(dates: FreezeDates, span: Span) -> Freeze | None:
    """Return the last spring freeze of a season, or None where the garden tells none."""
    return _one(freezes(dates, span), spring=True)


def first_fall(dates: FreezeDates, span: Span) -> Freeze | None:
    """Return the first fall freeze of a season, or None where the garden tells none."""
    return _one(freezes(dates, span), spring=False)


def nearest_fall(dates: FreezeDates, day: date) -> Freeze | None:
    """Return the first fall freeze nearest to a day, in whatever season; None where none is told."""
    told = dict(dates.fall).get(FREEZE)
    return _freeze(dict(told), day, FREEZE, spring=False) if told else None


def fall_before(dates: FreezeDates, spring: date) -> Freeze | None:
    """Return the first fall freeze of the winter that a spring freeze ends; None where none is told."""
    near = nearest_fall(dates, spring - timedelta(days=_HALF_YEAR))
    if near is None or near.middle < spring:
        return near
    return nearest_fall(dates, near.middle - timedelta(days=2 * _HALF_YEAR))


def next_spring(dates: FreezeDates, day: date) -> Freeze | None:
    """Return the next last spring freeze after a day; None where none is told."""
    told = dict(dates.spring).get(FREEZE)
    if not told:
        return None
    chances = dict(told)
    near = _freeze(chances, day + timedelta(days=_HALF_YEAR), FREEZE, spring=True)
    before = _freeze(chances, near.middle - timedelta(days=2 * _HALF_YEAR), FREEZE, spring=True)
    return before if before.middle > day else near


def _one(found: tuple[Freeze, ...], *, spring: bool) -> Freeze | None:
    """Return the freeze of spring or fall at 32 °F, or None."""
    return next((one for one in found if one.spring is spring and one.threshold == FREEZE), None)


def _freeze(chances: dict[int, tuple[int, int]], near: date, threshold: int, *, spring: bool) -> Freeze:
    """Return a freeze, its days in the year nearest ``near``; ``chances``: month and day by percent."""
    middle = _nearest(chances[50], near)
    early, late = (chances.get(90), chances.get(10)) if spring else (chances.get(10), chances.get(90))
    return Freeze(
        spring=spring,
        threshold=threshold,
        middle=middle,
        early=_nearest(early, middle) if early else None,
        late=_nearest(late, middle) if late else None,
    )


@lru_cache(maxsize=4096)
def _nearest(month_day: tuple[int, int], near: date) -> date:
    """Return the day of that name nearest to a date (29 February falls on 28 where there is none)."""
    month, day = month_day
    found = []
    for year in (near.year - 1, near.year, near.year + 1):
        last = 28 if (month, day) == (2, 29) and not isleap(year) else day
        found.append(date(year, month, last))
    return min(found, key=lambda one: (abs((one - near).days), one))
