"""What a text of the garden's own speaks of, found by rules, so that it leads on to those pages.

Crops by their names, where the garden has grown them; plantings by tag or variety, and those of the
crops a question is about; visits by their days; plan, log and tally by these words. Of the seasons
those count that the text names, else the one it was written in, else the one a visitor means.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from tallybed.garden.naming import Names, folded
from tallybed.pages.frame import addresses
from tallybed.pages.frame.page import Link
from tallybed.pages.frame.which_pages import has_ledger
from tallybed.pages.season.plantings import plantings_link
from tallybed.pages.wording import names
from tallybed.reckoning.plantings.plantings import Planting
from tallybed.reckoning.year import Year, Years

MOST = 16
"""Links of one kind; a text that speaks of more speaks of none in particular."""
_LONGEST_NAME = 3
"""Words of a crop's name that are looked for together."""
_WORD = re.compile(r"[^\W_]+(?:[-’'][^\W_]+)*")
_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)
_DAY = re.compile(rf"\b(\d{{1,2}})(?:st|nd|rd|th)?(?: of)? ({'|'.join(_MONTHS)})\b(?:,? (\d{{4}}))?")
"""``2 May 2026``, ``18th of July``."""
_MONTH_FIRST = re.compile(rf"\b({'|'.join(_MONTHS)}) (\d{{1,2}})(?:st|nd|rd|th)?\b(?:, (\d{{4}}))?")
"""``May 2, 2026``."""
_ISO = re.compile(r"\b(\d{4})-(\d\d)-(\d\d)\b")


@dataclass(frozen=True, slots=True, kw_only=True)
class Spoken:
    """Pages of one kind that a text speaks of."""

    title: str
    links: tuple[Link, ...]


def spoken_of(
    years: Years, text: str, *, about: Iterable[str] = (), written: date | None = None
) -> tuple[Spoken, ...]:
    """Return the pages that a text speaks of, kind by kind; it is told to be ``about`` these crops."""
    meant = _seasons(years, text, written)
    asked = tuple(about)
    grown = {slug for year in years.all for planting in year.plantings for slug in planting.crop.slugs}
    named = dict.fromkeys((*asked, *(slug for slug in _crops(years, text) if slug in grown)))
    crops = named if len(named) <= MOST else asked
    kinds = {
        "Crops": (names.listed_crop(years.garden, slug) for slug in crops),
        "Plantings": _plantings(years, meant, text, asked),
        "Visits": _visits(meant, text),
        "Lists": _papers(meant[-1], text) if meant else (),
    }
    found = {title: tuple(dict.fromkeys(links)) for title, links in kinds.items()}
    return tuple(Spoken(title=title, links=links) for title, links in found.items() if 0 < len(links) <= MOST)


def _seasons(years: Years, text: str, written: date | None) -> tuple[Year, ...]:
    """Return the seasons a text means, oldest first."""
    typed = set(re.findall(r"\b\d{4}\b", text))
    named = tuple(year for year in years.all if year.name in typed)
    then = tuple(year for year in years.all if written and written in year.season.span)
    return named or then or ((years.foremost,) if years.foremost else ())


def _crops(years: Years, text: str) -> Iterator[str]:
    """Yield the crops whose names stand in a text, longest names first at each place."""
    known = years.kept("crop names", lambda: Names.of(years.garden.crops)).meanings
    words = [folded(word) for word in _WORD.findall(text)]
    place = 0
    while place < len(words):
        for length in range(_LONGEST_NAME, 0, -1):
            slugs = known.get(" ".join(words[place : place + length]), ())
            if slugs:
                yield from slugs
                place += length - 1
                break
        place += 1


def _plantings(years: Years, meant: Iterable[Year], text: str, about: tuple[str, ...]) -> Iterator[Link]:
    """Yield the plantings that a text names, and those of the crops it is about."""
    words = set(_WORD.findall(text))
    plain = f" {' '.join(folded(word) for word in _WORD.findall(text))} "
    for year in meant:
        for planting in year.plantings:
            variety = " ".join(folded(word) for word in _WORD.findall(planting.variety))
            told = planting.tag in words or (variety and f" {variety} " in plain)
            if told or set(about) & set(planting.crop.slugs):
                yield _planting_link(years, year, planting)


def _planting_link(years: Years, year: Year, planting: Planting) -> Link:
    """Return a planting with its season, leading to its page."""
    link = names.listed_planting(years.garden, planting)
    return Link(f"{link.text}, {year.name}", link.to)


def _visits(meant: Iterable[Year], text: str) -> Iterator[Link]:
    """Yield the visits of the days that stand in a text; one without a year is of the seasons meant."""
    seasons = tuple(meant)
    told = {(int(month), int(day), int(of)) for of, month, day in _ISO.findall(text)}
    told |= {(_number(month), int(day), int(of or 0)) for day, month, of in _DAY.findall(text)}
    told |= {(_number(month), int(day), int(of or 0)) for month, day, of in _MONTH_FIRST.findall(text)}
    for year in seasons:
        for entry in year.entries:
            day = entry.day
            if {(day.month, day.day, day.year), (day.month, day.day, 0)} & told:
                yield Link(entry.title, addresses.entry(year, entry))


def _number(month: str) -> int:
    """Return the number of a month by name."""
    return _MONTHS.index(month) + 1


def _papers(year: Year, text: str) -> Iterator[Link]:
    """Yield plan, log and tally of a season, as far as a text has these words."""
    words = {folded(word) for word in _WORD.findall(text)}
    plan = plantings_link(year)
    if words & {"plan", "plans", "planned"} and plan:
        yield plan
    if words & {"log", "entry", "visit", "visits"} and year.season.log is not None:
        yield Link(f"Log of {year.name}", addresses.log(year))
    if words & {"tally", "ledger", "weighed", "weigh"} and has_ledger(year):
        yield Link(f"Tally of {year.name}", addresses.tally(year))
