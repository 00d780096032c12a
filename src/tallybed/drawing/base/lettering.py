"""How wide words run, and how much of them has room."""

from __future__ import annotations

from tallybed.drawing.base import look


def width_of(words: str, size: float, *, bold: bool = False) -> float:
    """Return about how wide a line of text runs, in units; rather more than less."""
    return sum(_width(sign) for sign in words) * size * (look.BOLD if bold else 1)


def _width(sign: str) -> float:
    """Return the width of one character, as a share of the text size."""
    plain = look.CAPITAL_WIDTH if sign.isupper() else look.SMALL_WIDTH
    return next((width for signs, width in look.SIGN_WIDTHS if sign in signs), plain)


def clipped(words: str, size: float, room: float, *, bold: bool = False) -> str:
    """Return as much of a line of text as has room, with an ellipsis where it is cut."""
    if width_of(words, size, bold=bold) <= room:
        return words
    fits = len(words) - 1
    while fits > 1 and width_of(words[:fits] + "…", size, bold=bold) > room:
        fits -= 1
    return words[:fits].rstrip(" ,;-–(") + "…"


def broken(words: str, size: float, room: float) -> tuple[str, str]:
    """Return a first line of as many whole words as have room, and the rest; a first word too long is cut."""
    parts = words.split(" ")
    fitting = [count for count in range(1, len(parts) + 1) if width_of(" ".join(parts[:count]), size) <= room]
    count = max(fitting, default=1)
    return clipped(" ".join(parts[:count]), size, room), " ".join(parts[count:])
