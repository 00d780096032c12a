"""What the page of a season beside rows is put together from."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction

from tallybed.garden.benchmarks import Benchmark
from tallybed.garden.garden import Garden
from tallybed.garden.units import KILOGRAM, POUND, SQUARE_FOOT, Showing, Weight, rounded
from tallybed.pages.care.figures import Cited, cited
from tallybed.pages.drawings.charts import Chart
from tallybed.pages.frame.page import Link
from tallybed.pages.tables.tables import Cell, Row, Table, figure, heads, text


@dataclass(frozen=True, slots=True, kw_only=True)
class RowsPart:
    """A section of the page."""

    ident: str
    title: str
    stands_open: bool = False
    """Whether a visitor wants it first; every other is opened by its title."""
    answer: str = ""
    """What it comes to, in a few words beside that title."""
    said: tuple[str, ...] = ()
    """Sentences above everything else."""
    charts: tuple[Chart, ...] = ()
    tables: tuple[Table, ...] = ()
    folded: tuple[tuple[str, Table], ...] = ()
    """Tables that are opened by their words."""
    rules: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass
class Citations:
    """The publications that a page cites, numbered in the order they are first named."""

    numbers: dict[str, int] = field(default_factory=dict)

    def links(self, *idents: str) -> tuple[Link, ...]:
        """Return a link to each publication of these ids."""
        found = []
        for ident in dict.fromkeys(idents):
            number = self.numbers.setdefault(ident, len(self.numbers) + 1)
            found.append(Link(str(number), f"#source-{number}"))
        return tuple(found)

    def cell(self, *idents: str) -> Cell:
        """Return a cell that names publications by their numbers."""
        return Cell(links=self.links(*idents))

    def cited(self, garden: Garden) -> tuple[Cited, ...]:
        """Return what has been cited so far, in order."""
        return tuple(cited(garden, self.numbers))


def per_area(showing: Showing, pounds_per_square_foot: Fraction) -> str:
    """Return a yield per area without its unit, for table cells."""
    return showing.per_area_number(Weight.of(pounds_per_square_foot, POUND), Fraction(1))


def per_area_in(showing: Showing, pounds_per_square_foot: Fraction) -> Fraction:
    """Return a yield per area in the unit that the garden shows, exact."""
    if not showing.metric:
        return pounds_per_square_foot
    return pounds_per_square_foot * POUND.size / KILOGRAM.size / SQUARE_FOOT


def percent(share: Fraction) -> str:
    """Return a share in whole percent, never rounded to none or to all."""
    if 0 < share < Fraction(1, 100):
        return "under 1%"
    if Fraction(99, 100) < share < 1:
        return "over 99%"
    return f"{rounded(share * 100, 0)}%"


def to(low: str, high: str) -> str:
    """Return ``0.20 to 0.50``, or one figure where both are alike."""
    return low if low == high else f"{low} to {high}"


def figures_elsewhere(
    found: Iterable[tuple[Benchmark, str]], citations: Citations, *, ident: str, caption: str, column: str
) -> Table:
    """Return what was counted elsewhere, each with its figure in words, under the heading ``column``."""
    rows = tuple(
        Row(
            cells=(
                Cell(text=one.where, note=one.what),
                figure(words),
                text("; ".join(filter(None, (one.when, one.number)))),
                text(one.area, one.note),
                Cell(links=citations.links(one.source), note="second-hand" if one.second_hand else ""),
            )
        )
        for one, words in found
    )
    columns = heads("Where", column, "When, and how many", "Ground counted", "Source", numbers=(column,))
    return Table(ident=ident, caption=caption, heads=columns, rows=rows)
