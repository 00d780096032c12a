"""The days that print advises for a crop here: spans of days for its drawing, and the same in a line."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, timedelta

from tallybed.drawing.crops.printed_days import PrintedDays
from tallybed.garden.crops import Beginning, Crop
from tallybed.garden.days import Span, without_year
from tallybed.pages.care.growing import ready_from, spring_here, usual_window
from tallybed.pages.wording.sentences import days_words
from tallybed.reckoning.calendar.stages import Stage
from tallybed.reckoning.calendar.windows.windows import Window
from tallybed.reckoning.year import Year

_GOES_IN = {Beginning.SOWN: "sow", Beginning.SET_OUT: "set out"}
"""What is done at the beginning; everything else is planted."""


def advised(year: Year, crop: Crop) -> tuple[PrintedDays, ...]:
    """Return the printed days of a crop on the garden's own freeze dates, in the season's year."""
    found = usual_window(year, crop)
    return tuple(_days(year, crop, found))


def _days(year: Year, crop: Crop, found: Window) -> Iterator[PrintedDays]:
    """Yield what is advised, in the order of the work."""
    verb = _GOES_IN.get(crop.start or Beginning.SOWN, "plant")
    sown = crop.start is Beginning.SOWN
    sign = Stage.SOWN if sown else Stage.GROWING
    first, last = _spring(year, crop, found)
    yield from _span("sow indoors", Stage.SOWN, found.indoors_first, found.indoors_last)
    yield from _span(verb, sign, first, last)
    if found.fall_first:
        yield from _span(f"{verb} for fall", sign, found.fall_first, found.fall_last)
    elif found.last and (last is None or found.last > last or spring_here(year) != year.spring):
        yield from _span("at the latest", sign, found.last, found.last, said=f"{verb} at the latest")
    yield from _span(f"{verb} before winter", sign, found.winter_first, found.winter_last)
    begins = (first, last) if first else (found.fall_first, found.fall_last)
    ready = [day for day in (ready_from(year, crop, one) for one in begins) if day]
    if ready:
        yield from _span("first picking", Stage.BEARING, min(ready), max(ready))
    elif found.winter_ready:
        yield from _span("picking", Stage.BEARING, *found.winter_ready)


def _spring(year: Year, crop: Crop, found: Window) -> tuple[date | None, date | None]:
    """Return the spring window; of a tender crop from the day of an even chance of a freeze on."""
    first, last = found.spring_first, found.spring_last
    spring = spring_here(year)
    if first and crop.is_tender and spring:
        first = max(first, spring.middle)
        last = max(last or first, first)
    return first, last


def _span(
    words: str, sign: Stage, first: date | None, last: date | None, *, said: str = ""
) -> Iterator[PrintedDays]:
    """Yield a span of days, where one of its ends at least is known; ``said``: other words for a sentence."""
    first, last = first or last, last or first
    if first is None or last is None:
        return
    told = without_year(first) if first == last else days_words(min(first, last), max(first, last))
    yield PrintedDays(
        words=words, sign=sign, first=min(first, last), last=max(first, last), told=f"{said or words} {told}"
    )


def on_axis(days: Iterable[PrintedDays], span: Span) -> tuple[PrintedDays, ...]:
    """Return printed days with those after the axis moved back a year.

    What stands over winter is picked in the same months of every year.
    """
    found = []
    for one in days:
        years = 1 if one.first > span.last else 0
        found.append(replace(one, first=moved(one.first, -years), last=moved(one.last, -years)))
    return tuple(found)


def moved(day: date, years: int) -> date:
    """Return the same day so many years later; 29 February is 1 March where there is none."""
    try:
        return day.replace(year=day.year + years)
    except ValueError:
        return day.replace(year=day.year + years, day=28) + timedelta(days=1)
