"""``tallybed seeds``: what a season's plan needs before it begins."""

from __future__ import annotations

from pathlib import Path

from tallybed.garden.findings import has_errors, sorted_findings
from tallybed.pages.season import seeds
from tallybed.pages.tables.plain_text import plain
from tallybed.publishing.files.csv_text import csv_text
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.year import Year, Years
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.base.garden import Answer, require_garden
from tallybed.tasks.site.reckoned import reckoned
from tallybed.tasks.site.shelf import SeasonShelf


def seed_list(root: Path, *, season: str = "", spreadsheet: bool = False) -> Answer:
    """Return what a season's plan needs before it begins, as tables or as comma-separated values.

    Without ``season``: the one under way, else the next, else the last. Raises
    UsageError where root is not a garden folder or the season has no plan, OSError.
    """
    require_garden(root)
    found = read(root, shelf=SeasonShelf(root))
    if found.garden is None or has_errors(found.findings):
        return Answer(findings=sorted_findings(found.findings))
    years = reckoned(found.garden, root)
    year = _year_meant(years, season)
    if spreadsheet:
        return Answer(text=csv_text(seeds.seeds_file(year)))
    shown = seeds.tables(year)
    notes = seeds.notes(year)
    parts = [*map(plain, shown), "\n".join(notes)] if shown else [seeds.NOTHING]
    return Answer(text="\n\n".join(parts) + "\n")


def _year_meant(years: Years, name: str) -> Year:
    """Return the year named; without a name, the planned one under way, else the next, else the last.

    Raises UsageError where that season has no plan.
    """
    planned = [year for year in years.all if year.season.plan is not None]
    if name:
        year = next((one for one in planned if one.name == name), None)
    else:
        chosen = (years.running, years.coming, *reversed(planned))
        year = next((one for one in chosen if one in planned), None)
    if year is None:
        there = ", ".join(one.name for one in planned) or "none"
        raise UsageError(f"there is no plan for {name or 'any season'}; seasons with a plan: {there}")
    return year
