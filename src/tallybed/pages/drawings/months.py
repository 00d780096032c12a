"""Lists of a season's months, each leading to a bed's page."""

from __future__ import annotations

from dataclasses import dataclass

from tallybed.garden.days import Month
from tallybed.garden.squares import Bed
from tallybed.pages.frame import addresses
from tallybed.pages.wording.dated import month_name
from tallybed.reckoning.calendar.month_state import MonthState, month_state
from tallybed.reckoning.year import Year

STATE_WORDS = {MonthState.RECORDED: "", MonthState.RUNNING: "under way", MonthState.PLANNED: "planned"}
"""What is said beside a month of each state; most months say nothing."""
TO_COME = "to come"
"""What is said of a month to come in a season that has no plan."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthItem:
    """One month of one bed in a list."""

    name: str
    """``May``; with its year outside the season's first."""
    to: str
    state: MonthState
    said: str
    here: bool = False
    """Whether it is the page the list stands on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BedMonths:
    """A bed and its months."""

    title: str
    to: str
    months: tuple[MonthItem, ...]


def bed_months(year: Year, bed: Bed, here: Month | None = None) -> BedMonths:
    """Return a bed's months in a season; ``here`` is the one whose page it is."""
    items = []
    for month in year.season.span.months:
        state = month_state(year.season.span, month, year.today)
        items.append(
            MonthItem(
                name=month_name(year, month),
                to=addresses.bed_month(year, bed, month),
                state=state,
                said=TO_COME
                if state is MonthState.PLANNED and year.season.plan is None
                else STATE_WORDS[state],
                here=month == here,
            )
        )
    return BedMonths(title=bed.title, to=addresses.bed(year, bed), months=tuple(items))


def shown_month(year: Year) -> Month:
    """Return the season's month to show first: the one with today, else its first or last."""
    months = year.season.span.months
    now = Month.of(year.today)
    return min(max(now, months[0]), months[-1])
