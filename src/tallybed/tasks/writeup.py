"""Where a new log entry begins: its title and day held against the garden, and what belongs in it found."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from tallybed.garden.days import in_full
from tallybed.garden.garden import Garden, Season
from tallybed.pictures.gathering import Gathered, gathered
from tallybed.publishing.swap.handoff import RefusedError
from tallybed.reading.base.invisible import UNSEEN
from tallybed.reading.base.problems import Misread
from tallybed.reading.folder.garden_folder import slug_of
from tallybed.reading.text.texts import line
from tallybed.reckoning.calendar.due import due
from tallybed.reckoning.year import Year, Years
from tallybed.writing.entry import WrittenUp, write_up
from tallybed.writing.entry_text import EntryDraft

_AHEAD = timedelta(days=6)


def begin(
    root: Path, garden: Garden, today: date, title: str, day: date, photographs: Path | None = None
) -> WrittenUp:
    """Write an entry of a day with what is due that week, what was weighed, and the day's photographs.

    ``photographs`` is a folder to look in, ``today`` the newest day on record. Raises
    RefusedError where the title or the day cannot be an entry's or there is such an
    entry, OSError where the machine fails.
    """
    title = _title(title)
    season = _season(garden, day)
    year = Year(years=Years(garden=garden, today=max(day, today)), season=season)
    last = day + _AHEAD
    draft = EntryDraft(title=title, day=day, due=due(season, year.holding, day, last), last=last)
    found = gathered(photographs, day) if photographs else Gathered()
    return write_up(root, year, draft, slug_of(title, "visit"), found)


def _title(text: str) -> str:
    try:
        title = line(text)
    except Misread as misread:
        raise RefusedError(misread.sentence) from None
    if not title or UNSEEN.search(title):
        raise RefusedError("the title is empty, or holds a character that cannot be seen")
    return title


def _season(garden: Garden, day: date) -> Season:
    """Return the season a day lies in, the later one of two. Raises RefusedError."""
    for season in reversed(garden.seasons):
        if day in season.span:
            return season
    runs = [
        f"{one.name} runs from {in_full(one.span.first)} to {in_full(one.span.last)}"
        for one in garden.seasons
    ]
    more = "; ".join(runs) or "make a folder in content/ that is named by its year"
    raise RefusedError(f"{in_full(day)} lies in no season of this garden: {more}")
