"""Which page each of the garden's files is shown on, for whoever looks at a file's findings."""

from __future__ import annotations

from collections.abc import Mapping

from tallybed.pages.frame import addresses
from tallybed.reckoning.year import Year, Years

CONTENT = "content/"


def pages_of_files(years: Years) -> Mapping[str, str]:
    """Return the page of each file and folder of the garden's text, by its path; folders end in a slash."""
    found = {
        CONTENT: addresses.HOME,
        f"{CONTENT}garden.yaml": addresses.HOME,
        f"{CONTENT}crops.yaml": addresses.CROPS,
        f"{CONTENT}questions/": addresses.QUESTIONS if years.garden.questions else addresses.HOME,
    }
    found |= {one.place.file: addresses.question(one) for one in years.garden.questions}
    found |= {one.place.file: addresses.leaf(years, one) for one in years.garden.leaves}
    for year in years.all:
        found |= _of_season(year)
    return found


def page_of(file: str, known: Mapping[str, str]) -> str:
    """Return the page that a file's findings concern: its own, else that of the nearest folder above."""
    while file and file not in known:
        above = file.rstrip("/").rpartition("/")[0]
        file = f"{above}/" if above else ""
    return known.get(file, addresses.HOME)


def newest_entry(years: Years) -> str:
    """Return the page of the newest log entry, or an empty text where there is none."""
    told = [
        (year.entries[-1].day, addresses.entry(year, year.entries[-1])) for year in years.all if year.entries
    ]
    return max(told)[1] if told else ""


def _of_season(year: Year) -> dict[str, str]:
    """Return the pages of the files in a season's folder."""
    season, folder = year.season, f"{CONTENT}{year.name}/"
    found = {folder: addresses.season(year)}
    if season.plan is not None:
        found[f"{folder}plan.yaml"] = addresses.plantings(year)
    if season.ledger is not None:
        found[f"{folder}harvest.yaml"] = addresses.tally(year)
    if season.log is not None:
        found[f"{folder}log/"] = addresses.log(year)
    found |= {entry.place.file: addresses.entry(year, entry) for entry in year.entries}
    return found
