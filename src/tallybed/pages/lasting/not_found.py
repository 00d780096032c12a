"""The page that a host shows at an address where nothing lies."""

from __future__ import annotations

from collections.abc import Iterator
from urllib.parse import urlsplit

from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import season_link
from tallybed.reckoning.year import Years


def pages(years: Years) -> Iterator[Page]:
    """Yield the page; none for a garden without an address: nobody knows where its links should begin."""
    if years.garden.address:
        yield Page(
            path=addresses.NOT_FOUND,
            template="not_found.html",
            title="No page here",
            description="Nothing lies at this address; what there is instead.",
            kind="not found",
            top=urlsplit(years.garden.address).path,
            data={"trail": (), "ways": tuple(_ways(years))},
        )


def _ways(years: Years) -> Iterator[Link]:
    """Yield where whoever came by a tag, a sign or an old address may find what they meant."""
    yield Link("Today in the beds", addresses.HOME)
    year = years.foremost
    if year:
        yield season_link(year)
        if year.plantings:
            yield Link(f"Every planting of {year.name}, by its tag", addresses.plantings(year))
    yield Link("Every crop", addresses.CROPS)
    yield Link("All seasons", addresses.SEASONS)
