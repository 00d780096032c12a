"""A row's cells by what they say, not how it is spelt: ``114.0 oz`` as ``114 oz``, kilograms as grams."""

from __future__ import annotations

import re

from tallybed.garden.naming import folded
from tallybed.reading.base.problems import Misread
from tallybed.reading.text import measures

Cells = tuple[tuple[str, str], ...]


def by_value(cells: Cells) -> Cells:
    """Return cells in a form that is the same for the same values."""
    return tuple((meaning, _value(meaning, text)) for meaning, text in cells)


def _value(meaning: str, text: str) -> str:
    if meaning == "weight":
        try:
            read = measures.weighing(text)
        except Misread:
            return folded(text)
        weight = "not weighed" if read.weight is None else str(read.weight.nanograms)
        return f"about {weight}" if read.estimated else weight
    if meaning == "squares":
        compact = re.sub(r"\s*(?:[-–—:]|\bto\b)\s*", ":", folded(text))
        return re.sub(r"[\s,;&/]+", " ", compact).strip()
    if meaning == "count":
        return re.sub(r"[.,]0+$", "", text.strip())
    return " ".join(re.findall(r"[^\W_]+", folded(text)))
