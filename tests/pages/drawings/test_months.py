"""Lists of a season's months: what they say of a month is what its map shows."""

from __future__ import annotations

from datetime import date

from tallybed.garden.days import ONE_DAY, Span
from tallybed.garden.garden import Garden, Season
from tallybed.pages.drawings.months import bed_months
from tallybed.reckoning.beds import months_of
from tallybed.reckoning.calendar.month_state import MonthState
from tallybed.reckoning.year import Years
from tests.reckoning.byhand import BEDS

SPAN = Span(first=date(2026, 4, 15), last=date(2026, 10, 15))


def test_lists_and_maps_say_the_same_on_every_day() -> None:
    """Fails where a list has a month under way that its map shows as recorded."""
    garden = Garden(name="g", beds=BEDS, seasons=(Season(name="2026", span=SPAN),))
    told = set()
    for day in (SPAN.first - ONE_DAY, SPAN.first, date(2026, 4, 30), SPAN.last - ONE_DAY, SPAN.last):
        (year,) = Years(garden=garden, today=day).all
        for bed in garden.beds:
            listed = [one.state for one in bed_months(year, bed).months]
            assert listed == [month.kind for month in months_of(year, bed)], day
            told |= set(listed)
    assert told == set(MonthState)
