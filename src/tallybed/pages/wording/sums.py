"""Totals in words: what was weighed, what was not, and over what ground it is told."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.units import Showing, Weight, rounded
from tallybed.pages.wording.sentences import counted
from tallybed.reckoning.harvest.areas import Ground
from tallybed.reckoning.harvest.tally import Total

_FINE = 2
"""Decimals of weights in tables."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """A total as it is shown large: ``at least`` ``42.4`` ``lb``."""

    before: str
    number: str
    unit: str
    caveats: tuple[str, ...]
    """Sentences that say what the figure leaves out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PerGround:
    """A total told over one ground."""

    before: str
    """``at least`` or nothing."""
    words: str
    """``1.24 lb per sq ft``"""
    of: str
    """``the squares``"""
    area: str


def summed(showing: Showing, total: Total) -> Sum:
    """Return a total for the head of a page."""
    return Sum(
        before="at least" if total.at_least else "",
        number=showing.number(total.weight),
        unit=showing.unit,
        caveats=caveats(showing, total),
    )


def caveats(showing: Showing, total: Total) -> tuple[str, ...]:
    """Return what must be said beside a total: pickings nobody weighed, weights that were estimated."""
    found = []
    if total.unweighed:
        number = counted(total.unweighed, "picking").capitalize()
        were = "was" if total.unweighed == 1 else "were"
        found.append(f"{number} {were} not weighed, so the true total is more.")
    if total.estimated:
        found.append(f"{showing.summed(total.estimated)} of it was estimated, not weighed.")
    return tuple(found)


def in_words(showing: Showing, total: Total) -> str:
    """Return ``at least 42.4 lb``."""
    words = showing.summed(total.weight)
    return f"at least {words}" if total.at_least else words


def fine_weight(showing: Showing, weight: Weight) -> str:
    """Return a weight for a table cell, without its unit; what would round to nothing is said to be under."""
    words = showing.number(weight, _FINE)
    return "under 0.01" if weight and not Fraction(words) else words


def per_ground(showing: Showing, total: Total, ground: Ground) -> PerGround:
    """Return a total over a ground, saying of what ground."""
    return PerGround(
        before="at least" if total.at_least else "",
        words=showing.per_area(total.weight, ground.square_feet),
        of=ground.of,
        area=showing.area(ground.square_feet),
    )


def pieces(count: Fraction) -> str:
    """Return a count of pieces: whole where it is, else to one decimal; empty for none."""
    if not count:
        return ""
    return rounded(count, 0 if count.denominator == 1 else 1)
