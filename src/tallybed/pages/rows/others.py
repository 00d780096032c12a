"""What other gardens counted: work, water and money, each with its source."""

from __future__ import annotations

from fractions import Fraction

from tallybed.garden.benchmarks import Benchmark, Topic
from tallybed.garden.garden import Garden
from tallybed.garden.units import rounded
from tallybed.pages.rows.parts import Citations
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text

OTHERS = "What others counted"


def others_table(garden: Garden, topic: Topic, citations: Citations, caption: str) -> Table:
    """Return the figures of one topic, as they are printed."""
    rows = tuple(_other(one, citations) for one in garden.benchmarks if one.topic is topic)
    return Table(
        ident=f"t-others-{topic}",
        caption=caption,
        heads=heads("Where", "Figure", "When, and how many", "Ground counted", "Source", numbers=("Figure",)),
        rows=rows,
    )


def _other(one: Benchmark, citations: Citations) -> Row:
    """Return one figure as a row."""
    low, high = _plain(one.low), _plain(one.high)
    return Row(
        cells=(
            Cell(text=one.where, note=one.what),
            figure(low if low == high else f"{low} to {high}"),
            text("; ".join(filter(None, (one.when, one.number)))),
            text(one.area, one.note),
            Cell(links=citations.links(one.source), note="second-hand" if one.second_hand else ""),
        )
    )


def _plain(value: Fraction) -> str:
    """Return a figure to two decimals, without zeros at its end."""
    return rounded(value, 2).rstrip("0").rstrip(".")
