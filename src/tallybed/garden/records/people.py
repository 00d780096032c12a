"""What a garden owes to people: a supporter's wording, and a note that something was withdrawn."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum


@dataclass(frozen=True, slots=True, kw_only=True)
class Supporter:
    """A supporter's wording, shown to the letter from one day to another, both included."""

    words: str
    first: date | None = None
    """None: from the beginning."""
    last: date | None = None
    """None: without end."""
    address: str = ""
    """Where the wording leads; empty where nowhere."""

    def shown(self, day: date) -> bool:
        """Return whether the wording is shown on a site that speaks as of that day."""
        return (self.first is None or self.first <= day) and (self.last is None or day <= self.last)


class WithdrawnKind(StrEnum):
    """What can be withdrawn."""

    PICTURE = "picture"
    ENTRY = "entry"
    NAME = "name"


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdrawn:
    """That something was withdrawn on a day; what it was is not kept."""

    kind: WithdrawnKind
    day: date
    season: str = ""
    """The season it was withdrawn from; empty where it belonged to none."""


def withdrawn_from(season: str, every: Iterable[Withdrawn]) -> bool:
    """Return whether something was withdrawn from a season."""
    return any(one.season == season for one in every)
