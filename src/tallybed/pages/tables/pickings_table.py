"""Weighings of the ledger as rows of a table."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date

from tallybed.garden.days import without_year
from tallybed.garden.garden import Garden
from tallybed.garden.naming import CropName
from tallybed.garden.plurals import figured
from tallybed.garden.records.ledger import State, Weighing
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text, without_empty_columns
from tallybed.pages.wording import names
from tallybed.pages.wording.sentences import listed
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year

ABOUT = "about "


def weighings_table(year: Year, chosen: Iterable[int]) -> Table:
    """Return a day's weighings, by their places in the season's ledger, in the ledger's order."""
    ledger = year.season.ledger or ()
    named = (
        (ledger[number], crop_words(year.garden, ledger[number], year.owners[number])) for number in chosen
    )
    rows = (_row(year.garden, weighing, crop) for weighing, crop in named)
    return _table("Crop", rows, ident="weighed", caption="Picked that day")


def dated_weighings_table(year: Year, chosen: Iterable[int], visits: Mapping[date, str]) -> Table:
    """Return a planting's weighings day by day. ``visits``: for a day the page of a visit."""
    ledger = year.season.ledger or ()
    rows = (
        _row(year.garden, one, Link(without_year(one.day), visits.get(one.day, "")))
        for one in sorted((ledger[number] for number in chosen), key=lambda one: one.day)
    )
    return _table("Day", rows, ident="pickings", caption="Every picking of it")


def _table(first: str, rows: Iterable[Row], *, ident: str, caption: str) -> Table:
    """Return weighings as a table, with what each row begins with."""
    return without_empty_columns(
        Table(
            ident=ident,
            caption=caption,
            heads=heads(first, "Weight", "Went to", numbers=("Weight",)),
            rows=tuple(rows),
        )
    )


def weight_words(garden: Garden, weighing: Weighing) -> str:
    """Return ``1 lb 6 oz``, ``about 2 lb`` or ``not weighed``."""
    if weighing.weight is None:
        return "not weighed"
    words = garden.showing.picked(weighing.weight)
    return ABOUT + words if weighing.estimated else words


def crop_words(garden: Garden, weighing: Weighing, planting: Planting | None) -> Link:
    """Return what was picked, with variety and tag as told, leading to its planting where that is known."""
    if weighing.mixed:
        return Link(f"mixed bowl: {listed(_name(garden, crop) for crop in weighing.crops)}", "")
    told = weighing.crops[0] if weighing.crops else None
    if told is None and planting is None:
        return Link(f"planting {weighing.tag}", "")
    known = planting.crop if planting and not (told and told.slug) else told
    words = names.listed_as_typed(garden, known, weighing.variety, weighing.tag) if known else Link("", "")
    return Link(words.text, addresses.planting(planting)) if planting else words


def _row(garden: Garden, weighing: Weighing, first: Link) -> Row:
    """Return one weighing, with what its row begins with."""
    later = weighing.weighed if weighing.weighed != weighing.day else None
    words = (
        names.place_words(garden, weighing.squares),
        weighing.form,
        weighing.state.value if weighing.state is not State.FRESH else "",
        f"weighed {without_year(later)}" if later else "",
        weighing.note,
    )
    pieces = figured(weighing.count, "piece") if weighing.count is not None else ""
    return Row(
        cells=(
            Cell(text=first.text, to=first.to, note="; ".join(filter(None, words))),
            replace(figure(weight_words(garden, weighing)), note=pieces),
            text(_destinations(garden, weighing)),
        )
    )


def _destinations(garden: Garden, weighing: Weighing) -> str:
    """Return where a weighing went, with what each place got."""
    parts = []
    for part in weighing.to:
        if part.weight is not None:
            parts.append(f"{part.name} {garden.showing.picked(part.weight)}")
        else:
            parts.append(part.name if len(weighing.to) == 1 else f"{part.name} the rest")
    return ", ".join(parts)


def _name(garden: Garden, crop: CropName) -> str:
    """Return what a crop is called."""
    return names.crop_link(garden, crop.slug).text if crop.slug else crop.typed
