"""Addresses whose page has become part of another: each leads on from a small page of its own.

An address that was once printed on a sheet or sent to a friend goes on leading somewhere. What
became part of what is a rule of each season, so that it holds in any garden.
"""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.squares import Bed
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.wording.dated import in_season
from tallybed.reckoning.year import Year, Years

TEMPLATE = "moved.html"


def moved(years: Years) -> Iterator[tuple[str, Link]]:
    """Yield each address that leads on, with the page that took its place."""
    for year in years.all:
        if year.season.plan is not None:
            yield f"{year.name}/plan/index.html", Link(f"Plantings of {year.name}", addresses.plantings(year))
        yield from _months(year)
    yield from _away(years)


def _months(year: Year) -> Iterator[tuple[str, Link]]:
    """Yield the folder of each bed's chief month, whose page is the bed's own."""
    chief = year.chief_month
    for bed in year.garden.beds:
        to = Link(f"{bed.title} {in_season(year)}", addresses.bed(year, bed))
        yield addresses.bed_month_folder(year, bed, chief), to


def _away(years: Years) -> Iterator[tuple[str, Link]]:
    """Yield each bed's pages of the seasons it was not in, and its sheets, where they may have been.

    They may: ``since`` and ``until`` are often told once a site is published. Each leads to the bed in
    the nearest season it was there; to the season's own page where it is in none that has a folder.
    """
    for bed in years.garden.beds:
        there = [year for year in years.all if bed.was_there(year.name)]
        for year in years.all:
            if bed.was_there(year.name):
                continue
            to = Link(f"The season {year.name}", addresses.season(year))
            if there:
                nearest = there[0] if year.name < there[0].name else there[-1]
                to = Link(f"{bed.title} {in_season(nearest)}", addresses.bed(nearest, bed))
            yield from ((path, to) for path in _of_bed(year, bed))
            if year is years.foremost:
                yield addresses.sign(bed), to
                yield addresses.marking(bed), to


def _of_bed(year: Year, bed: Bed) -> Iterator[str]:
    """Yield where a bed's page of a season, its months and their hours of sun lie."""
    yield addresses.bed(year, bed)
    for month in year.season.span.months:
        yield addresses.bed_month_folder(year, bed, month)
        if year.garden.latitude is not None:
            yield addresses.sun(year, bed, month)


def moved_pages(years: Years) -> Iterator[Page]:
    """Yield a small page for each address that leads on; they are outside the count and list of pages."""
    garden = years.garden
    for path, to in moved(years):
        yield Page(
            path=path,
            template=TEMPLATE,
            title=to.text,
            description="",
            kind="moved",
            data={
                "language": garden.language,
                "garden": garden.name,
                "to": to,
                "address": addresses.absolute(garden.address, to.to) if garden.address else "",
            },
        )
