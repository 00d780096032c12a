"""What a season's year says to a planting of one day: the freezes of its own growing time, and its window."""

from __future__ import annotations

from datetime import date
from functools import partial

from tallybed.garden.crops import Crop
from tallybed.garden.days import Span
from tallybed.garden.records.plan import Start
from tallybed.reckoning.calendar.windows.freeze import Freeze, first_fall, growing_span, last_spring
from tallybed.reckoning.calendar.windows.windows import Window, window
from tallybed.reckoning.year import Year


def freezes_for(year: Year, day: date) -> tuple[Freeze | None, Freeze | None]:
    """Return spring and fall freeze, at 32 °F, of the growing time that what begins on a day is for."""
    dates = year.garden.freezes
    span = growing_span(dates, year.season.span, day)
    return last_spring(dates, span), first_fall(dates, span)


def growing_times(year: Year) -> tuple[Span, ...]:
    """Return the season's days between the freezes, in order: two stretches where it holds parts of two.

    So a calendar year south of the equator begins in one summer and ends in the next. Where a garden
    tells one of the two freezes alone, or none, the season's own bounds stand for the others.
    """
    season, own = year.season.span, (year.spring, year.fall)
    found = {own, freezes_for(year, season.first), freezes_for(year, season.last)} if all(own) else {own}
    bounds = {
        (
            max(season.first, spring.middle) if spring else season.first,
            min(season.last, fall.middle) if fall else season.last,
        )
        for spring, fall in found
    }
    return tuple(Span(first=first, last=last) for first, last in sorted(bounds) if first <= last)


def window_for(
    year: Year,
    crop: Crop,
    day: date,
    *,
    variety: str = "",
    start: Start | None = None,
    indoors: date | None = None,
) -> Window:
    """Return when a crop can go in, in the growing time that one begun on a day is for.

    ``start`` None: as the crop usually does. ``indoors``: the day that one was sown indoors.
    """
    raised = (day - indoors).days if indoors else None
    dates = year.garden.freezes
    span = growing_span(dates, year.season.span, day)
    work = partial(window, crop, dates, span, variety=variety, start=start, raised=raised)
    return year.kept(("window for", crop.slug, variety, start, raised, span), work)
