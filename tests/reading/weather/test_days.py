"""Files of daily weather, read: the garden's own columns, and the forms in which public stations come.

The public forms and their units are those of the Global Historical Climatology Network, daily (NOAA National
Centers for Environmental Information): the readme of its yearly files, and its access files as they lie in
tests of public programs. The conversions are NIST Special Publication 811, appendix B.8.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from tallybed.garden.days import Span
from tallybed.garden.findings import worded
from tallybed.garden.records.weather import Weather, WeatherDay
from tallybed.garden.units import INCH, MILLIMETRE, Length
from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import Problems
from tallybed.reading.weather.days import weather
from tallybed.reading.weather.sheet import sheet_lines

FILE = "content/2024/weather.csv"
SPAN = Span(first=date(2024, 3, 1), last=date(2024, 11, 30))
WHOLE = '"STATION","DATE","LATITUDE","LONGITUDE","ELEVATION","NAME",'
NAMED = '"XX000000001","{day}","39.6","-83.1","248.0","WATER WORKS, XX",'


def read(text: str, *, metric: bool = False) -> tuple[Weather | None, list[str]]:
    problems = Problems()
    found = weather(text, FILE, Context(problems=problems, metric=metric, span=SPAN))
    return found, [worded(one) for one in problems.all()]


def days(text: str, *, metric: bool = False) -> tuple[WeatherDay, ...]:
    found, told = read(text, metric=metric)
    assert told == []
    assert found is not None
    return found.days


def test_whole_files_of_a_station_hold_tenths() -> None:
    """An access file's row of 15 July 2024: TMAX 356, TMIN 228, PRCP 0 is 35.6 °C, 22.8 °C, 0.0 mm."""
    heads = '"PRCP","PRCP_ATTRIBUTES","TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES"\n'
    row = NAMED.format(day="2024-07-15") + '"0",",,W","356",",,W","228",",,W"\n'
    (one,) = days(WHOLE + heads + row)
    assert one.day == date(2024, 7, 15)
    assert one.high == Fraction("35.6") * Fraction(9, 5) + 32
    assert one.low == Fraction("22.8") * Fraction(9, 5) + 32
    assert one.rain == Length()
    found, _told = read(WHOLE + heads + row)
    assert found is not None
    assert found.station == "WATER WORKS, XX", "its name holds a comma"


def test_one_row_a_value_holds_tenths() -> None:
    """Of the readme: PRCP 254 is 25.4 mm, 1.000 in; TMAX 350 is 95.0 °F; TMIN -50 is 23.0 °F."""
    rows = (
        "XX000000001,20240412,TMAX,350,,,W,0700\n"
        "XX000000001,20240412,TMIN,-50,,,W,0700\n"
        "XX000000001,20240412,PRCP,254,,,W,0700\n"
        "XX000000001,20240412,SNWD,0,,,W,0700\n"
    )
    for text in (rows, "ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n" + rows):
        (one,) = days(text)
        assert (one.high, one.low, one.rain) == (95, 23, Length.of(1, INCH))


@pytest.mark.parametrize(
    ("rows", "low", "rain"),
    [
        # Flags, of the readme: T a trace, counted as nothing; any letter of quality means that a test failed.
        ("XX000000001,20240412,TMIN,-11,,,W,\nXX000000001,20240412,PRCP,0,T,,W,\n", "30.02", 0),
        ("XX000000001,20240412,TMIN,-11,,I,W,\nXX000000001,20240412,PRCP,5,,,W,\n", None, 5),
        # Missing, as in its files of fixed width.
        ("XX000000001,20240412,TMIN,-9999,,,,\nXX000000001,20240412,PRCP,5,,,W,\n", None, 5),
    ],
)
def test_flags_and_what_is_missing(rows: str, low: str | None, rain: int) -> None:
    (one,) = days(rows)
    assert one.low == (None if low is None else Fraction(low))
    assert one.rain == Length.of(Fraction(rain, 10), MILLIMETRE)


@pytest.mark.parametrize(
    ("heads", "row", "low", "high", "rain"),
    [
        # As a small table of a station is ordered for some days: whole degrees Fahrenheit, and no place.
        ("STATION,NAME,DATE,TMAX,TMIN", "XX1,HERE,2024-04-12,36,15", "15", "36", None),
        # Ordered with its place, in inches and in millimetres.
        ("STATION,DATE,LATITUDE,TMAX,TMIN,PRCP", "XX1,2024-04-12,40,55,31,0.25", "31", "55", "6.35"),
        ("STATION,DATE,LATITUDE,TMAX,TMIN,PRCP", "XX1,2024-04-12,40,8.3,-1.1,6.4", "30.02", "46.94", "6.4"),
        # Whole, and too cold for any but tenths to be told by the warmest: rain without a point tells it.
        ("STATION,DATE,LATITUDE,TMAX,TMIN,PRCP", "XX1,2024-04-12,40,83,-11,64", "30.02", "46.94", "6.4"),
        ("STATION,DATE,LATITUDE,TMAX,TMIN", "XX1,2024-07-12,40,356,228", "73.04", "96.08", None),
    ],
)
def test_figures_tell_what_they_are_in(heads: str, row: str, low: str, high: str, rain: str | None) -> None:
    """No public file says it, and one read in the wrong unit puts a freeze into July."""
    (one,) = days(f"{heads}\n{row}\n")
    assert (one.low, one.high) == (Fraction(low), Fraction(high))
    assert one.rain == (None if rain is None else Length.of(Fraction(rain), MILLIMETRE))


@pytest.mark.parametrize(
    ("heads", "row", "metric", "low", "rain"),
    [
        ("date,low,rain", "2024-04-12,31,0.5", False, "31", "12.7"),
        ("date,low,rain", "2024-04-12,-0.5,12.7", True, "31.1", "12.7"),
        ("Date;low °C;Rain (mm)", "Apr 12 2024;-0,5;12,7", False, "31.1", "12.7"),
        ("date\tlow (F)\train in", "2024-04-12\t31\tT", True, "31", "0"),
        ("rain mm,low F,date", "trace,31,2024-04-12", False, "31", "0"),
        ("date,low F,rain in", "2024-04-12,,0.5", False, None, "12.7"),
    ],
)
def test_own_columns(heads: str, row: str, metric: bool, low: str | None, rain: str) -> None:
    (one,) = days(f"{heads}\n{row}\n", metric=metric)
    assert one.low == (None if low is None else Fraction(low))
    assert one.rain == Length.of(Fraction(rain), MILLIMETRE)


def test_days_of_other_seasons_are_passed_over_and_the_rest_is_in_order() -> None:
    """A station's file holds whole years."""
    text = "date,low F\n2024-11-30,20\n2024-02-29,9\n2024-03-01,25\n2024-12-01,10\n"
    assert [one.day for one in days(text)] == [date(2024, 3, 1), date(2024, 11, 30)]


def test_a_day_with_nothing_measured_is_no_day() -> None:
    assert [one.day.day for one in days("date,low F,high F\n2024-04-12,,\n2024-04-13,31,\n")] == [13]


def test_cells_know_where_they_stand() -> None:
    """Else a slip in the third column is looked for in the first."""
    first, second = sheet_lines('a, "b",1,1\n"x, y",11,,1\n', FILE)
    assert [first.place(cell).column for cell in range(4)] == [1, 5, 8, 10]
    assert second.cells == ("x, y", "11", "", "1")
    assert [second.place(cell).column for cell in range(4)] == [2, 8, 11, 12]
    assert (second.place().line, second.place(9).line) == (2, 2)


@pytest.mark.parametrize("text", [",,\n", " ; \n", "\n\n,\n"])
def test_a_table_of_separators_alone(text: str) -> None:
    found, told = read(text)
    assert found is None
    assert "no row holds anything" in told[0]


def test_every_finding_of_a_file_is_told_at_once() -> None:
    _found, told = read("date,low F,high F\n2024-04-12,x,y\n2024-04-99,1,2\n2024-04-14,60,40\n")
    assert [line.split(":")[1] for line in told] == ["2", "2", "3", "4"]
