"""The crop library that comes with the package: ``crops/<slug>.yaml`` and ``sources.yaml``, key by key."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from functools import lru_cache

from tallybed.garden.crops import Beginning, Crop, Figure, Footing, Habit, NameElsewhere, Source
from tallybed.garden.facts import FACTS
from tallybed.garden.naming import named_by
from tallybed.garden.units import INCH, Length
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Key, KeyedValues, Shape, take
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.base.scanners import Scanner, chosen, every, said
from tallybed.reading.shapes.common import NOTE
from tallybed.reading.text import texts
from tallybed.reading.yaml.nodes import Node

LIBRARY = "library"
"""The code of what only the library's own files can have wrong: that is our mistake, not the gardener's."""
VALUE_TEXT = "a number, or two with “to”, and a unit"
_NUMBER = r"-?\d+(?:\.\d+|/[1-9]\d*)?"
_VALUE = re.compile(rf"(?P<low>{_NUMBER})(?: to (?P<high>{_NUMBER}))? (?P<unit>\S+)")
_ONE_OF = {"day": "days", "week": "weeks", "month": "months"}
_KINDS = {"derived": Footing.DERIVED, "from memory": Footing.MEMORY, "common practice": Footing.COMMON}
Amount = tuple[Fraction, Fraction, str]
"""Low, high and unit."""


@lru_cache(maxsize=4096)
def amount(text: str) -> Amount:
    """Read a text such as ``2 to 3 in``, ``1/4 in``, ``-4 to -2 weeks``."""
    found = _VALUE.fullmatch(text)
    if found is None:
        raise Misread(LIBRARY, f"{quoted(text)} cannot be read", VALUE_TEXT)
    low = Fraction(found["low"])
    high = Fraction(found["high"]) if found["high"] else low
    if low > high:
        raise Misread(LIBRARY, f"{found['low']} is more than {found['high']}")
    return low, high, _ONE_OF.get(found["unit"], found["unit"])


def _letters(text: str) -> str:
    """Read a crop's two letters, a capital and a small one. Raises Misread."""
    if not re.fullmatch(r"[A-Z][a-z]", text):
        raise Misread(LIBRARY, f"{quoted(text)} are not a capital and a small letter")
    return text


def _region(text: str) -> str:
    """Read a country's code. Raises Misread."""
    if not re.fullmatch(r"[A-Z]{2}", text):
        raise Misread(LIBRARY, f"{quoted(text)} is not two capitals, such as NZ")
    return text


ID = Key("id", NOTE, texts.NOTE, required=True)
TITLE = Key("title", NOTE, texts.NOTE, required=True)
PUBLISHER = Key("publisher", NOTE, texts.NOTE, never_empty=True)
NUMBER = Key("number", NOTE, texts.NOTE, never_empty=True)
YEAR = Key("year", NOTE, texts.NOTE, never_empty=True)
WHERE = Key("where", NOTE, texts.NOTE, never_empty=True)
WEIGHT = Key("weight", chosen({"a": "A", "b": "B"}, "a weight of a source"), "A or B", never_empty=True)
SOURCE = Shape("a source", (ID, TITLE, PUBLISHER, NUMBER, YEAR, WHERE, WEIGHT))


def source(node: Node, context: Context) -> Source:
    """Read a publication. Raises LeftOut."""
    row = take(node, SOURCE, context)
    row.finish()
    return Source(
        id=row[ID],
        title=row[TITLE],
        publisher=row.get(PUBLISHER) or "",
        number=row.get(NUMBER) or "",
        year=row.get(YEAR) or "",
        where=row.get(WHERE) or "",
        weight=row.get(WEIGHT) or "",
    )


VALUE = Key("value", said(amount, VALUE_TEXT), VALUE_TEXT, never_empty=True)
TEXT = Key("text", NOTE, texts.NOTE, never_empty=True)
OF = Key("of", NOTE, texts.NOTE, never_empty=True)
SOURCE_ID = Key("source", NOTE, "the id of a source", never_empty=True)
KIND = Key("kind", chosen(_KINDS, "a kind of figure"), listed(_KINDS), never_empty=True)
WHY = Key("note", NOTE, "why it is the one used", required=True)
REMARK = Key("note", NOTE, texts.NOTE, never_empty=True)
FIGURE = Shape("a figure", (VALUE, TEXT, OF, SOURCE_ID, KIND, REMARK))
USED_FIGURE = Shape("a figure that is used", (VALUE, TEXT, OF, SOURCE_ID, KIND, WHY))


def _figure(fact: str, shape: Shape) -> Scanner[Figure]:
    """Return a scanner for a figure of a fact, which holds its unit against those of the fact."""

    def scan(node: Node, context: Context) -> Figure:
        """Read one figure: a value with its unit, or a text. Raises LeftOut."""
        row = take(node, shape, context)
        row.finish()
        kind = row.get(KIND) or Footing.PUBLISHED
        source_id, note = row.get(SOURCE_ID) or "", row.get(REMARK) or ""
        _stands_on(row, kind, source_id, note)
        low, high, unit = row.get(VALUE) or (None, None, "")
        if row.has(VALUE) == row.has(TEXT):
            row.wrong(row.place, LIBRARY, "a figure is either a value or a text")
        elif unit and unit not in FACTS[fact]:
            row.wrong(VALUE, LIBRARY, f"{unit} is not a unit of {fact}", expected=listed(FACTS[fact]))
        row.finish()
        text = row.get(TEXT) or ""
        of = row.get(OF) or ""
        return Figure(
            fact=fact, low=low, high=high, unit=unit, text=text, of=of, source=source_id, kind=kind, note=note
        )

    return scan


def _stands_on(row: KeyedValues, kind: Footing, source_id: str, note: str) -> None:
    """Hold the source against the kind of figure: what is published has one, what is remembered none."""
    if source_id and source_id not in row.context.sources:
        row.wrong(SOURCE_ID, LIBRARY, f"no source has the id {source_id}")
    if kind in (Footing.MEMORY, Footing.COMMON) and source_id:
        row.wrong(SOURCE_ID, LIBRARY, f"a figure {kind} has no source, but {source_id} is named")
    if not source_id and (kind is Footing.PUBLISHED or (kind is Footing.DERIVED and not note)):
        row.wrong(row.place, LIBRARY, "the figure has no source, and no kind that needs none")


USED_FACTS = {fact: Key(fact, _figure(fact, USED_FIGURE), "a figure") for fact in FACTS}
ALL_FACTS = {fact: Key(fact, every(_figure(fact, FIGURE), "figures"), "a list of figures") for fact in FACTS}
USED_SHAPE = Shape("the list of figures that are used", tuple(USED_FACTS.values()), hint="a known fact")
FACTS_SHAPE = Shape("the list of all figures", tuple(ALL_FACTS.values()), hint="a known fact")


def _used(node: Node, context: Context) -> dict[str, Figure]:
    """Read the figures that are used, by fact. Raises LeftOut."""
    row = take(node, USED_SHAPE, context)
    row.finish()
    return {name.text: row[USED_FACTS[name.text]] for name, _value in row.node.pairs}


def _facts(node: Node, context: Context) -> tuple[Figure, ...]:
    """Read all figures, in the order of the file. Raises LeftOut."""
    row = take(node, FACTS_SHAPE, context)
    row.finish()
    return tuple(figure for name, _value in row.node.pairs for figure in row[ALL_FACTS[name.text]])


SLUG = Key("slug", NOTE, texts.NOTE, required=True)
NAME = Key("name", NOTE, texts.NOTE, required=True)
PLURAL = Key("plural", NOTE, texts.NOTE, required=True)
CROP_KIND = Key("kind", NOTE, "the words of its name that are said after the rest", never_empty=True)
ALSO = Key("also", every(NOTE, "other names"), "a list of other names", never_empty=True)
GENERAL = Key("general", every(NOTE, "general names"), "a list of general names", never_empty=True)
BOTANICAL = Key("botanical name", NOTE, texts.NOTE, required=True)
FAMILY = Key("family", NOTE, texts.NOTE, required=True)
HABIT = Key("habit", chosen({habit.value: habit for habit in Habit}, "a habit"), listed(Habit), required=True)
START = Key(
    "start", chosen({way.value: way for way in Beginning}, "a start"), listed(Beginning), required=True
)
LETTERS = Key("letters", said(_letters, "two letters"), "two letters for the maps", required=True)
FROM_MEMORY = Footing.MEMORY.value
IN = Key("in", every(said(_region, "a country"), "countries"), "countries, such as [AU, NZ]", required=True)
NAME_SOURCE = Key("source", NOTE, f"the id of a source, or {FROM_MEMORY}", required=True)
NAMED = Shape("a name elsewhere", (IN, NAME, PLURAL, CROP_KIND, LETTERS, NAME_SOURCE))


def _elsewhere(node: Node, context: Context) -> NameElsewhere:
    """Read what a crop is called in some countries. Raises LeftOut."""
    row = take(node, NAMED, context)
    row.finish()
    kind, source_id = row.get(CROP_KIND) or "", row[NAME_SOURCE]
    _kind_fits(row)
    if source_id != FROM_MEMORY and source_id not in context.sources:
        row.wrong(NAME_SOURCE, LIBRARY, f"no source has the id {source_id}")
    row.finish()
    return NameElsewhere(
        regions=row[IN],
        name=row[NAME],
        plural=row[PLURAL],
        kind=kind,
        letters=row[LETTERS],
        source="" if source_id == FROM_MEMORY else source_id,
    )


def _kind_fits(row: KeyedValues) -> None:
    """Tell where the kind does not begin both name and plural."""
    if not named_by(row.get(CROP_KIND) or "", row[NAME], row[PLURAL]):
        row.wrong(CROP_KIND, LIBRARY, f"{row[CROP_KIND]} does not begin name and plural")


ELSEWHERE = Key("elsewhere", every(_elsewhere, "names"), "a list of names", never_empty=True)
USED = Key("used", _used, "the figures that are used, by fact", required=True)
ALL = Key("facts", _facts, "all figures, by fact", required=True)
CROP = Shape(
    "a crop of the library",
    (
        *(SLUG, NAME, PLURAL, CROP_KIND, ALSO, GENERAL, BOTANICAL, FAMILY, HABIT, START, LETTERS, ELSEWHERE),
        *(USED, ALL),
    ),
)


def crop(node: Node, context: Context) -> Crop:
    """Read a crop. Raises LeftOut."""
    row = take(node, CROP, context)
    row.finish()
    slug, used = row[SLUG], row[USED]
    if row.place.file != f"{slug}.yaml":
        row.wrong(SLUG, LIBRARY, f"{slug} is not the name of its file")
    _kind_fits(row)
    spacing = _single("spacing", used, row)
    days, days_from = _days(row[START], used, row)
    row.finish()
    return Crop(
        slug=slug,
        name=row[NAME],
        plural=row[PLURAL],
        kind=row.get(CROP_KIND) or "",
        also=row.get(ALSO) or (),
        general=row.get(GENERAL) or (),
        botanical_name=row[BOTANICAL],
        family=row[FAMILY],
        habit=row[HABIT],
        start=row[START],
        letters=row[LETTERS],
        elsewhere=row.get(ELSEWHERE) or (),
        spacing=Length.of(spacing, INCH),
        days=days,
        days_from=days_from,
        figures=row[ALL],
        chosen=tuple(used.values()),
    )


def _days(start: Beginning, used: Mapping[str, Figure], row: KeyedValues) -> tuple[int | None, str]:
    """Return the days used and what they count from: the crop's own start, else the other one."""
    order = ("sowing", "setting out") if start is Beginning.SOWN else ("setting out", "sowing")
    since = next((since for since in order if f"days from {since}" in used), "")
    if not since:
        return None, ""
    days = _single(f"days from {since}", used, row)
    if days.denominator != 1:
        row.wrong(USED, LIBRARY, f"days from {since} are not whole days")
    return int(days), since


def _single(fact: str, used: Mapping[str, Figure], row: KeyedValues) -> Fraction:
    """Return the one number used for a fact; tells where there is none, or more than one."""
    figure = used.get(fact)
    if figure is None or figure.low is None or figure.low != figure.high:
        row.wrong(USED, LIBRARY, f"{fact} is not one number")
        return Fraction(0)
    return figure.low
