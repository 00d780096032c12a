"""Crop by crop: the weight, what is printed for rows, and the ground that rows would have needed."""

from __future__ import annotations

from dataclasses import dataclass

from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.rows.parts import Citations, RowsPart, per_area, to
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, link, text
from tallybed.pages.tables.tally_tables import weight_cell
from tallybed.pages.wording import names
from tallybed.pages.wording.dated import in_season
from tallybed.pages.wording.sentences import counted, sentence
from tallybed.reckoning.harvest.tally import Total
from tallybed.reckoning.medians import median
from tallybed.reckoning.rows.land import CropGround, Range
from tallybed.reckoning.rows.season import RowAnswer, crop_verdict, crop_yields, printed_yields
from tallybed.reckoning.year import Year, Years


def crops_part(year: Year, found: RowAnswer, citations: Citations) -> RowsPart:
    """Return the section with each crop's row ground, and what no printed yield covers."""
    tables = (_crops_table(year, found, citations),) if found.rows.crops else ()
    folded = (("Weighed, and without a printed row yield", _uncovered_table(year, found.rows.uncovered)),)
    return RowsPart(
        ident="crops",
        title="Crop by crop",
        answer=f"{counted(len(found.rows.crops), 'crop')} with a printed row yield",
        said=(
            "Row ground is the weight of a crop over its printed row yield: the ground that rows would have "
            "needed for it. A printed row yield is what a length of row gives over the distance between the "
            "rows, so it holds the walking room between them.",
        )
        if tables
        else (),
        tables=tables,
        folded=folded if found.rows.uncovered else (),
    )


def _crops_table(year: Year, found: RowAnswer, citations: Citations) -> Table:
    """Return each crop’s row ground, and their sum."""
    showing = year.garden.showing
    columns = (
        f"Weight, {showing.unit}",
        f"Printed for rows, {showing.per_area_unit}",
        f"Row ground, {showing.area_unit}",
    )
    total = found.rows.square_feet
    whole = Row(
        cells=(
            text("All of these"),
            weight_cell(showing, found.rows.covered, at_least=any(one.at_least for one in found.rows.crops)),
            figure(""),
            _ground(year, total),
            text(""),
        ),
        mark="total",
    )
    return Table(
        ident="t-row-ground",
        caption=f"What rows would have needed, crop by crop, {year.name}",
        heads=heads("Crop", *columns, "Sources", numbers=columns),
        rows=tuple(_row(year, one, citations) for one in _by_name(year, found.rows.crops)),
        foot=(whole,),
        notes=(
            "First the figure in the middle, then the lowest to the highest of all sources. The high yield "
            "makes the low ground.",
        ),
    )


def _by_name(year: Year, crops: tuple[CropGround, ...]) -> list[CropGround]:
    """Return crops in the order of their names."""
    return sorted(crops, key=lambda one: names.listed_key(year.garden, one.crop).text.casefold())


def _row(year: Year, one: CropGround, citations: Citations) -> Row:
    """Return one crop’s row ground."""
    showing, printed = year.garden.showing, one.printed
    low, high = per_area(showing, printed.low), per_area(showing, printed.high)
    return Row(
        cells=(
            link(names.listed_key(year.garden, one.crop)),
            weight_cell(year.garden.showing, one.weight, at_least=one.at_least),
            Cell(
                text=per_area(showing, printed.middle), number=True, note=to(low, high) if low != high else ""
            ),
            _ground(year, one.square_feet),
            citations.cell(*printed.sources),
        )
    )


def _ground(year: Year, square_feet: Range) -> Cell:
    """Return the middle of an area, with its low and its high below."""
    showing = year.garden.showing
    low, high = showing.area_number(square_feet.low), showing.area_number(square_feet.high)
    return Cell(
        text=showing.area_number(square_feet.middle), number=True, note=to(low, high) if low != high else ""
    )


def _uncovered_table(year: Year, uncovered: tuple[tuple[str, Total], ...]) -> Table:
    """Return what no printed yield covers, the heaviest first."""
    column = f"Weight, {year.garden.showing.unit}"
    rows = tuple(
        Row(
            cells=(
                link(names.listed_key(year.garden, key)),
                weight_cell(year.garden.showing, total.weight, at_least=total.at_least),
            )
        )
        for key, total in sorted(uncovered, key=lambda one: (-one[1].weight.nanograms, one[0]))
    )
    return Table(
        ident="t-uncovered",
        caption=f"Weighed {in_season(year)}, and without a printed row yield",
        heads=heads("Crop or bowl", column, numbers=(column,)),
        rows=rows,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class CropLine:
    """What a crop's own page says of it beside rows."""

    words: str
    to: Link


def crop_line(years: Years, slug: str) -> CropLine | None:
    """Return the line for a crop's page; None where no planting of it can be judged."""
    printed, verdict = printed_yields(years).get(slug), crop_verdict(years, slug)
    judged = [one for one in crop_yields(years).get(slug, ()) if one.counts]
    if printed is None or not judged:
        return None
    showing = years.garden.showing
    middle = per_area(showing, median([one.like_for_like for one in judged]))
    span = to(per_area(showing, printed.low), per_area(showing, printed.high))
    least = "at least " if any(one.at_least for one in judged) else ""
    words = sentence(
        f"beside ordinary rows: {verdict}",
        f"by {counted(len(judged), 'planting')} that {'has' if len(judged) == 1 else 'have'} ended",
        f"with a median of {least}{middle} {showing.per_area_unit} on ground like that of a row",
        f"where {span} is printed",
    )
    year = next(one for one in reversed(years.all) if one.season.ledger is not None)
    return CropLine(words=words, to=Link("How that is reckoned", f"{addresses.rows(year)}#plantings"))
