"""The numbers of a column: which sign stands before decimals, told by the column as a whole.

``1.250`` alone may be 1250 or one and a quarter; beside ``0.34`` in the same column it is the latter.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.units import Unit
from tallybed.reading.base.problems import Misread
from tallybed.reading.scale.numbers import COMMA, POINT, amount
from tallybed.reading.scale.questions import LineQuestion

_GROUPED = re.compile("(?<![0-9])([0-9]{1,3})(?:[ '\u2019\u00a0\u202f\u2009][0-9]{3})+(?![0-9])")
_SPACE = re.compile("[ '\u2019\u00a0\u202f\u2009](?=[0-9]{3}(?![0-9]))")
_NUMBER = re.compile(
    r"(?<![\w.,])[0-9]*(?:[.,][0-9]+)+(?![\w])|(?<![\w.,])[0-9]*(?:[.,][0-9]+)+(?=\s*[^\W\d_])"
)
_OPEN = re.compile(r"0*[1-9][0-9]{0,2}[.,][0-9]{3}")
"""A number of which one sign and three digits behind it say nothing."""


@dataclass(frozen=True, slots=True)
class OpenNumbers:
    """Numbers of a column that can be read two ways, with the sum of the column under each reading."""

    example: str
    sums: tuple[str, str]
    """Under a decimal comma and under a decimal point, each in words."""


def without_groups(text: str) -> str:
    """Return a text whose thousands were set apart by spaces or apostrophes with plain numbers."""
    return _GROUPED.sub(lambda found: _SPACE.sub("", found.group()), text)


def decimal_sign(texts: Iterable[str]) -> tuple[str, bool]:
    """Return the sign before decimals that a column's numbers show, and whether any number needs it.

    The sign is ``comma``, ``point``, or empty where the column shows none, or both.
    """
    shown: set[str] = set()
    needed = False
    for text in texts:
        for found in _NUMBER.findall(text):
            if _OPEN.fullmatch(found):
                needed = True
            else:
                shown.add(_shown(found))
    shown.discard("")
    return (shown.pop() if len(shown) == 1 else ""), needed


def _shown(number: str) -> str:
    """Return the sign before decimals that a number shows by itself."""
    signs = [sign for sign in number if sign in ".,"]
    own, other = (COMMA, POINT) if signs[-1] == "," else (POINT, COMMA)
    if len(signs) > 1:
        # Signs that repeat are of thousands; of two different ones the last stands before decimals.
        return other if len(set(signs)) == 1 else own
    return own


def summed(texts: Sequence[tuple[str, Unit]], decimal: str) -> tuple[Fraction, str]:
    """Return the sum of bare numbers under one reading, and it in words in the (first) commonest unit."""
    total = Fraction(0)
    for text, unit in texts:
        found = re.search(r"[0-9][0-9.,]*", without_groups(text))
        if found is None:
            continue
        try:
            total += amount(found.group().rstrip(".,"), unit, decimal, {}) * unit.size
        except (Misread, LineQuestion):
            continue
    if not texts:
        return total, "0"
    units = Counter(unit for _text, unit in texts)
    unit = max(units, key=lambda one: units[one])
    return total, f"{float(total / unit.size):,.10g} {unit.symbol}"
