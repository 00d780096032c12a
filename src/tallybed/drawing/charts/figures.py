"""How a chart writes a weight, beside its lines and in its description."""

from __future__ import annotations

from fractions import Fraction

from tallybed.garden.units import rounded, with_at_least

NOT_WEIGHED = "not weighed"


def total_figure(amount: Fraction, unit: str = "", *, at_least: bool = False, sign: str = "≥ ") -> str:
    """Return the weight of a whole season: below one with two decimals, as its page has it at the head."""
    return weight_figure(amount, unit, at_least=at_least, sign=sign, places=1 if amount >= 1 else 2)


def weight_figure(
    amount: Fraction, unit: str = "", *, at_least: bool = False, sign: str = "≥ ", places: int = 1
) -> str:
    """Return ``≥ 80.7 lb``; words where nobody weighed it, and ``under 0.01`` where it would round to 0.

    Below a tenth it has two decimals, so that no figure passes the end of its axis.
    """
    if not amount and at_least:
        return NOT_WEIGHED
    words = rounded(amount, places)
    if 0 < amount < Fraction(1, 10):
        words = rounded(amount, 2) if amount >= Fraction(1, 200) else "under 0.01"
    told = f"{words} {unit}".rstrip()
    return with_at_least(told, sign) if at_least else told
