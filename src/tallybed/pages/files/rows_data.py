"""A season beside rows as tables for reuse: row ground, areas, and what each planting gave for its ground."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.units import GRAM
from tallybed.pages.files.data_rows import Dataset, weight_in
from tallybed.pages.files.told_columns import Told, dataset, exact, key, number, ranged, text, whether
from tallybed.reckoning.harvest.areas import Ground
from tallybed.reckoning.rows.land import CropGround, Range
from tallybed.reckoning.rows.planting_yields import PlantingYield
from tallybed.reckoning.rows.season import Answer, answer, yields
from tallybed.reckoning.year import Year

_SEVERAL = "; "
_AREA, _YIELD = "ft2", "lb/ft2"


def row_datasets(year: Year) -> Iterator[Dataset]:
    """Yield the tables of a season beside rows; none where nothing was weighed."""
    found = answer(year)
    if found is not None:
        yield _row_ground(year, found)
        yield _areas(year, found)
        yield _plantings(year)


def _row_ground(year: Year, found: Answer) -> Dataset:
    told: tuple[Told[CropGround], ...] = (
        Told(
            column=key("crop", "Short name of the crop in this garden’s library"),
            value=lambda one: one.crop,
        ),
        Told(
            column=number("grams", "Weight counted, to a milligram", "g"),
            value=lambda one: weight_in(one.weight, GRAM),
        ),
        Told(
            column=whether("at_least", "Whether pickings of it were not weighed"),
            value=lambda one: one.at_least,
        ),
        *ranged(
            "printed",
            "Printed yield of a row garden",
            _YIELD,
            lambda one: Range(low=one.printed.low, middle=one.printed.middle, high=one.printed.high),
        ),
        *ranged("row_ground", "Ground that rows would have needed", _AREA, lambda one: one.square_feet),
        Told(
            column=text("sources", "Publications of the printed yields, one after the other"),
            value=lambda one: _SEVERAL.join(one.printed.sources) or None,
        ),
    )
    return dataset(
        "row-ground",
        f"Row ground of {year.name}",
        "The ground that ordinary rows would have needed for what was weighed: one row a crop with a "
        "printed row yield.",
        told,
        found.rows.crops,
    )


def _areas(year: Year, found: Answer) -> Dataset:
    told: tuple[Told[tuple[Ground, Range]], ...] = (
        Told(column=key("ground", "The area, in words"), value=lambda one: one[0].of),
        Told(column=number("square_feet", "Its size", _AREA), value=lambda one: exact(one[0].square_feet)),
        *ranged(
            "land_equivalents",
            "Row ground over this area: a sum of partial land equivalents",
            "",
            lambda one: one[1],
        ),
        Told(
            column=whether("answer", "Whether the answer stands on this area"),
            value=lambda one: one[0] is found.ground,
        ),
        Told(
            column=text("verdict", "What may be said by rule; empty for an area without a verdict"),
            value=lambda one: str(found.verdict) if one[0] is found.ground else None,
        ),
    )
    return dataset(
        "areas",
        f"Areas of {year.name}",
        "The grounds that the weight may be told over: one row each.",
        told,
        found.equivalents,
    )


def _plantings(year: Year) -> Dataset:
    told: tuple[Told[PlantingYield], ...] = (
        Told(
            column=key("planting", "The planting’s own name, as in the other files"),
            value=lambda one: one.planting.key,
        ),
        Told(column=text("crop", "Short name of the crop", required=True), value=lambda one: one.crop),
        Told(
            column=number("grams", "Weight put down to it, to a milligram", "g"),
            value=lambda one: weight_in(one.weight, GRAM),
        ),
        Told(
            column=whether("at_least", "Whether it may have given more than was weighed of it"),
            value=lambda one: one.at_least,
        ),
        Told(column=whether("ended", "Whether it is over"), value=lambda one: one.ended),
        Told(
            column=whether("lost", "Whether it failed, was lost or was cut short"),
            value=lambda one: one.lost,
        ),
        Told(
            column=number("squares", "Area of its squares", _AREA),
            value=lambda one: exact(one.ground.squares),
        ),
        Told(
            column=number("run_out", "Ground its vines were led out over", _AREA),
            value=lambda one: exact(one.ground.run_out),
        ),
        Told(
            column=number("path", "Its squares’ share of the path", _AREA),
            value=lambda one: exact(one.ground.path),
        ),
        Told(
            column=number("yield", "Weight over all three", _YIELD),
            value=lambda one: exact(one.like_for_like),
        ),
    )
    return dataset(
        "planting-yields",
        f"Yields of plantings of {year.name}",
        "What each planting gave for the ground it lived on: one row each.",
        told,
        yields(year),
    )
