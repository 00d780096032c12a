"""The ledger held against plan and log, and against what the crops can give."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.checks.results import (
    AFTER,
    PICKED_THEN,
    CheckResult,
    advice,
    called,
    gone_since,
    stood_before,
    warning,
)
from tallybed.garden.days import without_year
from tallybed.garden.records.ledger import State, places_of
from tallybed.garden.squares import in_words
from tallybed.reckoning.year import Year


def weighed_before_planting(year: Year) -> Iterator[CheckResult]:
    """Find weighings dated before the planting they come from went in: by the log, else by the plan."""
    for weighing, planting in year.owned:
        begun = planting.begun or (planting.planned.begins if planting.planned else None)
        if stood_before(planting):
            continue
        if begun and weighing.day < begun:
            when, remedy = "it went in", "correct the date, the tag, or the log"
            if planting.begun is None:
                when = "it goes in by the plan"
                remedy = (
                    "correct the date or the tag, log when it went in,"
                    " or plan what stood over winter as `carried from` its season"
                )
            yield (
                weighing,
                warning(
                    weighing.place,
                    "weighed-before-planting",
                    f"{called(year, planting)} was picked on {without_year(weighing.day)}",
                    expected=f"a day after {when}, {without_year(begun)}",
                    remedy=remedy,
                ),
            )


def weighed_after_clearing(year: Year) -> Iterator[CheckResult]:
    """Find weighings picked after the log says that the whole planting was gone, or all in their squares."""
    for weighing, planting in year.owned:
        gone, where = gone_since(year, planting), ""
        if gone is None and weighing.squares:
            gone, where = gone_since(year, planting, weighing.squares), f" in {in_words(weighing.squares)}"
        if gone is None:
            continue
        if (weighing.day - gone).days > AFTER:
            remedy = f"correct the date, the {'squares' if where else 'tag'}, or the log"
            if weighing.state is not State.FRESH:
                remedy = PICKED_THEN
            yield (
                weighing,
                warning(
                    weighing.place,
                    "weighed-after-clearing",
                    f"{called(year, planting)} was picked{where} on {without_year(weighing.day)}",
                    expected=f"no later than its end{' there' if where else ''}, {without_year(gone)}",
                    remedy=remedy,
                ),
            )


def one_place_two_names(year: Year) -> Iterator[CheckResult]:
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
