"""What other gardens counted: work, water and money, each with its source."""

from __future__ import annotations

from fractions import Fraction

from tallybed.garden.benchmarks import Topic
from tallybed.garden.garden import Garden
from tallybed.garden.units import GALLON, KILOGRAM, LITRE, POUND, Showing, plain
from tallybed.pages.rows.others_words import as_read
from tallybed.pages.rows.parts import Citations, figures_elsewhere, to
from tallybed.pages.tables.tables import Table

OTHERS = "What others counted"


def others_table(garden: Garden, topic: Topic, citations: Citations, caption: str) -> Table:
    """Return the figures of one topic, in the unit of the garden's own; ``caption`` names it in braces."""
    unit, factor = others_unit(garden.showing, topic)
    read = (as_read(garden.showing, one) for one in garden.benchmarks if one.topic is topic)
    return figures_elsewhere(
        ((one, to(plain(one.low * factor, 2), plain(one.high * factor, 2))) for one in read),
        citations,
        ident=f"t-others-{topic}",
        caption=caption.format(unit=unit),
        column="Figure",
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
