"""A garden and its seasons: everything a garden folder says, read."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from fractions import Fraction
from functools import cached_property

from tallybed.garden.benchmarks import Benchmark
from tallybed.garden.crops import Crop, Source
from tallybed.garden.days import Span
from tallybed.garden.findings import NOWHERE, Place
from tallybed.garden.money import Cost, Price
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.records.log import Entry
from tallybed.garden.records.people import Supporter, Withdrawn
from tallybed.garden.records.plan import PlanRow
from tallybed.garden.records.soil import SoilTest
from tallybed.garden.records.weather import Weather, WeatherDay
from tallybed.garden.squares import Bed, Square
from tallybed.garden.surroundings import Thing
from tallybed.garden.units import FOOT, Length, Showing


@dataclass(frozen=True, slots=True, kw_only=True)
class FreezeDates:
    """Dates as (month, day); percentile keys 10, 50, 90; 50 is also the plain average.

    Spring: the chance in percent that a freeze follows the date. Fall: the chance
    that a freeze came before it. Keys: temperature in °F (32 or 28).
    """

    spring: tuple[tuple[int, tuple[tuple[int, tuple[int, int]], ...]], ...] = ()
    fall: tuple[tuple[int, tuple[tuple[int, tuple[int, int]], ...]], ...] = ()
    latitude: Fraction | None = field(default=None, compare=False)
    """Where they hold, in degrees north, if that is known."""


@dataclass(frozen=True, kw_only=True)
class Season:
    """A season's records. Each paper is None where its file is not there."""

    name: str
    """The folder's name: the year it begins in."""
    span: Span
    closed: bool = False
    note: str = ""
    plan: tuple[PlanRow, ...] | None = None
    log: tuple[Entry, ...] | None = None
    ledger: tuple[Weighing, ...] | None = None
    costs: tuple[Cost, ...] | None = None
    prices: tuple[Price, ...] | None = None
    general: tuple[tuple[str, str], ...] = ()
    """What a general name means this season: (typed name, casefolded; crop slug)."""
    weather: Weather | None = None
    """What the sky did; it never moves the season's newest day."""

    @cached_property
    def newest(self) -> date | None:
        """The newest day with a record in log or ledger; what waits is one only where something was done."""
        days = [entry.day for entry in self.log or () if entry.tells_its_day]
        days += [weighing.told_on for weighing in self.ledger or ()]
        return max(days, default=None)

    def weather_on(self, day: date) -> WeatherDay | None:
        """Return the weather of a day, or None where nothing of it is known."""
        days = self.weather.days if self.weather else ()
        return next((one for one in days if one.day == day), None)


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
    answer_begins: Place = field(default=NOWHERE, compare=False, repr=False)
    """Where the answer's first line stands."""
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
    prose_begins: Place = field(default=NOWHERE, compare=False, repr=False)
    """Where its first line stands."""
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
    currency: str = ""
    """Three letters of ISO 4217 for what costs and prices are told in; empty where not told."""
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
    elsewhen: tuple[Bed, ...] = ()
    """Of the garden as it was in one season: its beds that were not there then."""
    soil_tests: tuple[SoilTest, ...] = ()
    surroundings: tuple[Thing, ...] = ()
    """What stands around the beds and takes sun from them."""
    crops: tuple[Crop, ...] = ()
    """Library and own crops, sorted by slug."""
    sources: tuple[Source, ...] = ()
    benchmarks: tuple[Benchmark, ...] = ()
    """Figures of other gardens, from the library."""
    seasons: tuple[Season, ...] = ()
    """Oldest first."""
    questions: tuple[Question, ...] = ()
    leaves: tuple[Leaf, ...] = ()
    supporters: tuple[Supporter, ...] = ()
    withdrawn: tuple[Withdrawn, ...] = ()

    def bed(self, name: str) -> Bed:
        """Return the bed of that name, whether it is there or not. Raises KeyError."""
        for bed in (*self.beds, *self.elsewhen):
            if bed.name == name:
                return bed
        raise KeyError(name)

    def in_season(self, season: str) -> Garden:
        """Return the garden as it was in the season of that name: the very same where no bed was missing."""
        there = tuple(bed for bed in self.beds if bed.was_there(season))
        if len(there) == len(self.beds):
            return self
        gone = tuple(bed for bed in self.beds if not bed.was_there(season))
        return replace(self, beds=there, elsewhen=gone)

    def crop(self, slug: str) -> Crop:
        """Return the crop of that slug. Raises KeyError."""
        return self._crops[slug]

    @cached_property
    def _crops(self) -> Mapping[str, Crop]:
        """The garden's crops by slug."""
        return {crop.slug: crop for crop in self.crops}

    def area_of(self, squares: Iterable[Square]) -> Fraction:
        """Return the area of squares, each of which counts once, in square feet. Raises KeyError."""
        return sum((self.bed(square.bed).square_area for square in set(squares)), Fraction(0))

    @property
    def square_feet(self) -> Fraction:
        """Area of all beds, in square feet."""
        return sum((bed.square_feet for bed in self.beds), Fraction(0))
