"""Where the files beside the pages lie; known without making one of them."""

from __future__ import annotations

from tallybed.pages.frame import addresses
from tallybed.pages.frame.moved import moved
from tallybed.reckoning.year import Years


def paths_beside(years: Years) -> tuple[str, ...]:
    """Return every path these files can have, whether they are made or not."""
    names = (addresses.FEED, addresses.SITEMAP, addresses.ROBOTS, addresses.CALENDAR, addresses.DONE)
    of_weeks = (addresses.bulletin_card(year, week) for year in years.all for week in year.weeks)
    leading_on = (path for path, _to in moved(years))
    return (*names, *(addresses.card(year) for year in years.all), *of_weeks, *leading_on)
