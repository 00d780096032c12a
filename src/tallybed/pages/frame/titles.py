"""Titles of pages, short enough to be shown whole where tabs, bookmarks and lists of results show them."""

from __future__ import annotations

LONGEST = 70
"""Characters of a title; most of those who show one cut what is longer (common practice, no source)."""
_END = LONGEST // 3
"""Characters that are kept at the end of what is too long: tag, season and bed stand there."""
_LEAST = 12
"""Characters of a garden's name that say anything of it."""


def with_garden(garden: str, title: str) -> str:
    """Return a page's title with the garden's name, or with as much of that as there is room for."""
    if title == garden:
        return fitted(title)
    room = LONGEST - len(title) - len(" – ")
    if len(garden) <= room:
        return f"{title} – {garden}"
    if room < _LEAST:
        return fitted(title)
    return f"{title} – {_start(garden, room - 2)} …"


def fitted(words: str) -> str:
    """Return words that are too long without some of their middle."""
    plain = " ".join(words.split())
    if len(plain) <= LONGEST:
        return plain
    cut = plain[-_END:]
    end = cut.partition(" ")[2] or cut
    return f"{_start(plain, LONGEST - len(end) - len(' … '))} … {end}"


def _start(words: str, room: int) -> str:
    """Return the first words that have room; letters of the first where that alone has none."""
    cut = words[: room + 1].rpartition(" ")[0] or words[:room]
    return cut.rstrip(",;:. ")
