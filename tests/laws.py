"""How often a law is tried: as often as it says in the gate, a tenth as often at the desk."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from hypothesis import settings

T = TypeVar("T")
_USUAL, _FEWEST = 100, 5
"""Examples of a law in the gate that says nothing of its own, and those that are always tried."""


def tries(most: int) -> int:
    """Return how often to try what the gate tries ``most`` times, by the profile of ``conftest.py``."""
    return max(most * settings().max_examples // _USUAL, min(most, _FEWEST))


def tried(cases: Sequence[T]) -> Sequence[T]:
    """Return which cases of a long list to try: all in the gate, each third at the desk."""
    return cases if settings().max_examples >= _USUAL else cases[::3]
