"""Planting and harvest windows printed for places, and the windows reckoned for those places.

``tests/data/calendars/printed.csv`` holds dates that others printed, a row a statement, each with its source
and the weight of it: A, extension, government or science; B, the same quoted, or a named expert; C, trade,
magazines and gardeners' records; D, pages without a name. Months are turned into days as
the column ``precision`` says.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from pathlib import Path

from tallybed.garden.crops import Beginning, Crop
from tallybed.garden.days import Span
from tallybed.garden.garden import FreezeDates
from tallybed.garden.records.plan import Start
from tallybed.reading.folder.library import load_library
from tallybed.reckoning.calendar.windows.freeze import nearest_fall
from tallybed.reckoning.calendar.windows.windows import expected, window
from tallybed.reckoning.calendar.windows.winter import CYCLES, is_mild

ROWS = Path(__file__).parents[2] / "data" / "calendars" / "printed.csv"
SLACK = timedelta(days=14)
"""How far a reckoned window may lie from a printed one: the freeze dates of the places are round figures."""

# Average last spring and first fall freeze. Printed: central Iowa (Iowa State University Extension), and the
# spring of Alaska and St. Louis (the calendars themselves). The others are from memory, to about ten days.
PLACES = {
    "Maine": ("05-15", "09-25"),
    "southern Maine": ("05-10", "10-01"),
    "Minnesota": ("05-10", "09-30"),
    "northern Minnesota": ("05-25", "09-15"),
    "southern Minnesota": ("05-05", "10-01"),
    "central Iowa": ("04-28", "10-06"),
    "central Iowa (PM 534)": ("04-28", "10-06"),
    "southern Wisconsin": ("05-05", "10-05"),
    "south-west Missouri": ("04-15", "10-15"),
    "St. Louis, Missouri": ("04-15", "10-25"),
    "south-central Alaska": ("06-01", "09-10"),
    "south-central Alaska (UAF)": ("06-01", "09-10"),
    "western Washington": ("04-01", "11-10"),
    "western Washington (WSU)": ("04-01", "11-10"),
    "UK (south of England presumed)": ("04-10", "11-15"),
    "UK (Guardian)": ("04-10", "11-15"),
    "northern England": ("04-15", "11-17"),
    "Northern Ireland": ("04-10", "11-15"),
    "Melbourne, Victoria": ("09-05", "06-04"),
    "Tasmania": ("09-28", "05-05"),
    "southern New South Wales": ("09-20", "05-10"),
    "Sydney": ("08-20", "06-15"),
    "New Zealand": ("09-20", "05-15"),
    "South Island, New Zealand": ("09-28", "05-05"),
    "Whanganui, New Zealand": ("09-05", "06-01"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """One printed range of days for a crop in a place."""

    crop: str
    place: str
    south: bool
    what: str
    """``sow_indoors``, ``sow_out``, ``set_out`` or ``harvest``."""
    first: date
    last: date
    source: str
    weight: str
    note: str
    begins: tuple[date, date, Start] | None = None
    """Of a harvest: the days and the way it was planted, where the row tells them."""


def season(south: bool) -> Span:
    """Return the season the printed days are laid in."""
    return (
        Span(first=date(2025, 7, 1), last=date(2026, 6, 30))
        if south
        else Span(first=date(2026, 1, 1), last=date(2026, 12, 31))
    )


def freezes(place: str) -> FreezeDates:
    """Return a place's freeze dates."""
    spring, fall = (tuple(map(int, text.split("-"))) for text in PLACES[place])
    return FreezeDates(
        spring=((32, ((50, (spring[0], spring[1])),)),), fall=((32, ((50, (fall[0], fall[1])),)),)
    )


@cache
def printed() -> tuple[Printed, ...]:
    """Return every printed range of the crops that the library has."""
    found = []
    for row in csv.DictReader(ROWS.read_text(encoding="utf-8").splitlines()):
        if row["crop"] not in load_library().crops:
            continue
        span = season(row["hemisphere"] == "S")
        planted = None
        for what in ("sow_indoors", "sow_out", "set_out", "harvest"):
            first, last = row[f"{what}_from"], row[f"{what}_to"]
            if not first and not last:
                continue
            days = _days(first or last, last or first, span)
            if what in ("sow_out", "set_out"):
                planted = (*days, Start.SOW if what == "sow_out" else Start.SET_OUT)
            found.append(
                Printed(
                    crop=row["crop"],
                    place=row["place"],
                    south=row["hemisphere"] == "S",
                    what=what,
                    first=days[0],
                    last=days[1],
                    source=row["source"],
                    weight=row["weight"],
                    note=row["note"],
                    begins=planted if what == "harvest" else None,
                )
            )
    return tuple(found)


def _days(first: str, last: str, span: Span) -> tuple[date, date]:
    """Return two days of a season by month and day; the second may lie in the next year."""
    begin = next(day for year in (2025, 2026) if (day := _day(year, first)) in span)
    end = _day(begin.year, last)
    return begin, end if end >= begin else _day(begin.year + 1, last)


def _day(year: int, text: str) -> date:
    month, number = map(int, text.split("-"))
    return date(year, month, number)


def reckoned(one: Printed) -> list[tuple[date, date]]:
    """Return the ranges of days that are reckoned for what a row prints, in the place's season."""
    crop, dates = load_library().crops[one.crop], freezes(one.place)
    span = season(one.south)
    if one.what == "harvest":
        return _harvests(crop, dates, one)
    start = Start.SOW if one.what == "sow_out" else Start.SET_OUT
    if one.what == "sow_indoors" or crop.start not in (Beginning.SOWN, Beginning.SET_OUT):
        start = Start.SET_OUT
    within = window(crop, dates, span, start=start)
    if one.what == "sow_indoors":
        ends = (within.indoors_first, _back(crop, within.last or within.spring_last))
        winter = []
    else:
        ends = (within.spring_first or within.fall_first, within.last or within.spring_last)
        winter = _before_winter(crop, dates, one.first)
    return [*([(ends[0], max(ends[0], ends[1]))] if ends[0] and ends[1] else []), *winter]


def _back(crop: Crop, day: date | None) -> date | None:
    """Return the last day of sowing indoors for a last day of setting out."""
    indoors = crop.used("weeks indoors")
    return day - timedelta(weeks=float(indoors.low)) if day and indoors and indoors.low is not None else None


def _before_winter(crop: Crop, dates: FreezeDates, near: date) -> list[tuple[date, date]]:
    """Return when the checks let a crop go in before winter."""
    cycle, fall = CYCLES.get(crop.slug), nearest_fall(dates, near)
    weeks = (cycle.mild if is_mild(dates, near) else cycle.cold) if cycle else None
    if not weeks or fall is None:
        return []
    return [(fall.middle + timedelta(days=7 * weeks[0]), fall.middle + timedelta(days=7 * weeks[1]))]


def _harvests(crop: Crop, dates: FreezeDates, one: Printed) -> list[tuple[date, date]]:
    """Return when what was planted on the printed days should be picked."""
    if one.begins is None:
        return []
    first, last, start = one.begins
    ready = [
        expected(
            crop,
            dates,
            Span(first=day - timedelta(days=60), last=day + timedelta(days=304)),
            day,
            start=start,
        )
        for day in (first, last)
    ]
    if ready[0] is None or ready[1] is None:
        return []
    return [(ready[0].first, max(ready[1].last or ready[1].first, ready[0].first))]


def apart(one: Printed) -> int | None:
    """Return by how many days the reckoned ranges miss the printed one; 0: they meet; None: none reckoned."""
    off = [
        max((one.first - last).days + 365 * years, (first - one.last).days - 365 * years, 0)
        for first, last in reckoned(one)
        for years in (-1, 0, 1)
    ]
    return min(off, default=None)
