"""The log: visits, and what was done on each (files in ``log/``)."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from fractions import Fraction
from typing import Self

from tallybed.garden.findings import NOWHERE, Place
from tallybed.garden.naming import CropName, folded
from tallybed.garden.records.plan import Start
from tallybed.garden.records.treatment import Manure, Treatment
from tallybed.garden.squares import Square
from tallybed.garden.water import Water


@dataclass(frozen=True, slots=True, kw_only=True)
class VerbMeaning:
    """What a verb of the log says, apart from its name. Everything that holds for a verb alone is here."""

    past: str
    """The verb as it reads in a list of what was done, such as ``came up``."""
    with_matter: str = ""
    """The same where its object is not a crop, if that reads otherwise: ``row cover put on``."""
    change: str = ""
    """What it does to its squares, as a list of changes tells it; empty where what stands there stays."""
    takes_crop: bool = False
    """Whether its object is a crop; else it is free text, which may name one."""
    starts: bool = False
    """Whether it puts a crop into its squares."""
    indoors: bool = False
    """Whether it is done indoors and touches no square of the bed."""
    ends: bool = False
    """Whether it takes plants out of their squares: all of them, unless it gives a number."""
    in_part: bool = False
    """Of one that ends: whether it may give a number and leave the other plants."""
    moves: bool = False
    """Of one that ends: whether the plants go on in other squares, those of ``to``."""
    shows_growth: bool = False
    """Whether nobody would say it of a crop that is not up."""
    spreads: bool = False
    """Whether it puts something on the ground or into it, which may be manure."""
    tends_ground: bool = False
    """Whether ground also gets it before a crop stands there and after: no sign of a crop."""


class Verb(StrEnum):
    """What was done on a visit. Add a verb here: one row; the order of the rows means nothing."""

    meaning: VerbMeaning
    _value_: str

    def __new__(cls, name: str, meaning: VerbMeaning | None = None) -> Self:
        """Make a verb that is its name as typed in the log. Raises TypeError for a row without a meaning."""
        if meaning is None:
            raise TypeError(f"the verb {name} has no meaning")
        verb = str.__new__(cls, name)
        verb._value_ = name
        verb.meaning = meaning
        return verb

    SOW = "sow", VerbMeaning(past="sown", change="sown", takes_crop=True, starts=True)
    SOW_INDOORS = "sow indoors", VerbMeaning(past="sown indoors", takes_crop=True, indoors=True)
    POT_UP = "pot up", VerbMeaning(past="potted up", takes_crop=True, indoors=True)
    SET_OUT = "set out", VerbMeaning(past="set out", change="set out", takes_crop=True, starts=True)
    UP = "up", VerbMeaning(past="came up", takes_crop=True, shows_growth=True)
    RESOW = "resow", VerbMeaning(past="sown again", change="resown", takes_crop=True, starts=True)
    THIN = "thin", VerbMeaning(past="thinned", change="thinned", takes_crop=True, shows_growth=True)
    PRUNE = "prune", VerbMeaning(past="pruned", takes_crop=True, shows_growth=True)
    STAKE = "stake", VerbMeaning(past="staked", takes_crop=True, shows_growth=True)
    FAILED = "failed", VerbMeaning(past="failed", change="failed", takes_crop=True, ends=True)
    LOST = "lost", VerbMeaning(past="lost", change="lost", takes_crop=True, ends=True, in_part=True)
    MOVE = (
        "move",
        VerbMeaning(
            past="moved",
            change="moved",
            takes_crop=True,
            ends=True,
            in_part=True,
            moves=True,
            shows_growth=True,
        ),
    )
    CLEAR = "clear", VerbMeaning(past="cleared", change="cleared", takes_crop=True, ends=True, in_part=True)
    WATER = "water", VerbMeaning(past="watered", tends_ground=True, spreads=True)
    WEED = "weed", VerbMeaning(past="weeded", tends_ground=True)
    FEED = "feed", VerbMeaning(past="fed", with_matter="given", tends_ground=True, spreads=True)
    TREAT = "treat", VerbMeaning(past="treated", with_matter="used", tends_ground=True)
    AMEND = "amend", VerbMeaning(past="amended", with_matter="added", tends_ground=True, spreads=True)
    COVER = "cover", VerbMeaning(past="covered", with_matter="put on", tends_ground=True, spreads=True)
    UNCOVER = "uncover", VerbMeaning(past="uncovered", with_matter="taken off", tends_ground=True)
    OBSERVE = "observe", VerbMeaning(past="looked at", with_matter="seen")


CROP_VERBS = frozenset(verb for verb in Verb if verb.meaning.takes_crop)
"""Verbs whose object is a crop; the others take free text."""
STARTING = frozenset(verb for verb in Verb if verb.meaning.starts)
"""Verbs that put a crop into its squares."""
INDOORS = frozenset(verb for verb in Verb if verb.meaning.indoors)
"""Verbs that touch no square of the bed."""
LEAVING = frozenset(verb for verb in Verb if verb.meaning.ends)
"""Verbs that take plants out of their squares."""
ENDING = frozenset(verb for verb in LEAVING if not verb.meaning.moves)
"""Verbs after which the plants they take are nowhere."""
TAKING_SOME = frozenset(verb for verb in Verb if verb.meaning.in_part)
"""Verbs that may take some plants out of their squares and leave the others."""

SPREADING = frozenset(verb for verb in Verb if verb.meaning.spreads)
"""Verbs that put something on the ground or into it, which may be manure."""

WAITED_AFTER = frozenset({Verb.TREAT, Verb.AMEND, Verb.FEED})
"""Verbs after whose lines people are careful, whatever was put down; after the rest if manure was."""


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
    treatment: Treatment | None = None
    """Of a line that treats: what it says of product and label."""
    manure: Manure | None = None
    """What of animals is in what was dug in or fed with; None where not told."""
    heat: str = ""
    """How the heat of a compost with manure was recorded, in words."""
    minutes: int | None = None
    people: int = 1
    because: str = ""
    note: str = ""
    silence: tuple[tuple[str, str], ...] = ()
    """Findings not to be told of this record: (code, reason)."""
    place: Place = field(default=NOWHERE, compare=False, repr=False)

    @property
    def begins_as(self) -> Start:
        """How a line that begins something brings it into the bed."""
        return Start.SET_OUT if self.verb is Verb.SET_OUT else Start.SOW

    @property
    def beside_crop(self) -> str:
        """The verb's object where it is not the crop of the line, such as ``row cover``; else empty."""
        crop = self.crop is not None and folded(self.crop.typed) == folded(self.subject)
        return "" if crop else self.subject


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What a photograph shows: a planting by its tag, or a crop by its name."""

    tag: str = ""
    crop: CropName | None = None


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
    shows: tuple[Shown, ...] = ()
    """The plantings and crops it shows; on their pages it stands too."""
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
class FurtherReading:
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
    further: tuple[FurtherReading, ...] = ()
    prose: str = ""
    """Markdown as written."""
    prose_begins: Place = field(default=NOWHERE, compare=False, repr=False)
    """Where its first line stands."""
    unfinished: bool = False
    """Whether it is still being written; its lines of ``done`` count all the same."""
    hold_until: date | None = None
    """The first day on which it may be read."""
    changed: date | None = None
    """The day on which what may be read of it was last changed; None where it stands as first written."""
    identity: str = ""
    """What it was first called, where its file has another name now: ``2026-04-19-peas-are-up``."""
    place: Place = field(default=NOWHERE, compare=False, repr=False)

    @property
    def known_as(self) -> str:
        """What feeds and calendars know it by for all time: its date and name, as they first were."""
        return self.identity or f"{self.day.isoformat()}-{self.slug}"

    @property
    def tells_its_day(self) -> bool:
        """Whether it is a record of its day: it may be read at some time, or something was done."""
        return bool(self.done) or not (self.unfinished or self.hold_until)
