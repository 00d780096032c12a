"""``tallybed weigh``: a garden's ledger made ready to be written to, and the last row taken back."""

from __future__ import annotations

from datetime import date
from pathlib import Path

from tallybed.reading.folder.known_files import CONTENT
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.tasks.errors import UsageError
from tallybed.tasks.garden import day_of, require_garden, season_on, understood, year_of
from tallybed.tasks.weighing.scale import Scale
from tallybed.writing.ledger import Added, UnfitError, take_back, turn


def scale(root: Path, day: date) -> Scale:
    """Return the scale of a garden on a day.

    Raises UsageError where root is not a garden folder or the day is in no season of it,
    BrokenError where its garden.yaml cannot be understood; OSError.
    """
    found = understood(root)
    garden = found.garden
    season = season_on(garden, day)
    today = max(day, min(day_of(garden), season.span.last))
    return Scale(
        root=root,
        year=year_of(garden, season, today),
        vocabulary=Vocabulary.of(garden, season),
        day=day,
        errors=found.errors,
    )


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
