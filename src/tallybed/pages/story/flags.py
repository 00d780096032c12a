"""The titles of a season's log as marks on its drawings."""

from __future__ import annotations

from collections import Counter

from tallybed.drawing.base.flags import Flag
from tallybed.garden.records.log import CROP_VERBS, Entry, Verb
from tallybed.garden.squares import Bed
from tallybed.pages.frame import addresses
from tallybed.pages.frame.relative import relative
from tallybed.reckoning.year import Year

LOSSES = frozenset({Verb.LOST, Verb.FAILED})
"""What a story turns on: its title has room before others."""


def flags_of(year: Year, here: str, bed: Bed | None = None) -> tuple[Flag, ...]:
    """Return the titles of a season's log for the page ``here``, those first that room is looked for.

    Those that tell of a loss come first, then those with most to read. ``bed``: those that
    tell of it alone, or of it more than of other beds; what names no bed is told at the first.
    """
    told = year.kept("titles by importance", lambda: _ordered(year))
    wanted = (one for one in told if bed is None or _bed_of(year, one) == bed.name)
    return tuple(_flag(year, one, here) for one in wanted)


def _flag(year: Year, entry: Entry, here: str) -> Flag:
    """Return one title."""
    to = relative(here, addresses.entry(year, entry))
    return Flag(day=entry.day, words=entry.title, to=to)


def _ordered(year: Year) -> tuple[Entry, ...]:
    """Return the entries that may be read, those first that tell most."""
    readable = (one for one in year.entries if one.day in year.season.span)
    return tuple(
        sorted(readable, key=lambda one: (not _tells_a_loss(one), -len(one.prose), one.day, one.slug))
    )


def _tells_a_loss(entry: Entry) -> bool:
    """Return whether something was lost by what an entry says was done."""
    return any(event.verb in LOSSES for event in entry.done)


def _bed_of(year: Year, entry: Entry) -> str:
    """Return the bed of what was lost, else of most work with crops, else of other work; else the first."""
    for verbs in (LOSSES, CROP_VERBS, frozenset(Verb)):
        events = [one for one in entry.done if one.verb in verbs]
        squares = Counter(square.bed for one in events for square in one.squares)
        if squares:
            return max(year.garden.beds, key=lambda bed: squares[bed.name]).name
    return year.garden.beds[0].name
