"""The way from one page of a site to another."""

from __future__ import annotations

from functools import lru_cache
from urllib.parse import quote


def relative(start: str, target: str) -> str:
    """Return the link from the page ``start`` to ``target``, both below the site's folder."""
    here, there = _steps(start), _steps(target)
    shared = 0
    while shared < min(len(here), len(there)) - 1 and here[shared] == there[shared]:
        shared += 1
    return "../" * (len(here) - 1 - shared) + "/".join(there[shared:])


@lru_cache(maxsize=5_000)
def _steps(path: str) -> tuple[str, ...]:
    """Return the steps of a path as an address writes them: few paths are asked for, and often."""
    return tuple(quote(path).split("/"))
