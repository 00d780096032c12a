"""Seasons as they were understood, kept from one run to the next under the texts that they were read from.

Of a garden of many years all but one season are as they were yesterday, and reading a season's text takes
thirty times as long as reading this.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import replace
from functools import cache
from hashlib import sha256
from typing import Any, Protocol, TypeVar

import msgspec

from tallybed.garden.findings import Place
from tallybed.garden.garden import Season
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Event
from tallybed.reading.base.problems import LeftOut
from tallybed.reading.folder.exact_json import as_pair, from_pair
from tallybed.reading.folder.known_files import SeasonFiles
from tallybed.reading.folder.remembered import Sources, Texts

Value = TypeVar("Value")


class Shelf(Protocol):
    """What keeps bytes under a name, each with a hash of all that they follow from."""

    changing: str
    """The season that is about to be written to, so that nobody would find it as it is; or empty."""

    def find(self, name: str, made_of: str) -> bytes | None:
        """Return what was left under a name, if it was made of the same; else None."""

    def leave(self, name: str, made_of: str, data: bytes) -> None:
        """Keep bytes in place of what was left under the name before, as far as that can be done."""


def season_from(
    shelf: Shelf, season: SeasonFiles, sources: Sources, files: Iterable[str], read: Callable[[], Season]
) -> Season:
    """Return a season as another run understood the same texts, else as it is read.

    ``files``: all that it is read from. One with something to tell of it is not left for the next run,
    which would have to tell it again; nor is one that is about to change.
    """
    try:
        of = made_of(season.kept_as, tuple((file, sources.text(file)) for file in files))
    except LeftOut:
        return read()
    found = shelf.find(season.year, of)
    if found is not None:
        with suppress(TypeError, ValueError):
            return from_bytes(found)
    told = len(sources.problems)
    made = read()
    lasts = len(sources.problems) == told and season.year != shelf.changing
    data = as_bytes(made) if lasts else None
    if data is not None:
        shelf.leave(season.year, of, data)
    return made


def made_of(kept_as: str, texts: Texts) -> str:
    """Return a hash of the files that a season is read from, by name and text, and of its own name."""
    found = sha256()
    for part in (kept_as, *(part for file in texts for part in file)):
        data = part.encode("utf-8", "surrogatepass")
        found.update(b"%d\0" % len(data))
        found.update(data)
    return found.hexdigest()


def as_bytes(season: Season) -> bytes | None:
    """Return a season as JSON; None where what that says is not the season to the letter, places and all."""
    try:
        data = _encoder().encode(season)
        again = _decoder().decode(data)
    except (TypeError, ValueError, OverflowError, RecursionError):
        return None
    return data if again == season and _encoder().encode(again) == data else None


def from_bytes(data: bytes) -> Season:
    """Return the season that ``as_bytes`` was given. Raises TypeError or ValueError for any other text."""
    return _shared(_decoder().decode(data))


def _shared(season: Season) -> Season:
    """Return the season with one value for all its records that name the same crops, squares and file.

    So it is as read, and takes half of the memory that it takes as it comes back.
    """
    known: dict[Any, Any] = {}

    def one(value: Value) -> Value:
        same: Value = known.setdefault(value, value)
        return same

    def at(place: Place) -> Place:
        return Place(one(place.file), place.line, place.column)

    def event(line: Event) -> Event:
        return replace(
            line, crop=one(line.crop), squares=one(line.squares), to=one(line.to), place=at(line.place)
        )

    def weighing(row: Weighing) -> Weighing:
        return replace(
            row, crops=one(row.crops), squares=one(row.squares), to=one(row.to), place=at(row.place)
        )

    log, ledger = season.log, season.ledger
    return replace(
        season,
        log=None
        if log is None
        else tuple(replace(entry, done=tuple(map(event, entry.done))) for entry in log),
        ledger=None if ledger is None else tuple(map(weighing, ledger)),
    )


@cache
def _encoder() -> msgspec.json.Encoder:
    return msgspec.json.Encoder(enc_hook=as_pair)


@cache
def _decoder() -> msgspec.json.Decoder[Season]:
    return msgspec.json.Decoder(Season, dec_hook=from_pair)
