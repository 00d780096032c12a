"""Things put together by what is the same of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeVar

T = TypeVar("T")
K = TypeVar("K")


def grouped(things: Iterable[T], key: Callable[[T], K]) -> dict[K, list[T]]:
    """Return things by their key; keys, and things of one key, in the order they were met."""
    groups: dict[K, list[T]] = {}
    for thing in things:
        groups.setdefault(key(thing), []).append(thing)
    return groups
