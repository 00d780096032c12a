"""A label's own rate by area, turned to the area of some squares: never above the rate, rounded down."""

from __future__ import annotations

import re
from fractions import Fraction

from tallybed.garden.units import SQUARE_FOOT, Showing

_PART = r"[0-9]{1,4}/[1-9][0-9]{0,3}"
_NUMBER = rf"[0-9]{{1,9}} {_PART}|{_PART}|[0-9]{{0,9}}\.[0-9]{{1,9}}|[0-9][0-9,]{{0,12}}"
_RATE = re.compile(
    rf"(?:(?:{_NUMBER})\s*(?:to|-|–)\s*)?({_NUMBER})\s*"
    r"(fl\.? ?oz|oz|ounces?|lbs?|pounds?|g|kg|ml|l|lit(?:er|re)s?|tsp|tbsp|(?:tea|table)spoons?|cups?"
    r"|gal(?:lons?)?|pt|pints?|qt|quarts?)\.?"
    rf"\s*(?:per|/|to|for|an?)\s*({_NUMBER})?\s*"
    r"(sq(?:uare)?\.? ?(?:ft|feet|foot|yd|yards?|m|met(?:er|re)s?)|ft²|m²|m2|acres?|ha|hectares?)\.?",
    re.IGNORECASE,
)
_AREAS = {
    "f": Fraction(1),
    "y": Fraction(9),
    "a": Fraction(43_560),
    "m": 1 / SQUARE_FOOT,
    "h": 10_000 / SQUARE_FOOT,
}
"""Square feet in a square foot, yard, acre, square metre and hectare, exactly, by the first letter of the
name, *square* taken away. Source: NIST Handbook 44, appendix C (acre, square yard); the foot is 0.3048 m
by NIST Special Publication 811."""
_PLACES = 1000


def dose(rate: str, square_feet: Fraction) -> tuple[Fraction, str] | None:
    """Return how much a label's rate allows on an area, exactly, with its unit; None where not by area.

    Of a rate from one figure to another it is what the higher allows, which is the label's most.
    """
    match = _RATE.fullmatch(" ".join(rate.split()))
    if match is None:
        return None
    amount, unit, over, area = match.groups()
    whole = _number(over or "1") * _square_feet(area)
    return (_number(amount) * square_feet / whole, unit) if whole else None


def dose_words(rate: str, square_feet: Fraction, showing: Showing) -> str:
    """Return ``0.48 oz at most for 12 sq ft``, rounded down; empty for a rate that is not by area."""
    found = dose(rate, square_feet)
    if found is None:
        return ""
    amount, unit = found
    below = Fraction(amount * _PLACES // 1, _PLACES)
    if not below:
        return f"less than {1 / _PLACES:g} {unit} for {showing.area(square_feet)}"
    return f"{float(below):.10g} {unit} at most for {showing.area(square_feet)}"


def _number(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.replace(",", "").split()), Fraction(0))


def _square_feet(unit: str) -> Fraction:
    """Return how large a unit of area is, however it is written."""
    return _AREAS[re.sub(r"^sq(?:uare)?\.? ?", "", unit.casefold())[0]]
