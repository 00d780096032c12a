"""What waits: entries and answers that are unfinished, or held until a later day."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from tallybed.garden.garden import Garden, Question, Season
from tallybed.garden.records.log import Entry


def waits(record: Entry | Question, today: date) -> bool:
    """Return whether a record may not be read yet on the day the site speaks as of."""
    return record.unfinished or (record.hold_until is not None and today < record.hold_until)


def readable(garden: Garden, today: date) -> Garden:
    """Return the garden as the public may see it.

    A question that waits is not there. Of an entry that waits only its day and its
    lines of ``done`` are: they are records of what happened, and count as the log.
    """
    seasons = tuple(
        season
        if season.log is None
        else replace(season, log=tuple(_bare(one) if waits(one, today) else one for one in season.log))
        for season in garden.seasons
    )
    questions = tuple(one for one in garden.questions if not waits(one, today))
    return replace(garden, seasons=seasons, questions=questions)


def readable_entries(season: Season, today: date) -> tuple[Entry, ...]:
    """Return a log's entries that may be read on a day, oldest first.

    One that waits has no title, unless the site is for the gardener's own eyes; its day
    may then lie ahead.
    """
    told = (one for one in season.log or () if one.day <= today or waits(one, today))
    return tuple(sorted((one for one in told if one.title), key=lambda one: (one.day, one.slug)))


def _bare(entry: Entry) -> Entry:
    """Return an entry without a word that somebody wrote to be read."""
    return replace(entry, title="", by="", photos=(), further=(), prose="")
