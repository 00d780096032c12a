"""The ledger held against plan and log, and against what the crops can give."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.checks.results import CheckResult, advice, called, warning
from tallybed.garden.days import without_year
from tallybed.garden.ledger import State, Weighing, places_of
from tallybed.garden.log import ENDING, STARTING
from tallybed.garden.units import POUND, Weight, total
from tallybed.reckoning.rows.ground import planting_ground
from tallybed.reckoning.year import Year

FACTOR = 8
"""How many times the published yield of a row garden a planting must pass to be taken for a slip of the pen.

Small beds give several times as much per square foot as rows with their paths.
"""
AFTER = 3
"""Days after clearing within which a weighing still belongs to the clearing (common practice, no source)."""


def before_planting(year: Year) -> Iterator[CheckResult]:
    """Find weighings dated before the planting they come from went in."""
    for weighing, planting in year.owned:
        begun = planting.begun
        if begun and weighing.day < begun:
            yield (
                weighing,
                warning(
                    weighing.place,
                    "weighed-before-planting",
                    f"{called(planting)} was picked on {without_year(weighing.day)}",
                    expected=f"a day after it went in, {without_year(begun)}",
                    remedy="mend the date, the tag, or the log",
                ),
            )


def after_clearing(year: Year) -> Iterator[CheckResult]:
    """Find weighings picked after the log says that the whole planting was gone."""
    for weighing, planting in year.owned:
        ends = [
            event.day
            for event, squares in planting.lines
            if event.verb in ENDING
            and event.plants is None
            and (not squares or set(squares) >= planting.squares)
        ]
        starts = [event.day for event, _squares in planting.lines if event.verb in STARTING]
        if not ends or any(day >= ends[-1] for day in starts):
            continue
        if (weighing.day - ends[-1]).days > AFTER:
            yield (
                weighing,
                warning(
                    weighing.place,
                    "weighed-after-clearing",
                    f"{called(planting)} was picked on {without_year(weighing.day)}",
                    expected=f"no later than its end, {without_year(ends[-1])}",
                    remedy="mend the date, the tag, or the log",
                ),
            )


def implausible(year: Year) -> Iterator[CheckResult]:
    """Find plantings that gave far more than the published yield for their squares."""
    fresh: dict[str, list[tuple[Weight, Weighing]]] = {}
    for weighing, planting in year.owned:
        if weighing.weight and weighing.state is State.FRESH:
            fresh.setdefault(planting.key, []).append((weighing.weight, weighing))
    for key, weighed in sorted(fresh.items()):
        planting = year.holding.planting(key)
        crop = year.crop_of(planting)
        figure = crop.used("yield per sqft") if crop else None
        squares = {hold.square for hold in year.holding.of_planting(key)}
        if figure is None or figure.high is None or not squares:
            continue
        led_out = planting.planned.led_out if planting.planned else None
        own = planting_ground(year.garden, squares, led_out)
        area = own.squares + own.run_out
        usual = Weight.of(figure.high * area, POUND)
        whole = total(weight for weight, _row in weighed)
        if whole.nanograms > usual.nanograms * FACTOR:
            heaviest, largest = max(weighed, key=lambda pair: pair[0])
            showing = year.garden.showing
            yield (
                largest,
                warning(
                    largest.place,
                    "implausible-weight",
                    f"{called(planting)} comes to {showing.picked(whole)} with this"
                    f" {showing.picked(heaviest)},"
                    f" {float(whole.nanograms / usual.nanograms):.0f} times the usual",
                    expected=f"about {showing.picked(usual)} for its {showing.area(area)},"
                    " by published row yields",
                    remedy="check the unit and the decimal point",
                ),
            )


def one_place_twice(year: Year) -> Iterator[CheckResult]:
    """Find destinations that differ by capitals or "the" alone: they are taken for one place."""
    ledger = year.season.ledger or ()
    called_by = places_of(ledger)
    told: set[str] = set()
    for weighing in ledger:
        for part in weighing.to:
            name = called_by[part.name]
            if part.name != name and part.name not in told:
                told.add(part.name)
                yield (
                    weighing,
                    advice(
                        weighing.place,
                        "one-place-two-names",
                        f"“{part.name}” is taken for the same place as “{name}”",
                        remedy="write it in one way",
                    ),
                )
