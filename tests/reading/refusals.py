"""A scanner's refusal as a value, for tests that any text is read or refused in words."""

from __future__ import annotations

from collections.abc import Callable

from tallybed.reading.base.problems import Misread


def refusal(scan: Callable[[str], object], typed: str) -> Misread | None:
    """Return how a scanner refuses a text, or None where it reads it."""
    try:
        scan(typed)
    except Misread as refused:
        return refused
    return None
