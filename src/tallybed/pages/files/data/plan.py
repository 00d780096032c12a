"""The plan of a season as a table for reuse: one row a planting."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.garden import Garden
from tallybed.garden.records.plan import PlanRow, Start
from tallybed.garden.squares import in_words
from tallybed.pages.files.data.tables import (
    Column,
    Dataset,
    count,
    crop,
    crop_name,
    day,
    millimetres,
    number,
    planting,
    rows_of,
    squares,
    text,
    variety,
    whether,
)
from tallybed.pages.wording import names
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRecord:
    """A row of the plan, with its planting's own name."""

    garden: Garden
    planting: Planting
    row: PlanRow


COLUMNS: tuple[Column[PlanRecord], ...] = (
    planting(lambda one: one.planting, unique=True),
    crop(lambda one: one.row.crop if names.crop(one.garden, one.row.crop) else None),
    crop_name(lambda one: names.crop_link(one.garden, one.row.crop).text),
    variety(lambda one: one.row.variety),
    squares(lambda one: in_words(one.row.squares)),
    count("square_count", "Number of those squares", lambda one: len(set(one.row.squares))),
    text(
        "start",
        "How it comes into the bed",
        lambda one: one.row.start.value,
        required=True,
        choices=tuple(start.value for start in Start),
    ),
    day("sow_indoors", "Day it is meant to be sown indoors", lambda one: one.row.sow_indoors),
    day("pot_up", "Day it is meant to be potted up", lambda one: one.row.pot_up),
    day(
        "begins",
        "Day it is meant to be sown or set out; the season’s first day if carried over",
        lambda one: one.row.begins,
        required=True,
    ),
    day(
        "until",
        "Day it is meant to be cleared; its squares are free that day",
        lambda one: one.row.until,
        required=True,
    ),
    whether(
        "until_told",
        "Whether that day was told; if not, it is the day after the season",
        lambda one: one.row.until_told,
    ),
    count("plants", "Plants meant, in all squares", lambda one: one.row.plants),
    number(
        "spacing",
        "Distance from plant to plant, where the plan tells its own",
        "mm",
        lambda one: millimetres(one.row.spacing),
    ),
    text("among", "Planting or crop it shares its squares with", lambda one: one.row.among),
    text(
        "share",
        "Share of the squares told for it, as a fraction",
        lambda one: None if one.row.share is None else str(one.row.share),
    ),
    text(
        "run_out_side",
        "Side of the bed over which its vines are led out",
        lambda one: one.row.led_out.side if one.row.led_out else None,
    ),
    number(
        "run_out_reach",
        "How far they are led out",
        "mm",
        lambda one: millimetres(one.row.led_out.reach) if one.row.led_out else None,
    ),
    day("dropped", "Day it was dropped from the plan", lambda one: one.row.dropped),
    text("because", "Why it was dropped", lambda one: one.row.because),
    text("carried_from", "Season it was carried over from", lambda one: one.row.carried_from),
    text("note", "Note in the plan", lambda one: one.row.note),
)
"""Add a column here."""


def plan(year: Year) -> Dataset:
    """Return a season's plan as a table."""
    return Dataset(
        name="plan",
        title=f"Plan of {year.name}",
        meaning="What was meant to stand where: one row a planting. A change of mind keeps its row.",
        key="planting",
        columns=COLUMNS,
        rows=rows_of(COLUMNS, _records(year)),
    )


def _records(year: Year) -> Iterator[PlanRecord]:
    """Yield each row of a season's plan with its planting's name."""
    for key, row in year.rows.items():
        yield PlanRecord(garden=year.garden, planting=year.holding.planting(key), row=row)
