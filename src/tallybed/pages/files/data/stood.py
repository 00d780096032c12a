"""What stood where in a season as a table for reuse: one row a planting, square and span of days."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.pages.files.data.tables import (
    Column,
    Dataset,
    crop,
    day,
    exact,
    number,
    planting,
    rows_of,
    text,
    variety,
)
from tallybed.pages.wording import names
from tallybed.pages.wording.dated import in_season
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.squares.occupancy import Grade
from tallybed.reckoning.squares.stood import Stood, stood
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class StoodRecord:
    """A planting’s days in one square."""

    planting: Planting
    crop: str | None
    """Slug; None where the planting is known by a general name only."""
    span: Stood


COLUMNS: tuple[Column[StoodRecord], ...] = (
    planting(lambda one: one.planting),
    crop(lambda one: one.crop),
    variety(lambda one: one.planting.variety),
    text("bed", "Short name of the bed", lambda one: one.span.square.bed, required=True),
    text("square", "The square, named within its bed", lambda one: one.span.square.label, required=True),
    number(
        "share",
        "Its part of the square on these days, 1 for the whole; a planting’s area counts each square that "
        "it ever held as a whole one",
        "",
        lambda one: exact(one.span.share),
    ),
    day("first", "First of these days", lambda one: one.span.first, required=True),
    day("last", "Last of these days, on which it stood there too", lambda one: one.span.last, required=True),
    text(
        "known",
        "How that is known: seen (a line of the log names planting and square that day), implied (by "
        "records before and after, or by a picking), supposed (the plan says so and no record denies it)",
        lambda one: one.span.grade.word,
        required=True,
        choices=tuple(grade.word for grade in Grade if grade is not Grade.PLANNED),
    ),
)
"""Add a column here."""


def stood_table(year: Year) -> Dataset:
    """Return what stood where in a season as a table; days to come are not in it."""
    return Dataset(
        name="stood",
        title=f"What stood where {in_season(year)}",
        meaning="Which planting had which square on which days, by plan, log and ledger together: one row a "
        "planting, square and span of days, up to the newest record. plan.csv tells what was meant.",
        key=("planting", "bed", "square", "first"),
        columns=COLUMNS,
        rows=rows_of(COLUMNS, _records(year)),
    )


def _records(year: Year) -> Iterator[StoodRecord]:
    """Yield each span of a season with what is known of its planting."""
    for span in stood(year.holding, year.today):
        own = year.holding.planting(span.planting)
        known = names.crop(year.garden, own.crop.slug) if own.crop.slug else None
        yield StoodRecord(planting=own, crop=known.slug if known else None, span=span)
