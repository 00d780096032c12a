"""A label's own rate by area, turned to the area of some squares: never above the rate, rounded down."""

from __future__ import annotations

import re
from fractions import Fraction

from tallybed.garden.units import SQUARE_FOOT, Showing

_PART = r"[0-9]{1,4}/[1-9][0-9]{0,3}"
_NUMBER = rf"[0-9]{{1,9}} {_PART}|{_PART}|[.,]?[0-9](?:[0-9.,]{{0,12}}[0-9])?"
_GROUPED = re.compile(r"[1-9][0-9]{0,2}(?:(?:,[0-9]{3})+(?:\.[0-9]+)?|(?:\.[0-9]{3})+(?:,[0-9]+)?)")
"""A number with one sign between its thousands and, if it has decimals, the other before them."""
_OPEN = re.compile(r"[1-9][0-9]{0,2}[.,][0-9]{3}")
"""A number of which a sign and three digits behind it do not say whether it has thousands or decimals."""
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

    Of a rate from one figure to another it is what the higher allows, which is the label's most. None also
    where a figure can be read two ways: what is told as a dose must not be a thousand times the label's.
    """
    match = _RATE.fullmatch(" ".join(rate.split()))
    if match is None:
        return None
    amount, unit, over, area = match.groups()
    told, ground = _number(amount), _number(_in_plain_thousands(over or "1"))
    if told is None or not ground:
        return None
    return told * square_feet / (ground * _square_feet(area)), unit


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


def _in_plain_thousands(area: str) -> str:
    """Return the figure of an area without the comma of ``1,000 sq ft``: none is told to three decimals."""
    return area.replace(",", "") if _OPEN.fullmatch(area) else area


def _number(text: str) -> Fraction | None:
    """Return a number, with either sign before its decimals; None where it can be read two ways, or none."""
    if _OPEN.fullmatch(text):
        return None
    if "/" in text:
        return sum(map(Fraction, text.split()), Fraction(0))
    signs = [sign for sign in text if sign in ".,"]
    if len(signs) > 1:
        if not _GROUPED.fullmatch(text):
            return None
        decimals = signs[-1] if signs[-1] != signs[0] else ""
        text = "".join(sign for sign in text if sign.isdigit() or sign == decimals)
    return Fraction(text.replace(",", "."))


def _square_feet(unit: str) -> Fraction:
    """Return how large a unit of area is, however it is written."""
    return _AREAS[re.sub(r"^sq(?:uare)?\.? ?", "", unit.casefold())[0]]
