"""``tallybed writeup``: a new log entry, with what is due, what was weighed and the day's photographs."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

from tallybed.garden.findings import Finding
from tallybed.garden.garden import Garden
from tallybed.garden.invisible import UNSEEN
from tallybed.pictures.gathering import Gathered, gathered
from tallybed.publishing.swap.refused import RefusedError
from tallybed.reading.base.problems import Misread
from tallybed.reading.folder.garden_folder import read
from tallybed.reading.text.file_names import slug_of
from tallybed.reading.text.texts import line
from tallybed.reckoning.calendar.due import due
from tallybed.tasks.base.garden import day_of, season_on, understood, year_of
from tallybed.writing import entry
from tallybed.writing.entry import WrittenUp
from tallybed.writing.entry_text import EntryDraft

_LATIN = str.maketrans(
    {"ł": "l", "ø": "o", "æ": "ae", "œ": "oe", "đ": "d", "ð": "d", "þ": "th", "ħ": "h", "ŧ": "t", "ı": "i"}
)
"""Latin letters that have no accent to take off, as those who write them spell them without."""
_AHEAD = timedelta(days=6)


def write_up(root: Path, title: str, day: date, photographs: Path | None = None) -> WrittenUp:
    """Begin a log entry of a day; see ``begin``.

    Raises UsageError, BrokenError, RefusedError, OSError.
    """
    garden = understood(root).garden
    return begin(root, garden, day_of(garden), title, day, photographs)


def begin(
    root: Path, garden: Garden, today: date, title: str, day: date, photographs: Path | None = None
) -> WrittenUp:
    """Write an entry of a day with what is due that week, what was weighed, and the day's photographs.

    ``photographs`` is a folder to look in, ``today`` the newest day on record. Raises
    UsageError where the day is in no season, RefusedError where the title cannot be an
    entry's or there is such an entry, OSError where the machine fails.
    """
    title = _title(title)
    season = season_on(garden, day)
    year = year_of(garden, season, max(day, today))
    last = day + _AHEAD
    slug = slug_of(title.casefold().translate(_LATIN), "visit")
    draft = EntryDraft(
        title=title, day=day, slug=slug, due=due(year.season, year.holding, day, last), last=last
    )
    found = gathered(photographs, day) if photographs else Gathered()
    return entry.write_up(root, year, draft, found)


def findings_in(root: Path, path: Path) -> tuple[Finding, ...]:
    """Return what reading finds in one file of a garden folder. Raises OSError."""
    file = path.relative_to(root).as_posix()
    return tuple(one for one in read(root).findings if one.place.file == file)


def _title(text: str) -> str:
    """Return a title on one line. Raises RefusedError where it is empty or cannot be shown as a title."""
    try:
        title = line(text)
    except Misread as misread:
        raise RefusedError(misread.sentence) from None
    if not title or UNSEEN.search(title):
        raise RefusedError("the title is empty, or has a character in it that cannot be seen")
    return title
