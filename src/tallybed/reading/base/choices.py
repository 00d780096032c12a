"""One of a few words: what it stands for, or which of them is the nearest."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TypeVar

from tallybed.garden.naming import folded, nearest
from tallybed.reading.base.problems import Misread, listed, quoted

T = TypeVar("T")
NO_OTHERS: Mapping[str, str] = MappingProxyType({})
_MISSPELLED = 0.8
"""How alike a word must be to one that people use beside ours: ``stones`` are no ounces."""


def choice(text: str, choices: Mapping[str, T], what: str, others: Mapping[str, str] = NO_OTHERS) -> T:
    """Return what a word stands for, however its capitals are typed.

    ``others`` are words that people use, in small letters, each with the one of ``choices`` that is
    offered for it, however it is spelled. Raises Misread.
    """
    word = folded(text)
    if word in choices:
        return choices[word]
    close = others.get(word) or nearest(word, choices) or others.get(nearest(word, others, _MISSPELLED), "")
    remedy = "" if close else "write one of these words"
    raise Misread("choice", f"{quoted(text)} is not {what}", listed(choices), close, remedy)
