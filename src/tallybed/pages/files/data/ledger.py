"""The ledger of a season as a table for reuse: one row a weighing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.days import Week
from tallybed.garden.garden import Garden
from tallybed.garden.grouping import grouped
from tallybed.garden.records.ledger import State, Weighing, one_place
from tallybed.garden.squares import in_words
from tallybed.garden.units import GRAM, total
from tallybed.pages.files.data.tables import (
    SEVERAL,
    Column,
    Dataset,
    count,
    crop,
    crop_name,
    day,
    grams,
    number,
    planting,
    pounds,
    row_number,
    rows_of,
    squares,
    text,
    variety,
    weight_in,
    whether,
)
from tallybed.pages.wording import names
from tallybed.reckoning.harvest.tally import GENERAL, TallyLine, bowl, crop_key
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class LedgerRecord:
    """A weighing, and what is known of it besides."""

    garden: Garden
    number: int
    weighing: Weighing
    planting: Planting | None
    """The planting it came from, where that was told."""
    lines: tuple[TallyLine, ...]
    """Its lines of the tally."""

    @property
    def crop(self) -> str | None:
        """The crop it was of, where it was one crop of the library."""
        key = crop_key(self.weighing, self.planting)
        return key if not self.weighing.mixed and names.crop(self.garden, key) else None


def _crop_name(one: LedgerRecord) -> str:
    """Return what a weighing's crop is called, or the crops of a mixed bowl, in the order of the tally."""
    key = crop_key(one.weighing, one.planting)
    told = bowl(key) or (key.removeprefix(GENERAL),)
    return SEVERAL.join(names.crop_link(one.garden, each).text for each in told if each)


def _parts(one: LedgerRecord) -> str:
    """Return what each destination got, in grams, in the order told."""
    if one.weighing.weight is None:
        return ""
    found = []
    for part in one.weighing.to:
        got = total(line.weight for line in one.lines if one_place(line.destination) == one_place(part.name))
        found.append(f"{weight_in(got, GRAM):f}")
    return SEVERAL.join(found)


COLUMNS: tuple[Column[LedgerRecord], ...] = (
    row_number(lambda one: one.number),
    day("date", "Day it was picked, the day it counts on", lambda one: one.weighing.day, required=True),
    text("week", "ISO 8601 week of that day", lambda one: str(Week.of(one.weighing.day)), required=True),
    crop(lambda one: one.crop),
    crop_name(_crop_name),
    whether("mixed", "Whether it is a mixed bowl of several crops", lambda one: one.weighing.mixed),
    variety(lambda one: one.weighing.variety),
    planting(lambda one: one.planting, required=False),
    squares(lambda one: in_words(one.weighing.squares)),
    whether("weighed", "Whether it was weighed at all", lambda one: one.weighing.weight is not None),
    number(
        "grams",
        "Weight, to a milligram; empty where it was not weighed",
        "g",
        lambda one: grams(one.weighing.weight),
    ),
    number(
        "pounds",
        "The same weight; 1 lb is 453.59237 g",
        "lb",
        lambda one: pounds(one.weighing.weight),
    ),
    whether("estimated", "Whether the weight is an estimate", lambda one: one.weighing.estimated),
    count("count", "Pieces, where they were counted", lambda one: one.weighing.count),
    text("form", "Form it was weighed in: dry, in pods, greens", lambda one: one.weighing.form),
    text(
        "state",
        "State it was weighed in",
        lambda one: one.weighing.state.value,
        required=True,
        choices=tuple(state.value for state in State),
    ),
    day("weighed_on", "Day it was weighed, where that is another day", lambda one: one.weighing.weighed),
    whether(
        "in_total",
        "False where the picking counts by another of its weights, as by its fresh one",
        lambda one: all(line.counts for line in one.lines),
    ),
    text(
        "to",
        "Where it went; several places one after the other",
        lambda one: SEVERAL.join(part.name for part in one.weighing.to),
    ),
    text("to_grams", "Weight to each of those places in the same order, in grams", _parts),
    text("note", "Note in the ledger", lambda one: one.weighing.note),
)
"""Add a column here."""


def ledger(year: Year) -> Dataset:
    """Return a season's ledger as a table."""
    return Dataset(
        name="ledger",
        title=f"Ledger of {year.name}",
        meaning="What was picked: one row a weighing, in the order of the gardener’s file.",
        key="row",
        columns=COLUMNS,
        rows=rows_of(COLUMNS, _records(year)),
    )


def _records(year: Year) -> Iterator[LedgerRecord]:
    """Yield each row of a season's ledger with what is known of it besides."""
    by_row = grouped(year.lines, lambda line: line.weighing)
    for place, (weighing, owner) in enumerate(year.weighings):
        yield LedgerRecord(
            garden=year.garden,
            number=place + 1,
            weighing=weighing,
            planting=owner,
            lines=tuple(by_row.get(place, ())),
        )
