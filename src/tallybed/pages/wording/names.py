"""What crops, plantings and squares are called on pages, and where their names lead."""

from __future__ import annotations

from collections.abc import Iterable

from tallybed.garden.crops import Crop
from tallybed.garden.garden import Garden
from tallybed.garden.naming import CropName
from tallybed.garden.plurals import in_plural
from tallybed.garden.squares import Square
from tallybed.garden.squares import in_words as squares_words
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.wording.sentences import NOT_TOLD, listed
from tallybed.reckoning.harvest.tally import GENERAL, bowl
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.room.plants import crop_of


def crop(garden: Garden, slug: str) -> Crop | None:
    """Return the crop of a slug, or None for one the garden does not know."""
    try:
        return garden.crop(slug)
    except KeyError:
        return None


def crop_link(garden: Garden, slug: str, *, many: bool = True) -> Link:
    """Return a crop's plural (or name), leading to its page."""
    found = crop(garden, slug)
    if found is None:
        return Link(slug or NOT_TOLD, "")
    return Link(found.plural if many else found.name, addresses.crop(found))


def listed_crop(garden: Garden, slug: str, *, many: bool = True) -> Link:
    """Return a crop as lists, tables and titles have it, leading to its page: ``tomatoes, indeterminate``."""
    found = crop(garden, slug)
    if found is None:
        return Link(slug or NOT_TOLD, "")
    return Link(found.listed if many else found.listed_one, addresses.crop(found))


def filed(garden: Garden, key: str) -> str:
    """Return what puts a tally's crop key in its order: the name that lists have for it, else the key."""
    found = crop(garden, key)
    return key if found is None else found.listed_one.casefold()


def named(garden: Garden, name: CropName, *, many: bool = False) -> Link:
    """Return a crop as typed in the records: its name (or plural), or the words if they mean none or many."""
    if name.slug:
        return crop_link(garden, name.slug, many=many)
    return Link(in_plural(name.typed) if many else name.typed, "")


def key_link(garden: Garden, key: str) -> Link:
    """Return what a tally's crop key is called."""
    mixed = bowl(key)
    if mixed:
        return Link(f"mixed bowl: {listed(crop_link(garden, part).text for part in mixed)}", "")
    if key.startswith(GENERAL):
        return Link(f"{key.removeprefix(GENERAL)} (which kind was not told)", "")
    return crop_link(garden, key)


def listed_key(garden: Garden, key: str) -> Link:
    """Return what a tally's crop key is called in a list, under its everyday name; bowls as in sentences."""
    known = crop(garden, key)
    return listed_crop(garden, key) if known else key_link(garden, key)


def planting_link(garden: Garden, planting: Planting) -> Link:
    """Return a planting's crop, variety and tag, leading to its own page."""
    return Link(planting_words(garden, planting), addresses.planting(planting))


def listed_planting(garden: Garden, planting: Planting) -> Link:
    """Return a planting as lists, tables and titles have it, leading to its own page."""
    known = crop_of(garden, planting)
    words = listed_name(known, planting.variety, planting.tag) if known else planting_words(garden, planting)
    return Link(words, addresses.planting(planting))


def listed_as_typed(garden: Garden, name: CropName, variety: str, tag: str) -> Link:
    """Return a crop as typed in the records, for a table: under its everyday name if it means one crop."""
    known = crop(garden, name.slug) if name.slug else None
    if known is None:
        return Link(full_name(name.typed, variety, tag), "")
    return Link(listed_name(known, variety, tag), addresses.crop(known))


def listed_name(found: Crop, variety: str, tag: str) -> str:
    """Return ``tomato, indeterminate, ‘Library Red’ (TO1)``, and ``bean, bush (BB1)``."""
    comma = "," if found.kind and variety else ""
    return full_name(f"{found.listed_one}{comma}", variety, tag)


def planting_words(garden: Garden, planting: Planting) -> str:
    """Return a planting's crop, variety and tag."""
    known = crop_of(garden, planting)
    base = known.name if known else planting.crop.typed
    return full_name(base, planting.variety, planting.tag)


def short_name(garden: Garden, planting: Planting) -> str:
    """Return a planting's tag, or else its key with its crop as the garden's files name it."""
    known = crop_of(garden, planting)
    if planting.tag or known is None:
        return planting.tag or planting.key
    return known.written + planting.key.removeprefix(known.slug)


def full_name(crop_name: str, variety: str, tag: str) -> str:
    """Return ``carrot ‘Amber Spike’ (CA1)``."""
    words = crop_name
    if variety:
        words += f" ‘{variety}’"
    if tag:
        words += f" ({tag})"
    return words


def place_words(garden: Garden, squares: Iterable[Square]) -> str:
    """Return ``A1:B2 of the long bed and C3 of the elbow bed``; no bed where the garden has only one.

    What lies in a bed that is not there in this season is always told with it.
    """
    every = tuple(squares)
    gone = {bed.name for bed in garden.elsewhen}
    if len(garden.beds) < 2 and not any(square.bed in gone for square in every):
        return squares_words(every, with_bed=False)
    listed_beds = (*garden.beds, *garden.elsewhen)
    by_bed: dict[str, list[Square]] = {bed.name: [] for bed in listed_beds}  # sets come in any order
    for square in every:
        by_bed[square.bed].append(square)
    return listed(
        f"{squares_words(own, with_bed=False)} of {garden.bed(bed).called}"
        for bed, own in by_bed.items()
        if own
    )
