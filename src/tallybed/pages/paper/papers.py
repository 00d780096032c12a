"""Which sheets there are to print, besides those for marking out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tallybed.drawing.bedmap.view import letters_of
from tallybed.garden.crops import kind_after
from tallybed.garden.findings import joined
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.frame.which_pages import begun, tagged_seasons
from tallybed.reckoning.calendar.month import DrawnPlanting
from tallybed.reckoning.year import Year, Years


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetGroup:
    """Sheets of one kind."""

    title: str
    words: str
    sheets: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MapLetters:
    """Letters on a map, and the crop they stand for."""

    letters: str
    crop: str


def map_letters(drawn: Iterable[DrawnPlanting]) -> tuple[MapLetters, ...]:
    """Return what the letters on maps stand for, by their letters."""
    found = {(letters_of(one), kind_after(one.name, one.kind)) for one in drawn}
    return tuple(MapLetters(letters=letters, crop=name) for letters, name in sorted(found))


def tags_title(seasons: Iterable[Year]) -> str:
    """Return what the sheets of tags of some seasons are called: ``Plant tags for 2026 and 2027``."""
    return f"Plant tags for {joined((year.name for year in seasons), 'and')}"


def sheet_groups(years: Years) -> tuple[SheetGroup, ...]:
    """Return the sheets of each kind; none without a bed, and none without a season."""
    beds = years.present.beds
    if not beds or years.foremost is None:
        return ()
    found = (
        SheetGroup(
            title="Signs for the fence",
            words="A bed’s map, what it gave so far, who got it, and a code that leads to its page.",
            sheets=tuple(Link(f"Sign for {bed.called}", addresses.sign(bed)) for bed in beds),
        ),
        SheetGroup(
            title="For the clipboard",
            words="What stands now, square by square, with room for weights and notes.",
            sheets=(Link("Tally sheet", addresses.TALLY_SHEET),),
        ),
        SheetGroup(
            title="At work",
            words="What not to pick and not to touch today, until when, and what to mind at work.",
            sheets=(Link("For volunteers", addresses.VOLUNTEERS),),
        ),
        SheetGroup(
            title="To cut out",
            words="A tag for each planting: its names, its days, and a code that leads to its page.",
            sheets=(Link(tags_title(tagged_seasons(years)), addresses.PLANT_TAGS),),
        ),
        SheetGroup(
            title="For the wall",
            words="A season on one sheet: its maps month by month, what each crop gave, its best weeks.",
            sheets=tuple(
                Link(f"Poster of {one.name}", addresses.poster(one)) for one in reversed(begun(years))
            ),
        ),
    )
    return tuple(one for one in found if one.sheets)
