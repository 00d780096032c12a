"""Ground patterns: one for each common plant family, soil for what is bare, hatching for paths."""

from __future__ import annotations

from collections.abc import Iterable

from tallybed.drawing.base import look
from tallybed.drawing.base.svg import Element, path, pattern

SOIL = "soil"
HATCH = "hatch"


def pattern_of(family: str) -> str | None:
    """Return the pattern of a family, or None where its ground is plain."""
    return look.FAMILY_PATTERN.get(family)


def pattern_id(ident: str, name: str) -> str:
    """Return the id of a pattern within the drawing ``ident``."""
    return f"{ident}-{name}"


def filled_with(ident: str, name: str) -> str:
    """Return the paint that fills a shape with a pattern."""
    return f"url(#{pattern_id(ident, name)})"


def tiles(ident: str, names: Iterable[str]) -> tuple[Element, ...]:
    """Return the definitions of the patterns named, each once, in order of name."""
    return tuple(_tile(ident, name) for name in sorted(set(names)))


def _tile(ident: str, name: str) -> Element:
    """Return the definition of one pattern."""
    width, height, strokes = look.PATTERN_TILE[name]
    dotted = name in look.DOTTED_PATTERNS
    lines = path(
        strokes,
        class_="d-soil" if name == SOIL else "d-pattern",
        stroke_width=1.5 if dotted else look.HAIR,
        stroke_linecap="round" if dotted else None,
    )
    return pattern(pattern_id(ident, name), width, height, lines)
