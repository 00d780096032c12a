"""``benchmarks.yaml`` of the library: figures of other gardens, key by key."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tallybed.garden.benchmarks import Benchmark, Topic
from tallybed.garden.crops import Source
from tallybed.reading.base.context import Context
from tallybed.reading.base.mappings import Key, Shape, take
from tallybed.reading.base.problems import listed
from tallybed.reading.base.scanners import Scanner, as_it_stands, chosen, every, said
from tallybed.reading.shapes.common import NOTE
from tallybed.reading.shapes.library import LIBRARY, VALUE_TEXT, amount, source
from tallybed.reading.text import texts
from tallybed.reading.yaml.nodes import Node

UNITS: Mapping[Topic, tuple[str, ...]] = {
    Topic.YIELD: ("lb/sqft", "kg/m2"),
    Topic.WORK: ("min/sqft",),
    Topic.WATER: ("L/kg",),
    Topic.MONEY: ("USD/sqft",),
}
"""The units that figures of a topic may be told in."""
SECOND_HAND = "second-hand"

WHAT = Key("what", NOTE, texts.NOTE, required=True)
VALUE = Key("value", said(amount, VALUE_TEXT), VALUE_TEXT, required=True)
WHERE = Key("where", NOTE, texts.NOTE, required=True)
WHEN = Key("when", NOTE, texts.NOTE, never_empty=True)
NUMBER = Key("number", NOTE, texts.NOTE, never_empty=True)
AREA = Key("area", NOTE, texts.NOTE, never_empty=True)
SOURCE_ID = Key("source", NOTE, "the id of a source", required=True)
SEEN = Key("seen", chosen({SECOND_HAND: True}, "how a source was seen"), SECOND_HAND, never_empty=True)
REMARK = Key("note", NOTE, texts.NOTE, never_empty=True)
FIGURE = Shape("a figure of other gardens", (WHAT, VALUE, WHERE, WHEN, NUMBER, AREA, SOURCE_ID, SEEN, REMARK))

SOURCES = Key("sources", every(source, "a list of sources"), "a list of sources", required=True)
TOPICS = {topic: Key(topic.value, as_it_stands, "a list of figures", required=True) for topic in Topic}
FILE = Shape("the figures of other gardens", (SOURCES, *TOPICS.values()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Benchmarks:
    """Figures of other gardens, and the publications they come from."""

    figures: tuple[Benchmark, ...]
    sources: tuple[Source, ...]


def benchmarks(node: Node, context: Context) -> Benchmarks:
    """Read the file. Raises LeftOut."""
    row = take(node, FILE, context)
    row.finish()
    sources = row[SOURCES]
    known = {one.id for one in sources}
    figures = [
        one
        for topic, key in TOPICS.items()
        for one in every(_figure(topic, known), "a list of figures")(row[key], context)
    ]
    return Benchmarks(figures=tuple(figures), sources=sources)


def _figure(topic: Topic, known: set[str]) -> Scanner[Benchmark]:
    """Return a scanner of figures of one topic."""

    def scan(node: Node, context: Context) -> Benchmark:
        """Read one figure."""
        row = take(node, FIGURE, context)
        row.finish()
        low, high, unit = row[VALUE]
        if row[SOURCE_ID] not in known:
            row.wrong(SOURCE_ID, LIBRARY, f"no source has the id {row[SOURCE_ID]}")
        if unit not in UNITS[topic]:
            row.wrong(VALUE, LIBRARY, f"{unit} is not a unit of {topic}", expected=listed(UNITS[topic]))
        row.finish()
        return Benchmark(
            topic=topic,
            what=row[WHAT],
            low=low,
            high=high,
            unit=unit,
            where=row[WHERE],
            when=row.get(WHEN) or "",
            number=row.get(NUMBER) or "",
            area=row.get(AREA) or "",
            source=row[SOURCE_ID],
            second_hand=bool(row.get(SEEN)),
            note=row.get(REMARK) or "",
        )

    return scan
