"""The weather of a season as a table for reuse: one row a day."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from tallybed.garden.records.weather import WeatherDay, celsius
from tallybed.pages.files.data.tables import (
    Column,
    Dataset,
    day,
    exact,
    millimetres,
    number,
    rows_of,
    temperature,
)
from tallybed.reckoning.weather import season_weather
from tallybed.reckoning.year import Year


def _exact(value: Fraction | None) -> Decimal | None:
    return None if value is None else exact(value)


def _celsius(value: Fraction | None) -> Decimal | None:
    return None if value is None else exact(celsius(value))


COLUMNS: tuple[Column[WeatherDay], ...] = (
    day("date", "The day", lambda one: one.day, required=True),
    temperature("low_c", "Lowest air temperature", "degC", lambda one: _celsius(one.low)),
    temperature("high_c", "Highest air temperature", "degC", lambda one: _celsius(one.high)),
    temperature("low_f", "Lowest air temperature", "degF", lambda one: _exact(one.low)),
    temperature("high_f", "Highest air temperature", "degF", lambda one: _exact(one.high)),
    number("rain_mm", "Rain and melted snow", "mm", lambda one: millimetres(one.rain)),
)
"""Add a column here."""


def weather_datasets(year: Year) -> tuple[Dataset, ...]:
    """Return a season's weather as a table; none where it has none."""
    found = season_weather(year)
    if found is None:
        return ()
    by = f" at the station {found.station}" if found.station else " in or near the garden"
    return (
        Dataset(
            name="weather",
            title=f"Weather of {year.name}",
            meaning=f"One row a day, as measured{by}; empty where it was not.",
            key="date",
            columns=COLUMNS,
            rows=rows_of(COLUMNS, found.whole.days),
        ),
    )
