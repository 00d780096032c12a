"""The beds of a season as a table for reuse: one row a bed, with the areas that pages divide by."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tallybed.garden.squares import Bed
from tallybed.garden.units import INCH
from tallybed.pages.files.data.tables import Column, Dataset, count, day, exact, number, rows_of, text
from tallybed.reckoning.harvest.areas import run_out_used
from tallybed.reckoning.year import Year

_AREA = "ft2"


@dataclass(frozen=True, slots=True, kw_only=True)
class BedRecord:
    """A bed in a season."""

    bed: Bed
    year: Year

    @property
    def last(self) -> date | None:
        """The season’s last day that is past, or the newest on record; None before it begins."""
        last = min(self.year.today, self.year.season.span.last)
        return last if last >= self.year.season.span.first else None


COLUMNS: tuple[Column[BedRecord], ...] = (
    text("bed", "Short name of the bed", lambda one: one.bed.name, required=True, unique=True),
    text("title", "What it is called", lambda one: one.bed.title, required=True),
    count("squares", "Squares it has", lambda one: len(one.bed.squares)),
    number("side_in", "Side of one square", "in", lambda one: exact(one.bed.side.within(INCH))),
    number("area_sqft", "Area of its squares", _AREA, lambda one: exact(one.bed.square_feet)),
    number(
        "run_out_sqft",
        "Ground outside it over which vines were led out this season; 0 where none were",
        _AREA,
        lambda one: exact(run_out_used(one.bed, one.year.season)),
    ),
    number("path_share_sqft", "Its share of the paths", _AREA, lambda one: exact(one.bed.path_square_feet)),
    day("first", "First day of the season", lambda one: one.year.season.span.first, required=True),
    day(
        "last",
        "Last day of the season up to the newest record; empty where the season is still to begin",
        lambda one: one.last,
    ),
)
"""Add a column here."""


def beds(year: Year) -> Dataset:
    """Return the beds as they were used in a season."""
    return Dataset(
        name="beds",
        title=f"Beds of {year.name}",
        meaning="The beds and their areas, as they were used that season: one row a bed.",
        key="bed",
        columns=COLUMNS,
        rows=rows_of(COLUMNS, (BedRecord(bed=one, year=year) for one in year.garden.beds)),
    )
