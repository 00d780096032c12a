"""Totals in words: what was weighed, what was not, and over what ground it is told."""

from __future__ import annotations

from dataclasses import dataclass

from tallybed.garden.plurals import figured
from tallybed.garden.units import AT_LEAST_WORDS, Showing, Weight, with_at_least
from tallybed.pages.wording.sentences import counted
from tallybed.reckoning.harvest.areas import Ground
from tallybed.reckoning.harvest.tally import Total
from tallybed.reckoning.harvest.total_words import cured as cured
from tallybed.reckoning.harvest.total_words import cured_part as cured_part
from tallybed.reckoning.harvest.total_words import in_words as in_words

FINE = 2
"""Decimals of weights in tables."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """A total as it is shown large: ``at least`` ``42.4`` ``lb``, ``5.2 lb of it cured``."""

    before: str
    number: str
    """Empty where nothing of it was weighed: there is no figure then."""
    unit: str
    cured: str
    """What of it was weighed cured or dried; empty where nothing was."""
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

    @property
    def in_words(self) -> str:
        """The whole: ``at least 1.24 lb per sq ft of the squares``."""
        return f"{self.before} {self.words} of {self.of}".strip()


def summed(showing: Showing, total: Total) -> Sum:
    """Return a total for the head of a page."""
    if total.unknown:
        return Sum(before="", number="", unit="", cured="", caveats=caveats(showing, total))
    # Beside 0.62 kg a part of 620 g would be told otherwise than its whole: below one unit both are told
    # alike, and as finely as in a table, which stands on the same page.
    alike = None if showing.summed(total.weight).endswith(f" {showing.unit}") else FINE
    before, number = large(showing.kept_number(total.weight, alike or 1), at_least=total.at_least)
    return Sum(
        before=before,
        number=number,
        unit=showing.unit,
        cured=cured(showing, total, alike),
        caveats=caveats(showing, total),
    )


def caveats(showing: Showing, total: Total) -> tuple[str, ...]:
    """Return what must be said beside a total: pickings nobody weighed, weights that were estimated."""
    found = []
    if total.unknown:
        return (unweighed(total),)
    if total.unweighed:
        number = counted(total.unweighed, "picking").capitalize()
        were = "was" if total.unweighed == 1 else "were"
        found.append(f"{number} {were} not weighed, so the true total is more.")
    if total.estimated:
        found.append(f"{showing.summed(total.estimated)} of it was estimated, not weighed.")
    return tuple(found)


def unweighed(total: Total) -> str:
    """Return as a sentence that nothing of a total was weighed, and how many pieces were counted."""
    pieces = f"; {figured(total.count, 'piece')} counted" if total.count else ""
    if total.pickings == 1:
        return f"One picking, not weighed{pieces}."
    return f"{counted(total.pickings, 'picking').capitalize()}, none of them weighed{pieces}."


def fine_weight(showing: Showing, weight: Weight) -> str:
    """Return a weight for a table cell, without its unit; what would round to nothing is said to be under."""
    return showing.kept_number(weight, FINE)


def signed(showing: Showing, total: Total) -> str:
    """Return a total without its unit, with ``≥`` before it where something was not weighed."""
    words = fine_weight(showing, total.weight)
    return with_at_least(words) if total.at_least else words


def large(number: str, *, at_least: bool) -> tuple[str, str]:
    """Return what stands before a figure that is set large, and the figure: ``at least`` and ``42.4``."""
    if not at_least:
        return "", number
    before, _space, figure = with_at_least(number, AT_LEAST_WORDS).rpartition(" ")
    return before, figure


def per_ground(showing: Showing, total: Total, ground: Ground) -> PerGround:
    """Return a total over a ground, saying of what ground."""
    return PerGround(
        before="at least" if total.at_least else "",
        words=showing.per_area(total.weight, ground.square_feet),
        of=ground.of,
        area=showing.area(ground.square_feet),
    )


def pieces(count: int) -> str:
    """Return a count of pieces; empty for none."""
    return f"{count:,}" if count else ""
