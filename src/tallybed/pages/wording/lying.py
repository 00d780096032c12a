"""Which way a bed lies, where the garden does not say."""

from __future__ import annotations

from collections.abc import Iterator

from tallybed.garden.squares import Bed
from tallybed.pages.wording.sentences import sentence


def untold(bed: Bed) -> str:
    """Return that nobody told which way a bed lies, as a clause."""
    return f"the garden does not say which way {bed.called} lies"


def direction_taken(bed: Bed) -> Iterator[str]:
    """Yield a sentence on the direction that is taken for a bed's own, where none is told."""
    if not bed.bearing_told:
        yield sentence(f"{untold(bed)}: its letters are taken to run east, and all hours hang on that")
