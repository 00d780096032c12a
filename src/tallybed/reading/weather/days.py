"""A season's weather from its file: each row or value is read, and told where it cannot be."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction
from itertools import chain, islice

from tallybed.garden.days import in_full
from tallybed.garden.findings import Place, Severity, has_errors
from tallybed.garden.records.weather import Weather, WeatherDay
from tallybed.garden.units import INCH, Length
from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.text.dates import with_year
from tallybed.reading.weather.columns import (
    DATE,
    ELEMENTS,
    EXPECTED,
    TENTHS,
    Column,
    Measure,
    is_by_value,
    is_of_a_station,
    own_columns,
    station_columns,
)
from tallybed.reading.weather.sheet import SheetLine, sheet_lines

COLDEST, WARMEST, WETTEST = -130, 135, Length.of(72, INCH)
"""What no station on Earth passed: −128.6 °F, 134 °F, and 71.8 in of rain in a day (World Meteorological
Organization, Archive of Weather and Climate Extremes; from memory)."""
_NUMBER = re.compile(r"[-−+]?[0-9]{1,5}([.,][0-9]{1,4})?")
_MISSING = frozenset({"", "-", "-9999", "NA", "M"})
_TRACE = "T"
"""How a public file, and many a notebook, writes rain that was too little to measure."""


@dataclass(slots=True)
class _Day:
    """What was found of one day so far."""

    place: Place
    told: dict[Measure, Fraction | Length] = field(default_factory=dict)


class _Reading:
    """One file being read."""

    def __init__(self, context: Context) -> None:
        self.context = context
        self._before = len(context.problems)
        self.days: dict[date, _Day] = {}
        self.stations: list[str] = []

    def take(self, day: date, row: SheetLine, column: Column, flags: str = "") -> None:
        """Take one cell of a day's row. What cannot be read is told."""
        if day not in self.context.span:
            return
        here = self.days.setdefault(day, _Day(row.place()))
        text = row.cell(column.place)
        measured, quality = (*flags.split(","), "", "")[:2]
        if text.upper() in _MISSING or quality.strip():
            return
        try:
            here.told[column.measure] = _value(column, text, trace=measured.strip() == _TRACE)
        except Misread as misread:
            self.context.problems.misread(row.place(column.place), misread)

    def of_station(self, row: SheetLine, place: int) -> None:
        """Take note of the station that a row names; a second one is told, since one bed has one weather."""
        name = row.cell(place)
        if name and name not in self.stations:
            self.stations.append(name)
            if len(self.stations) == 2:
                both = listed(map(quoted, self.stations), "and")
                found = f"the file has rows of two stations, {both}"
                misread = Misread("two-stations", found, remedy="keep the rows of the nearer one")
                self.context.problems.misread(row.place(place), misread)

    def weather(self, station: str, file: str) -> Weather:
        """Return what was read, day by day."""
        days = []
        for day, one in sorted(self.days.items()):
            low, high, rain = (one.told.get(measure) for measure in Measure)
            if isinstance(low, Fraction) and isinstance(high, Fraction) and low > high:
                found = f"the low of {in_full(day)} is above its high"
                misread = Misread("low-above-high", found, remedy="correct one of them, or leave it empty")
                self.context.problems.misread(one.place, misread)
                continue
            if one.told:
                days.append(
                    WeatherDay(
                        day=day,
                        low=low if isinstance(low, Fraction) else None,
                        high=high if isinstance(high, Fraction) else None,
                        rain=rain if isinstance(rain, Length) else None,
                        place=one.place,
                    )
                )
        if not self.days and not has_errors(self.context.problems.since(self._before)):
            span = self.context.span
            self.context.problems.add(
                Place(file),
                "weather-elsewhen",
                "the file tells the weather of no day of this season",
                expected=f"days from {in_full(span.first)} to {in_full(span.last)}",
                severity=Severity.WARNING,
            )
        return Weather(station=station, days=tuple(days))


def weather(text: str, file: str, context: Context) -> Weather | None:
    """Return a season's weather from a text that holds anything; None where it is not understood at all."""
    reading = _Reading(context)
    try:
        rows = sheet_lines(text, file)
        first = next(rows, None)
        if first is None:
            raise Misread("weather-heading", "no row holds anything", EXPECTED)
        if is_by_value(first):
            named = _by_value(reading, chain([first], rows))
        elif is_of_a_station(first):
            named = _by_day(reading, first, station_columns(first, rows), text)
        else:
            named = _own(reading, first, rows)
    except Misread as misread:
        context.problems.misread(_at(misread, file, text), misread)
        return None
    return reading.weather(named, file)


def _at(misread: Misread, file: str, text: str) -> Place:
    """Return where something stands that makes the whole file unreadable: in its first row."""
    first = next(iter(sheet_lines(text.split("\n", 1)[0], file)), None) if misread.part else None
    return first.place(misread.part) if first else Place(file)


def _own(reading: _Reading, first: SheetLine, rows: Iterable[SheetLine]) -> str:
    """Take the rows of a file with the garden's own columns. Raises Misread."""
    problems, found = reading.context.problems, own_columns(first, metric=reading.context.metric)
    for misread in found.wrong:
        problems.misread(first.place(misread.part), misread)
    for place in found.unread:
        words = f"the column {quoted(first.cell(place))} is not read"
        expected = listed((DATE, *Measure))
        severity = Severity.ADVICE
        problems.add(first.place(place), "weather-heading", words, expected=expected, severity=severity)
    dated = found.date
    if dated is None:
        return ""
    seen: set[date] = set()
    for row in rows:
        try:
            day = with_year(row.cell(dated))
        except Misread as misread:
            problems.misread(row.place(dated), misread)
            continue
        if day in seen:
            twice = f"the day {in_full(day)} stands there twice"
            problems.misread(row.place(dated), Misread("weather-day-twice", twice, "one row a day"))
            continue
        seen.add(day)
        for column in found.columns:
            reading.take(day, row, column)
    return ""


def _by_day(reading: _Reading, first: SheetLine, columns: Iterable[Column], text: str) -> str:
    """Take the rows of a public file with one row a day; return the station's name."""
    names = [cell.upper() for cell in first.cells]
    columns = tuple(columns)
    dated, station = names.index("DATE"), names.index("STATION")
    called = names.index("NAME") if "NAME" in names else station
    named = ""
    for row in islice(sheet_lines(text, first.file), 1, None):
        day = _day(reading, row, dated)
        if day is None:
            continue
        reading.of_station(row, station)
        named = named or row.cell(called) or row.cell(station)
        for column in columns:
            flags = row.cell(column.flags) if column.flags is not None else ""
            reading.take(day, row, column, flags)
    return named


def _by_value(reading: _Reading, rows: Iterable[SheetLine]) -> str:
    """Take the rows of a public file with one row a value; return the station's name."""
    for row in rows:
        if row.cell(0).upper() == "ID":
            continue
        day = _day(reading, row, 1)
        measure = ELEMENTS.get(row.cell(2).upper())
        if day is None or measure is None:
            continue
        reading.of_station(row, 0)
        column = Column(measure=measure, place=3, units=TENTHS)
        reading.take(day, row, column, f"{row.cell(4)},{row.cell(5)}")
    return next(iter(reading.stations), "")


def _day(reading: _Reading, row: SheetLine, place: int) -> date | None:
    """Return the day of a row of a public file, or None after telling why it cannot be read."""
    text = row.cell(place)
    if re.fullmatch(r"[0-9]{8}", text):
        text = f"{text[:4]}-{text[4:6]}-{text[6:]}"
    try:
        return with_year(text)
    except Misread as misread:
        reading.context.problems.misread(row.place(place), misread)
        return None


def _value(column: Column, text: str, *, trace: bool) -> Fraction | Length:
    """Return a cell's value: degrees Fahrenheit, or a depth of rain. Raises Misread."""
    rain = column.measure is Measure.RAIN
    if rain and (trace or text.upper() in (_TRACE, "TRACE")):
        return Length()
    if not _NUMBER.fullmatch(text):
        raise Misread(
            "weather-value",
            f"the {column.measure} {quoted(text)} cannot be read",
            "a number alone, or nothing where it was not measured",
        )
    number = Fraction(text.replace("−", "-").replace(",", "."))
    if rain:
        fallen = column.units.rain(number)
        if not Length() <= fallen <= WETTEST:
            raise _out_of_bounds(column.measure, text, "from 0 to 72 in")
        return fallen
    degrees = column.units.temperature(number)
    if not COLDEST <= degrees <= WARMEST:
        raise _out_of_bounds(column.measure, text, f"from {COLDEST} to {WARMEST} °F".replace("-", "−"))
    return degrees


def _out_of_bounds(measure: Measure, text: str, expected: str) -> Misread:
    return Misread(
        "weather-value",
        f"the {measure} {quoted(text)} is out of bounds",
        expected,
        remedy="correct it; or say in its heading what it is in, as in low F, low C, rain in or rain mm",
    )
