"""``garden.yaml``: what the garden is, where it lies, when its seasons run."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from tallybed.garden.days import Span
from tallybed.garden.findings import Place
from tallybed.garden.garden import ARMS_REACH, DAYS_IDLE, YEARS_OF_ROTATION, FreezeDates, Garden
from tallybed.garden.naming import folded, nearest
from tallybed.garden.squares import Bed
from tallybed.garden.units import FOOT, GRAM, INCH, KILOGRAM, OUNCE, POUND, Showing
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Key, KeyedValues, Shape, take
from tallybed.reading.base.problems import LeftOut, quoted
from tallybed.reading.base.scanners import as_it_stands, chosen, rows, said
from tallybed.reading.shapes.beds import bed
from tallybed.reading.shapes.common import LINE, NOTE, NOTE_KEY
from tallybed.reading.shapes.freezes import MonthDay, freezes, tell_other_half
from tallybed.reading.shapes.people import supporter
from tallybed.reading.shapes.surroundings import surroundings
from tallybed.reading.text import dates, measures, money, texts
from tallybed.reading.text.degrees import degrees
from tallybed.reading.text.squares import Beds
from tallybed.reading.yaml.nodes import Items, Node, Pairs, Text

_SEASON_DAY = "a day without its year, such as Mar 1"

NAME = Key("name", LINE, "the garden’s name", required=True)
WHERE = Key("place", LINE, "the place as the garden wants it public")
LATITUDE = Key("latitude", said(degrees("latitude", -90, 90), "degrees"), "degrees, north positive")
LONGITUDE = Key("longitude", said(degrees("longitude", -180, 180), "degrees"), "degrees, east positive")
TIME_ZONE = Key("time zone", said(texts.time_zone, "a time zone"), "a time zone")
LANGUAGE = Key("language", said(texts.language, "a language code"), "a language code")
_OTHER_UNITS = {
    **dict.fromkeys((*POUND.names, *OUNCE.names, "imperial", "us", "u.s.", "usa", "us customary"), "pounds"),
    **dict.fromkeys((*KILOGRAM.names, *GRAM.names, "metric", "si", "metres", "meters"), "kilograms"),
    **dict.fromkeys((*FOOT.names, *INCH.names, "customary", "american", "english", "british"), "pounds"),
}
"""What people call the one set and the other."""
_UNIT_WORDS = {"pounds": False, "kilograms": True}
UNITS = Key(
    "units",
    chosen(_UNIT_WORDS, "a set of units", _OTHER_UNITS),
    "pounds or kilograms",
)
CURRENCY = Key("currency", said(money.currency, money.CURRENCY), money.CURRENCY)
ADDRESS = Key("address", said(texts.site_address, texts.ADDRESS), texts.ADDRESS)
ABOUT = Key("about", NOTE, "a sentence about the garden")
LICENCE = Key("licence", LINE, "terms by name, such as CC BY 4.0")
LICENCE_ADDRESS = Key("licence address", said(texts.address, texts.ADDRESS), texts.ADDRESS)
SEASON = Key("season", as_it_stands, "start and end")
SEASONS = Key("seasons", as_it_stands, "years, each with its start, end, closed or note")
FREEZES = Key("freeze dates", freezes, "last spring, first fall")
ROTATION = Key("rotation", said(measures.counted("years", 0, 20), "years"), "years such as 3 years")
IDLE = Key("idle", said(measures.counted("days", 1, 366), "days"), "days such as 28 days")
REACH = Key("reach", said(measures.length, "a length"), "a length such as 2 ft")
SUPPORTERS = Key("supporters", rows(supporter), "a list of supporters’ wordings")
BEDS = Key("beds", as_it_stands, "a list of beds")
SURROUNDINGS = Key("surroundings", as_it_stands, "a list of what stands around the beds")
GARDEN = Shape(
    "the garden",
    (
        NAME,
        WHERE,
        LATITUDE,
        LONGITUDE,
        TIME_ZONE,
        LANGUAGE,
        UNITS,
        CURRENCY,
        ADDRESS,
        ABOUT,
        LICENCE,
        LICENCE_ADDRESS,
        SEASON,
        SEASONS,
        FREEZES,
        ROTATION,
        IDLE,
        REACH,
        SUPPORTERS,
        BEDS,
        SURROUNDINGS,
    ),
)

START = Key("start", said(dates.every_year, _SEASON_DAY), _SEASON_DAY)
END = Key("end", said(dates.every_year, _SEASON_DAY), _SEASON_DAY)
CLOSED = Key("closed", said(measures.yes_no, measures.YES_NO), measures.YES_NO)
BOUNDS = Shape("the season", (START, END))
ONE_SEASON = Shape("a season", (START, END, CLOSED, NOTE_KEY))


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonKeys:
    """What ``seasons`` says of one year."""

    start: MonthDay | None = None
    end: MonthDay | None = None
    closed: bool = False
    note: str = ""
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class GardenFile:
    """``garden.yaml`` read: the garden without its records, and what its seasons are told to be."""

    garden: Garden
    beds: Beds
    start: MonthDay = (1, 1)
    end: MonthDay = (12, 31)
    bounded: bool = True
    """False where the default bounds could not be read."""
    seasons: Mapping[str, SeasonKeys] = field(default_factory=dict)
    broken_seasons: frozenset[str] = frozenset()
    currency_unknown: bool = False
    """Whether the garden names no currency at all, not even one that cannot be read."""

    def span(self, year: str) -> Span:
        """Return a season's bounds; an end before its start lies in the year after."""
        given = self.seasons.get(year)
        start = (given and given.start) or self.start
        end = (given and given.end) or self.end
        number = int(year)
        return Span(first=date(number, *start), last=date(number + (end < start), *end))

    def is_bounded(self, year: str) -> bool:
        """Return whether the season's bounds are known."""
        return self.bounded and year not in self.broken_seasons


def _is_metric(row: KeyedValues) -> bool:
    """Return whether the garden measures in metres, also where a word like ``metric`` was not understood.

    Else each bed would be told not to be of whole squares, those of a foot, for that one slip.
    """
    told = row.node.get(UNITS.name)
    if row.get(UNITS) is None and isinstance(told, Text):
        word = folded(told.text)
        return (_OTHER_UNITS.get(word) or nearest(word, [*_UNIT_WORDS])) == "kilograms"
    return bool(row.get(UNITS))


def ground(node: Node, context: Context) -> GardenFile:
    """Read ``garden.yaml``. Raises LeftOut where it is not a mapping at all."""
    row = take(node, GARDEN, context)
    context = replace(context, metric=_is_metric(row))
    beds, whole = _beds(row, context)
    start, end, bounded = _bounds(row, context)
    seasons, broken = _seasons(row, context)
    rotation = row.get(ROTATION)
    around = row.get(SURROUNDINGS)
    latitude, when = row.get(LATITUDE), row.get(FREEZES) or FreezeDates()
    tell_other_half(when, latitude, row.place_of(LATITUDE), context.problems)
    garden = Garden(
        name=row.get(NAME) or "",
        where=row.get(WHERE) or "",
        latitude=latitude,
        longitude=row.get(LONGITUDE),
        time_zone=row.get(TIME_ZONE) or "",
        language=row.get(LANGUAGE) or "en",
        showing=Showing(bool(row.get(UNITS))),
        currency=row.get(CURRENCY) or "",
        address=row.get(ADDRESS) or "",
        about=row.get(ABOUT) or "",
        licence=row.get(LICENCE) or "",
        licence_address=row.get(LICENCE_ADDRESS) or "",
        freezes=replace(when, latitude=latitude),
        beds=beds,
        surroundings=() if around is None else surroundings(around, context, beds, whole=whole),
        rotation=YEARS_OF_ROTATION if rotation is None else rotation,
        idle=row.get(IDLE) or DAYS_IDLE,
        reach=row.get(REACH) or ARMS_REACH,
        supporters=row.get(SUPPORTERS) or (),
    )
    return GardenFile(
        garden=garden,
        beds=Beds.of(beds, whole=whole),
        start=start,
        end=end,
        bounded=bounded,
        seasons=seasons,
        broken_seasons=broken,
        currency_unknown=not row.has(CURRENCY),
    )


def _beds(row: KeyedValues, context: Context) -> tuple[tuple[Bed, ...], bool]:
    """Return the beds that could be read, and whether that is all of them."""
    node = row.get(BEDS)
    if node is None:
        return (), not row.broken
    nodes = node.items if isinstance(node, Items) else (node,)
    beds: dict[str, Bed] = {}
    whole = True
    for each in nodes:
        try:
            read = bed(each, context)
        except LeftOut:
            whole = False
            continue
        first = beds.setdefault(read.name.casefold(), read)
        if first is not read:
            context.problems.add(
                read.place,
                "duplicate-bed",
                f"a second bed is called {quoted(read.name)}; the first is on line {first.place.line}",
                expected="a short name of its own for each bed",
            )
    return tuple(beds.values()), whole


def _bounds(row: KeyedValues, context: Context) -> tuple[MonthDay, MonthDay, bool]:
    """Return the month and day on which seasons begin and end, and whether they could be read.

    The calendar year where nothing is said of them, or where they cannot be read.
    """
    node = row.get(SEASON)
    if node is None:
        return (1, 1), (12, 31), True
    try:
        season = take(node, BOUNDS, context)
        season.finish()
    except LeftOut:
        return (1, 1), (12, 31), False
    return season.get(START) or (1, 1), season.get(END) or (12, 31), True


def _seasons(row: KeyedValues, context: Context) -> tuple[dict[str, SeasonKeys], frozenset[str]]:
    """Return what is said of single seasons, by year, and the years of which it could not be read."""
    node = row.get(SEASONS)
    if node is None:
        return {}, frozenset()
    if not isinstance(node, Pairs):
        context.problems.add(
            node.place,
            "wrong-kind",
            "a list or a text stands here",
            expected="years, as in 2026: {start: Mar 1}",
        )
        return {}, frozenset()
    given: dict[str, SeasonKeys] = {}
    broken: set[str] = set()
    for name, value in node.pairs:
        if not dates.SEASON_NAME.fullmatch(name.text):
            found = f"{quoted(name.text)} is not a year"
            context.problems.add(name.place, "not-a-year", found, expected=dates.YEAR)
            continue
        try:
            season = take(value, ONE_SEASON, context)
            season.finish()
        except LeftOut:
            broken.add(name.text)
            continue
        given[name.text] = SeasonKeys(
            start=season.get(START),
            end=season.get(END),
            closed=bool(season.get(CLOSED)),
            note=season.get(NOTE_KEY) or "",
            place=name.place,
        )
    return given, frozenset(broken)
