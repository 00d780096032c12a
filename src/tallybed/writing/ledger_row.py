"""One weighing as a row of ``harvest.yaml``: ``{date: 2026-06-02, crop: spinach, weight: 1 lb 6 oz}``."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Sequence

from tallybed.garden.records.ledger import State, Weighing
from tallybed.garden.squares import in_words

Pair = tuple[str, str]
Value = str | Sequence[str] | Sequence[Pair]
"""A text, a list of texts, or a mapping as pairs."""

_PLAIN = re.compile(r"[^\W_](?:[\w ./:½¼¾+()–-]*[\w.)½¼¾])?")
"""A text that YAML reads as it stands, also within braces; everything else is put in quotes."""
_COLON = re.compile(r":(?!\w)")


def row(weighing: Weighing, weight: str, *, with_bed: bool = True, shares: Sequence[Pair] = ()) -> str:
    """Return the row of a weighing, in braces.

    ``weight`` is the weight in words; ``with_bed`` says whether squares need the bed's name;
    ``shares`` are its destinations with their weights in words, where it has several.
    """
    return in_braces(_pairs(weighing, weight, with_bed=with_bed, shares=shares))


def in_braces(pairs: Iterable[tuple[str, Value]]) -> str:
    """Return keys and values as a mapping on one line."""
    return "{" + ", ".join(f"{key}: {_value(value)}" for key, value in pairs) + "}"


def _pairs(
    weighing: Weighing, weight: str, *, with_bed: bool, shares: Sequence[Pair]
) -> Iterable[tuple[str, Value]]:
    """Yield the keys of a row with their values, in the order of the row; what is empty is left out."""
    yield "date", weighing.day.isoformat()
    if weighing.mixed:
        yield "mixed", [crop.typed for crop in weighing.crops]
    elif weighing.crops:
        yield "crop", weighing.crops[0].typed
    if weighing.tag:
        yield "tag", weighing.tag
    if weighing.variety:
        yield "variety", weighing.variety
    if weighing.squares:
        parts = in_words(weighing.squares, with_bed=with_bed).split(", ")
        yield "squares", parts[0] if len(parts) == 1 else parts
    if weighing.count is not None:
        yield "count", str(weighing.count)
    yield "weight", weight
    yield from (("to", to) for to in ([shares] if shares else [one.name for one in weighing.to]))
    if weighing.form:
        yield "as", weighing.form
    if weighing.state is not State.FRESH:
        yield "state", weighing.state.value
    if weighing.weighed is not None:
        yield "weighed", weighing.weighed.isoformat()
    if weighing.note:
        yield "note", weighing.note


def _value(value: Value) -> str:
    """Return a text, a list in brackets, or a mapping in braces, as YAML, in quotes where it needs them."""
    if isinstance(value, str):
        return scalar(value)
    texts = [part for part in value if isinstance(part, str)]
    if len(texts) < len(value):
        pairs = [part for part in value if not isinstance(part, str)]
        return "{" + ", ".join(f"{scalar(name)}: {scalar(text)}" for name, text in pairs) + "}"
    return "[" + ", ".join(map(scalar, texts)) + "]"


def scalar(text: str) -> str:
    """Return a text as YAML within braces: as it stands where that is safe, else in double quotes."""
    if _PLAIN.fullmatch(text) and not _COLON.search(text) and "  " not in text:
        return text
    return json.dumps(text, ensure_ascii=False)
