"""What the columns of a file of daily weather hold: the garden's own headings, and those of public stations.

Public files come in two forms, as the readme and the documentation of the Global Historical Climatology
Network's daily values have them (NOAA National Centers for Environmental Information): one row for each
value (``STATION,20260412,TMIN,-11,,,W,0700``), and one row for each day with a column for each element. In
the first, and in whole files of the second, temperatures are tenths of a degree Celsius and rain tenths of a
millimetre; what was ordered for some days alone comes in degrees Celsius with decimals and millimetres, or in
whole degrees Fahrenheit and inches. No file says which, so its own figures have to.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from tallybed.garden.naming import folded, nearest
from tallybed.garden.records.weather import fahrenheit
from tallybed.garden.units import INCH, MILLIMETRE, Length
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.weather.sheet import SheetLine


class Measure(StrEnum):
    """What is measured; as the garden's own columns are called."""

    LOW = "low"
    HIGH = "high"
    RAIN = "rain"


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherUnits:
    """What a file's figures are in."""

    temperature: Callable[[Fraction], Fraction]
    """From a figure to degrees Fahrenheit."""
    rain: Callable[[Fraction], Length]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column that is read."""

    measure: Measure
    place: int
    """Where it stands, from 0."""
    units: WeatherUnits
    flags: int | None = None
    """Where its flags stand, in a file of a public station."""


DATE = "date"
ELEMENTS = {"TMIN": Measure.LOW, "TMAX": Measure.HIGH, "PRCP": Measure.RAIN}
"""Elements of the public files that are read, of some dozens."""
EXPECTED = "a first row of date with any of low, high and rain, such as date, low F, high F, rain in"
_OTHERS = {
    **dict.fromkeys(("min", "minimum", "lowest", "tmin", "min temp", "temp min", "low temp"), Measure.LOW),
    **dict.fromkeys(("max", "maximum", "highest", "tmax", "max temp", "temp max", "high temp"), Measure.HIGH),
    **dict.fromkeys(("precipitation", "precip", "prcp", "rainfall", "water"), Measure.RAIN),
    "day": DATE,
}
"""Other words for the headings, each with the one that is read."""
_UNIT = r"(?:[\s(\[,°]+(?P<unit>fahrenheit|celsius|inches|inch|in|mm|cm|f|c)[)\]]?)?"
_HEADING = re.compile(rf"(?P<name>[a-z ]+?){_UNIT}")
_WARMEST_TENTHS = 140
"""Above this no figure is degrees Fahrenheit: none above 134 °F was ever measured (World Meteorological
Organization, Archive of Weather and Climate Extremes; from memory)."""


def _in_fahrenheit(value: Fraction) -> Fraction:
    return value


def _tenths_of_celsius(value: Fraction) -> Fraction:
    return fahrenheit(value / 10)


def _inches(value: Fraction) -> Length:
    return Length.of(value, INCH)


def _millimetres(value: Fraction) -> Length:
    return Length.of(value, MILLIMETRE)


def _tenths_of_millimetre(value: Fraction) -> Length:
    return Length.of(value / 10, MILLIMETRE)


CUSTOMARY = WeatherUnits(temperature=_in_fahrenheit, rain=_inches)
METRIC = WeatherUnits(temperature=fahrenheit, rain=_millimetres)
TENTHS = WeatherUnits(temperature=_tenths_of_celsius, rain=_tenths_of_millimetre)


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnColumns:
    """What the headings of a file of the garden's own say; places count columns from 0."""

    date: int | None
    """None where there is none."""
    columns: tuple[Column, ...]
    wrong: tuple[Misread, ...]
    """What was wrong with a heading, each with its place as ``part``."""
    unread: tuple[int, ...]
    """Where columns stand that hold something else."""


def own_columns(first: SheetLine, *, metric: bool) -> OwnColumns:
    """Return what the headings of a file of the garden's own say.

    One without its unit is in the garden's: ``metric``, degrees Celsius and millimetres, else
    degrees Fahrenheit and inches. Raises Misread where the date, or every measure, has no column.
    """
    found: dict[str, int] = {}
    columns: list[Column] = []
    wrong: list[Misread] = []
    unread: list[int] = []
    for place, heading in enumerate(first.cells):
        match = _HEADING.fullmatch(folded(heading))
        name, unit = (match["name"].strip(), match["unit"] or "") if match else (folded(heading), "")
        close = _OTHERS.get(name) or nearest(name, (DATE, *Measure))
        if name in found:
            text = f"the heading {quoted(heading)} stands there twice"
            wrong.append(Misread("weather-heading", text, part=place))
        elif name == DATE:
            found[name] = place
        elif name in tuple(Measure):
            found[name] = place
            units = _units(unit, METRIC if metric else CUSTOMARY, rain=name == Measure.RAIN)
            if units is None:
                text = f"the heading {quoted(heading)} has a unit that {name} is not told in"
                one = "rain in or rain mm" if name == Measure.RAIN else f"{name} F or {name} C"
                wrong.append(Misread("weather-heading", text, one, part=place))
            else:
                columns.append(Column(measure=Measure(name), place=place, units=units))
        elif close:
            text = f"the heading {quoted(heading)} is not one that is read"
            wrong.append(Misread("weather-heading", text, nearest=close, part=place))
        elif heading:
            unread.append(place)
    if wrong or (DATE in found and columns):
        return OwnColumns(
            date=found.get(DATE), columns=tuple(columns), wrong=tuple(wrong), unread=tuple(unread)
        )
    missing = "a date" if DATE not in found else "low, high or rain"
    raise Misread("weather-heading", f"the first row has no column for {missing}", EXPECTED)


_OF_TEMPERATURE = {"f": CUSTOMARY, "fahrenheit": CUSTOMARY, "c": METRIC, "celsius": METRIC}
_OF_RAIN = {"in": CUSTOMARY, "inch": CUSTOMARY, "inches": CUSTOMARY, "mm": METRIC}


def _units(unit: str, usual: WeatherUnits, *, rain: bool) -> WeatherUnits | None:
    """Return the units a heading tells, or the garden's; None where it tells one of another measure."""
    return (_OF_RAIN if rain else _OF_TEMPERATURE).get(unit) if unit else usual


def is_of_a_station(first: SheetLine) -> bool:
    """Return whether the first row is that of a public file with one row a day."""
    names = _upper(first)
    return "STATION" in names and "DATE" in names


def is_by_value(first: SheetLine) -> bool:
    """Return whether the first row, headings or not, is that of a public file with one row a value."""
    names = _upper(first)
    headed = names[:3] == ("ID", "DATE", "ELEMENT")
    bare = len(names) > 3 and re.fullmatch(r"[0-9]{8}", names[1]) and re.fullmatch(r"[A-Z0-9]{4}", names[2])
    return headed or bool(bare)


def station_columns(first: SheetLine, rows: Iterable[SheetLine]) -> tuple[Column, ...]:
    """Return the columns of a public file with one row a day.

    Raises Misread where it has none of the elements, or its figures do not tell what they are in.
    """
    names = _upper(first)
    there = {name: names.index(name) for name in ELEMENTS if name in names}
    if not there:
        elements = listed(ELEMENTS)
        raise Misread("weather-heading", "the file has no column of an element that is read", elements)
    units = _station_units(names, there, rows)
    return tuple(
        Column(
            measure=ELEMENTS[name],
            place=place,
            units=units,
            flags=names.index(f"{name}_ATTRIBUTES") if f"{name}_ATTRIBUTES" in names else None,
        )
        for name, place in there.items()
    )


def _station_units(names: Sequence[str], there: Mapping[str, int], rows: Iterable[SheetLine]) -> WeatherUnits:
    """Return what the figures of a public file are in, by the figures themselves. Raises Misread.

    Whole files say where the station lies, and have no decimal point. What was ordered in inches has
    decimals of rain beside whole degrees; in millimetres the degrees have them too.
    """
    figures: dict[str, list[str]] = {name: [] for name in there}
    for row in rows:
        for name, place in there.items():
            figures[name].append(row.cell(place))
    warm = [text for name in ("TMIN", "TMAX") for text in figures.get(name, ()) if text]
    if any("." in text for text in warm):
        return METRIC
    if any("." in text for text in figures.get("PRCP", ())) or "LATITUDE" not in names:
        return CUSTOMARY
    numbers = [int(text) for text in warm if re.fullmatch(r"-?[0-9]{1,4}", text)]
    if any(figures.get("PRCP", ())) or max(numbers, default=0) > _WARMEST_TENTHS:
        return TENTHS
    raise Misread(
        "weather-unit",
        "nothing tells what these temperatures are in",
        "tenths of a degree Celsius, or degrees Fahrenheit",
        remedy="keep the columns DATE, TMIN and TMAX, and call them date, low F and high F (or C)",
    )


def _upper(first: SheetLine) -> tuple[str, ...]:
    return tuple(cell.upper() for cell in first.cells)
