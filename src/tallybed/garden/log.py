"""The log: visits, and what was done on each (files in ``log/``)."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from fractions import Fraction

from tallybed.garden.findings import NOWHERE, Place
from tallybed.garden.naming import CropName
from tallybed.garden.squares import Square
from tallybed.garden.water import Water


class Verb(StrEnum):
    """What was done on a visit."""

    SOW = "sow"
    SOW_INDOORS = "sow indoors"
    POT_UP = "pot up"
    SET_OUT = "set out"
    UP = "up"
    RESOW = "resow"
    THIN = "thin"
    PRUNE = "prune"
    STAKE = "stake"
    FAILED = "failed"
    LOST = "lost"
    MOVE = "move"
    CLEAR = "clear"
    WATER = "water"
    WEED = "weed"
    FEED = "feed"
    TREAT = "treat"
    AMEND = "amend"
    COVER = "cover"
    UNCOVER = "uncover"
    OBSERVE = "observe"


CROP_VERBS = frozenset(list(Verb)[: list(Verb).index(Verb.CLEAR) + 1])
"""Verbs whose object is a crop; the others take free text."""


STARTING = frozenset({Verb.SOW, Verb.SET_OUT, Verb.RESOW})
"""Verbs that put a crop into its squares."""


INDOORS = frozenset({Verb.SOW_INDOORS, Verb.POT_UP})
"""Verbs that touch no square of the bed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One thing done or seen on a visit (a line of ``done``)."""

    verb: Verb
    day: date
    subject: str
    """The verb's object as typed: ``carrot``, ``bed``, ``row cover``."""
    crop: CropName | None = None
    squares: tuple[Square, ...] = ()
    """Squares named in the line; empty where none was told."""
    tag: str = ""
    variety: str = ""
    plants: int | None = None
    """Plants sown or set out, lost, cleared or moved, as the verb says."""
    leaving: int | None = None
    """Plants left after thinning, in the squares named (else in the whole planting)."""
    seeds: int | None = None
    to: tuple[Square, ...] = ()
    among: str = ""
    share: Fraction | None = None
    amount: str = ""
    water: Water | None = None
    """What ``amount`` comes to, for water told with its unit; None where it is told in words, or not."""
    minutes: int | None = None
    people: int = 1
    because: str = ""
    note: str = ""
    silence: tuple[tuple[str, str], ...] = ()
    """Findings not to be told of this record: (code, reason)."""
    place: Place = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """A photograph named in an entry's header."""

    file: str
    alt: str
    caption: str = ""
    """What stands below it, for everybody."""
    credit: str = ""
    """Who took it."""
    licence: str = ""
    """Terms on which it may be shown, by name, such as ``CC BY 4.0``."""
    source: str = ""
    """Web address it came from."""
    people: bool = False
    """Whether people can be known on it."""
    consent: bool | None = None
    """Whether they agreed to be shown; None where nobody was asked."""
    place: Place = field(default=NOWHERE, compare=False, repr=False)

    @property
    def may_be_shown(self) -> bool:
        """Whether nobody who can be known on it is shown without having agreed."""
        return self.consent is True or (self.consent is None and not self.people)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """Something to read elsewhere."""

    title: str
    address: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A log entry: one visit."""

    slug: str
    """File name without date and ending; with the date it is unique in the season."""
    day: date
    title: str
    """Empty where the entry waits and may not be read."""
    by: str = ""
    done: tuple[Event, ...] = ()
    photos: tuple[Photo, ...] = ()
    further: tuple[Reading, ...] = ()
    prose: str = ""
    """Markdown as written."""
    unfinished: bool = False
    """Whether it is still being written; its lines of ``done`` count all the same."""
    hold_until: date | None = None
    """The first day on which it may be read."""
    place: Place = field(default=NOWHERE, compare=False, repr=False)

    @property
    def tells_its_day(self) -> bool:
        """Whether it is a record of its day: it may be read at some time, or something was done."""
        return bool(self.done) or not (self.unfinished or self.hold_until)
