"""What a season took as tables for reuse: work, water, costs and prices."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.days import Month
from tallybed.garden.records.log import Event, Verb
from tallybed.garden.units import POUND
from tallybed.pages.files.data.tables import (
    Column,
    Dataset,
    count,
    day,
    exact,
    grams,
    number,
    row_number,
    rows_of,
    text,
)
from tallybed.reckoning.effort.money import CostShare, CropValue
from tallybed.reckoning.effort.season import season_costs, season_value, season_work
from tallybed.reckoning.effort.watering import litres
from tallybed.reckoning.effort.work import person_minutes
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkRecord:
    """The timed work of one kind in one month."""

    month: Month
    verb: Verb
    minutes: int

    @property
    def month_name(self) -> str:
        """Return the month as ``2026-05``."""
        return f"{self.month.year:04d}-{self.month.month:02d}"


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterRecord:
    """One line of watering."""

    number: int
    event: Event
    litres: Fraction | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CostRecord:
    """One thing that the season bears a part of."""

    number: int
    share: CostShare


WORK: tuple[Column[WorkRecord], ...] = (
    text(
        "row",
        "Month and kind of work",
        lambda one: f"{one.month_name} {one.verb}",
        required=True,
        unique=True,
    ),
    text("month", "Month, year first", lambda one: one.month_name, required=True),
    text("kind", "Kind of work, as logged", lambda one: one.verb.value, required=True),
    count(
        "person_minutes",
        "Minutes times people, of the lines that tell them",
        lambda one: one.minutes,
        unit="min",
    ),
)
WATER: tuple[Column[WaterRecord], ...] = (
    row_number(lambda one: one.number),
    day("date", "Day it was given", lambda one: one.event.day, required=True),
    text("amount", "Amount, as written", lambda one: one.event.amount),
    number(
        "litres",
        "What that comes to; empty where it cannot be reckoned",
        "L",
        lambda one: None if one.litres is None else exact(one.litres),
    ),
)


def _cost_columns(currency: str) -> tuple[Column[CostRecord], ...]:
    return (
        row_number(lambda one: one.number),
        day("date", "Day it was paid", lambda one: one.share.cost.day, required=True),
        text("season", "Season it was paid in", lambda one: one.share.season, required=True),
        text("what", "What was bought", lambda one: one.share.cost.what, required=True),
        text("for", "What for", lambda one: one.share.cost.purpose.value, required=True),
        number("cost", "What was paid", currency, lambda one: exact(one.share.cost.amount)),
        count("years", "Seasons that bear an equal part of it", lambda one: one.share.cost.years),
        number("part", "The part that this season bears", currency, lambda one: exact(one.share.amount)),
    )


def _price_columns(currency: str) -> tuple[Column[CropValue], ...]:
    """Return the columns of prices in a currency."""
    return (
        text("crop", "Short name of the crop", lambda one: one.crop, required=True, unique=True),
        number("grams", "Weight counted, to a milligram", "g", lambda one: grams(one.weight)),
        number(
            "price_per_pound",
            "Price reckoned with: the middle one seen",
            currency,
            lambda one: exact(one.per_pound),
        ),
        count("prices", "Prices seen in the season", lambda one: len(one.prices)),
        number(
            "would_have_cost",
            "Weight times that price",
            currency,
            lambda one: exact(one.per_pound * one.weight.within(POUND)),
        ),
    )


def effort_datasets(year: Year) -> Iterator[Dataset]:
    """Yield the tables of what a season took, as far as there are papers for them."""
    if year.season.log is not None:
        yield _work(year)
        yield _water(year)
    yield from _money(year)


def _work(year: Year) -> Dataset:
    """Return the table of work."""
    minutes: dict[tuple[Month, str], int] = {}
    for event in _done(year):
        timed = person_minutes(event)
        if timed is not None:
            cell = Month.of(event.day), event.verb.value
            minutes[cell] = minutes.get(cell, 0) + timed
    worked = season_work(year, year.today)
    timed_of = f"{worked.timed} of {worked.lines} lines" if worked else "no line"
    return Dataset(
        name="work",
        title=f"Work of {year.name}",
        meaning=f"Work that was timed, by month and kind: one row each. Timed: {timed_of} of the log.",
        key="row",
        columns=WORK,
        rows=rows_of(
            WORK,
            (
                WorkRecord(month=month, verb=Verb(verb), minutes=minutes[month, verb])
                for month, verb in sorted(minutes)
            ),
        ),
    )


def _done(year: Year) -> Iterator[Event]:
    """Yield the lines of the log up to the day the year is seen from, by day."""
    for entry in sorted(year.season.log or (), key=lambda one: (one.day, one.slug)):
        yield from (event for event in entry.done if event.day <= year.today)


def _water(year: Year) -> Dataset:
    """Return the table of water."""
    events = (event for event in _done(year) if event.verb is Verb.WATER)
    records = (
        WaterRecord(number=place, event=event, litres=litres(year.garden, event))
        for place, event in enumerate(events, start=1)
    )
    return Dataset(
        name="water",
        title=f"Water of {year.name}",
        meaning="Lines of watering in the log: one row each. Rain is not counted.",
        key="row",
        columns=WATER,
        rows=rows_of(WATER, records),
    )


def _money(year: Year) -> Iterator[Dataset]:
    """Yield the tables of costs and of prices, where they are on record."""
    currency = year.garden.currency
    costs, worth = season_costs(year, year.today), season_value(year, year.today)
    if costs is not None:
        columns = _cost_columns(currency)
        records = (CostRecord(number=place, share=one) for place, one in enumerate(costs.shares, start=1))
        yield Dataset(
            name="costs",
            title=f"Costs of {year.name}",
            meaning="What the season cost: one row a thing that it bears a part of. Nobody’s time is in it.",
            key="row",
            columns=columns,
            rows=rows_of(columns, records),
        )
    if worth is not None:
        priced = _price_columns(currency)
        yield Dataset(
            name="prices",
            title=f"Prices of {year.name}",
            meaning="What the produce would have cost: one row a crop that has a price.",
            key="crop",
            columns=priced,
            rows=rows_of(priced, worth.crops),
        )
