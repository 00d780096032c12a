"""Rows that call themselves no total and hold nothing but what the rows above them add up to."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal, InvalidOperation
from fractions import Fraction

from tallybed.reading.base.problems import Misread
from tallybed.reading.spreadsheet.cells import NumberedRow, SheetCell
from tallybed.reading.text import measures

_FEWEST = 2
"""Weights that a sum is of, at the fewest: below one alone an equal weight may be another picking."""
_NEAR = Fraction(1, 200)
"""How far a sum may be off, of its size: people round. Our choice."""


def adds_up(inside: Sequence[SheetCell], own: Sequence[int], rows: Sequence[NumberedRow], last: int) -> bool:
    """Return whether a row holds nothing but what all rows above, or those below the last total, add up to.

    ``own``: the columns of weights; ``last``: the number of the last total, 0 for none.
    """
    told = [place for place, cell in enumerate(inside) if cell]
    if not told or not set(told) <= set(own):
        return False
    every = [cells for _number, cells in rows]
    below = [cells for number, cells in rows if number > last]
    return any(
        all(_is_sum(inside[place].text, [row[place].text for row in some if row[place]]) for place in told)
        for some in (every, below)
    )


def _is_sum(text: str, above: Sequence[str]) -> bool:
    """Return whether a text is the sum of others: all bare numbers, or all weights with their units."""
    for values in (_numbers((text, *above)), _weights((text, *above))):
        if len(values) > _FEWEST:
            whole, *parts = values
            return whole > 0 and abs(whole - sum(parts)) <= whole * _NEAR
    return False


def _numbers(texts: Iterable[str]) -> list[Fraction]:
    """Return bare numbers; none where a text is another thing."""
    try:
        return [Fraction(Decimal(text.strip().replace(",", "."))) for text in texts]
    except (InvalidOperation, ValueError, OverflowError):
        return []


def _weights(texts: Iterable[str]) -> list[Fraction]:
    """Return weights in nanograms, those that nobody weighed left out; none where a text is another thing."""
    try:
        read = [measures.weighing(text).weight for text in texts]
    except Misread:
        return []
    return [one.nanograms for one in read if one is not None]
