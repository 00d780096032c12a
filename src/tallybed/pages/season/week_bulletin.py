"""The bulletin of one week, to be passed on by an address and with a picture of its own."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.season.bulletins import WeekItem, week_items
from tallybed.reckoning.year import Year


def pages(year: Year, only: str | None = None) -> Iterator[Page]:
    """Yield the bulletin of each week of a season that has a record, or the one at ``only``."""
    items = week_items(year)
    for number, item in enumerate(items):
        if only in (None, item.to):
            yield _page(year, items, number)


def _page(year: Year, items: tuple[WeekItem, ...], number: int) -> Page:
    """Return the page of the bulletin of that number in ``items``."""
    item = items[number]
    before = items[number - 1] if number else None
    after = items[number + 1] if number + 1 < len(items) else None
    return Page(
        path=item.to,
        template="week_bulletin.html",
        title=item.said.heading,
        description=" ".join(item.said.paragraphs),
        kind="week bulletin",
        data={
            "trail": below_season(year, Link("Bulletins", addresses.bulletins(year)), here=item.said.week),
            "week": item,
            "before": Link(before.said.week, before.to) if before else None,
            "after": Link(after.said.week, after.to) if after else None,
        },
        card=item.card,
    )
