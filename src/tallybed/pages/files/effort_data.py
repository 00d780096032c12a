"""What a season took as tables for reuse: work, water, costs and prices."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from tallybed.garden.days import Month
from tallybed.garden.log import Event, Verb
from tallybed.garden.units import GRAM, POUND
from tallybed.pages.files.data_rows import Dataset, weight_in
from tallybed.pages.files.told_columns import ROW, Told, count, dataset, day, exact, key, number, text
from tallybed.reckoning.effort.money import CropValue, Share
from tallybed.reckoning.effort.season import season_costs, season_value, season_work
from tallybed.reckoning.effort.watering import litres
from tallybed.reckoning.year import Year


def effort_datasets(year: Year) -> Iterator[Dataset]:
    """Yield the tables of what a season took, as far as there are papers for them."""
    if year.season.log is not None:
        yield _work(year)
        yield _water(year)
    costs = season_costs(year, year.today)
    if costs is not None:
        yield _costs(year, costs.shares)
    worth = season_value(year, year.today)
    if worth is not None:
        yield _prices(year, worth.crops)


_Work = tuple[Month, Verb, int]


def _work(year: Year) -> Dataset:
    minutes: dict[tuple[Month, Verb], int] = {}
    worked = season_work(year, year.today)
    for event in _done(year):
        if event.minutes is not None:
            cell = Month.of(event.day), event.verb
            minutes[cell] = minutes.get(cell, 0) + event.minutes * event.people
    records: list[_Work] = [(month, verb, total) for (month, verb), total in sorted(minutes.items())]
    told: tuple[Told[_Work], ...] = (
        Told(column=key("row", "Month and kind of work"), value=lambda one: f"{_month(one[0])} {one[1]}"),
        Told(column=text("month", "Month, year first", required=True), value=lambda one: _month(one[0])),
        Told(
            column=text("kind", "Kind of work, as logged", required=True), value=lambda one: str(one[1])
        ),
        Told(
            column=count("person_minutes", "Minutes times people, of the lines that tell them", "min"),
            value=lambda one: one[2],
        ),
    )
    timed = f"{worked.timed} of {worked.lines} lines" if worked else "no line"
    return dataset(
        "work",
        f"Work of {year.name}",
        f"Work that was timed, by month and kind: one row each. Timed: {timed} of the log.",
        told,
        records,
    )


def _month(month: Month) -> str:
    return f"{month.year:04d}-{month.month:02d}"


def _done(year: Year) -> Iterator[Event]:
    for entry in sorted(year.season.log or (), key=lambda one: (one.day, one.slug)):
        yield from (event for event in entry.done if event.day <= year.today)


_Watered = tuple[int, Event, Fraction | None]


def _water(year: Year) -> Dataset:
    events = [event for event in _done(year) if event.verb is Verb.WATER]
    records: list[_Watered] = [
        (number, event, litres(year.garden, event)) for number, event in enumerate(events, start=1)
    ]
    told: tuple[Told[_Watered], ...] = (
        Told(
            column=ROW,
            value=lambda one: one[0],
        ),
        Told(
            column=day("date", "Day it was given"),
            value=lambda one: one[1].day,
        ),
        Told(column=text("amount", "Amount, as written"), value=lambda one: one[1].amount or None),
        Told(
            column=number("litres", "What that comes to; empty where it cannot be reckoned", "L"),
            value=lambda one: None if one[2] is None else exact(one[2]),
        ),
    )
    return dataset(
        "water",
        f"Water of {year.name}",
        "Lines of watering in the log: one row each. Rain is not counted.",
        told,
        records,
    )


_Paid = tuple[int, Share]


def _costs(year: Year, shares: tuple[Share, ...]) -> Dataset:
    currency = year.garden.currency
    told: tuple[Told[_Paid], ...] = (
        Told(
            column=ROW,
            value=lambda one: one[0],
        ),
        Told(
            column=day("date", "Day it was paid"),
            value=lambda one: one[1].cost.day,
        ),
        Told(column=text("season", "Season it was paid in", required=True), value=lambda one: one[1].season),
        Told(column=text("what", "What was bought", required=True), value=lambda one: one[1].cost.what),
        Told(column=text("for", "What for", required=True), value=lambda one: one[1].cost.purpose.value),
        Told(column=number("cost", "What was paid", currency), value=lambda one: exact(one[1].cost.amount)),
        Told(
            column=count("years", "Seasons that bear an equal part of it"),
            value=lambda one: one[1].cost.years,
        ),
        Told(
            column=number("part", "The part that this season bears", currency),
            value=lambda one: exact(one[1].amount),
        ),
    )
    return dataset(
        "costs",
        f"Costs of {year.name}",
        "What the season cost: one row a thing that it bears a part of. Nobody’s time is in it.",
        told,
        list(enumerate(shares, start=1)),
    )


def _prices(year: Year, crops: tuple[CropValue, ...]) -> Dataset:
    currency = year.garden.currency
    told: tuple[Told[CropValue], ...] = (
        Told(column=key("crop", "Short name of the crop"), value=lambda one: one.crop),
        Told(
            column=number("grams", "Weight counted, to a milligram", "g"),
            value=lambda one: weight_in(one.weight, GRAM),
        ),
        Told(
            column=number("price_per_pound", "Price reckoned with: the middle one seen", currency),
            value=lambda one: exact(one.per_pound),
        ),
        Told(column=count("prices", "Prices seen in the season"), value=lambda one: len(one.prices)),
        Told(
            column=number("would_have_cost", "Weight times that price", currency),
            value=lambda one: exact(one.per_pound * one.weight.within(POUND)),
        ),
    )
    return dataset(
        "prices",
        f"Prices of {year.name}",
        "What the produce would have cost: one row a crop that has a price.",
        told,
        crops,
    )
