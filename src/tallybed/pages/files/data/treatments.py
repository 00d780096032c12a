"""Treatments of a season as a table for reuse: one row a line of the log, with the first day to pick."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from tallybed.garden.records.treatment import Treatment
from tallybed.garden.squares import in_words
from tallybed.pages.files.data.tables import (
    SEVERAL,
    Column,
    Dataset,
    count,
    crop,
    crop_as_told,
    crop_name,
    day,
    exact,
    number,
    row_number,
    rows_of,
    squares,
    temperature,
    text,
    whether,
)
from tallybed.pages.frame.addresses import planting_name
from tallybed.pages.tables.treatments_table import TreatmentLine, treatment_lines
from tallybed.reckoning.waits.manure import is_raw
from tallybed.reckoning.waits.season import UNTOLD
from tallybed.reckoning.waits.spans import first_safe
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class TreatmentRecord:
    """A treatment, and the season it is told of."""

    year: Year
    line: TreatmentLine

    @property
    def told(self) -> Treatment:
        """What the line says of product and label."""
        return self.line.event.treatment or UNTOLD

    @property
    def manure(self) -> bool:
        """Whether it is raw manure and not a product."""
        return is_raw(self.line.event)

    @property
    def safe(self) -> date | None:
        """The first day to pick what it reached; None where not known, or where nothing waits."""
        return first_safe(self.line.waits)[1]

    @property
    def off(self) -> date | None:
        """The first day on which people may be in its squares all day; None where not known, or without."""
        own = (one.rule.first_day for one in self.year.waiting.keep_offs if one.event == self.line.event)
        return next(own, None)


def _known(one: TreatmentRecord) -> bool:
    """Return whether how long to wait is known."""
    return one.manure or not one.told.has_label or one.told.wait is not None


def _kind(one: TreatmentRecord) -> str:
    """Return what kind of treatment it is."""
    if one.manure:
        return "raw manure"
    return one.told.kind.value if one.told.kind else "labelled product"


def _hours(one: TreatmentRecord) -> Decimal | None:
    """Return the hours to keep off; None where not written down, or until dry."""
    hours = one.told.reentry.hours if one.told.reentry else None
    return None if hours is None else exact(hours)


COLUMNS: tuple[Column[TreatmentRecord], ...] = (
    row_number(lambda one: one.line.number),
    day("date", "Day of the treatment", lambda one: one.line.event.day, required=True),
    text("what", "What was used: the active ingredient where told", lambda one: one.line.event.subject),
    text(
        "kind",
        "Whether the product has a label, it was done by hand, with a barrier or water, or is raw manure",
        _kind,
        required=True,
        choices=("labelled product", "by hand", "barrier", "water", "raw manure"),
    ),
    crop(lambda one: one.line.event.crop.slug if one.line.event.crop else None),
    crop_name(lambda one: crop_as_told(one.year.garden, one.line.event.crop)),
    squares(lambda one: in_words(one.line.squares)),
    text(
        "plantings",
        "Plantings it reached, by the names of the other files, one after the other",
        lambda one: SEVERAL.join(planting_name(one.year.holding.planting(key)) for key in one.line.plantings),
    ),
    text("because", "Against what", lambda one: one.line.event.because),
    whether("wait_known", "Whether how long to wait before picking is known", _known),
    count(
        "wait_days", "Days to wait by the label, as written down; empty where not", lambda one: one.told.wait
    ),
    day(
        "first_day_to_pick",
        "First day to pick what it reached; empty where not known or where nothing waits",
        lambda one: one.safe,
    ),
    day(
        "first_day_on",
        "First whole day on which people may be in its squares; empty where not known or where nobody keeps "
        "off",
        lambda one: one.off,
    ),
    number(
        "re_entry_hours",
        "Hours to keep off by the label; empty where not written down, or until dry",
        "h",
        _hours,
    ),
    text("rate", "The label’s rate, as written", lambda one: one.told.rate),
    text("registration", "Registration number on the label", lambda one: one.told.registration),
    temperature(
        "temperature",
        "Air temperature noted",
        "degF",
        lambda one: exact(one.told.temperature) if one.told.temperature is not None else None,
    ),
    text("wind", "Wind, as noted", lambda one: one.told.wind),
)
"""Add a column here."""


def treatments(year: Year) -> Dataset:
    """Return a season's treatments and raw manure as a table."""
    return Dataset(
        name="treatments",
        title=f"Treatments of {year.name}",
        meaning="What was used against pests, and raw manure: one row a line of the log, by day. "
        "Labels govern; what nobody wrote down is not known, and never zero.",
        key="row",
        columns=COLUMNS,
        rows=rows_of(COLUMNS, (TreatmentRecord(year=year, line=line) for line in treatment_lines(year))),
    )
