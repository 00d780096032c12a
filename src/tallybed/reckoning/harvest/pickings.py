"""Which rows of a ledger tell of one picking, and which of them count.

What is picked of one crop on one day, by its tag or else its squares, is one picking. It
may be weighed fresh and again when it is cured or dried; it counts once: fresh where it was
weighed fresh, else cured, else dried. Rows of one picking in one state are its parts, such as
two bowls, and count together.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from tallybed.garden.records.ledger import State, Weighing
from tallybed.garden.squares import Square

HOW_WEIGHED = frozenset(
    {
        *("fresh", "cured", "dried", "dry", "green", "wet", "whole", "cleaned", "washed", "unwashed"),
        *("trimmed", "untrimmed", "topped", "with tops", "without tops", "tops on", "tops off"),
        *("in pods", "in the pod", "podded", "shelled", "unshelled", "in husks", "in the husk", "husked"),
        *("in shells", "hulled", "in hulls", "peeled", "unpeeled", "braided", "bunched", "in bunches"),
        *("bulbs", "heads", "roots", "tubers", "beans", "seeds", "seed", "grain", "kernels"),
    }
)
"""Forms that tell how a crop was weighed. Common practice, no source. Any other form, such as scapes
or greens, is another produce of the plant, and another picking."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PickedRow:
    """A row of the ledger, as far as it tells which picking it is of."""

    weighing: Weighing
    crop: str
    """The key it is tallied under."""
    planting: str
    """The key of the planting it came from; empty where that is not told."""
    whole: frozenset[Square]
    """The squares that planting held on the day."""


def uncounted(rows: Iterable[PickedRow]) -> frozenset[int]:
    """Return the places of the rows that join no total: their picking counts by another of its weights."""
    pickings: dict[Hashable, list[tuple[int, Weighing]]] = {}
    for place, row in enumerate(rows):
        pickings.setdefault(_picking(row), []).append((place, row.weighing))
    return frozenset(
        place
        for own in pickings.values()
        for place, weighing in own
        if weighing.state is not _counting([one for _place, one in own])
    )


def _counting(own: Sequence[Weighing]) -> State:
    """Return the state in which a picking counts: the first of ``State`` in which it has a weight."""
    weighed = {one.state for one in own if one.weight is not None}
    told = weighed or {one.state for one in own}
    return next(state for state in State if state in told)


def _picking(row: PickedRow) -> tuple[str, str, date, Hashable]:
    """Return what makes rows one picking. All squares of a planting are as good as its tag."""
    weighing = row.weighing
    squares = frozenset(weighing.squares)
    tagged = bool(weighing.tag) or (bool(squares) and squares == row.whole)
    where: Hashable = (row.planting or weighing.tag) if tagged else squares
    return row.crop, produce(weighing), weighing.day, where


def produce(weighing: Weighing) -> str:
    """Return which produce of the plant was weighed, by its form; empty for the usual one."""
    form = " ".join(weighing.form.casefold().split())
    return "" if form in HOW_WEIGHED else form
