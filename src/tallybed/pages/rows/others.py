"""What other gardens counted: work, water and money, each with its source."""

from __future__ import annotations

from fractions import Fraction

from tallybed.garden.benchmarks import Benchmark, Topic
from tallybed.garden.garden import Garden
from tallybed.garden.units import GALLON, KILOGRAM, LITRE, POUND, Showing, plain
from tallybed.pages.rows.others_words import as_read
from tallybed.pages.rows.parts import Citations
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text

OTHERS = "What others counted"


def others_table(garden: Garden, topic: Topic, citations: Citations, caption: str) -> Table:
    """Return the figures of one topic, in the unit of the garden's own; ``caption`` names it in braces."""
    unit, factor = others_unit(garden.showing, topic)
    rows = tuple(
        _other(as_read(garden.showing, one), factor, citations)
        for one in garden.benchmarks
        if one.topic is topic
    )
    return Table(
        ident=f"t-others-{topic}",
        caption=caption.format(unit=unit),
        heads=heads("Where", "Figure", "When, and how many", "Ground counted", "Source", numbers=("Figure",)),
        rows=rows,
    )


def others_unit(showing: Showing, topic: Topic) -> tuple[str, Fraction]:
    """Return the unit in which a garden reads figures of work, water or money, and what one as kept is in it.

    The library keeps minutes and dollars over a square foot, and litres over a kilogram.
    """
    if topic is Topic.WATER:
        if showing.metric:
            return "litres per kilogram", Fraction(1)
        return "gallons per pound", LITRE.size / GALLON.size * POUND.size / KILOGRAM.size
    each = "minutes" if topic is Topic.WORK else "US dollars"
    return f"{each} per {showing.area_unit}", 1 / showing.area_in(Fraction(1))


def _other(one: Benchmark, factor: Fraction, citations: Citations) -> Row:
    """Return one figure as a row."""
    low, high = plain(one.low * factor, 2), plain(one.high * factor, 2)
    return Row(
        cells=(
            Cell(text=one.where, note=one.what),
            figure(low if low == high else f"{low} to {high}"),
            text("; ".join(filter(None, (one.when, one.number)))),
            text(one.area, one.note),
            Cell(links=citations.links(one.source), note="second-hand" if one.second_hand else ""),
        )
    )
