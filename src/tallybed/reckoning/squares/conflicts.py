"""The plantings of one square held against each other: who must have left, and since when.

Evidence is never cut. What plan or silence alone let stand gives way to it: a start
recorded in the square implies that what stood there before was cleared, unless the
two are declared to share or the older one has records in the square afterwards. What is
settled here is known within ``squares`` alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date

from tallybed.garden.days import ONE_DAY
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.walk import Stretch


@dataclass(slots=True, kw_only=True)
class SettledStretch:
    """A stretch of a planting in a square, and the days it gets; none where ``last`` is before ``first``."""

    planting: Planting
    stretch: Stretch
    first: date
    last: date
    left: date | None = None
    """The day by which a record says that it had left: its own, or the start of another planting."""


Shares = Callable[[str, str], bool]


def settle(
    stretches: Iterable[tuple[Planting, Stretch]], today: date, end: date, shares: Shares
) -> list[SettledStretch]:
    """Return the stretches of one square with the days they get.

    ``end`` is the season's last day; ``shares`` tells of two keys whether they share.
    """
    all_settled = [
        SettledStretch(planting=planting, stretch=stretch, first=stretch.first, last=stretch.first - ONE_DAY)
        for planting, stretch in stretches
    ]
    rivals = {
        id(settled): [
            other
            for other in all_settled
            if settled.planting.key != other.planting.key
            and not shares(settled.planting.key, other.planting.key)
        ]
        for settled in all_settled
    }
    for settled in all_settled:
        if _loose(settled):
            _stand_back(settled, rivals[id(settled)])
    for settled in all_settled:
        _leave_for_start(settled, rivals[id(settled)])
    for settled in all_settled:
        _begin_after_evidence(settled, rivals[id(settled)])
    until = min(today, end)
    for settled in all_settled:
        _last_day(settled, rivals[id(settled)], until)
    for settled in all_settled:
        if _endless(settled):
            _give_way_to_plan(settled, rivals[id(settled)])
    return all_settled


def until_by_plan(planting: Planting, stretch: Stretch) -> date | None:
    """Return the day the plan lets a stretch end; None where it does not speak of it.

    It does not of a planting it does not know, nor of one started after it was to be gone.
    """
    if planting.planned is None:
        return None
    until = min(planting.planned.until, planting.planned.dropped or planting.planned.until)
    return None if stretch.start is not None and stretch.start >= until else until


def _starts(rivals: Iterable[SettledStretch]) -> list[date]:
    """Return the days on which others are recorded to start, sorted."""
    return sorted(other.stretch.start for other in rivals if other.stretch.start is not None)


def _loose(settled: SettledStretch) -> bool:
    """Return whether only plan and tag put a planting here, while records name others of its squares."""
    return not settled.stretch.told and any((*settled.planting.own, *settled.planting.picked))


def _stand_back(settled: SettledStretch, rivals: list[SettledStretch]) -> None:
    """Take records by tag alone as no evidence here once another planting is known to be in the square.

    The planting has squares of its own that the records name; its tag is met there.
    """
    stretch = settled.stretch
    told = [other for other in rivals if other.stretch.told]
    there = [days for days in map(_evidence, told) if days is not None]
    taken = [start for start in _starts(told) if start > stretch.first]
    if any(first <= stretch.first <= last for first, last in there):
        taken = [stretch.first]
    if taken:
        stretch.recorded = [record for record in stretch.recorded if record[0] < taken[0]]
        if stretch.free is not None and stretch.free > taken[0]:
            stretch.free = None


def _leave_for_start(settled: SettledStretch, rivals: list[SettledStretch]) -> None:
    """Let a planting leave on the day of its last record where another starts that day, as when cleared."""
    stretch = settled.stretch
    day = stretch.last_record
    if stretch.free is None and day is not None and day != stretch.start and day in _starts(rivals):
        stretch.recorded.pop()
        stretch.free = day


def _evidence(settled: SettledStretch) -> tuple[date, date] | None:
    """Return the first and last day that records show a planting there; None without any."""
    stretch = settled.stretch
    if not stretch.recorded:
        return None
    last = stretch.free - ONE_DAY if stretch.free is not None else stretch.recorded[-1][0]
    return (stretch.recorded[0][0], last)


def _begin_after_evidence(settled: SettledStretch, rivals: list[SettledStretch]) -> None:
    """Let what is supposed to begin while another planting is known to be there begin after it.

    Where the planting was planted in other squares by then, it never came here.
    """
    stretch = settled.stretch
    known = stretch.recorded[0][0] if stretch.recorded else stretch.free
    if known == stretch.first:
        return
    first = stretch.first
    for start, last in sorted(filter(None, map(_evidence, rivals))):
        if start <= first <= last:
            first = last + ONE_DAY
    if first == stretch.first:
        return
    if known is not None:
        settled.first = min(first, known)
    elif settled.planting.begun is not None:
        settled.first = date.max
    else:
        settled.first = first


def _last_day(settled: SettledStretch, rivals: list[SettledStretch], until: date) -> None:
    """Set the last day a stretch gets, and the day a record says it had left by."""
    stretch = settled.stretch
    if stretch.free is not None:
        settled.last, settled.left = stretch.free - ONE_DAY, stretch.free
        return
    known = stretch.last_record or stretch.first - ONE_DAY
    if stretch.stray:
        settled.last = known
        return
    if stretch.again is not None:
        last = stretch.again - ONE_DAY
    else:
        planned = until_by_plan(settled.planting, stretch)
        last = planned - ONE_DAY if planned is not None else until
    taken = next((start for start in _starts(rivals) if start > (stretch.last_record or stretch.first)), None)
    if taken is not None:
        last, settled.left = min(last, taken - ONE_DAY), taken
    settled.last = max(last, known)


def _endless(settled: SettledStretch) -> bool:
    """Return whether neither record nor plan ends a stretch."""
    stretch = settled.stretch
    open_end = stretch.free is None and stretch.again is None and not stretch.stray
    return open_end and until_by_plan(settled.planting, stretch) is None


def _give_way_to_plan(settled: SettledStretch, rivals: list[SettledStretch]) -> None:
    """Let what only silence keeps standing end where the plan has another planting begin."""
    known = settled.stretch.last_record
    for other in rivals:
        supposed = (
            other.planting.planned is not None and other.stretch.start is None and not other.stretch.stray
        )
        if supposed and known is not None and known < other.first <= min(settled.last, other.last):
            settled.last = other.first - ONE_DAY
