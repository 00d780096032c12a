"""What a reader can take along from a season: its bulletins, its calendars, its data."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.pages.files.calendars import calendars
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.frame.site import SeasonView, Site
from tallybed.pages.season.data import has_data
from tallybed.reckoning.harvest.week import weeks

_CALENDARS = {
    addresses.CALENDAR: "Jobs to come, for your own calendar",
    addresses.DONE: "Visits made, for your own calendar",
}


def takeaway(site: Site, view: SeasonView) -> tuple[Link, ...]:
    """Return the links to what there is; calendars only for a season that is in them."""
    return tuple(_links(site, view))


def _links(site: Site, view: SeasonView) -> Iterator[Link]:
    told = weeks(view.season, view.lines, site.today)
    if told:
        bulletins = addresses.bulletins(view)
        yield Link(f"The bulletin of week {told[-1].number}", addresses.bulletin(view, told[-1]))
        if len(told) > 1:
            yield Link("Every week’s bulletin", bulletins)
    for one in calendars(site):
        if any(view.name == season for season in one.seasons):
            yield Link(_CALENDARS[one.path], one.path)
    if has_data(view):
        yield Link("Plan, log and ledger as files, with every column explained", addresses.data(view))
