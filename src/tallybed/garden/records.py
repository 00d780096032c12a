"""The records of a garden: plan, log, ledger and what surrounds them.

Every record carries the place it was read from, outside equality. Squares are
named with their bed, crops by what was typed and what it can mean.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from fractions import Fraction
from functools import cached_property

from tallybed.garden.crops import Crop, Source
from tallybed.garden.days import Span
from tallybed.garden.findings import NOWHERE, Place
from tallybed.garden.people import Supporter, Withdrawn
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import FOOT, Length, Showing, Weight


@dataclass(frozen=True, slots=True, kw_only=True)
class CropName:
    """A crop as typed, and the crops it can mean (one, or several for a general name)."""

    typed: str
    slugs: tuple[str, ...]

    @property
    def slug(self) -> str | None:
        """The one crop it means, or None where the name is general."""
        return self.slugs[0] if len(self.slugs) == 1 else None


class Start(StrEnum):
    """How a planting comes into its squares."""

    SOW = "sow"
    SET_OUT = "set out"
    CARRIED = "carried from"


@dataclass(frozen=True, slots=True, kw_only=True)
class LedOut:
    """Vines of a planting led out over a side of the bed."""

    side: str
    reach: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class Planting:
    """One crop meant for some squares over one span of days (a row of ``plan.yaml``)."""

    crop: str
    squares: tuple[Square, ...]
    start: Start
    begins: date
    """The day it is sown or set out in the bed; a carried one stands from the season's first day."""
    until: date
    """The day it is meant to be cleared and its squares are free; by default the day after the season."""
    until_told: bool = True
    tag: str = ""
    variety: str = ""
    sow_indoors: date | None = None
    pot_up: date | None = None
    plants: int | None = None
    """Plants meant, in all the squares."""
    spacing: Length | None = None
    among: str = ""
    """Tag, or crop slug, of the planting it shares its squares with."""
    share: Fraction | None = None
    led_out: LedOut | None = None
    dropped: date | None = None
    because: str = ""
    carried_from: str = ""
    note: str = ""
    silence: tuple[tuple[str, str], ...] = ()
    """Findings not to be told of this record: (code, reason)."""
    place: Place = field(default=NOWHERE, compare=False, repr=False)


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


class State(StrEnum):
    """The state in which a harvest was weighed."""

    FRESH = "fresh"
    CURED = "cured"
    DRIED = "dried"


@dataclass(frozen=True, slots=True, kw_only=True)
class Destination:
    """Where a weighing, or part of it, went; ``weight`` None means the rest (or all)."""

    name: str
    weight: Weight | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """One row of the ledger. ``weight`` is None where the picking was not weighed."""

    day: date
    """The day it was picked; the day it counts on."""
    crops: tuple[CropName, ...] = ()
    """One crop; several for a mixed bowl; none where only a tag was told."""
    mixed: bool = False
    tag: str = ""
    variety: str = ""
    squares: tuple[Square, ...] = ()
    weight: Weight | None = None
    estimated: bool = False
    count: int | None = None
    to: tuple[Destination, ...] = ()
    form: str = ""
    """``as:`` — dry, in pods, greens …"""
    state: State = State.FRESH
    weighed: date | None = None
    """The day of weighing where it is not the day of picking."""
    note: str = ""
    silence: tuple[tuple[str, str], ...] = ()
    """Findings not to be told of this record: (code, reason)."""
    place: Place = field(default=NOWHERE, compare=False, repr=False)

    @property
    def told_on(self) -> date:
        """The day from which the weighing is known: it was weighed then, if not when picked."""
        return self.weighed or self.day


@dataclass(frozen=True, slots=True, kw_only=True)
class FreezeDates:
    """Dates as (month, day); percentile keys 10, 50, 90; 50 is also the plain average.

    Spring: the chance in percent that a freeze follows the date. Fall: the chance
    that a freeze came before it. Keys: temperature in °F (32 or 28).
    """

    spring: tuple[tuple[int, tuple[tuple[int, tuple[int, int]], ...]], ...] = ()
    fall: tuple[tuple[int, tuple[tuple[int, tuple[int, int]], ...]], ...] = ()


@dataclass(frozen=True, kw_only=True)
class Season:
    """A season's records. ``plan``, ``log`` or ``ledger`` is None where the file is not there."""

    name: str
    """The folder's name: the year it begins in."""
    span: Span
    closed: bool = False
    note: str = ""
    plan: tuple[Planting, ...] | None = None
    log: tuple[Entry, ...] | None = None
    ledger: tuple[Weighing, ...] | None = None
    general: tuple[tuple[str, str], ...] = ()
    """What a general name means this season: (typed name, casefolded; crop slug)."""

    @property
    def newest(self) -> date | None:
        """The newest day with a record in log or ledger; what waits is one only where something was done."""
        days = [entry.day for entry in self.log or () if entry.tells_its_day]
        days += [weighing.told_on for weighing in self.ledger or ()]
        return max(days, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A question from the public, answered."""

    slug: str
    question: str
    asked: date | None = None
    by: str = ""
    about: tuple[str, ...] = ()
    """Crop slugs."""
    answer: str = ""
    unfinished: bool = False
    """Whether the answer is still being written."""
    hold_until: date | None = None
    """The first day on which it may be read."""
    place: Place = field(default=NOWHERE, compare=False, repr=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """A page of the garden's own (``about.md``)."""

    slug: str
    title: str
    order: int = 0
    prose: str = ""
    place: Place = field(default=NOWHERE, compare=False, repr=False)


YEARS_OF_ROTATION = 3
"""Where the garden tells no other. Common practice, no source."""
DAYS_IDLE = 28
"""Where the garden tells no other. Our choice."""
ARMS_REACH = Length.of(2, FOOT)
"""Where the garden tells no other. Common practice, no source."""


@dataclass(frozen=True, kw_only=True)
class Garden:
    """Everything a garden folder says, read."""

    name: str
    where: str = ""
    """Place as the garden wants it public."""
    latitude: Fraction | None = None
    longitude: Fraction | None = None
    time_zone: str = ""
    language: str = "en"
    showing: Showing = field(default=Showing())
    address: str = ""
    """Web address of the site, with a closing slash; empty where not told."""
    about: str = ""
    licence: str = ""
    """Terms on which others may use the garden's words and figures, by name; empty where not told."""
    licence_address: str = ""
    """Where those terms can be read in full."""
    freezes: FreezeDates = field(default=FreezeDates())
    rotation: int = YEARS_OF_ROTATION
    """Years within which a family should not come back to a square."""
    idle: int = DAYS_IDLE
    """Days that a square may stand empty in season before it is worth a word."""
    reach: Length = field(default=ARMS_REACH)
    """How far a gardener reaches in from a path."""
    beds: tuple[Bed, ...] = ()
    crops: tuple[Crop, ...] = ()
    """Library and own crops, sorted by slug."""
    sources: tuple[Source, ...] = ()
    seasons: tuple[Season, ...] = ()
    """Oldest first."""
    questions: tuple[Question, ...] = ()
    leaves: tuple[Leaf, ...] = ()
    supporters: tuple[Supporter, ...] = ()
    withdrawn: tuple[Withdrawn, ...] = ()

    def bed(self, name: str) -> Bed:
        """Return the bed of that name. Raises KeyError."""
        for bed in self.beds:
            if bed.name == name:
                return bed
        raise KeyError(name)

    def crop(self, slug: str) -> Crop:
        """Return the crop of that slug. Raises KeyError."""
        return self._crops[slug]

    @cached_property
    def _crops(self) -> Mapping[str, Crop]:
        return {crop.slug: crop for crop in self.crops}

    @property
    def square_feet(self) -> Fraction:
        """Area of all beds, in square feet."""
        return sum((bed.square_feet for bed in self.beds), Fraction(0))
