"""How often a law is tried: as often as it says in the gate, a fifth as often at the desk."""

from __future__ import annotations

from hypothesis import settings

_USUAL, _FEWEST = 100, 5
"""Examples of a law in the gate that says nothing of its own, and those that are always tried."""


def tries(most: int) -> int:
    """Return how often to try what the gate tries ``most`` times, by the profile of ``conftest.py``."""
    return max(most * settings().max_examples // _USUAL, min(most, _FEWEST))
