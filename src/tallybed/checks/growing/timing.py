"""The plan held against the year: freezes, ripening, and squares left empty."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from tallybed.checks.growing.beginnings import Begun, beginnings
from tallybed.checks.growing.heat import last_for_bulbs
from tallybed.checks.results import CheckResult, called, warning
from tallybed.garden.crops import Beginning, Crop
from tallybed.garden.days import ONE_DAY, in_full, without_year
from tallybed.garden.naming import variety_of
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.reckoning.calendar.windows.freeze import Freeze, fall_before
from tallybed.reckoning.calendar.windows.windows import OF_NEXT_YEAR, Expected
from tallybed.reckoning.calendar.windows.winter import (
    grows_all_winter,
    hardly_any_winter,
    harvest_after,
    is_mild,
    planted_before_winter,
    stands_mild_winters,
    winter_only,
)
from tallybed.reckoning.growing_time import freezes_for, window_for
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year

_LONG_AFTER = 90
"""Days after the average last freeze from which a planting is none of spring."""
_LONG_BEFORE = 150
"""Days before the average last freeze from which a planting is one of the fall before."""
_HALF_HARDY_BEFORE = 14
"""Days before the first fall freeze until which half-hardy crops go in where all grows on in winter. Our
choice; Tasmania sets lettuce out until the end of May."""
_OVER_WINTER_BEFORE = 28
"""Days before the first fall freeze until which hardy crops go in to stand over a mild winter. Our choice;
western Washington sows cabbage for that until mid-September, chard until the end of August."""
EARLY_BULB = 14
"""Days before the printed harvest of what stood over winter on which it may be dug. Our choice."""
_HARDY_BEFORE = 14
"""Days before the freezes begin to end that a hardy crop can still go in. Our choice."""
_WINTERED_BEFORE = 42
"""Days before its spring weeks on which what stands a mild winter still goes in. Our choice: broad beans go
in until August in the South Island of New Zealand, onions until the end of December in south-east Georgia."""
_OLD_PLANTS = 42
"""Days that plants are old at the most when they are set out, where nobody told. Our choice."""
_HALF_A_WEEK = timedelta(days=3)
"""The library's weeks from a freeze are told to half a week: what is off by no more is not told."""
_FIVE_DAYS = timedelta(days=5)
"""Days to harvest are told to the nearest five, and are the middle of ranges of weeks: likewise."""
_TENTH = 0.1
"""The chance of a freeze up to which a tender crop's first harvest is safe: one year in ten, as in spring."""


def too_early(year: Year) -> Iterator[CheckResult]:
    """Find plantings before the first day the crop's weeks from the last spring freeze allow.

    What the log has on an earlier day than the plan is told at its line.
    """
    for one in beginnings(year):
        spring, _fall = freezes_for(year, one.day)
        if spring is None or planted_before_winter(one.crop, year.garden.freezes, one.day):
            continue
        first = _first_safe(year, one.crop, one.start, one.day)
        if (
            first is None
            or one.day >= first - _slack_before(one.crop)
            or (spring.middle - one.day).days > _LONG_BEFORE
        ):
            continue
        if one.logged and one.row is not None and one.row.begins < first:
            continue
        expected, remedy = _from_then(year, one, first)
        yield (
            one.row,
            warning(
                one.place,
                "too-early",
                f"{one.words}{_chance(spring, one.day)}",
                expected=expected,
                remedy=remedy,
            ),
        )


def _slack_before(crop: Crop) -> timedelta:
    """Return by how much a crop's first day may be missed before that is told."""
    return timedelta(0) if crop.is_tender else _HALF_A_WEEK


def _from_then(year: Year, one: Begun, first: date) -> tuple[str, str]:
    """Return from when a crop goes in, and what to do; where it is too late by then, as ``_by_then``."""
    told = f"{without_year(first)} or later", "wait, or cover it and silence this with the reason"
    row = one.row
    _spring, fall = freezes_for(year, first)
    if row is None or fall is None:
        return told
    last = _latest(year, one.crop, one.planting.variety, row)
    ready = year.expected(one.crop, first, variety=one.planting.variety, start=one.start)
    if last is None or first <= last or _is_safe(fall, one.crop, ready):
        return told
    return _by_then(first, last)


def _first_safe(year: Year, crop: Crop, start: Start, day: date) -> date | None:
    """Return the first day for a crop: by its printed weeks, or once the freezes it does not stand are over.

    For a tender one that is the day after which one year in ten still freezes. One that is printed as
    hardy stands a light frost, whatever a table's weeks say: for it, the day one year in ten is past.
    """
    printed = window_for(year, crop, day, start=start).spring_first
    spring, _fall = freezes_for(year, day)
    if printed and not crop.is_tender:
        printed = _in_mild_winter(year, crop, day, printed)
    if spring is None or day > spring.middle + timedelta(days=_LONG_AFTER):
        return printed
    if crop.is_tender:
        return max(filter(None, (printed, spring.late)), default=None)
    if printed and spring.early and crop.is_hardy:
        return min(printed, spring.early - timedelta(days=_HARDY_BEFORE))
    return printed


def _in_mild_winter(year: Year, crop: Crop, day: date, printed: date) -> date | None:
    """Return the first day for a crop that is not tender, with the slack of a mild winter; None: any day.

    Tubers rot in cold ground wherever it is.
    """
    dates = year.garden.freezes
    if crop.start is Beginning.TUBERS or not is_mild(dates, day):
        return printed
    if hardly_any_winter(dates, day):
        return None
    return printed - timedelta(days=_WINTERED_BEFORE) if stands_mild_winters(crop) else printed


def too_late(year: Year) -> Iterator[CheckResult]:
    """Find plantings after the last day on which the crop still comes to something before the freeze."""
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        _spring, fall = freezes_for(year, row.begins)
        if crop is None or row.start is Start.CARRIED or fall is None:
            continue
        last = _latest(year, crop, planting.variety, row)
        if last is None or row.begins <= last or _is_not_for_this_fall(year, crop, row, last):
            continue
        ready = year.expected(
            crop, row.begins, variety=planting.variety, start=row.start, indoors=row.sow_indoors
        )
        of_next_year = ready is not None and (ready.first - row.begins).days >= OF_NEXT_YEAR
        if (of_next_year and not crop.is_tender) or _is_safe(fall, crop, ready):
            continue
        by = (
            f", and is ready about {without_year(ready.first)}{_chance(fall, ready.first)}"
            if ready and not ready.over_winter
            else ""
        )
        first = _first_safe(year, crop, row.start, last)
        by_day = _last_safe(year, crop, planting.variety, row, last)
        if first is not None and by_day < first and row.begins < first - _slack_before(crop):
            continue  # told as too early, with the same words
        expected, remedy = _by_then(first, by_day)
        yield (
            row,
            warning(
                row.place,
                "too-late",
                f"{called(year, planting)} goes in on {without_year(row.begins)}{by}",
                expected=expected,
                remedy=remedy,
            ),
        )


def _is_not_for_this_fall(year: Year, crop: Crop, row: PlanRow, last: date) -> bool:
    """Return whether a row stands over the winter, or is told of for its bulbs, due before ``last``."""
    if stands_the_winter(year, crop, row) or row.until > year.season.span.last + ONE_DAY:
        return True
    bulbs = last_for_bulbs(year, crop, row.start, row.begins)
    return bulbs is not None and bulbs < last


def _is_safe(fall: Freeze, crop: Crop, ready: Expected | None) -> bool:
    """Return whether a tender crop is ready before one year in ten freezes, as far as the garden tells."""
    chance = fall.chance(ready.first) if ready and crop.is_tender else None
    return chance is not None and chance <= _TENTH


def _last_safe(year: Year, crop: Crop, variety: str, row: PlanRow, last: date) -> date:
    """Return the last day before a row's own on which a tender crop is safe; ``last`` where none is later."""
    _spring, fall = freezes_for(year, row.begins)
    day = row.begins - ONE_DAY
    while fall and crop.is_tender and day > last:
        if _is_safe(fall, crop, year.expected(crop, day, variety=variety, start=row.start)):
            return day
        day -= ONE_DAY
    return last


def _by_then(first: date | None, last: date) -> tuple[str, str]:
    """Return by when a crop goes in, and what to do.

    Where its first day comes after its last, that there is no such day: no other day is advised then.
    """
    counted = "counted back from the first fall freeze"
    otherwise = "take a quicker variety, or plan a cover and silence this"
    if first is None or first <= last:
        return f"{without_year(last)} or earlier, {counted}", f"plant it sooner, {otherwise}"
    begins, ends = without_year(first), without_year(last)
    return f"no day, as it can go in from {begins} on, and would have to by {ends}, {counted}", otherwise


def _latest(year: Year, crop: Crop, variety: str, row: PlanRow) -> date | None:
    """Return the last day for a crop; where hardy crops grow all winter, not before the freezes begin."""
    found = window_for(year, crop, row.begins, variety=variety, start=row.start, indoors=row.sow_indoors)
    last = found.last
    _spring, fall = freezes_for(year, row.begins)
    if last is None or fall is None:
        return last
    if row.start is Start.SET_OUT and crop.start is Beginning.SOWN and found.counted_back is None:
        last += timedelta(days=_OLD_PLANTS)  # its weeks are printed for seed
    if crop.is_tender:
        return last
    dates = year.garden.freezes
    if grows_all_winter(dates, row.begins, year.garden.latitude):
        return max(last, fall.middle - timedelta(days=0 if crop.is_hardy else _HALF_HARDY_BEFORE))
    if crop.is_hardy and is_mild(dates, row.begins) and row.until >= year.season.span.last:
        return max(last, fall.middle - timedelta(days=_OVER_WINTER_BEFORE))
    return last


def not_ripe(year: Year) -> Iterator[CheckResult]:
    """Find plantings that are to be cleared before they can be expected to bear.

    The days allowed for slow growth in fall are no reason to tell one, nor are five days
    of a figure of the library's.
    """
    for planting, row in year.planned:
        crop = year.crop_of(planting)
        if crop is None or not row.until_told:
            continue
        if row.start is Start.CARRIED:
            yield from _carried(year, planting, row, crop)
            continue
        ready = year.expected(
            crop, row.begins, variety=planting.variety, start=row.start, indoors=row.sow_indoors
        )
        if ready is None or stands_the_winter(year, crop, row):
            continue
        if row.until >= ready.first - timedelta(days=ready.allowance) - _slack(crop, planting.variety):
            continue
        if winter_only(crop) and not ready.over_winter:
            continue  # told as out of its time
        follower = _next_in(year, planting, row)
        after = f" for {called(year, follower)}" if follower else ""
        about = f", about {in_full(ready.first) if ready.over_winter else without_year(ready.first)}"
        slow = f", {ready.allowance} of them for slow growth in fall" if ready.allowance else ""
        yield (
            row,
            warning(
                row.place,
                "not-ripe",
                f"{called(year, planting)} is to be cleared on {without_year(row.until)}{after},"
                f" {(row.until - row.begins).days} days after it goes in",
                expected=f"{ready.days} days to a first harvest{slow}{about}",
                remedy="give it longer, start it sooner, or take a quicker variety",
            ),
        )


def _slack(crop: Crop, variety: str) -> timedelta:
    """Return by how many days a harvest may be missed by the plan: none by days that the garden told."""
    own = variety_of(crop, variety)
    return timedelta(0) if crop.own or (own and own.days) else _FIVE_DAYS


def _carried(year: Year, planting: Planting, row: PlanRow, crop: Crop) -> Iterator[CheckResult]:
    """Find what stood over winter and is to be cleared before it is ready.

    What is cleared before the freezes that begin that winter stood over none of it: a season may begin in
    one summer and end in the next.
    """
    if year.spring is None:
        return
    winter = fall_before(year.garden.freezes, year.spring.middle)
    if winter and row.until <= winter.middle:
        return
    ready = harvest_after(crop, year.garden.freezes, year.spring.middle - ONE_DAY)
    if ready is None or not ready.whole or row.until >= ready.first - timedelta(days=EARLY_BULB):
        return
    yield (
        row,
        warning(
            row.place,
            "not-ripe",
            f"{called(year, planting)} stood over winter and is to be cleared on {without_year(row.until)}",
            expected=f"about {without_year(ready.first)} to {without_year(ready.last)} here",
            remedy="leave it until its leaves die down, or say in `silence:` that it is for green ones",
        ),
    )


def stands_the_winter(year: Year, crop: Crop, row: PlanRow) -> bool:
    """Return whether a planting goes in before winter to be picked in the next year.

    It does where the plan does not clear it before the season's end, or not before it is ready.
    """
    wintered = planted_before_winter(crop, year.garden.freezes, row.begins)
    if wintered is None:
        return False
    return row.until >= min(year.season.span.last, wintered.first - timedelta(days=EARLY_BULB))


def _chance(freeze: Freeze, day: date) -> str:
    """Return how likely a freeze is after a day in spring, or by a day in fall, as a clause to append."""
    chance = freeze.chance(day)
    if chance is None:
        side = (
            "before the average last spring freeze"
            if freeze.spring
            else "after the average first fall freeze"
        )
        off = (day - freeze.middle).days
        return f", {abs(off)} days {side}" if (off < 0) is freeze.spring and off else ""
    when = "after it" if freeze.spring else "by then"
    return f", with {_percent(chance)} chance of a freeze {when}"


def _percent(chance: float) -> str:
    """Return a chance from 0 to 1 in percent; near the ends it says only less or more than."""
    if chance < 0.01:
        return "less than 1%"
    return "more than 99%" if chance > 0.99 else f"{round(chance * 100)}%"


def _next_in(year: Year, planting: Planting, row: PlanRow) -> Planting | None:
    """Return the planting that the plan gives one of these squares next."""
    later = [
        hold
        for square in row.squares
        for hold in year.plan_of.get(square, ())
        if hold.first >= row.until and hold.planting != planting.key
    ]
    return (
        year.holding.planting(min(later, key=lambda hold: (hold.first, hold.planting)).planting)
        if later
        else None
    )
