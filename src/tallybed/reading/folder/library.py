"""The crop library that comes with the package: ``library/crops/*.yaml`` and ``library/sources.yaml``.

It is read strictly. Whatever does not fit is our mistake, not the gardener's, and
ends the reading with the file and key it stands at.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from types import MappingProxyType
from typing import TypeVar

import yaml

from tallybed.garden.crops import Beginning, Crop, Figure, Footing, Habit, Source
from tallybed.garden.facts import FACTS
from tallybed.garden.units import INCH, Length

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
"""Only composes nodes: scalars stay as written, whatever YAML would make of them."""
_KINDS = {"derived": Footing.DERIVED, "from memory": Footing.MEMORY, "common practice": Footing.COMMON}
_NUMBER = r"-?\d+(?:\.\d+|/[1-9]\d*)?"
_VALUE = re.compile(rf"(?P<low>{_NUMBER})(?: to (?P<high>{_NUMBER}))? (?P<unit>\S+)")
_ONE_OF = {"day": "days", "week": "weeks", "month": "months"}
_WORD = TypeVar("_WORD", Beginning, Habit, Footing)


class LibraryError(Exception):
    """A file of the crop library is malformed; the message names the file and the key."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Library:
    """The crops the package knows, and the publications their figures come from."""

    crops: Mapping[str, Crop]
    """By slug, in sorted order."""
    sources: Mapping[str, Source]
    """By id, in sorted order."""


@cache
def load_library() -> Library:
    """Return the library of the package, read once. Raises LibraryError."""
    return read_library(files("tallybed") / "library")


def read_library(folder: Traversable) -> Library:
    """Read a library from a folder. Raises LibraryError at the first thing that does not fit."""
    sources = sources_of(Spot.of(folder / "sources.yaml"))
    pages = sorted((folder / "crops").iterdir(), key=lambda page: page.name)
    crops = [_crop(Spot.of(page), sources) for page in pages if page.name.endswith(".yaml")]
    holders: dict[str, str] = {}
    for crop in crops:
        holder = holders.setdefault(crop.letters, crop.slug)
        if holder != crop.slug:
            raise LibraryError(f"{crop.slug}.yaml: letters: {crop.letters} stand for {holder} already")
    return Library(crops=MappingProxyType({crop.slug: crop for crop in crops}), sources=sources)


def kinds(library: Library) -> dict[Footing, int]:
    """Return how many of the library's figures stand on each kind of ground (those used once only)."""
    counts = dict.fromkeys(Footing, 0)
    for crop in library.crops.values():
        for figure in crop.figures:
            counts[figure.kind] += 1
    return counts


@dataclass(frozen=True, slots=True)
class Spot:
    """A value in a file of the library, and the way to it for the message."""

    file: str
    way: str
    value: object
    """Text, a list of nodes, or a mapping of key to node."""

    @classmethod
    def of(cls, page: Traversable) -> Spot:
        """Read a file. Raises LibraryError."""
        try:
            node = yaml.compose(page.read_text(encoding="utf-8"), Loader=_LOADER)
        except yaml.YAMLError as trouble:
            raise LibraryError(f"{page.name}: {' '.join(str(trouble).split())}") from trouble
        return cls(page.name, "", _value(node, page.name))

    def wrong(self, what: str) -> LibraryError:
        """Return the error that says what is wrong here."""
        return LibraryError(": ".join(part for part in (self.file, self.way, what) if part))

    def text(self) -> str:
        """Return the value as a text. Raises LibraryError."""
        if not isinstance(self.value, str) or not self.value.strip():
            raise self.wrong("not a text")
        return self.value

    def items(self) -> list[Spot]:
        """Return the values of a list. Raises LibraryError."""
        if not isinstance(self.value, list):
            raise self.wrong("not a list")
        return [
            Spot(self.file, f"{self.way} {number}", item) for number, item in enumerate(self.value, start=1)
        ]

    def pairs(self, required: Iterable[str] = (), optional: Iterable[str] | None = None) -> dict[str, Spot]:
        """Return the values by key; ``optional`` None lets any key stand."""
        if not isinstance(self.value, dict):
            raise self.wrong("not a mapping")
        needed = tuple(required)
        missing = [key for key in needed if key not in self.value]
        strange = [key for key in self.value if optional is not None and key not in (*needed, *optional)]
        if missing or strange:
            raise self.wrong(f"{missing[0]} is missing" if missing else f"unknown key {strange[0]}")
        return {
            key: Spot(self.file, f"{self.way} / {key}" if self.way else key, value)
            for key, value in self.value.items()
        }


def _value(node: yaml.Node | None, file: str) -> object:
    match node:
        case yaml.ScalarNode():
            return str(node.value)
        case yaml.SequenceNode():
            return [_value(item, file) for item in node.value]
        case yaml.MappingNode():
            pairs: dict[str, object] = {}
            for key, value in node.value:
                if key.value in pairs:
                    line = key.start_mark.line + 1
                    raise LibraryError(f"{file}: {key.value} stands twice (the second on line {line})")
                pairs[key.value] = _value(value, file)
            return pairs
    raise LibraryError(f"{file}: nothing in it")


def sources_of(rows: Spot) -> Mapping[str, Source]:
    """Return a list of publications by id, in sorted order. Raises LibraryError."""
    sources: dict[str, Source] = {}
    for spot in rows.items():
        row = {
            key: value.text()
            for key, value in spot.pairs(("id", "title"), ("publisher", "number", "year", "where")).items()
        }
        if row["id"] in sources:
            raise spot.wrong(f"the id {row['id']} stands twice")
        sources[row["id"]] = Source(**row)
    return MappingProxyType(dict(sorted(sources.items())))


_NEEDED = ("slug", "name", "plural", "botanical name", "family", "habit", "start", "letters", "used", "facts")


def _crop(spot: Spot, sources: Mapping[str, Source]) -> Crop:
    rows = spot.pairs(_NEEDED, ("also", "general"))
    slug = rows["slug"].text()
    if spot.file != f"{slug}.yaml":
        raise rows["slug"].wrong(f"{slug} is not the name of its file")
    letters = rows["letters"].text()
    if not re.fullmatch(r"[A-Z][a-z]", letters):
        raise rows["letters"].wrong("not a capital and a small letter")
    chosen = {
        fact: _figure(fact, row, sources, rule=True) for fact, row in rows["used"].pairs((), FACTS).items()
    }
    start = _one_of(Beginning, rows["start"])
    days, days_from = _days(start, chosen, rows["used"])
    return Crop(
        slug=slug,
        name=rows["name"].text(),
        plural=rows["plural"].text(),
        also=_texts(rows.get("also")),
        general=_texts(rows.get("general")),
        botanical_name=rows["botanical name"].text(),
        family=rows["family"].text(),
        habit=_one_of(Habit, rows["habit"]),
        start=start,
        letters=letters,
        spacing=Length.of(_single("spacing", chosen, rows["used"]), INCH),
        days=days,
        days_from=days_from,
        figures=tuple(
            _figure(fact, row, sources)
            for fact, several in rows["facts"].pairs((), FACTS).items()
            for row in several.items()
        ),
        chosen=tuple(chosen.values()),
    )


def _days(start: Beginning, chosen: Mapping[str, Figure], spot: Spot) -> tuple[int | None, str]:
    """Return the days used and what they count from: the crop's own start, else the other one."""
    order = ("sowing", "setting out") if start is Beginning.SOWN else ("setting out", "sowing")
    for since in order:
        if f"days from {since}" in chosen:
            days = _single(f"days from {since}", chosen, spot)
            if days.denominator != 1:
                raise spot.wrong(f"days from {since}: not whole days")
            return int(days), since
    return None, ""


def _single(fact: str, chosen: Mapping[str, Figure], spot: Spot) -> Fraction:
    figure = chosen.get(fact)
    if figure is None or figure.low is None or figure.low != figure.high:
        raise spot.wrong(f"{fact}: not one number")
    return figure.low


def _figure(fact: str, spot: Spot, sources: Mapping[str, Source], *, rule: bool = False) -> Figure:
    """Return one statement of a fact; ``rule``: a note must say why it is the one used."""
    rows = spot.pairs(("note",) if rule else (), ("value", "text", "of", "source", "kind", "note"))
    if ("value" in rows) == ("text" in rows):
        raise spot.wrong("either a value or a text is needed")
    source = rows["source"].text() if "source" in rows else ""
    if source and source not in sources:
        raise rows["source"].wrong(f"no source has the id {source}")
    kind = _kind(rows.get("kind"))
    note = rows["note"].text() if "note" in rows else ""
    if kind in (Footing.MEMORY, Footing.COMMON) and source:
        raise spot.wrong(f"{kind} has no source, but {source} is named")
    if not source and (kind is Footing.PUBLISHED or (kind is Footing.DERIVED and not note)):
        raise spot.wrong("a source is missing, or a kind that needs none")
    low, high, unit = measured(rows["value"], FACTS[fact], fact) if "value" in rows else (None, None, "")
    return Figure(
        fact=fact,
        low=low,
        high=high,
        unit=unit,
        text=rows["text"].text() if "text" in rows else "",
        of=rows["of"].text() if "of" in rows else "",
        source=source,
        kind=kind,
        note=note,
    )


def measured(spot: Spot, units: Iterable[str], what: str) -> tuple[Fraction, Fraction, str]:
    """Return low, high and unit of a text such as ``2 to 3 in``, ``1/4 in``. Raises LibraryError."""
    found = _VALUE.fullmatch(spot.text())
    if found is None:
        raise spot.wrong(f"{spot.text()} is not a number, or two with “to”, and a unit")
    unit = _ONE_OF.get(found["unit"], found["unit"])
    if unit not in units:
        raise spot.wrong(f"{unit} is no unit of {what}")
    low = Fraction(found["low"])
    high = Fraction(found["high"] or found["low"])
    if low > high:
        raise spot.wrong(f"{found['low']} is more than {found['high']}")
    return low, high, unit


def _kind(spot: Spot | None) -> Footing:
    if spot is None:
        return Footing.PUBLISHED
    if spot.text() not in _KINDS:
        raise spot.wrong(f"{spot.text()} is none of {', '.join(_KINDS)}")
    return _KINDS[spot.text()]


def _one_of(words: type[_WORD], spot: Spot) -> _WORD:
    for word in words:
        if word == spot.text():
            return word
    raise spot.wrong(f"{spot.text()} is none of {', '.join(words)}")


def _texts(spot: Spot | None) -> tuple[str, ...]:
    return tuple(item.text() for item in spot.items()) if spot else ()
