"""Addresses whose page has become part of another: each leads on from a small page of its own.

An address that was once printed on a sheet or sent to a friend goes on leading somewhere. What
became part of what is a rule of each season, so that it holds in any garden; an entry that was renamed
tells its first name itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date

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
        yield from _renamed(year)
    yield from _gone(years)


def _months(year: Year) -> Iterator[tuple[str, Link]]:
    """Yield the folder of each bed's chief month, whose page is the bed's own."""
    chief = year.chief_month
    for bed in year.garden.beds:
        to = Link(f"{bed.title} {in_season(year)}", addresses.bed(year, bed))
        yield addresses.bed_month_folder(year, bed, chief), to


def _renamed(year: Year) -> Iterator[tuple[str, Link]]:
    """Yield where each entry was published that says it had another name, unless one lies there now."""
    there = {addresses.entry(year, entry) for entry in year.entries}
    for entry in year.entries:
        day, slug = date.fromisoformat(entry.known_as[:10]), entry.known_as[11:]
        first = addresses.entry(year, replace(entry, day=day, slug=slug))
        if first not in there:
            yield first, Link(entry.title, addresses.entry(year, entry))


def _gone(years: Years) -> Iterator[tuple[str, Link]]:
    """Yield the sign of each bed that went away, and its pages of later seasons, where they may have been.

    Each leads to the bed in the last season it was there.
    """
    for bed in years.garden.beds:
        there = [year for year in years.all if bed in year.garden.beds]
        later = [year for year in years.all if bed.until and year.name > bed.until]
        if not there or not later:
            continue
        to = Link(f"{bed.title} {in_season(there[-1])}", addresses.bed(there[-1], bed))
        yield from ((path, to) for year in later for path in _of_bed(year, bed))
        if years.foremost in later:
            yield addresses.sign(bed), to


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
