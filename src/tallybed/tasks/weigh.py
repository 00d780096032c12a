"""``tallybed weigh``: a garden's ledger made ready to be written to, and the last row taken back."""

from __future__ import annotations

from contextlib import suppress
from datetime import date, timedelta
from pathlib import Path

from tallybed.garden.days import FIRST_YEAR, LAST_YEAR
from tallybed.garden.garden import Garden, Season
from tallybed.reading.base.problems import Misread
from tallybed.reading.folder.known_files import CONTENT
from tallybed.reading.scale import days
from tallybed.reading.scale.days import DaysKnown
from tallybed.reading.scale.line import Habits
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.shapes.take_in import TakeInSettings
from tallybed.reading.text.dates import LONGEST_AFTER
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.base.garden import day_of, require_garden, season_on, understood, year_of
from tallybed.tasks.weighing.scale import Scale
from tallybed.writing.ledger import Added, UnfitError, recover, take_back, to_take_back, turn


def scale(root: Path, day: date) -> Scale:
    """Return the scale of a garden on a day.

    A day in no season is one of weighing after the last that ended before it: each line then names
    the day of its picking. Raises UsageError where root is not a garden folder or no season ended in
    the year before the day, BrokenError where its garden.yaml cannot be understood; OSError.
    """
    found = understood(root, changing=str(day.year))
    garden = found.garden
    season = _season_for(garden, day)
    today = max(day, min(day_of(garden), season.span.last))
    return Scale(
        root=root,
        year=year_of(garden, season, today),
        vocabulary=Vocabulary.of(garden, season, found.taking.names_of(season.name)),
        day=day,
        habits=habits_of(found.taking),
        errors=found.errors,
    )


def _season_for(garden: Garden, day: date) -> Season:
    """Return the season that a day lies in, else the one that ended last before it. Raises UsageError."""
    after = timedelta(days=LONGEST_AFTER)
    ended = [one for one in garden.seasons if one.span.last < day <= one.span.last + after]
    if ended and not any(day in one.span for one in garden.seasons):
        return max(ended, key=lambda one: one.span.last)
    return season_on(garden, day)


def day_typed(root: Path, text: str, today: date) -> date:
    """Return the day that is meant by ``--date``, in the season of today or else the newest.

    Raises UsageError where it cannot be read, or root is not a garden folder; BrokenError, OSError.
    """
    with suppress(ValueError):
        day = date.fromisoformat(text.strip())
        if not FIRST_YEAR <= day.year <= LAST_YEAR:
            raise UsageError(f"{text!r} is not a day of the years {FIRST_YEAR} to {LAST_YEAR}")
        return day
    found = understood(root)
    seasons = found.garden.seasons
    if not seasons:
        raise UsageError(f"the garden has no season; make a folder for it, such as {CONTENT}/{today.year}")
    now = next((one for one in seasons if today in one.span), seasons[-1])
    known = DaysKnown(min(max(today, now.span.first), now.span.last), now.span, found.taking.order)
    try:
        return days.day_typed(text, known)
    except Misread as misread:
        raise UsageError(misread.sentence) from None


def recovered(root: Path) -> str:
    """Finish what a command that was stopped left half done; return in words what stands, if anything.

    Raises UsageError where root is not a garden folder; OSError.
    """
    require_garden(root)
    return recover(root / CONTENT)


def last_written(root: Path) -> Added | None:
    """Return the last row that was weighed in, if any. Raises UsageError where it cannot be taken back."""
    require_garden(root)
    try:
        return to_take_back(root / CONTENT)
    except UnfitError as unfit:
        raise UsageError(str(unfit)) from None


def habits_of(settled: TakeInSettings) -> Habits:
    """Return what a garden settled about how its people write, as the scale takes it."""
    return Habits(order=settled.order, unit=settled.unit, decimal=settled.decimal)


def undo(root: Path) -> Added | None:
    """Take back the last row that was weighed in; return it, or None where none is remembered.

    Raises UsageError where root is not a garden folder or the row is no longer the end of its ledger.
    """
    require_garden(root)
    try:
        with turn(root / CONTENT):
            return take_back(root / CONTENT)
    except UnfitError as unfit:
        raise UsageError(str(unfit)) from None
