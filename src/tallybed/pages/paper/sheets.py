"""The list of sheets to print."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.which_pages import marked_beds
from tallybed.pages.paper.papers import sheet_groups
from tallybed.reckoning.year import Years


def pages(years: Years) -> Iterator[Page]:
    """Yield the list of sheets to print; nothing without a bed."""
    if years.present.beds:
        yield _page(years)


def _page(years: Years) -> Page:
    """Return the list of sheets as a page."""
    return Page(
        path=addresses.SHEETS,
        template="sheets.html",
        title="Sheets to print",
        description="Sheets of this garden to print and take outside.",
        kind="sheets",
        data={
            "trail": (),
            "lead": "Print a sheet and take it outside. Each fits on Letter and on A4 paper.",
            "papers": sheet_groups(years),
            "marking": tuple(_marking(years)),
        },
    )


def _marking(years: Years) -> Iterator[Link]:
    """Yield the sheets for marking out the beds there now and those to come: stakes go in before a season."""
    later = {bed for year in years.all if year.season.span.first > years.today for bed in year.garden.beds}
    for bed in marked_beds(years):
        if bed in years.present.beds:
            yield Link(f"Marking out {bed.called}", addresses.marking(bed))
        elif bed in later:
            yield Link(f"Marking out {bed.called}, {bed.there}", addresses.marking(bed))
