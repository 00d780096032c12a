"""The week's jobs on the first page: the plan's, what is to be expected besides, and what is late."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tallybed.garden.records.log import Verb
from tallybed.pages.care.notices import concerning, longest
from tallybed.pages.frame.page import Link
from tallybed.pages.frame.waits_shown import open_notices
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import NOTHING_DUE, Day, days_words, plain_day
from tallybed.reckoning.calendar.ahead import HARVEST, ahead
from tallybed.reckoning.calendar.due import AHEAD, Due, coming
from tallybed.reckoning.year import Year

_WHAT = {HARVEST: "first harvest of"}
"""Jobs that are called otherwise on the page than in the log."""
_BY_LOG = frozenset({Verb.THIN.value, HARVEST})
"""What follows from the log, not from the plan."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DueItem:
    """One job that falls due."""

    day: Day
    what: str
    crop: Link
    squares: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekAhead:
    """The week ahead."""

    days: str
    items: tuple[DueItem, ...]
    """The plan's jobs of today and the seven days after it."""
    after: tuple[DueItem, ...]
    """Where these days have none: the jobs of the next day that has any."""
    nothing: str
    expected: tuple[DueItem, ...]
    """Thinning and first harvests of these days, by what the log saw."""
    late: tuple[DueItem, ...]
    """What has its day behind it, and no record that it was done."""


def week_ahead(year: Year) -> WeekAhead:
    """Return today and the week after it. The plan's jobs are those that the bulletin of the week names."""
    first, last = year.today, year.today + AHEAD
    jobs = coming(year.season, year.today, year.holding.order)
    found = ahead(year.garden, year.season, year.holding, first, last)
    soon = [one for one in jobs if one.day <= last]
    return WeekAhead(
        days=days_words(first, last),
        items=_items(year, soon),
        after=() if soon else _items(year, jobs),
        nothing="" if soon or found else NOTHING_DUE,
        expected=_items(year, (one for one in found if one.verb in _BY_LOG and not one.overdue)),
        late=_items(year, (one for one in found if one.overdue)),
    )


def _items(year: Year, jobs: Iterable[Due]) -> tuple[DueItem, ...]:
    """Return jobs as the page shows them."""
    return tuple(_item(year, one) for one in jobs)


def _item(year: Year, one: Due) -> DueItem:
    """Return one job as the page shows it, with what waits in its squares."""
    years = year.years
    waiting = longest(concerning(open_notices(years), one.squares, one.planting))
    note = " ".join(filter(None, [one.note, *(notice.plain for notice in waiting)]))
    return DueItem(
        day=plain_day(one.day),
        what=_WHAT.get(one.verb, one.verb),
        crop=names.named(year.garden, one.crop, many=True),
        squares=names.place_words(year.garden, one.squares),
        note=note,
    )
