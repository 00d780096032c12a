"""What a season comes to up to a day, measure by measure, for tables that hold seasons side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import partial
from typing import TypeVar

from tallybed.garden.garden import Garden
from tallybed.garden.plurals import figured
from tallybed.garden.units import GALLON, KILOGRAM, LITRE, POUND, rounded
from tallybed.pages.rows.parts import percent, to
from tallybed.pages.wording.money import money
from tallybed.reckoning.effort.season import season_costs, season_value, season_water, season_work
from tallybed.reckoning.rows.planting_yields import losses
from tallybed.reckoning.rows.season import RowAnswer, answer
from tallybed.reckoning.rows.squares import use_by_month
from tallybed.reckoning.year import Year

T = TypeVar("T")
V = TypeVar("V")
_Words = Callable[[Fraction], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """One quantity of a season up to a day, and how it is written."""

    name: str
    value: Callable[[Year, date], Fraction | None]
    words: _Words
    note: Callable[[Year, date], str | None] | None = None


def _places(places: int) -> _Words:
    """Return what writes a value to some decimals."""
    return lambda value: rounded(value, places)


def every_measure(garden: Garden) -> tuple[Measure, ...]:
    """Return every measure of a season, in order."""
    return (*_beside_rows(garden), *_effort(garden))


def _beside_rows(garden: Garden) -> Iterator[Measure]:
    """Yield what a season gave, and what ordinary rows would have needed for it."""
    showing = garden.showing
    large = KILOGRAM if showing.metric else POUND
    yield Measure(
        name=f"Weight, {showing.unit}",
        value=_of(answer, lambda one: one.rows.weight.within(large)),
        words=_places(1),
        note=_of(answer, lambda one: "at least" if one.rows.at_least else ""),
    )
    yield Measure(
        name=f"Row ground, {showing.area_unit}",
        value=_of(
            answer, lambda one: showing.area_in(one.rows.square_feet.middle) if one.rows.crops else None
        ),
        words=_places(1),
        note=_of(answer, lambda one: _row_range(garden, one)),
    )
    for of in (
        "the squares",
        "the squares and their run-outs",
        "the squares and their share of path",
        "the squares, their run-outs and their share of path",
    ):
        yield Measure(
            name=f"Land equivalents over {of}",
            value=_of(answer, partial(_ratio, of)),
            words=_places(2),
        )
    yield Measure(
        name="Weight with a printed row yield", value=_of(answer, lambda one: one.rows.share), words=percent
    )
    yield Measure(name="Use of the squares", value=_use, words=percent)


def _effort(garden: Garden) -> Iterator[Measure]:
    """Yield the work, the water and the money that a season took, and what was lost in it."""
    unit = LITRE if garden.showing.metric else GALLON
    cash = partial(money, garden)
    yield Measure(
        name="Minutes timed",
        value=_of(season_work, lambda one: Fraction(one.minutes) if one.timed else None),
        words=_places(0),
        note=_of(
            season_work, lambda one: f"{one.timed} of {figured(one.lines, 'line')}" if one.lines else ""
        ),
    )
    yield Measure(
        name="Minutes of weeding",
        value=_of(season_work, lambda one: Fraction(one.weeding) if one.timed else None),
        words=_places(0),
    )
    yield Measure(
        name=f"Water measured, {unit.symbol}",
        value=_of(season_water, lambda one: one.litres * LITRE.size / unit.size if one.measured else None),
        words=_places(0),
        note=_of(season_water, lambda one: f"{one.measured} of {figured(one.lines, 'line')}"),
    )
    yield Measure(
        name="Cost, with what is spread", value=_of(season_costs, lambda one: one.whole), words=cash
    )
    yield Measure(name="Cost, without", value=_of(season_costs, lambda one: one.at_once), words=cash)
    yield Measure(
        name="Would have cost",
        value=_of(season_value, lambda one: one.amount),
        words=cash,
        note=_of(season_value, lambda one: f"of {percent(one.share)} of the weight"),
    )
    yield Measure(
        name="Lines of loss in the log",
        value=lambda year, day: (
            None if year.season.log is None else Fraction(len(losses(year.plantings, day)))
        ),
        words=_places(0),
    )


def _of(
    found: Callable[[Year, date], T | None], get: Callable[[T], V | None]
) -> Callable[[Year, date], V | None]:
    """Return what gets a value from what is found of a season up to a day; None where nothing is."""

    def value(year: Year, day: date) -> V | None:
        one = found(year, day)
        return None if one is None else get(one)

    return value


def _ratio(of: str, found: RowAnswer) -> Fraction | None:
    """Return the land equivalents over a ground; None where the season has no such ground."""
    ratios = found.equivalents if found.rows.crops else ()
    return next((ratio.middle for ground, ratio in ratios if ground.of == of), None)


def _row_range(garden: Garden, found: RowAnswer) -> str:
    """Return the low and the high row ground; nothing where no row yield is printed."""
    if not found.rows.crops:
        return ""
    rows = found.rows.square_feet
    return to(garden.showing.area_number(rows.low), garden.showing.area_number(rows.high))


def _use(year: Year, day: date) -> Fraction | None:
    """Return the share of square-days on which a square was held."""
    used = use_by_month(year.garden, year.holding, day)
    there = sum(one.there for one in used)
    return sum((one.held for one in used), Fraction(0)) / there if there else None
