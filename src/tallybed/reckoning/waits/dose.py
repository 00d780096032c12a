"""A label's own rate by area, turned to the area of some squares: never above the rate, rounded down."""

from __future__ import annotations

import re
from fractions import Fraction

_RATE = re.compile(
    r"([0-9]+(?:\.[0-9]+)?|[0-9]+/[0-9]+)\s*"
    r"(fl\.? ?oz|oz|lb|lbs|pounds?|g|kg|ml|l|tsp|tbsp|cups?|gal(?:lons?)?|pints?|quarts?)"
    r"\s*(?:per|/|to|for)\s*([0-9][0-9,]*)?\s*(?:sq\.? ?ft|square feet|square foot)\.?",
    re.IGNORECASE,
)
_PLACES = 1000


def dose(rate: str, square_feet: Fraction) -> tuple[Fraction, str] | None:
    """Return how much a label’s rate allows on an area, exactly, with its unit; None where not by area."""
    match = _RATE.fullmatch(rate.strip())
    if match is None:
        return None
    whole = Fraction((match.group(3) or "1").replace(",", ""))
    if not whole:
        return None
    return Fraction(match.group(1)) * square_feet / whole, " ".join(match.group(2).split())


def dose_words(rate: str, square_feet: Fraction) -> str:
    """Return ``0.48 oz at most for 12 sq ft``, rounded down; empty for a rate that is not by area."""
    found = dose(rate, square_feet)
    if found is None:
        return ""
    amount, unit = found
    below = Fraction(amount * _PLACES // 1, _PLACES)
    return f"{float(below):g} {unit} at most for {float(square_feet):g} sq ft"
