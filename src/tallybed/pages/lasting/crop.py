"""A crop: its year here in a drawing, what it gave, its care in short and at length, questions about it."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.crops import Crop
from tallybed.garden.findings import capital
from tallybed.garden.naming import near_kinds
from tallybed.pages.care.advised import advised
from tallybed.pages.care.cautions import cautions_read, crop_cautions
from tallybed.pages.care.figures import care
from tallybed.pages.care.growing import windows_table
from tallybed.pages.care.in_short import care_in_short
from tallybed.pages.drawings.crop_drawings import gave_drawing, spacing_drawing, year_drawing
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.lasting.crop_seasons import histories, no_history, plantings_table
from tallybed.pages.lasting.questions import ordered, question_item
from tallybed.pages.rows.crops import crop_line
from tallybed.pages.tables.tables import Row, Table, figure, heads, text, without_empty_columns
from tallybed.pages.wording.sentences import NO_FACTS, listed
from tallybed.reckoning.year import Years

_UNTOLD = {"habit": "how it grows", "start": "what it begins from", "spacing": "its spacing"}
"""What nobody told of a crop that is only weighed."""


def pages(years: Years, only: str | None = None) -> Iterator[Page]:
    """Yield each crop's page, or the one at ``only``."""
    return (_page(years, crop) for crop in years.garden.crops if only in (None, addresses.crop(crop)))


def _page(years: Years, crop: Crop) -> Page:
    questions = [one for one in ordered(years.garden.questions) if crop.slug in one.about]
    name = capital(crop.listed)
    year = years.foremost
    days = advised(year, crop) if year else ()
    told = histories(years, crop)
    return Page(
        path=addresses.crop(crop),
        template="crop.html",
        title=name,
        description=f"{name} in {years.garden.name}: its year, what each season gave, care with sources.",
        kind="crop",
        data={
            "trail": (Link("Crops", addresses.CROPS), Link(name, "")),
            "botanical": crop.botanical_name,
            "family": crop.family,
            "also": tuple(name for name in crop.also if not _plural_of_another(name, crop.also)),
            "own": crop.own,
            "untold": listed(_UNTOLD[key] for key in crop.untold if key in _UNTOLD),
            "near": tuple(
                Link(one.plural, addresses.crop(one)) for one in near_kinds(years.garden.crops, crop)
            ),
            "drawn": year_drawing(years, crop, days),
            "spacing": spacing_drawing(years, crop),
            "windows": windows_table(years, crop),
            "histories": told,
            "gave": gave_drawing(years, crop),
            "beside": crop_line(years, crop.slug),
            "plantings": plantings_table(years, crop),
            "no_history": no_history(years, crop),
            "short": care_in_short(years.present, crop, days),
            "no_facts": NO_FACTS,
            "care": care(years.garden, crop),
            "cautions": cautions_read(years.garden.showing, crop_cautions(crop)),
            "questions": tuple(question_item(one) for one in questions),
            "varieties": _varieties(years, crop),
        },
    )


def _plural_of_another(name: str, names_: tuple[str, ...]) -> bool:
    """Return whether a name is only the plural of another in the list."""
    return any(name != other and name in (f"{other}s", f"{other}es") for other in names_)


def _varieties(years: Years, crop: Crop) -> Table | None:
    """Return the varieties the garden knows of a crop as a table; None where it knows none."""
    if not crop.varieties:
        return None
    rows = tuple(
        Row(
            cells=(
                text(one.name),
                figure(f"{one.days:,}" if one.days is not None else ""),
                text(years.garden.showing.length(one.spacing) if one.spacing else ""),
                text(one.source),
                text(one.note),
            )
        )
        for one in crop.varieties
    )
    table = Table(
        ident="varieties",
        caption=f"Varieties of {crop.plural} this garden knows",
        heads=heads("Variety", "Days", "Spacing", "Source", "Note", numbers=("Days",)),
        rows=rows,
    )
    return without_empty_columns(table)
