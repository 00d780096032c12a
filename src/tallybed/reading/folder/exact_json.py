"""Exact numbers in what is kept as JSON: as numerator and denominator, since JSON has no word for them."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import Any


def as_pair(value: Any) -> tuple[int, int]:
    """Return a fraction as its numerator and denominator. Raises TypeError for anything else."""
    if isinstance(value, Fraction):
        return value.numerator, value.denominator
    raise TypeError(f"nothing kept holds a {type(value).__name__}")


def from_pair(kind: type, value: Any) -> Fraction:
    """Return the fraction that ``as_pair`` was given. Raises TypeError or ValueError for anything else."""
    if kind is Fraction:
        return _fraction(*value)
    raise TypeError(f"nothing kept holds a {kind.__name__}")


@lru_cache(maxsize=4096)
def _fraction(numerator: int, denominator: int) -> Fraction:
    """Return one and the same value for a pair, since few different ones are kept thousands of times."""
    return Fraction(numerator, denominator)
