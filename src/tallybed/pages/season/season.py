"""A season's home: its months, its papers, what it gave so far."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.days import in_full
from tallybed.garden.garden import Season
from tallybed.pages.drawings.contact_sheets import contact_sheet
from tallybed.pages.drawings.strips import season_strips
from tallybed.pages.frame import addresses
from tallybed.pages.frame.downloads import season_downloads
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.rows.answer import short_answer
from tallybed.pages.season import log
from tallybed.pages.season.plan import summary
from tallybed.pages.season.plantings import plantings_link
from tallybed.pages.season.tally import tally_head
from tallybed.pages.wording.sentences import (
    EMPTY_LEDGER,
    EMPTY_LOG,
    NO_LEDGER,
    NO_LOG,
    NO_PLAN,
    counted,
    span_words,
)
from tallybed.reckoning.year import Year, Years

_NEWEST = 5
"""Entries that a season's home lists."""


def paths(years: Years) -> Iterator[str]:
    """Yield where each season's home lies."""
    return (addresses.season(year) for year in years.all)


def pages(years: Years) -> Iterator[Page]:
    """Yield the home of each season."""
    return (_page(year) for year in years.own)


def missing_papers(season: Season) -> tuple[str, ...]:
    """Return one sentence for each of plan, log and ledger that is not there."""
    found = []
    if season.plan is None:
        found.append(NO_PLAN)
    if season.log is None:
        found.append(NO_LOG)
    if season.ledger is None:
        found.append(NO_LEDGER)
    return tuple(found)


def _page(year: Year) -> Page:
    """Return a season's home as a page."""
    season = year.season
    entries = year.entries
    return Page(
        path=addresses.season(year),
        template="season.html",
        title=f"Season {year.name}",
        description=f"The beds in {year.name}, {span_words(season.span.first, season.span.last)}: "
        "months, plan, log and tally.",
        kind="season",
        data={
            "trail": (Link("Seasons", addresses.SEASONS), Link(f"Season {year.name}", "")),
            "lead": f"{span_words(season.span.first, season.span.last)}; {_state_sentence(year)}",
            "note": season.note,
            "tally_words": "picked so far" if year is year.years.running else "picked in all",
            "missing": missing_papers(season),
            "standing": tally_head(year),
            "beside": short_answer(year),
            "ledger": "" if season.ledger or season.ledger is None else EMPTY_LEDGER,
            "strips": season_strips(year, addresses.season(year)),
            "sheets": tuple(contact_sheet(year, bed) for bed in year.garden.beds),
            "plantings": plantings_link(year),
            "plan": "" if season.plan is None else summary(season.plan),
            "plan_to": addresses.plan(year),
            "seeds_to": addresses.seeds(year) if season.plan else "",
            "log": None if season.log is None else _log_words(len(entries)),
            "log_to": addresses.log(year),
            "entries": tuple(log.entry_item(year, entry) for entry in reversed(entries[-_NEWEST:])),
            "tally_to": "" if season.ledger is None else addresses.tally(year),
            "take": season_downloads(year),
            **seasons_beside(year, lambda one: Link(f"Season {one.name}", addresses.season(one))),
        },
    )


def state_words(year: Year) -> str:
    """Return ``closed``, ``over``, ``under way`` or ``still to come``."""
    if year.season.span.first > year.today:
        return "still to come"
    if year.season.closed:
        return "closed"
    return "over" if year.season.span.last < year.today else "under way"


def _log_words(number: int) -> str:
    """Return how many visits were written up."""
    if not number:
        return EMPTY_LOG
    return f"{counted(number, 'visit').capitalize()} written up; the newest first."


def _state_sentence(year: Year) -> str:
    """Return how far the season has gone, as the end of a sentence."""
    state = state_words(year)
    if state == "closed":
        return "the season is closed and its books do not change."
    if state == "under way":
        return f"under way, as of {in_full(year.today)}."
    return f"{state}."
