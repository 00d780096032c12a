"""``tallybed sun``: hours of direct sun over a bed, and exchanges of plantings that would give more."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

from tallybed.garden.days import Month, in_full
from tallybed.garden.findings import capital, has_errors, sorted_findings
from tallybed.garden.squares import Bed
from tallybed.pages.drawings.months import shown_month
from tallybed.pages.season import sun
from tallybed.pages.tables.plain_text import plain
from tallybed.pages.wording.lying import direction_taken
from tallybed.pages.wording.sentences import counted
from tallybed.publishing.files.csv_text import csv_text
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.sun.exchange import exchanges
from tallybed.reckoning.sun.hours import BedSun, SeasonSun, season_sun
from tallybed.reckoning.year import Year, Years
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.base.garden import Answer, bed_called, require_garden, season_on
from tallybed.tasks.site.reckoned import reckoned
from tallybed.tasks.site.shelf import SeasonShelf


def sun_sheet(
    root: Path,
    bed: str,
    *,
    month: str = "",
    on: date | None = None,
    spreadsheet: bool = False,
    better: bool = False,
) -> Answer:
    """Return the hours of sun over a bed as text, or what an exchange of two plantings would give.

    ``month``: such as ``2026-06``; without it and without ``on``, the month of today in
    the season under way, else the last. Raises UsageError where two options cannot be used
    together, root is not a garden folder, the garden has no latitude or no such bed, or no
    season has that day; OSError.
    """
    require_garden(root)
    if month and on:
        raise UsageError("--month and --on cannot be used together: one names a month, the other a day")
    if better and spreadsheet:
        raise UsageError("--better and --csv cannot be used together: an exchange is told only in words")
    found = read(root, shelf=SeasonShelf(root))
    if found.garden is None or has_errors(found.findings):
        return Answer(findings=sorted_findings(found.findings))
    garden = found.garden
    chosen = bed_called(garden, bed)
    if garden.latitude is None:
        raise UsageError("the hours of sun need the garden's latitude: write it in content/garden.yaml")
    wanted = _month(month) if month else None
    years = reckoned(garden, root)
    year = _year(years, on or (wanted.first if wanted else None), wanted)
    if chosen not in year.garden.beds:
        known = ", ".join(one.name for one in year.garden.beds) or "none"
        raise UsageError(
            f"garden.yaml has the bed {chosen.name} {chosen.there}; in {year.name} the garden has: {known}"
        )
    over = season_sun(year, chosen)
    if over is None:
        raise UsageError("the hours of sun need the garden's latitude: write it in content/garden.yaml")
    if better:
        return Answer(text=f"{_better(year, chosen)}{_taken(chosen)}")
    when, shown = _shown(year, over, wanted, on)
    if spreadsheet:
        return Answer(text=csv_text(sun.sun_file(shown, when)))
    cost = f"Over the season its plantings take {over.whole.cost:,.0f} square-hours of sun from each other.\n"
    heights = "".join(f"{one}\n" for one in sun.unknown_heights(year, over.whole))
    return Answer(text=f"{plain(sun.sun_table(year, shown, when))}\n\n{cost}{heights}{_taken(chosen)}")


def _taken(bed: Bed) -> str:
    """Return the direction that is taken for the bed's own, as a line, where the garden tells none."""
    return "".join(f"{one}\n" for one in direction_taken(bed))


def _shown(year: Year, over: SeasonSun, month: Month | None, on: date | None) -> tuple[str, BedSun]:
    if on:
        return f"on {in_full(on)}", over.on(on)
    month = month or shown_month(year)
    return f"in {month}", over.months[month]


def _month(text: str) -> Month:
    match = re.fullmatch(r"([12][0-9]{3})-(0[1-9]|1[0-2])", text.strip())
    if match is None:
        raise UsageError(f"{text!r} is not a month such as 2026-06")
    return Month(int(match[1]), int(match[2]))


def _year(years: Years, day: date | None, month: Month | None) -> Year:
    if day is None:
        if years.foremost is None:
            raise UsageError("the garden has no season yet: make a folder such as content/2026")
        return years.foremost
    if month:
        found = next((one for one in reversed(years.all) if month in one.season.span.months), None)
        if found is None:
            raise UsageError(f"no season has days in {month}")
        return found
    return years.all[years.index(season_on(years.garden, day, "--on").name)]


def _better(year: Year, bed: Bed) -> str:
    """Return what exchanges of two plantings would give, in words."""
    found = exchanges(year, bed)
    if found is None:
        return ""
    alone = " The other beds are not looked at." if len(year.garden.beds) > 1 else ""
    lines = [
        f"As it lies, the plan of {year.name} for {bed.called} costs its own crops"
        f" {found.cost:,.0f} square-hours of sun over the season."
    ]
    if not found.tried:
        lines.append(f"No two plantings could change places with nothing else moved.{alone}")
        return "\n".join(lines) + "\n"
    pairs = capital(counted(found.tried, "pair"))
    lines.append(f"{pairs} of plantings could change places with nothing else moved.{alone}")
    if not found.best:
        lines.append("No exchange of them would cost less.")
        return "\n".join(lines) + "\n"
    lines.append(f"The least that an exchange reaches is {found.best[0].cost:,.0f}:")
    for one in found.best:
        pair = " and ".join(sun.planting_place(year, key) for key in (one.one, one.other))
        lines.append(f"  {found.cost - one.cost:6,.0f} square-hours gained: {pair}")
    lines.append(
        "Nothing was moved. What stands in the ground stays there, and `tallybed check` says what else speaks"
        " against an exchange once it is written into the plan."
    )
    return "\n".join(lines) + "\n"
