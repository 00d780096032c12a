"""How wide words run, and how much of them has room."""

from __future__ import annotations

from functools import lru_cache

from tallybed.drawing.base import look

_WIDTHS = {sign: width for signs, width in reversed(look.SIGN_WIDTHS) for sign in signs}
"""The width of a character that is not as wide as most, as a multiple of the text's size."""


def width_of(words: str, size: float, *, bold: bool = False) -> float:
    """Return about how wide a line of text runs, in units; rather more than less."""
    return _ems(words) * size * (look.BOLD if bold else 1)


@lru_cache(maxsize=20_000)
def _ems(words: str) -> float:
    """Return the width of a line of text, as a multiple of its size. The same few are asked for often."""
    return sum(
        _WIDTHS.get(sign, look.CAPITAL_WIDTH if sign.isupper() else look.SMALL_WIDTH) for sign in words
    )


def clipped(words: str, size: float, room: float, *, bold: bool = False) -> str:
    """Return as much of a line of text as has room, with an ellipsis where it is cut."""
    if width_of(words, size, bold=bold) <= room:
        return words
    fits = len(words) - 1
    while fits > 1 and width_of(words[:fits] + "…", size, bold=bold) > room:
        fits -= 1
    return words[:fits].rstrip(" ,;-–(") + "…"


def every_that_fits(widest: float, step: float) -> int:
    """Return which names of a row are written (each, each second, each fifth …) so that none meets the next.

    ``widest``: how far one runs at most; ``step``: from the middle of one to that of the next.
    """
    return next((every for every in (1, 2, 5, 10, 20, 50, 100) if every * step >= widest), 1000)


def broken(words: str, size: float, room: float) -> tuple[str, str]:
    """Return a first line of as many whole words as have room, and the rest; a first word too long is cut."""
    parts = words.split(" ")
    fitting = [count for count in range(1, len(parts) + 1) if width_of(" ".join(parts[:count]), size) <= room]
    count = max(fitting, default=1)
    return clipped(" ".join(parts[:count]), size, room), " ".join(parts[count:])
