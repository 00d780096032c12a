"""A season beside rows as tables for reuse: row ground, areas, and what each planting gave for its ground."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TypeVar

from tallybed.pages.files.data.tables import (
    SEVERAL,
    Column,
    Dataset,
    exact,
    grams,
    number,
    planting,
    rows_of,
    text,
    whether,
)
from tallybed.reckoning.harvest.areas import Ground
from tallybed.reckoning.rows.land import CropGround, Range
from tallybed.reckoning.rows.planting_yields import PlantingYield
from tallybed.reckoning.rows.season import RowAnswer, answer, yields
from tallybed.reckoning.year import Year

_Record = TypeVar("_Record")
_AREA, _YIELD = "ft2", "lb/ft2"


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaRecord:
    """One of the grounds the weight may be told over, and the row ground over it."""

    ground: Ground
    equivalents: Range
    verdict: str
    """Empty for one without a verdict."""


def _ranged(
    name: str, meaning: str, unit: str, get: Callable[[_Record], Range]
) -> tuple[Column[_Record], Column[_Record], Column[_Record]]:
    """Return three columns for a low, a middle and a high value."""
    return (
        number(f"{name}_low", f"{meaning}, low", unit, lambda one: exact(get(one).low)),
        number(name, f"{meaning}, middle", unit, lambda one: exact(get(one).middle)),
        number(f"{name}_high", f"{meaning}, high", unit, lambda one: exact(get(one).high)),
    )


def _printed(one: CropGround) -> Range:
    """Return the printed yields of a crop's row."""
    return Range(low=one.printed.low, middle=one.printed.middle, high=one.printed.high)


ROW_GROUND: tuple[Column[CropGround], ...] = (
    text(
        "crop",
        "Short name of the crop in this garden’s library",
        lambda one: one.crop,
        required=True,
        unique=True,
    ),
    number("grams", "Weight counted, to a milligram", "g", lambda one: grams(one.weight)),
    whether("at_least", "Whether pickings of it were not weighed", lambda one: one.at_least),
    *_ranged("printed", "Printed yield of a row garden", _YIELD, _printed),
    *_ranged("row_ground", "Ground that rows would have needed", _AREA, lambda one: one.square_feet),
    text(
        "sources",
        "Publications of the printed yields, by their names in the crop library, one after the other",
        lambda one: SEVERAL.join(one.printed.sources),
    ),
)
AREAS: tuple[Column[AreaRecord], ...] = (
    text("ground", "The area, in words", lambda one: one.ground.of, required=True, unique=True),
    number("square_feet", "Its size", _AREA, lambda one: exact(one.ground.square_feet)),
    *_ranged(
        "land_equivalents",
        "Row ground over this area: a sum of partial land equivalents",
        "",
        lambda one: one.equivalents,
    ),
    whether("answer", "Whether the answer stands on this area", lambda one: bool(one.verdict)),
    text(
        "verdict", "What may be said, by rule; empty for an area without a verdict", lambda one: one.verdict
    ),
)
PLANTINGS: tuple[Column[PlantingYield], ...] = (
    planting(lambda one: one.planting, unique=True),
    text("crop", "Short name of the crop in this garden’s library", lambda one: one.crop, required=True),
    number(
        "grams",
        "Weight put down to it, to a milligram; empty where nothing of it was weighed",
        "g",
        lambda one: None if one.unknown else grams(one.weight),
    ),
    whether(
        "at_least",
        "Whether it may have given more than was weighed of it",
        lambda one: one.at_least or one.unknown,
    ),
    whether("ended", "Whether it is over", lambda one: one.ended),
    whether("lost", "Whether it failed, was lost or was cut short", lambda one: one.lost),
    number("squares", "Area of its squares", _AREA, lambda one: exact(one.ground.squares)),
    number("run_out", "Ground its vines were led out over", _AREA, lambda one: exact(one.ground.run_out)),
    number("path", "Its squares’ share of the path", _AREA, lambda one: exact(one.ground.path)),
    number(
        "yield",
        "Weight over all three; empty where nothing of it was weighed",
        _YIELD,
        lambda one: None if one.unknown else exact(one.like_for_like),
    ),
)


def row_datasets(year: Year) -> Iterator[Dataset]:
    """Yield the tables of a season beside rows; none where nothing was weighed."""
    found = answer(year)
    if found is None:
        return
    yield Dataset(
        name="row-ground",
        title=f"Row ground of {year.name}",
        meaning="The ground that ordinary rows would have needed for what was weighed: one row a crop with "
        "a printed row yield.",
        key="crop",
        columns=ROW_GROUND,
        rows=rows_of(ROW_GROUND, found.rows.crops),
    )
    yield Dataset(
        name="areas",
        title=f"Areas of {year.name}",
        meaning="The grounds that the weight may be told over: one row each.",
        key="ground",
        columns=AREAS,
        rows=rows_of(AREAS, _areas(found)),
    )
    yield Dataset(
        name="planting-yields",
        title=f"Yields of plantings of {year.name}",
        meaning="What each planting gave for the ground it lived on: one row each.",
        key="planting",
        columns=PLANTINGS,
        rows=rows_of(PLANTINGS, yields(year)),
    )


def _areas(found: RowAnswer) -> Iterator[AreaRecord]:
    """Yield the grounds of an answer."""
    for ground, ratio in found.equivalents:
        verdict = str(found.verdict) if ground is found.ground else ""
        yield AreaRecord(ground=ground, equivalents=ratio, verdict=verdict)
