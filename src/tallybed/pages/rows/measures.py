"""What a season comes to up to a day, measure by measure, for tables that hold seasons side by side."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

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

_Words = Callable[[Fraction], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """One quantity of a season up to a day, and how it is written."""

    name: str
    value: Callable[[Year, date], Fraction | None]
    words: _Words
    note: Callable[[Year, date], str] | None = None


def _places(places: int) -> _Words:
    """Return what writes a value to some decimals."""
    return lambda value: rounded(value, places)


def every_measure(garden: Garden) -> tuple[Measure, ...]:
    """Return every measure of a season, in order."""
    showing = garden.showing
    unit = LITRE if showing.metric else GALLON
    large = KILOGRAM if showing.metric else POUND
    cash: _Words = lambda value: money(garden, value)  # noqa: E731 - as short as the others
    least = _note_least
    return (
        Measure(
            name=f"Weight, {showing.unit}",
            value=_of(lambda one: one.rows.weight.within(large)),
            words=_places(1),
            note=least,
        ),
        Measure(
            name=f"Row ground, {showing.area_unit}",
            value=_of(lambda one: showing.area_in(one.rows.square_feet.middle) if one.rows.crops else None),
            words=_places(1),
            note=lambda year, day: _row_range(garden, answer(year, day)),
        ),
        *(
            Measure(name=f"Land equivalents over {of}", value=_ratio(of), words=_places(2))
            for of in (
                "the squares",
                "the squares and their run-outs",
                "the squares and their share of path",
                "the squares, their run-outs and their share of path",
            )
        ),
        Measure(
            name="Weight with a printed row yield",
            value=_of(lambda one: one.rows.share),
            words=percent,
        ),
        Measure(name="Use of the squares", value=_use, words=percent),
        Measure(
            name="Minutes timed",
            value=_minutes,
            words=_places(0),
            note=_timed,
        ),
        Measure(name="Minutes of weeding", value=_weeding, words=_places(0)),
        Measure(
            name=f"Water measured, {unit.symbol}",
            value=lambda year, day: _water(year, day, unit.size),
            words=_places(0),
            note=_measured,
        ),
        Measure(name="Cost, with what is spread", value=_cost, words=cash),
        Measure(name="Cost, without", value=_at_once, words=cash),
        Measure(
            name="Would have cost",
            value=_worth,
            words=cash,
            note=_priced,
        ),
        Measure(
            name="Lines of loss in the log",
            value=lambda year, day: (
                None if year.season.log is None else Fraction(len(losses(year.plantings, day)))
            ),
            words=_places(0),
        ),
    )


def _of(get: Callable[[RowAnswer], Fraction | None]) -> Callable[[Year, date], Fraction | None]:
    """Return what takes a value of a season's answer; None where it has none."""

    def value(year: Year, day: date) -> Fraction | None:
        """Return the value of a season up to a day."""
        found = answer(year, day)
        return get(found) if found else None

    return value


def _ratio(of: str) -> Callable[[Year, date], Fraction | None]:
    """Return what takes the land equivalents over a ground; None where the season has no such ground."""

    def value(year: Year, day: date) -> Fraction | None:
        """Return the value of a season up to a day."""
        found = answer(year, day)
        ratios = found.equivalents if found and found.rows.crops else ()
        return next((ratio.middle for ground, ratio in ratios if ground.of == of), None)

    return value


def _note_least(year: Year, day: date) -> str:
    """Return ``at least`` where something was not weighed."""
    found = answer(year, day)
    return "at least" if found and found.rows.at_least else ""


def _row_range(garden: Garden, found: RowAnswer | None) -> str:
    """Return the low and the high row ground; nothing where no row yield is printed."""
    if found is None or not found.rows.crops:
        return ""
    rows = found.rows.square_feet
    return to(garden.showing.area_number(rows.low), garden.showing.area_number(rows.high))


def _use(year: Year, day: date) -> Fraction | None:
    """Return the share of square-days on which a square was held."""
    used = use_by_month(year.garden, year.holding, day)
    there = sum(one.there for one in used)
    return sum((one.held for one in used), Fraction(0)) / there if there else None


def _minutes(year: Year, day: date) -> Fraction | None:
    """Return the minutes timed; None where nobody timed anything."""
    worked = season_work(year, day)
    return Fraction(worked.minutes) if worked and worked.timed else None


def _weeding(year: Year, day: date) -> Fraction | None:
    """Return the minutes of weeding; None where nobody timed anything."""
    worked = season_work(year, day)
    return Fraction(worked.weeding) if worked and worked.timed else None


def _timed(year: Year, day: date) -> str:
    """Return how many lines are timed, of how many."""
    worked = season_work(year, day)
    return f"{worked.timed} of {figured(worked.lines, 'line')}" if worked and worked.lines else ""


def _water(year: Year, day: date, size: Fraction) -> Fraction | None:
    """Return the water in a unit of that size in cubic millimetres; None where none was measured."""
    watered = season_water(year, day)
    if watered is None or not watered.measured:
        return None
    return watered.litres * LITRE.size / size


def _measured(year: Year, day: date) -> str:
    """Return how many lines of watering are measured, of how many."""
    watered = season_water(year, day)
    return f"{watered.measured} of {figured(watered.lines, 'line')}" if watered else ""


def _cost(year: Year, day: date) -> Fraction | None:
    """Return what it cost, with what is spread."""
    costs = season_costs(year, day)
    return costs.whole if costs else None


def _at_once(year: Year, day: date) -> Fraction | None:
    """Return what it cost without what is spread; None where nobody wrote it down."""
    costs = season_costs(year, day)
    return costs.at_once if costs else None


def _worth(year: Year, day: date) -> Fraction | None:
    """Return what the produce would have cost."""
    worth = season_value(year, day)
    return worth.amount if worth else None


def _priced(year: Year, day: date) -> str:
    """Return the share of the weight with a price."""
    worth = season_value(year, day)
    return f"of {percent(worth.share)} of the weight" if worth else ""
