"""``library/benchmarks.yaml``: figures of other gardens, read as strictly as the crops are."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

from tallybed.garden.benchmarks import Benchmark, Topic
from tallybed.garden.crops import Source
from tallybed.reading.folder.library import Spot, measured, sources_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Benchmarks:
    """Figures of other gardens, and the publications they come from."""

    figures: tuple[Benchmark, ...]
    sources: tuple[Source, ...]


UNITS: Mapping[Topic, tuple[str, ...]] = {
    Topic.YIELD: ("lb/sqft", "kg/m2"),
    Topic.WORK: ("min/sqft",),
    Topic.WATER: ("L/kg",),
    Topic.MONEY: ("USD/sqft",),
}
"""The units that figures of a topic may be told in."""


@cache
def load_benchmarks() -> Benchmarks:
    """Return the figures of the package, read once. Raises LibraryError."""
    return read_benchmarks(files("tallybed") / "library" / "benchmarks.yaml")


def read_benchmarks(page: Traversable) -> Benchmarks:
    """Read figures from a file. Raises LibraryError at the first thing that does not fit."""
    rows = Spot.of(page).pairs(("sources", *Topic), ())
    sources = sources_of(rows["sources"])
    found = tuple(one for topic in Topic for one in _of_topic(topic, rows[topic], sources))
    return Benchmarks(figures=found, sources=tuple(sources.values()))


def _of_topic(topic: Topic, spot: Spot, sources: Mapping[str, Source]) -> Iterator[Benchmark]:
    for row in spot.items():
        keys = row.pairs(("what", "value", "where", "source"), ("when", "number", "area", "seen", "note"))
        texts = {key: value.text() for key, value in keys.items()}
        if texts["source"] not in sources:
            raise keys["source"].wrong(f"no source has the id {texts['source']}")
        if texts.get("seen", "second-hand") != "second-hand":
            raise keys["seen"].wrong("not second-hand, the only thing it may say")
        low, high, unit = measured(keys["value"], UNITS[topic], f"a figure of {topic}")
        yield Benchmark(
            topic=topic,
            what=texts["what"],
            low=low,
            high=high,
            unit=unit,
            where=texts["where"],
            when=texts.get("when", ""),
            number=texts.get("number", ""),
            area=texts.get("area", ""),
            source=texts["source"],
            second_hand="seen" in texts,
            note=texts.get("note", ""),
        )
