"""Which page each of the garden's files is shown on, for whoever looks at a file's findings."""

from __future__ import annotations

from collections.abc import Mapping

from tallybed.pages.frame import addresses
from tallybed.pages.frame.site import SeasonView, Site

CONTENT = "content/"


def whereabouts(site: Site) -> Mapping[str, str]:
    """Return the page of each file and folder of the garden's text, by its path; folders end in a slash."""
    found = {
        CONTENT: addresses.HOME,
        f"{CONTENT}garden.yaml": addresses.HOME,
        f"{CONTENT}crops.yaml": addresses.CROPS,
        f"{CONTENT}questions/": addresses.QUESTIONS if site.garden.questions else addresses.HOME,
    }
    found |= {one.place.file: addresses.question(one) for one in site.garden.questions}
    found |= {one.place.file: addresses.leaf(site, one) for one in site.garden.leaves}
    for view in site.seasons:
        found |= _of_season(view)
    return found


def page_of(file: str, known: Mapping[str, str]) -> str:
    """Return the page that a file's findings concern: its own, else that of the nearest folder above."""
    while file and file not in known:
        above = file.rstrip("/").rpartition("/")[0]
        file = f"{above}/" if above else ""
    return known.get(file, addresses.HOME)


def newest_entry(site: Site) -> str:
    """Return the page of the newest log entry, or an empty text where there is none."""
    told = [
        (view.entries[-1].day, addresses.entry(view, view.entries[-1]))
        for view in site.seasons
        if view.entries
    ]
    return max(told)[1] if told else ""


def _of_season(view: SeasonView) -> dict[str, str]:
    season, folder = view.season, f"{CONTENT}{view.name}/"
    found = {folder: addresses.season(view)}
    if season.plan is not None:
        found[f"{folder}plan.yaml"] = addresses.plan(view)
    if season.ledger is not None:
        found[f"{folder}harvest.yaml"] = addresses.tally(view)
    if season.log is not None:
        found[f"{folder}log/"] = addresses.log(view)
    found |= {entry.place.file: addresses.entry(view, entry) for entry in view.entries}
    return found
