"""A withdrawal as it is shown: what goes, what changes, and what the gardener must see to."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from tallybed.garden.findings import Place
from tallybed.garden.records.people import WithdrawnKind
from tallybed.reading.folder.known_files import CONTENT, WITHDRAWN

RECORD = f"{CONTENT}/{WITHDRAWN}"
"""Where it is noted that something was withdrawn, as a path below the garden's folder."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """A file that stays, and the text it is to have."""

    file: str
    """Path below the garden's folder."""
    text: str = field(repr=False)
    words: str
    """What changes in it, for the gardener."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdrawal:
    """What goes, what changes, and what the gardener must see to."""

    root: Path
    kind: WithdrawnKind
    seasons: frozenset[str]
    """Seasons it is withdrawn from; an empty text for what belongs to none."""
    edits: tuple[Edit, ...] = ()
    gone: tuple[str, ...] = ()
    """Files that go, as paths below the garden's folder."""
    hashes: frozenset[str] = frozenset()
    """Hashes of the photographs among them."""
    left: tuple[Place, ...] = ()
    """Places that speak of it, or hold the name, and stay as they are."""
    alike: tuple[Place, ...] = ()
    """Places that may hold the name, written otherwise."""
    named: tuple[str, ...] = ()
    """Files that hold the name in their own names."""
    unread: tuple[str, ...] = ()
    """Files that no build reads, and that hold it or speak of it."""

    @property
    def empty(self) -> bool:
        """Whether there is nothing to take out."""
        return not self.edits and not self.gone
