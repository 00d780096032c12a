"""The log of a season as a table for reuse: one row a line of work."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tallybed.garden.garden import Garden
from tallybed.garden.records.log import Entry, Event, Verb
from tallybed.garden.squares import in_words
from tallybed.pages.files.data.tables import (
    SEVERAL,
    Column,
    Dataset,
    count,
    crop,
    crop_as_told,
    crop_name,
    day,
    row_number,
    rows_of,
    squares,
    text,
    variety,
)
from tallybed.pages.frame.addresses import planting_name
from tallybed.reckoning.effort.work import person_minutes
from tallybed.reckoning.year import Year


@dataclass(frozen=True, slots=True, kw_only=True)
class LogRecord:
    """A line of an entry's ``done``, and what is known of it besides."""

    garden: Garden
    number: int
    entry: Entry
    event: Event
    plantings: tuple[str, ...]
    """The plantings it concerns, by their names in every file."""

    @property
    def readable(self) -> bool:
        """Whether the words of its entry may be read."""
        return bool(self.entry.title)


COLUMNS: tuple[Column[LogRecord], ...] = (
    row_number(lambda one: one.number),
    day("date", "Day of the visit", lambda one: one.event.day, required=True),
    text(
        "visit",
        "The visit’s entry in the log; empty while that may not be read",
        lambda one: f"{one.entry.day.isoformat()}-{one.entry.slug}" if one.readable else None,
    ),
    text(
        "verb",
        "What was done or seen",
        lambda one: one.event.verb.value,
        required=True,
        choices=tuple(verb.value for verb in Verb),
    ),
    text("subject", "To what, as written", lambda one: one.event.subject, required=True),
    crop(lambda one: one.event.crop.slug if one.event.crop else None),
    crop_name(lambda one: crop_as_told(one.garden, one.event.crop)),
    variety(lambda one: one.event.variety),
    text(
        "planting",
        "Plantings it concerns, by the names of the other files, one after the other; empty where none could "
        "be told",
        lambda one: SEVERAL.join(one.plantings),
    ),
    squares(lambda one: in_words(one.event.squares)),
    text("to_squares", "Squares that plants were moved to", lambda one: in_words(one.event.to)),
    text("among", "Planting or crop it was put among", lambda one: one.event.among),
    text(
        "share",
        "Share of the squares told for it, as a fraction",
        lambda one: None if one.event.share is None else str(one.event.share),
    ),
    count("plants", "Plants sown, set out, lost, cleared or moved", lambda one: one.event.plants),
    count("leaving", "Plants left after thinning", lambda one: one.event.leaving),
    count("seeds", "Seeds sown", lambda one: one.event.seeds),
    text("amount", "Amount of water, feed or treatment, as written", lambda one: one.event.amount),
    count("minutes", "Length of the work", lambda one: one.event.minutes, unit="min"),
    count(
        "people",
        "People at it, where its length was told",
        lambda one: None if one.event.minutes is None else one.event.people,
    ),
    count("person_minutes", "Minutes times people", lambda one: person_minutes(one.event), unit="min"),
    text("because", "Cause of a loss or failure", lambda one: one.event.because),
    text(
        "note",
        "Note in the log; empty while the entry may not be read",
        lambda one: one.event.note if one.readable else None,
    ),
)
"""Add a column here."""


def log(year: Year) -> Dataset:
    """Return a season's log as a table."""
    return Dataset(
        name="log",
        title=f"Log of {year.name}",
        meaning="What was done and seen: one row a line of work, by day. "
        "A visit that noted no work has no row.",
        key="row",
        columns=COLUMNS,
        rows=rows_of(COLUMNS, _records(year)),
    )


def _records(year: Year) -> Iterator[LogRecord]:
    """Yield each line of a season's log, by day, with what is known of it besides."""
    told = (one for one in year.season.log or () if one.day <= year.today)
    ordered = sorted(told, key=lambda one: (one.day, one.slug))
    lines = ((entry, event) for entry in ordered for event in entry.done)
    for number, (entry, event) in enumerate(lines, start=1):
        yield LogRecord(
            garden=year.garden,
            number=number,
            entry=entry,
            event=event,
            plantings=tuple(map(planting_name, year.plantings_of.get(event, ()))),
        )
