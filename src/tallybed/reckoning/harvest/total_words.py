"""A total in words: what was weighed, how much of it cured or dried, and that some was not weighed.

Pages say it so, and so does the scale, which loads no page.
"""

from __future__ import annotations

from tallybed.garden.units import AT_LEAST_WORDS, Showing, Weight, with_at_least
from tallybed.reckoning.harvest.tally import Total


def cured(showing: Showing, total: Total, places: int | None = None) -> str:
    """Return ``5.2 lb of it cured``: what of a total was not weighed fresh; empty where all was.

    ``all of it cured`` where that is the whole. ``places``: see ``Showing.parts``.
    """
    for part, how in _parts(total):
        if part and part == total.weight:
            return f"all of it {how}"
    return showing.of_it(_parts(total), places)


def cured_part(showing: Showing, total: Total, places: int | None = None) -> str:
    """Return the same without ``of it``: for a column that says so at its head."""
    return showing.parts(_parts(total), places)


def _parts(total: Total) -> tuple[tuple[Weight, str], ...]:
    """Return what of a total was not weighed fresh, and how it was weighed."""
    return (total.cured, "cured"), (total.dried, "dried")


def in_words(showing: Showing, total: Total) -> str:
    """Return ``at least 42.4 lb, 5.2 lb of it cured``; or that nothing of it was weighed."""
    if total.unknown:
        return "not weighed"
    words = showing.summed(total.weight)
    least = with_at_least(words, AT_LEAST_WORDS) if total.at_least else words
    part = cured(showing, total)
    return f"{least}, {part}" if part else least
