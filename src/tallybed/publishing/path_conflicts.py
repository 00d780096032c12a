"""Names in the garden's files that give the site a path it cannot have, or one that is taken."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tallybed.garden.findings import Finding, Place
from tallybed.pages.frame import addresses
from tallybed.publishing.assets import OWN
from tallybed.publishing.paths import claimed_twice, fits
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Years

_CROPS = Place("content/crops.yaml")
"""Where a crop that the library does not have was described."""
_Owned = tuple[str, Place]
"""A path, or a folder's with its slash, and where the name in it was chosen."""


def unfit_paths(years: Years, pages: Iterable[str], assets: Iterable[str]) -> tuple[Finding, ...]:
    """Return a finding for each name that gives a path which cannot be, at the name's place.

    ``pages``: the path of each page and of what lies beside them; ``assets``: of each file of the layouts.
    Raises ValueError where the name is none of the gardener's but ours.
    """
    names = tuple(assets)
    owned = [*_owned(years), *((name, Place(f"{OWN}/{name}")) for name in names)]
    paths = [*pages, *names]
    found: dict[Place, Finding] = {}
    for path in (path for path in paths if not fits(path)):
        place = _place(path, owned)
        found.setdefault(
            place,
            Finding(
                place=place,
                code="name-unfit",
                found=f"this would lie at {path} in the site, which some systems cannot hold",
                remedy="give it another name",
            ),
        )
    for path in claimed_twice(paths):
        place = _place(path, owned)
        found.setdefault(
            place,
            Finding(
                place=place,
                code="name-taken",
                found=f"this would lie at {path} in the site, where something lies already",
                remedy="give it another name, in letters a to z and digits",
            ),
        )
    return tuple(found.values())


def _owned(years: Years) -> Iterator[_Owned]:
    """Yield the folder of each page that carries a name of the gardener's, and where that name was chosen."""
    garden = years.garden
    for bed in garden.beds:
        yield _folder(addresses.marking(bed)), bed.place
        yield _folder(addresses.sign(bed)), bed.place
    for crop in garden.crops:
        yield _folder(addresses.crop(crop)), _CROPS
    for leaf in garden.leaves:
        yield _folder(addresses.leaf(years, leaf)), leaf.place
    for question in garden.questions:
        yield _folder(addresses.question(question)), question.place
    for year in years.all:
        for bed in garden.beds:
            yield _folder(addresses.bed(year, bed)), bed.place
        for entry in year.season.log or ():
            yield _folder(addresses.entry(year, entry)), entry.place
        for planting in year.plantings:
            yield _folder(addresses.planting(planting)), _first_place(planting)


def _first_place(planting: Planting) -> Place:
    """Return where a planting is first told of."""
    records = (planting.planned, *planting.events, *planting.weighings)
    return next(record.place for record in records if record is not None)


def _folder(address: str) -> str:
    """Return the folder, with its slash, of a page that is its index; else the address itself."""
    return address.removesuffix("index.html")


def _place(path: str, owned: Iterable[_Owned]) -> Place:
    """Return where the last name in a path was chosen. Raises ValueError where nobody chose one.

    A name stands for what lies below it, and for what it lies below.
    """
    folder = f"{path.casefold()}/"
    starts = ((start.casefold(), place) for start, place in owned)
    found = [place for start, place in starts if folder.startswith(start) or start.startswith(folder)]
    if not found:
        raise ValueError(f"a page of our own cannot lie at {path}")
    return max(found)
