"""Tables of a season for reuse: what a column is, and how a record becomes a row.

Each table has a module beside this one. A column is one row there, with the function of the record that
gives its value.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction
from typing import Any, Generic, TypeVar

from tallybed.garden.garden import Garden
from tallybed.garden.naming import CropName
from tallybed.garden.units import GRAM, MILLIMETRE, POUND, Length, Unit, Weight, rounded
from tallybed.pages.frame.addresses import planting_name
from tallybed.pages.wording import names
from tallybed.reckoning.plantings.plantings import Planting

SEVERAL = "; "
"""Stands between several values in one cell."""
GRAM_PLACES, POUND_PLACES = 3, 6
"""Decimals that keep a weight exact to a milligram: 0.000001 lb is 0.45 mg."""

_Record = TypeVar("_Record")
Value = str | int | bool | Decimal | date | None


class ColumnType(StrEnum):
    """Types of the Table Schema specification (Data Package 1.0, Table Schema, Types and Formats)."""

    STRING = "string"
    INTEGER = "integer"
    NUMBER = "number"
    BOOLEAN = "boolean"
    DATE = "date"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column(Generic[_Record]):
    """A column: its name in the files, what is in it, and what a record has there."""

    name: str
    kind: ColumnType
    meaning: str
    value: Callable[[_Record], Value]
    """What a record has in it, of the column's type; None, or an empty text, where nothing was told."""
    unit: str = ""
    required: bool = False
    unique: bool = False
    choices: tuple[str, ...] = ()
    below_zero: bool = False
    """Whether a number of it may be below zero."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dataset:
    """One table of a season."""

    name: str
    title: str
    meaning: str
    key: str | tuple[str, ...]
    """The column, or the columns together, that tell its rows apart."""
    columns: tuple[Column[Any], ...]
    """Whatever records they are of."""
    rows: tuple[tuple[Value, ...], ...]
    """As many values as columns; None where nothing was told."""


def rows_of(
    columns: tuple[Column[_Record], ...], records: Iterable[_Record]
) -> tuple[tuple[Value, ...], ...]:
    """Return the row of each record; what nobody told is None in it, never an empty text."""
    return tuple(
        tuple(None if (value := column.value(one)) == "" else value for column in columns) for one in records
    )


def text(
    name: str,
    meaning: str,
    value: Callable[[_Record], str | None],
    *,
    required: bool = False,
    unique: bool = False,
    choices: tuple[str, ...] = (),
) -> Column[_Record]:
    """Return a column of texts; with ``choices`` one of these."""
    kind = ColumnType.STRING
    return Column(
        name=name, kind=kind, meaning=meaning, value=value, required=required, unique=unique, choices=choices
    )


def day(
    name: str, meaning: str, value: Callable[[_Record], date | None], *, required: bool = False
) -> Column[_Record]:
    """Return a column of days."""
    return Column(name=name, kind=ColumnType.DATE, meaning=meaning, value=value, required=required)


def number(name: str, meaning: str, unit: str, value: Callable[[_Record], Decimal | None]) -> Column[_Record]:
    """Return a column of decimal numbers in a unit."""
    return Column(name=name, kind=ColumnType.NUMBER, meaning=meaning, value=value, unit=unit)


def temperature(
    name: str, meaning: str, unit: str, value: Callable[[_Record], Decimal | None]
) -> Column[_Record]:
    """Return a column of temperatures in a unit, which may be below zero."""
    return replace(number(name, meaning, unit, value), below_zero=True)


def count(
    name: str, meaning: str, value: Callable[[_Record], int | None], *, unit: str = ""
) -> Column[_Record]:
    """Return a column of whole numbers."""
    return Column(name=name, kind=ColumnType.INTEGER, meaning=meaning, value=value, unit=unit)


def whether(name: str, meaning: str, value: Callable[[_Record], bool]) -> Column[_Record]:
    """Return a column of true and false, never empty."""
    return Column(name=name, kind=ColumnType.BOOLEAN, meaning=meaning, value=value, required=True)


def row_number(value: Callable[[_Record], int]) -> Column[_Record]:
    """Return the column that numbers the rows of a table whose records have no name."""
    return Column(
        name="row",
        kind=ColumnType.INTEGER,
        meaning="Place of the row in the file, from 1",
        value=value,
        required=True,
        unique=True,
    )


def planting(
    value: Callable[[_Record], Planting | None], *, required: bool = True, unique: bool = False
) -> Column[_Record]:
    """Return the column of the planting's name, the same in every table."""

    def name(record: _Record) -> str | None:
        own = value(record)
        return planting_name(own) if own else None

    meaning = "The planting’s own name, the same in every file: its tag, else that of its page"
    if not required:
        meaning += "; empty where it could not be told"
    return text("planting", meaning, name, required=required, unique=unique)


def crop(value: Callable[[_Record], str | None]) -> Column[_Record]:
    """Return the column of the crop's short name, the same in every table."""
    meaning = "Short name of the crop in this garden’s library; empty where it was not told alone"
    return text("crop", meaning, value)


def crop_name(value: Callable[[_Record], str | None]) -> Column[_Record]:
    """Return the column of the crop in words, the same in every table."""
    return text("crop_name", "The crop in words; the crops of a mixed bowl one after the other", value)


def crop_as_told(garden: Garden, name: CropName | None) -> str | None:
    """Return a crop of the records in words, as ledger and plan have it; else as it was typed."""
    return names.named(garden, name, many=bool(name.slug)).text if name else None


def variety(value: Callable[[_Record], str | None]) -> Column[_Record]:
    """Return the column of the variety, the same in every table."""
    return text("variety", "Variety as told", value)


def squares(value: Callable[[_Record], str | None]) -> Column[_Record]:
    """Return the column of the squares, the same in every table."""
    return text("squares", "Squares as told: bed/first:last", value)


def weight_in(weight: Weight, unit: Unit) -> Decimal:
    """Return a weight in grams or pounds, rounded to a milligram or finer."""
    return _plain(rounded(weight.within(unit), GRAM_PLACES if unit is GRAM else POUND_PLACES))


def grams(weight: Weight | None) -> Decimal | None:
    """Return a weight in grams, or None where there is none."""
    return None if weight is None else weight_in(weight, GRAM)


def pounds(weight: Weight | None) -> Decimal | None:
    """Return a weight in pounds, or None where there is none."""
    return None if weight is None else weight_in(weight, POUND)


def millimetres(length: Length | None) -> Decimal | None:
    """Return a length in millimetres, or None where there is none."""
    return None if length is None else _plain(rounded(length.within(MILLIMETRE), GRAM_PLACES))


def exact(value: Fraction) -> Decimal:
    """Return an area, a yield or an amount to a millionth."""
    return _plain(rounded(value, 6))


def _plain(digits: str) -> Decimal:
    """Return a number without zeros at its end: two texts of one number are one text."""
    return Decimal(digits.rstrip("0").rstrip(".")) if "." in digits else Decimal(digits)
