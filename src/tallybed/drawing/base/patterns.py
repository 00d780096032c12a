"""Textures that say a stage, and the hatching of paths."""

from __future__ import annotations

from collections.abc import Iterable

from tallybed.drawing.base import look
from tallybed.drawing.base.svg import Element, num, path, pattern
from tallybed.reckoning.calendar.stages import Stage

HATCH = "hatch"


def pattern_id(ident: str, name: str) -> str:
    """Return the id of a pattern within the drawing ``ident``."""
    return f"{ident}-{name}"


def filled_with(ident: str, name: str) -> str:
    """Return the paint that fills a shape with a pattern."""
    return f"url(#{pattern_id(ident, name)})"


def texture_of(stage: Stage) -> str | None:
    """Return the texture of a stage's ground, or None where its tone alone says it."""
    return look.STAGE_TEXTURE.get(stage)


def textures(ident: str, stages: Iterable[Stage], size: float) -> tuple[Element, ...]:
    """Return the definitions of the textures of these stages, for a drawing with text of that size."""
    names = {name for stage in stages if (name := texture_of(stage))}
    return tuple(_texture(ident, name, size) for name in sorted(names))


def textured(ident: str, stage: Stage, data: str) -> tuple[Element, ...]:
    """Return the texture of a stage over ground given as path data; nothing where it has none."""
    name = texture_of(stage)
    return (path(data, class_="d-woven", stroke="none", fill=filled_with(ident, name)),) if name else ()


def tiles(ident: str, names: Iterable[str]) -> tuple[Element, ...]:
    """Return the definitions of the patterns of ground outside the bed, each once, in order of name."""
    return tuple(_tile(ident, name) for name in sorted(set(names)))


def _texture(ident: str, name: str, size: float) -> Element:
    """Return the definition of one texture: a tile of side 1, as large as the text asks."""
    strokes = path(look.TEXTURE[name], class_="d-texture", stroke_width=look.TEXTURE_PEN / look.TEXTURE_STEP)
    scale = f"scale({num(look.TEXTURE_STEP * size)})"
    return pattern(pattern_id(ident, name), 1, 1, strokes, patternTransform=scale)


def _tile(ident: str, name: str) -> Element:
    """Return the definition of one pattern."""
    width, height, strokes = look.PATTERN_TILE[name]
    lines = path(strokes, class_="d-pattern", stroke_width=look.HAIR)
    return pattern(pattern_id(ident, name), width, height, lines)
