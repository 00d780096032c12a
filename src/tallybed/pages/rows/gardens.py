"""Whole gardens: what was measured elsewhere, with this garden's figures among it."""

from __future__ import annotations

from fractions import Fraction

from tallybed.drawing.rows.gardens import GardenDot, garden_strip
from tallybed.garden.benchmarks import Benchmark, Topic
from tallybed.garden.units import KILOGRAM, POUND, SQUARE_FOOT, Showing
from tallybed.pages.drawings.charts import both
from tallybed.pages.rows.others_words import as_read
from tallybed.pages.rows.parts import Citations, RowsPart, figures_elsewhere, per_area, per_area_in, to
from tallybed.pages.tables.tables import Table
from tallybed.reckoning.rows.season import RowAnswer
from tallybed.reckoning.year import Year

_TO_POUNDS = {"lb/sqft": Fraction(1), "kg/m2": KILOGRAM.size / POUND.size * SQUARE_FOOT}
"""Pounds per square foot in one of the units that yields are printed in (NIST Handbook 44, appendix C)."""


def pounds(one: Benchmark) -> tuple[Fraction, Fraction]:
    """Return a measured yield, low and high, in pounds per square foot."""
    factor = _TO_POUNDS[one.unit]
    return one.low * factor, one.high * factor


OWN = (
    "The diamonds are this garden, once for each ground its weight may be told over; which one is chosen "
    "moves it far among the others, so none of them stands alone."
)


def gardens_part(year: Year, found: RowAnswer, citations: Citations) -> RowsPart:
    """Return the section with the strip of gardens and its table."""
    showing = year.garden.showing
    known = [as_read(showing, one) for one in year.garden.benchmarks if one.topic is Topic.YIELD]
    strip = sorted(
        [*(_dot(showing, one) for one in known), *_own(year, found)],
        key=lambda one: (-(one.low + one.high), one.name),
    )

    def drawn(narrow: bool, name: str) -> str:
        return garden_strip(
            tuple(strip),
            unit=showing.per_area_unit,
            ident=name,
            title=f"Whole gardens and this one, {year.name}",
            narrow=narrow,
        )

    return RowsPart(
        ident="gardens",
        title="Beside whole gardens",
        said=(
            "What whole gardens gave, by people who weighed it.",
            OWN,
        ),
        charts=(both(drawn, "c-gardens"),),
        folded=(("Place, years, number and ground of each", _table(showing, known, citations)),),
        notes=(
            "A hollow dot is a figure seen second-hand. Soil, weather, length of season and what is grown "
            "differ from garden to garden: this shows what is usual, and tests nothing.",
        ),
    )


def _own(year: Year, found: RowAnswer) -> list[GardenDot]:
    """Return this garden’s figures, one for each ground."""
    showing, weight = year.garden.showing, found.rows.weight.within(POUND)
    so_far = "" if year.is_over else " so far"
    dots = []
    for ground in found.grounds:
        value = weight / ground.square_feet
        dots.append(
            GardenDot(
                name=f"{year.name}{so_far}, over {ground.of.replace('their share of path', 'path')}",
                words=f"{'at least ' if found.rows.at_least else ''}{per_area(showing, value)}",
                low=per_area_in(showing, value),
                high=per_area_in(showing, value),
                own=True,
            )
        )
    return dots


def _dot(showing: Showing, one: Benchmark) -> GardenDot:
    """Return another garden’s dot."""
    low, high = pounds(one)
    return GardenDot(
        name=f"{one.where}: {one.what}",
        words=to(per_area(showing, low), per_area(showing, high))
        + (" (second-hand)" if one.second_hand else ""),
        low=per_area_in(showing, low),
        high=per_area_in(showing, high),
        second_hand=one.second_hand,
    )


def _table(showing: Showing, known: list[Benchmark], citations: Citations) -> Table:
    """Return other gardens, the highest yield first."""
    found = []
    for one in sorted(known, key=lambda each: (-sum(pounds(each)), each.where)):
        low, high = pounds(one)
        found.append((one, to(per_area(showing, low), per_area(showing, high))))
    return figures_elsewhere(
        found,
        citations,
        ident="t-gardens",
        caption="Measured yields of whole gardens",
        column=f"Yield, {showing.per_area_unit}",
    )
