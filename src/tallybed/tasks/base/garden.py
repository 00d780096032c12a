"""A garden folder as every task meets it: whether it is one, what is in it, and the day it speaks of."""

from __future__ import annotations

import os
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from tallybed.garden.days import LONG_AGO, ONE_DAY, in_full
from tallybed.garden.findings import Finding, Severity
from tallybed.garden.garden import Garden, Season
from tallybed.garden.squares import Bed
from tallybed.publishing.assets import OWN
from tallybed.reading.folder.garden_folder import read
from tallybed.reading.folder.known_files import CONTENT, GARDEN
from tallybed.reading.shapes.take_in import TakeInSettings
from tallybed.reading.text.dates import to_begin
from tallybed.reckoning.as_of import season_seen_from
from tallybed.reckoning.year import Year, Years
from tallybed.tasks.base.errors import BrokenError, UsageError
from tallybed.tasks.site.shelf import SeasonShelf

GARDEN_FILE = f"{CONTENT}/{GARDEN}"
"""What makes a folder a garden's, as a path below it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What a command was asked for, as text; empty where the content has errors."""

    findings: tuple[Finding, ...] = ()
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """A garden whose own file is understood, if perhaps not every record."""

    garden: Garden
    errors: tuple[Finding, ...]
    """What could not be understood, and so is not in it; sorted by place."""
    taking: TakeInSettings


def require_garden(root: Path) -> None:
    """Raise UsageError where a folder is not a garden's."""
    if not os.path.lexists(root / GARDEN_FILE):  # whatever else lies there is told at its place
        raise UsageError(
            f"{root.resolve()} is not a garden folder: there is no {GARDEN_FILE} in it; "
            "name a garden's folder, or make a new one with: tallybed start FOLDER"
        )


def in_own_text(root: Path, target: Path) -> bool:
    """Return whether a path lies in the text that a garden's site is made of."""
    garden, path = root.resolve(), target.resolve()
    return any(path.is_relative_to(garden / name) for name in (CONTENT, OWN))


def require_apart(root: Path, target: Path, option: str) -> None:
    """Keep a file from being written among a garden's own text. Raises UsageError, which names the option."""
    if in_own_text(root, target):
        raise UsageError(
            f"{target} would lie among the garden's own text, in {CONTENT} or {OWN}; "
            f"name a file elsewhere with {option}"
        )


def understood(root: Path, *, changing: str = "") -> Understood:
    """Read a garden folder. Raises UsageError where it is not one, BrokenError, OSError.

    ``changing``: the season that is about to be written to; it is not kept for the next command.
    """
    require_garden(root)
    found = read(root, shelf=SeasonShelf(root, changing=changing))
    errors = tuple(one for one in found.findings if one.severity is Severity.ERROR)
    if found.garden is None:
        raise BrokenError(GARDEN_FILE, errors)
    return Understood(garden=found.garden, errors=errors, taking=found.taking)


def day_of(garden: Garden, latest: date | None = None) -> date:
    """Return the day a garden's site speaks as of: the newest record of the latest season that has any.

    A closed season is over by then, whether or not its last days have a record. With no record
    at all it is the day before the latest season begins that is not closed, for earlier ones must
    be over; with no season, a day long ago on which nothing stood anywhere.

    ``latest``: the day the garden is seen from; a season that begins later is no reason for earlier ones
    to be over.
    """
    recorded = [season for season in garden.seasons if season.newest is not None]
    newest = [season.newest for season in recorded[-1:] if season.newest is not None]
    closed = [
        season.span.last
        for season in garden.seasons
        if season.closed and (season.newest is None or season is recorded[-1])
    ]
    still_open = [season.span.first for season in garden.seasons if not season.closed]
    begun = [first for first in still_open if latest is None or first <= latest]
    coming = [first - ONE_DAY for first in begun[-1:] or still_open[:1]]
    return max((*closed, *(newest or coming)), default=LONG_AGO)


def seen_from(garden: Garden, day: date) -> Garden:
    """Return the garden as its papers were at the end of a day: later records are not there yet."""
    seasons = tuple(season_seen_from(season, day) for season in garden.seasons)
    questions = tuple(one for one in garden.questions if one.asked is None or one.asked <= day)
    return replace(garden, seasons=seasons, questions=questions)


def year_of(garden: Garden, season: Season, today: date) -> Year:
    """Return one season with what follows from it, as seen from a day."""
    return Year(years=Years(garden=garden, today=today), season=season)


def bed_called(garden: Garden, name: str) -> Bed:
    """Return the bed that a name means, whatever its capitals, or the only one where it is empty.

    Raises UsageError where there is none, or where an empty name leaves several open.
    """
    meant = [one for one in garden.beds if not name or one.name.casefold() == name.casefold()]
    if len(meant) == 1:
        return meant[0]
    known = ", ".join(one.name for one in garden.beds) or "none"
    told = f"{f'there is no bed {name}' if name else 'name a bed'}; the garden has: {known}"
    if name and (Path(name) / CONTENT / GARDEN).is_file():
        told = f"{name} is a garden’s folder, and a bed is asked for here; write --folder before a folder"
    raise UsageError(told)


def season_on(garden: Garden, day: date, option: str = "--date") -> Season:
    """Return the season that a day lies in, the later one of two. Raises UsageError where there is none.

    ``option``: the one that tells another day to the command.
    """
    for season in reversed(garden.seasons):
        if day in season.span:
            return season
    spans = [
        f"{one.name} runs from {in_full(one.span.first)} to {in_full(one.span.last)}"
        for one in garden.seasons
    ]
    other = f"name another day with {option}, or correct the season’s bounds in {GARDEN_FILE}"
    more = f"{'; '.join(spans)}; {other}{to_begin(garden.seasons[-1].span, day)}" if spans else ""
    remedy = more or f"make a folder for one, such as {CONTENT}/{day.year}"
    raise UsageError(f"{in_full(day)} is in no season of this garden: {remedy}")
