"""The stands of one square held against each other: who must have left, and since when.

Evidence is never cut. What plan or silence alone let stand gives way to it: a start
recorded in the square implies that what stood there before was cleared, unless the
two are declared to share or the older one has records in the square afterwards.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date

from tallybed.garden.days import ONE_DAY
from tallybed.reckoning.plantings.plantings import Stand
from tallybed.reckoning.squares.walk import Run


@dataclass(slots=True, kw_only=True)
class Lot:
    """A run of a stand in a square, and the days it gets; none where ``last`` is before ``first``."""

    stand: Stand
    run: Run
    first: date
    last: date
    left: date | None = None
    """The day by which a record says that it had left: its own, or the start of another stand."""


Shares = Callable[[str, str], bool]


def settle(runs: Iterable[tuple[Stand, Run]], today: date, end: date, shares: Shares) -> list[Lot]:
    """Return the lots of one square. ``end`` is the season's last day, ``shares`` tells of two keys."""
    lots = [Lot(stand=stand, run=run, first=run.first, last=run.first - ONE_DAY) for stand, run in runs]
    rivals = {
        id(lot): [
            other
            for other in lots
            if lot.stand.key != other.stand.key and not shares(lot.stand.key, other.stand.key)
        ]
        for lot in lots
    }
    for lot in lots:
        if _loose(lot):
            _stand_back(lot, rivals[id(lot)])
    for lot in lots:
        _leave_for_start(lot, rivals[id(lot)])
    for lot in lots:
        _begin_after_evidence(lot, rivals[id(lot)])
    until = min(today, end)
    for lot in lots:
        _last_day(lot, rivals[id(lot)], until)
    for lot in lots:
        if _endless(lot):
            _give_way_to_plan(lot, rivals[id(lot)])
    return lots


def until_by_plan(stand: Stand, run: Run) -> date | None:
    """Return the day the plan lets a run go; None where it does not speak of it.

    It does not of a stand it does not know, nor of one started after it was to be gone.
    """
    if stand.planned is None:
        return None
    until = min(stand.planned.until, stand.planned.dropped or stand.planned.until)
    return None if run.start is not None and run.start >= until else until


def _starts(rivals: Iterable[Lot]) -> list[date]:
    return sorted(other.run.start for other in rivals if other.run.start is not None)


def _loose(lot: Lot) -> bool:
    """Return whether only plan and tag put a stand here, while records name others of its squares."""
    return not lot.run.told and any((*lot.stand.own, *lot.stand.picked))


def _stand_back(lot: Lot, rivals: list[Lot]) -> None:
    """Take records by tag alone as no evidence here once another stand is known to be in the square.

    The stand has squares of its own that the records name; its tag is met there.
    """
    run = lot.run
    told = [other for other in rivals if other.run.told]
    there = [days for days in map(_evidence, told) if days is not None]
    taken = [start for start in _starts(told) if start > run.first]
    if any(first <= run.first <= last for first, last in there):
        taken = [run.first]
    if taken:
        run.records = [record for record in run.records if record[0] < taken[0]]
        if run.free is not None and run.free > taken[0]:
            run.free = None


def _leave_for_start(lot: Lot, rivals: list[Lot]) -> None:
    """Let a stand leave on the day of its last record where another starts that day, as when cleared."""
    run = lot.run
    day = run.last_record
    if run.free is None and day is not None and day != run.start and day in _starts(rivals):
        run.records.pop()
        run.free = day


def _evidence(lot: Lot) -> tuple[date, date] | None:
    run = lot.run
    if not run.records:
        return None
    last = run.free - ONE_DAY if run.free is not None else run.records[-1][0]
    return (run.records[0][0], last)


def _begin_after_evidence(lot: Lot, rivals: list[Lot]) -> None:
    """Let what is supposed to begin while another stand is known to be there begin after it.

    Where the stand was planted in other squares by then, it never came here.
    """
    run = lot.run
    known = run.records[0][0] if run.records else run.free
    if known == run.first:
        return
    first = run.first
    for start, last in sorted(filter(None, map(_evidence, rivals))):
        if start <= first <= last:
            first = last + ONE_DAY
    if first == run.first:
        return
    if known is not None:
        lot.first = min(first, known)
    elif lot.stand.begun is not None:
        lot.first = date.max
    else:
        lot.first = first


def _last_day(lot: Lot, rivals: list[Lot], until: date) -> None:
    run = lot.run
    if run.free is not None:
        lot.last, lot.left = run.free - ONE_DAY, run.free
        return
    known = run.last_record or run.first - ONE_DAY
    if run.stray:
        lot.last = known
        return
    if run.again is not None:
        last = run.again - ONE_DAY
    else:
        planned = until_by_plan(lot.stand, run)
        last = planned - ONE_DAY if planned is not None else until
    taken = next((start for start in _starts(rivals) if start > (run.last_record or run.first)), None)
    if taken is not None:
        last, lot.left = min(last, taken - ONE_DAY), taken
    lot.last = max(last, known)


def _endless(lot: Lot) -> bool:
    run = lot.run
    open_end = run.free is None and run.again is None and not run.stray
    return open_end and until_by_plan(lot.stand, run) is None


def _give_way_to_plan(lot: Lot, rivals: list[Lot]) -> None:
    """Let what only silence keeps standing end where the plan has another stand begin."""
    known = lot.run.last_record
    for other in rivals:
        supposed = other.stand.planned is not None and other.run.start is None and not other.run.stray
        if supposed and known is not None and known < other.first <= min(lot.last, other.last):
            lot.last = other.first - ONE_DAY
