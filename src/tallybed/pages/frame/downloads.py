"""What a reader can take along from a season: its bulletins, its calendars, its data."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.findings import capital
from tallybed.pages.files.calendars import calendars
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import open_season_after
from tallybed.pages.frame.page import Link
from tallybed.pages.frame.which_pages import has_data
from tallybed.pages.wording.sentences import listed
from tallybed.reckoning.year import Year

_CALENDARS = {
    addresses.CALENDAR: "Jobs to come, for your own calendar",
    addresses.DONE: "Visits made, for your own calendar",
}


def season_downloads(year: Year) -> tuple[Link, ...]:
    """Return the links to what there is; calendars only for a season that is in them."""
    return tuple(_links(year))


def _links(year: Year) -> Iterator[Link]:
    """Yield the links to a season's bulletins, calendars and data, as far as there are any."""
    told = year.weeks
    if told:
        bulletins = addresses.bulletins(year)
        yield Link(f"The bulletin of week {told[-1].number}", addresses.bulletin(year, told[-1]))
        if len(told) > 1:
            yield Link("Every week’s bulletin", bulletins)
    # A season whose books are closed cannot ask what is in the calendars once another has begun.
    for one in calendars(year.years) if not open_season_after(year) else ():
        jobless = one.path == addresses.CALENDAR and year.season.plan is None and not year.entries
        if any(year.name == season for season in one.seasons) and not jobless:
            yield Link(_CALENDARS[one.path], one.path)
    if has_data(year):
        papers = {"plan": year.season.plan, "log": year.season.log, "ledger": year.season.ledger}
        there = listed(name for name, paper in papers.items() if paper is not None)
        yield Link(f"{capital(there)} as files, with every column explained", addresses.data(year))
