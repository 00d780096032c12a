"""A season's home, to be read as a year: what it gave, its titles, its losses, its answer, its months."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.days import in_full
from tallybed.pages.drawings.maps import waiting_key
from tallybed.pages.drawings.strips import season_strips
from tallybed.pages.frame import addresses
from tallybed.pages.frame.downloads import season_downloads
from tallybed.pages.frame.other_seasons import seasons_beside
from tallybed.pages.frame.page import Link, Page
from tallybed.pages.frame.trails import season_link
from tallybed.pages.frame.which_pages import begun
from tallybed.pages.rows.answer import short_answer
from tallybed.pages.season.plantings import plantings_link
from tallybed.pages.season.tally import tally_head
from tallybed.pages.season.weather import short_words, weather_link
from tallybed.pages.story.chapters import chapters
from tallybed.pages.story.losses import losses
from tallybed.pages.wording.dated import in_season
from tallybed.pages.wording.planned import summary
from tallybed.pages.wording.sentences import (
    EMPTY_LOG,
    counted,
    empty_ledger,
    missing_papers,
    sentence,
    span_words,
)
from tallybed.reckoning.beds import months_of
from tallybed.reckoning.calendar.month_state import MonthState
from tallybed.reckoning.year import Year

TOLD = "A knot stands at each day that the log tells of; a title leads to it."


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonPaper:
    """One of a season's papers, and what it holds."""

    link: Link
    said: str


def pages(year: Year) -> Iterator[Page]:
    """Yield the home of a season."""
    yield _page(year)


def _page(year: Year) -> Page:
    """Return a season's home as a page."""
    season = year.season
    empty, told, planned = chapters(year)
    return Page(
        path=addresses.season(year),
        template="season.html",
        title=f"Season {year.name}",
        description=f"The beds {in_season(year)}, {span_words(season.span.first, season.span.last)}: "
        "months, plan, log and tally.",
        kind="season",
        data={
            "trail": (Link("All seasons", addresses.SEASONS), Link(f"Season {year.name}", "")),
            "lead": f"{span_words(season.span.first, season.span.last)}; {_state_sentence(year)}",
            "note": season.note,
            "season": year.name,
            "tally_words": "picked so far" if year is year.years.running else "picked in all",
            "missing": missing_papers(season, ahead=year.is_ahead),
            "standing": tally_head(year),
            "beside": short_answer(year),
            "ledger": empty_ledger(season),
            "strips": season_strips(year, addresses.season(year)),
            "told": TOLD if year.entries else "",
            "lost": losses(year),
            "beds": "bed" if len(year.garden.beds) == 1 else "beds",
            "empty": empty,
            "chapters": told,
            "planned": planned,
            "as_planned": ", as planned" if season.plan else "",
            "waiting_key": waiting_key(
                month
                for bed in year.garden.beds
                for month in months_of(year, bed)
                if month.kind is not MonthState.PLANNED  # those stand here without a map
            ),
            "papers": tuple(_papers(year)),
            "tally_to": "" if season.ledger is None else addresses.tally(year),
            "take": (*season_downloads(year), *_poster(year)),
            **seasons_beside(year, season_link),
        },
    )


def state_words(year: Year) -> str:
    """Return ``closed``, ``over``, ``under way`` or ``still to come``."""
    if year.season.span.first > year.today:
        return "still to come"
    if year.season.closed:
        return "closed"
    return "over" if year.season.span.last < year.today else "under way"


def _poster(year: Year) -> Iterator[Link]:
    """Yield the link to a season's poster; nothing for one that has none."""
    if year in begun(year.years):
        yield Link(f"The poster of {year.name}, one sheet for the wall", addresses.poster(year))


def _papers(year: Year) -> Iterator[SeasonPaper]:
    season = year.season
    if season.log is not None:
        number = len(year.entries)
        said = sentence(f"{counted(number, 'visit')} written up") if number else EMPTY_LOG
        yield SeasonPaper(link=Link(f"Log of {year.name}", addresses.log(year)), said=said)
    plantings = plantings_link(year)
    if plantings:
        said = "Each with its own page." if season.plan is None else summary(season.plan)
        yield SeasonPaper(link=plantings, said=said)
    if season.plan:
        yield SeasonPaper(link=Link(f"Seeds and plants for {year.name}", addresses.seeds(year)), said="")
    weather = weather_link(year)
    if weather:
        yield SeasonPaper(link=weather, said=short_words(year))


def _state_sentence(year: Year) -> str:
    """Return how far the season has gone, as the end of a sentence."""
    state = state_words(year)
    if state == "closed":
        return "the season is closed and its books do not change."
    if state == "under way":
        return f"under way, as of {in_full(year.today)}."
    return f"{state}."
