"""Columns that know their own value: a table is a list of them, and the records of its rows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Generic, TypeVar

from tallybed.garden.units import rounded
from tallybed.pages.files.data_columns import Column, ColumnType, Value
from tallybed.pages.files.data_rows import Dataset
from tallybed.reckoning.rows.land import Range

T = TypeVar("T")
_PLACES = 6
"""Decimals of areas, yields and amounts: a millionth of a square foot is less than a tenth of a square
millimetre."""
ROW = Column(
    name="row",
    kind=ColumnType.INTEGER,
    meaning="Place of the row in the file, from 1",
    required=True,
    unique=True,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told(Generic[T]):
    """A column together with how its value is had from a row's record."""

    column: Column
    value: Callable[[T], Value]


def day(name: str, meaning: str) -> Column:
    """Return a column of days."""
    return Column(name=name, kind=ColumnType.DATE, meaning=meaning, required=True)


def dataset(name: str, title: str, meaning: str, told: Sequence[Told[T]], records: Sequence[T]) -> Dataset:
    """Return a table from its columns and the records of its rows; its first column tells them apart."""
    return Dataset(
        name=name,
        title=title,
        meaning=meaning,
        key=told[0].column.name,
        columns=tuple(one.column for one in told),
        rows=tuple(tuple(one.value(record) for one in told) for record in records),
    )


def key(name: str, meaning: str) -> Column:
    """Return a column of texts that tells the rows apart."""
    return Column(name=name, kind=ColumnType.STRING, meaning=meaning, required=True, unique=True)


def text(name: str, meaning: str, *, required: bool = False) -> Column:
    """Return a column of texts."""
    return Column(name=name, kind=ColumnType.STRING, meaning=meaning, required=required)


def number(name: str, meaning: str, unit: str = "") -> Column:
    """Return a column of numbers."""
    return Column(name=name, kind=ColumnType.NUMBER, meaning=meaning, unit=unit)


def count(name: str, meaning: str, unit: str = "") -> Column:
    """Return a column of whole numbers."""
    return Column(name=name, kind=ColumnType.INTEGER, meaning=meaning, unit=unit)


def whether(name: str, meaning: str) -> Column:
    """Return a column of truths."""
    return Column(name=name, kind=ColumnType.BOOLEAN, meaning=meaning, required=True)


def exact(value: Fraction) -> Decimal:
    """Return a value to a millionth, without zeros at its end."""
    text = rounded(value, _PLACES)
    return Decimal(text.rstrip("0").rstrip("."))


def ranged(name: str, meaning: str, unit: str, get: Callable[[T], Range]) -> tuple[Told[T], Told[T], Told[T]]:
    """Return three columns for a low, a middle and a high value."""
    return (
        Told(column=number(f"{name}_low", f"{meaning}, low", unit), value=lambda one: exact(get(one).low)),
        Told(column=number(name, f"{meaning}, middle", unit), value=lambda one: exact(get(one).middle)),
        Told(column=number(f"{name}_high", f"{meaning}, high", unit), value=lambda one: exact(get(one).high)),
    )
