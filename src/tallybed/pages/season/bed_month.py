"""A bed in one month: its map, the same in a table, and what changed."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.days import Month, in_full, without_year
from tallybed.garden.squares import Bed
from tallybed.pages.drawings.maps import legend_parts, month_maps
from tallybed.pages.drawings.months import bed_months
from tallybed.pages.frame import addresses
from tallybed.pages.frame.other_seasons import months_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import below_season
from tallybed.pages.frame.which_pages import own_months
from tallybed.pages.season.sun import sun_link
from tallybed.pages.tables.holders_table import changes_table, groups
from tallybed.pages.wording.dated import month_name
from tallybed.pages.wording.sentences import (
    NOTHING_ON_RECORD,
    PLANNED_MONTH,
    RUNNING_MONTH,
    UNPLANNED_MONTH,
    missing_of_beds,
    span_words,
)
from tallybed.reckoning.beds import month_of
from tallybed.reckoning.calendar.month import BedMonth
from tallybed.reckoning.calendar.month_state import MonthState
from tallybed.reckoning.year import Year


def pages(year: Year, only: str | None = None) -> Iterator[Page]:
    """Yield a page for each bed's month of a season, or the one at ``only``."""
    for bed in year.garden.beds:
        for month in own_months(year):
            if only in (None, addresses.bed_month(year, bed, month)):
                yield _page(year, bed, month_of(year, bed, month))


def month_data(year: Year, bed: Bed, month: BedMonth) -> dict[str, object]:
    """Return what a page tells of a bed in a month, as templates name it."""
    plantings = {planting.key: planting for planting in year.plantings}
    here = addresses.bed_month(year, bed, month.month)
    return {
        "kind": month.kind,
        "lead": _lead(year, month),
        "unknown": missing_of_beds(year.season),
        "maps": month_maps(year.years, month, here, ident="map"),
        "legend": legend_parts(year.garden, month),
        "nothing": NOTHING_ON_RECORD,
        "groups": tuple(groups(year.years, bed, month, plantings)),
        "sun": sun_link(year, bed, month.month),
        "changes": changes_table(year, month, plantings) if month.changes else None,
        "months": bed_months(year, bed, month.month),
        "others": tuple(_others(year, bed, month.month)),
    }


def _page(year: Year, bed: Bed, month: BedMonth) -> Page:
    """Return a bed's month as a page."""
    name = f"{bed.title} in {month.month}"
    return Page(
        path=addresses.bed_month(year, bed, month.month),
        template="bed_month.html",
        title=name,
        description=f"{name}: a map of what stands in each square, the same in a table, and what changed.",
        kind="bed month",
        data={
            "trail": below_season(
                year, Link(bed.title, addresses.bed(year, bed)), here=month_name(year, month.month)
            ),
            **month_data(year, bed, month),
            **months_beside(year, bed, month.month, addresses.bed_month),
        },
    )


def _lead(year: Year, month: BedMonth) -> str:
    """Return which day the map shows, and what of the month is planned or outside the season."""
    day = without_year(month.as_of)
    shown = f"The map shows the bed on {day}."
    whole = month.first == month.month.first and month.last == month.month.last
    season = "" if whole else f"The season has {span_words(month.first, month.last)} of it."
    as_of = f"As of {in_full(month.as_of)}."
    planned = year.season.plan is not None
    said = {
        MonthState.PLANNED: f"{PLANNED_MONTH} {shown}" if planned else UNPLANNED_MONTH,
        MonthState.RUNNING: f"{as_of} {RUNNING_MONTH.format(day=day)}" if planned else as_of,
        MonthState.RECORDED: shown,
    }
    return " ".join(part for part in (said[month.kind], season) if part)


def _others(year: Year, bed: Bed, month: Month) -> Iterator[Link]:
    """Yield the other beds in this month, and this bed in the same month of other seasons."""
    for other in year.garden.beds:
        if other.name != bed.name:
            yield Link(f"{other.title} in {month.name}", addresses.bed_month(year, other, month))
    for season in reversed(year.years.all):
        if season.name == year.name or not bed.was_there(season.name):
            continue
        for same in season.season.span.months:
            if same.month == month.month:
                yield Link(f"{bed.title} in {same}", addresses.bed_month(season, bed, same))
