"""What the crop library's figures rest on, counted."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from tallybed.garden.crops import Footing
from tallybed.garden.units import rounded
from tallybed.pages.tables.tables import Row, Table, figure, heads, text

WORDS = {
    Footing.PUBLISHED: "published, the source beside it",
    Footing.DERIVED: "worked out from published figures",
    Footing.COMMON: "common practice, no source",
    Footing.MEMORY: "from memory",
    Footing.GARDEN: "a garden’s own",
}


def kinds_table(counts: Mapping[Footing, int]) -> Table:
    """Return how many figures stand on each kind of ground, and their share of all."""
    whole = sum(counts.values())
    rows = tuple(
        Row(cells=(text(WORDS[kind]), figure(f"{counts[kind]:,}"), figure(_share(counts[kind], whole))))
        for kind in Footing
        if counts.get(kind)
    )
    return Table(
        ident="library",
        caption="What the figures of the crop library rest on",
        heads=heads("Figures that are", "Number", "Share", numbers=("Number", "Share")),
        rows=rows,
        foot=(Row(cells=(text("in all"), figure(f"{whole:,}"), figure("100%"))),),
    )


def _share(part: int, whole: int) -> str:
    """Return a part of a whole in per cent."""
    return f"{rounded(Fraction(100 * part, whole), 1)}%"
