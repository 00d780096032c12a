"""Amounts of water: text in, a volume or a depth out; words without a unit stay words."""

from __future__ import annotations

from tallybed.garden.water import Water
from tallybed.reading.base.problems import Misread
from tallybed.reading.text import measures


def water(text: str) -> Water | None:
    """Read ``10 gal``, ``20 L`` or ``1/2 in`` (a depth over the squares told); None for words.

    Nothing is told of an amount that cannot be read: *two cans* is an amount too.
    """
    words = measures.without_about(text)
    for scan in (_volume, _depth):
        try:
            return scan(words)
        except Misread:
            continue
    return None


def _volume(text: str) -> Water:
    return Water(litres=measures.litres(text))


def _depth(text: str) -> Water:
    return Water(depth=measures.length(text))
