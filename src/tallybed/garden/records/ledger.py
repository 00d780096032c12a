"""The ledger: what was picked and weighed, and where it went (rows of ``harvest.yaml``)."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum

from tallybed.garden.findings import NOWHERE, Place
from tallybed.garden.naming import CropName, folded
from tallybed.garden.squares import Square
from tallybed.garden.units import Weight


class State(StrEnum):
    """The state in which a harvest was weighed."""

    FRESH = "fresh"
    CURED = "cured"
    DRIED = "dried"


@dataclass(frozen=True, slots=True, kw_only=True)
class Destination:
    """Where a weighing, or part of it, went; ``weight`` None means the rest (or all)."""

    name: str
    weight: Weight | None = None


def one_place(name: str) -> str:
    """Return what tells a destination from others: neither capitals nor a "the" before it do."""
    return folded(name).removeprefix("the ")


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighing:
    """One row of the ledger. ``weight`` is None where the picking was not weighed."""

    day: date
    """The day it was picked; the day it counts on."""
    crops: tuple[CropName, ...] = ()
    """One crop; several for a mixed bowl; none where only a tag was told."""
    mixed: bool = False
    tag: str = ""
    variety: str = ""
    squares: tuple[Square, ...] = ()
    weight: Weight | None = None
    estimated: bool = False
    count: int | None = None
    to: tuple[Destination, ...] = ()
    form: str = ""
    """``as:`` — dry, in pods, greens …"""
    state: State = State.FRESH
    weighed: date | None = None
    """The day of weighing where it is not the day of picking."""
    note: str = ""
    silence: tuple[tuple[str, str], ...] = ()
    """Findings not to be told of this record: (code, reason)."""
    place: Place = field(default=NOWHERE, compare=False, repr=False)

    @property
    def told_on(self) -> date:
        """The day from which the weighing is known: it was weighed then, if not when picked."""
        return self.weighed or self.day

    @property
    def slug(self) -> str | None:
        """The one crop it can be of, or None for a mixed bowl, several crops, a general name or none."""
        return self.crops[0].slug if len(self.crops) == 1 and not self.mixed else None

    def says_the_same(self, other: Weighing) -> bool:
        """Return whether nothing that both tell sets two weighings apart, the crop left aside.

        What only one of them tells, its tag or its squares, does not.
        """
        figures = (
            (one.day, one.weight, one.count, one.state, one.form, one.to, one.note) for one in (self, other)
        )
        told = (
            (self.tag, other.tag),
            (folded(self.variety), folded(other.variety)),
            (set(self.squares), set(other.squares)),
        )
        return len(set(figures)) == 1 and all(a == b or not a or not b for a, b in told)


def places_of(ledger: Iterable[Weighing]) -> Mapping[str, str]:
    """Return each destination as typed, and how it is called: as it is written most often."""
    typed = Counter(part.name for weighing in ledger for part in weighing.to)
    called: dict[str, str] = {}
    for name in sorted(typed, key=lambda name: (-typed[name], name)):
        called.setdefault(one_place(name), name)
    return {name: called[one_place(name)] for name in typed}
