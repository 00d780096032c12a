"""What is known of a crop's care: every figure, and where it was printed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.crops import Crop, Figure, Footing, Source
from tallybed.garden.findings import capital
from tallybed.garden.garden import Garden
from tallybed.garden.units import plain
from tallybed.pages.care.metric import CALLED as METRIC_CALLED
from tallybed.pages.care.metric import as_read
from tallybed.pages.wording.prose import outside

GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("Name", ("botanical name", "family", "habit", "life span")),
    (
        "Sowing and planting",
        (
            *(
                "usual start",
                "weeks indoors",
                "planting depth",
                "spacing",
                "intensive spacing",
                "block spacing in row",
            ),
            *("row spacing in row", "row spacing between", "plants per sqft", "area per plant"),
            *("spring planting offset", "fall planting offset"),
            *("planting before winter", "planting before a mild winter", "succession interval"),
            "seed germination min",
        ),
    ),
    (
        "Time",
        (
            *("days from sowing", "days from setting out", "days to maturity"),
            *("usable days after first harvest", "harvest after winter", "earliest harvest in fall"),
            "harvest until",
        ),
    ),
    ("Size", ("mature height", "height on support", "support height", "spread")),
    ("Light", ("sun hours",)),
    (
        "Cold and warmth",
        (
            *("hardiness", "frost tolerance", "frost tolerance temp", "frost kill temp", "chill injury temp"),
            *("soil temp plant min", "soil temp germ min", "soil temp germ range", "soil temp germ opt"),
            "soil temp germ max",
        ),
    ),
    ("Soil", ("soil ph",)),
    ("Harvest", ("harvest sign", "harvest size", "yield per sqft", "yield", "yield per area")),
    (
        "Curing and keeping",
        (
            *("curing temp", "curing temp max", "curing rh", "curing time", "curing note"),
            *("storage temp", "storage rh", "storage life", "storage note"),
        ),
    ),
    ("Troubles", ("pest", "disease", "disorder")),
)
"""Facts in the order they are shown; any other fact follows under "More"."""

CALLED = {
    "weeks indoors": "time indoors before it is set out",
    "area per plant": "ground for each plant",
    "spacing": "spacing used here",
    "intensive spacing": "spacing in close beds",
    "block spacing in row": "spacing in blocks",
    "row spacing in row": "spacing in the row",
    "row spacing between": "distance between rows",
    "plants per sqft": "plants per square foot",
    "spring planting offset": "spring planting",
    "fall planting offset": "planting for fall",
    "succession interval": "time between sowings",
    "seed germination min": "least share of seed that comes up",
    "usable days after first harvest": "length of picking",
    "frost tolerance temp": "cold it stands",
    "frost kill temp": "cold that kills it",
    "chill injury temp": "chill that harms it",
    "soil temp plant min": "coolest soil to plant in",
    "soil temp germ min": "coolest soil to come up in",
    "soil temp germ range": "soil warmth to come up in",
    "soil temp germ opt": "best soil warmth to come up in",
    "soil temp germ max": "warmest soil to come up in",
    "soil ph": "soil pH",
    "sun hours": "direct sun a day",
    "harvest sign": "ready when",
    "harvest size": "size at harvest",
    "yield per sqft": "yield per square foot of row garden",
    "curing temp": "warmth for curing",
    "curing temp max": "most warmth for curing",
    "curing rh": "damp of the air for curing",
    "storage temp": "warmth for keeping",
    "storage rh": "damp of the air for keeping",
    "storage life": "keeps for",
    "storage note": "keeping",
}
UNITS = {
    "degF": "°F",
    "lb/sqft": "lb per sq ft",
    "lb/acre": "lb per acre",
    "lb/100ft": "lb from 100 ft of row",
    "lb/10ft": "lb from 10 ft of row",
    "bunches/100ft": "bunches from 100 ft of row",
    "ears/10ft": "ears from 10 ft of row",
    "ears/100ft": "ears from 100 ft of row",
    "ears/acre": "ears per acre",
    "fruit/100ft": "fruit from 100 ft of row",
    "heads/100ft": "heads from 100 ft of row",
    "stalks/100ft": "stalks from 100 ft of row",
    "lb/plant": "lb a plant",
    "plants/sqft": "plants per sq ft",
    "fruit/plant": "fruit a plant",
    "quart/plant": "quarts a plant",
    "sqft": "sq ft",
    "lb/lb": "lb for each lb planted",
    "pH": "",
    "%": "%",
}
_FREEZE = {
    "spring planting offset": "the last spring freeze",
    "fall planting offset": "the first fall freeze",
    "planting before winter": "the first fall freeze",
    "planting before a mild winter": "the first fall freeze",
    "harvest after winter": "the last spring freeze",
    "earliest harvest in fall": "the first fall freeze",
}
_USED_FOR = {"intensive spacing": "spacing"}
"""Printed facts beside which the value used stands under another name."""
_IN_FRACTIONS = frozenset({"in", "weeks"})
"""Units whose parts gardeners write as fractions."""
_ORIGIN = {
    Footing.COMMON: "common practice, no source",
    Footing.MEMORY: "from memory",
    Footing.GARDEN: "this garden’s own",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement:
    """One statement of a fact and what it rests on."""

    words: str
    of: str
    origin: str
    """``from memory`` …; ``derived`` beside a number; empty where a number says it all."""
    source: int | None
    """Number of its source at the foot of the page."""
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A fact: the statement that is used, and all that was seen."""

    name: str
    used: Statement | None
    seen: tuple[Statement, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FactGroup:
    """Facts of one kind."""

    title: str
    ident: str
    facts: tuple[Fact, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cited:
    """A source at the foot of the page."""

    number: int
    words: str
    where: str
    """Address or place in words; a link only if it is an address."""
    link: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Care:
    """All that is known of a crop's care."""

    groups: tuple[FactGroup, ...]
    sources: tuple[Cited, ...]


def care(garden: Garden, crop: Crop) -> Care:
    """Return a crop's facts in groups, with their sources numbered in the order they are cited."""
    numbers: dict[str, int] = {}
    groups = []
    called = {**CALLED, **METRIC_CALLED} if garden.showing.metric else CALLED
    crop = as_read(garden.showing, crop)
    for title, facts in _grouped(crop):
        found = tuple(_fact(crop, fact, called.get(fact, fact), numbers) for fact in facts)
        if found:
            groups.append(FactGroup(title=title, ident=f"f-{title.split()[0].lower()}", facts=found))
    return Care(groups=tuple(groups), sources=tuple(cited(garden, numbers)))


def _grouped(crop: Crop) -> Iterator[tuple[str, list[str]]]:
    """Yield each group's title and which of its facts are known of a crop; those of no group come last."""
    known = list(dict.fromkeys(figure.fact for figure in (*crop.figures, *crop.chosen)))
    known = [fact for fact in known if not any(_USED_FOR.get(other) == fact for other in known)]
    listed = {fact for _, facts in GROUPS for fact in facts}
    for title, facts in GROUPS:
        yield title, [fact for fact in facts if fact in known]
    yield "More", [fact for fact in known if fact not in listed]


def _fact(crop: Crop, fact: str, name: str, numbers: dict[str, int]) -> Fact:
    """Return all that is known of one fact of a crop; ``numbers`` gives each source met its number."""
    used = crop.used(fact) or crop.used(_USED_FOR.get(fact, ""))
    return Fact(
        name=capital(name),
        used=_statement(used, numbers) if used else None,
        seen=tuple(_statement(figure, numbers) for figure in crop.all_of(fact)),
    )


def _statement(figure: Figure, numbers: dict[str, int]) -> Statement:
    """Return one figure in words, with where it comes from."""
    number = numbers.setdefault(figure.source, len(numbers) + 1) if figure.source else None
    return Statement(
        words=value_words(figure),
        of=figure.of,
        origin=origin_words(figure),
        source=number,
        note=figure.note,
    )


def origin_words(figure: Figure) -> str:
    """Return ``from memory`` …, ``derived``, or nothing where the source's number says it all."""
    return "derived" if figure.kind is Footing.DERIVED else _ORIGIN.get(figure.kind, "")


def value_words(figure: Figure) -> str:
    """Return a figure with its unit: ``2 to 3 in``, ``4 to 2 weeks before the last spring freeze``."""
    if figure.low is None or figure.high is None:
        return figure.text
    if figure.fact in _FREEZE and figure.unit == "weeks":
        words = _around(figure.low, figure.high, _FREEZE[figure.fact])
    else:
        unit = UNITS.get(figure.unit, figure.unit)
        number = _number if figure.unit in _IN_FRACTIONS else _decimal
        span = number(figure.low)
        if figure.high != figure.low:
            span += f" to {number(figure.high)}"
        gap = "" if unit in ("", "%") else " "
        words = f"{span}{gap}{_single(unit) if figure.low == figure.high == 1 else unit}"
    return f"{words}, {figure.text}" if figure.text else words


def _around(low: Fraction, high: Fraction, freeze: str) -> str:
    """Return weeks about a freeze in words: ``2 to 4 weeks before the last freeze``."""
    if high <= 0:
        early, late = (f"{_number(-low)}", f"{_number(-high)}")
        if not high:
            return f"at {freeze}" if not low else f"{_weeks(-low)} before {freeze} until it"
        return (
            f"{_weeks(-low)} before {freeze}" if low == high else f"{early} to {late} weeks before {freeze}"
        )
    if low >= 0:
        early, late = (f"{_number(low)}", f"{_number(high)}")
        if not low:
            return f"from {freeze} to {_weeks(high)} after"
        told = _weeks(high) if low == high else f"{early} to {late} weeks"
        return f"{told} after {freeze}"
    return f"{_weeks(-low)} before to {_weeks(high)} after {freeze}"


def _weeks(number: Fraction) -> str:
    """Return so many weeks: ``1 week``, ``1/2 week``, ``2 weeks``."""
    return f"{_number(number)} {'week' if number <= 1 else 'weeks'}"


def _number(value: Fraction) -> str:
    """Return a printed figure: whole, a gardener's fraction, or decimals."""
    if value.denominator in (2, 3, 4, 8) and value > 0:
        whole, rest = divmod(value.numerator, value.denominator)
        part = f"{rest}/{value.denominator}"
        return f"{whole} {part}" if whole else part
    return _decimal(value)


def _decimal(value: Fraction) -> str:
    """Return a number with two decimals at most, and none that says nothing."""
    return f"{value.numerator:,}" if value.denominator == 1 else plain(value, 2)


def _single(unit: str) -> str:
    """Return a unit of time in the singular; other units as they are."""
    return unit[:-1] if unit in ("days", "weeks", "months", "years") else unit


def cited(garden: Garden, numbers: Mapping[str, int]) -> Iterator[Cited]:
    """Yield the publications of these ids, each with its number."""
    known = {source.id: source for source in garden.sources}
    for ident, number in numbers.items():
        source = known.get(ident)
        where = source.where if source else ""
        yield Cited(
            number=number,
            words=source_words(source) if source else ident,
            where=where,
            link=outside(where),
        )


def source_words(source: Source) -> str:
    """Return a publication as it is cited: title, publisher, number, year, as far as they were seen."""
    parts: Iterable[str] = (source.publisher, source.number, source.year)
    tail = ", ".join(part for part in parts if part)
    title = source.title.rstrip(".")
    return f"{title}. {tail}." if tail else f"{title}."
