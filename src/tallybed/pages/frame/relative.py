"""The way from one page of a site to another."""

from __future__ import annotations

from urllib.parse import quote


def relative(start: str, target: str) -> str:
    """Return the link from the page ``start`` to ``target``, both below the site's folder."""
    here, there = start.split("/"), target.split("/")
    shared = 0
    while shared < min(len(here), len(there)) - 1 and here[shared] == there[shared]:
        shared += 1
    return quote("../" * (len(here) - 1 - shared) + "/".join(there[shared:]))
