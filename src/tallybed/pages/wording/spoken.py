"""Weights as they are said aloud: ``6.4 pounds``, ``5 ounces``, never in signs."""

from __future__ import annotations

from fractions import Fraction

from tallybed.garden.units import GRAM, KILOGRAM, OUNCE, POUND, Showing, Weight, rounded
from tallybed.pages.wording.sentences import listed
from tallybed.reckoning.harvest.tally import Total

_SQUARE_METRES = Fraction(3048, 10000) ** 2
"""One square foot in square metres: 1 ft = 0.3048 m exactly (NIST Handbook 44, appendix C)."""

_LESS = "less than"


def weight(showing: Showing, amount: Weight) -> str:
    """Return a weight: in ounces or grams below one pound or kilogram, else to one decimal."""
    large, small = (KILOGRAM, GRAM) if showing.metric else (POUND, OUNCE)
    name = "gram" if showing.metric else "ounce"
    if not amount:
        return f"no {name}s"
    parts = rounded(amount.within(small), 0)
    if amount.nanograms >= large.size or Fraction(parts) * small.size >= large.size:
        number = rounded(amount.within(large), 1).removesuffix(".0")
        whole = "kilogram" if showing.metric else "pound"
        return f"{number} {whole if number == '1' else whole + 's'}"
    if parts == "0":
        return f"{_LESS} {'a gram' if showing.metric else 'an ounce'}"
    return f"{parts} {name if parts == '1' else name + 's'}"


def total(showing: Showing, told: Total) -> str:
    """Return what was weighed of a total: ``at least 4.2 pounds`` where more was picked."""
    words = weight(showing, told.weight)
    if told.at_least:
        return f"{words} as far as weighed" if words.startswith(_LESS) else f"at least {words}"
    return words


def cured(showing: Showing, total: Total) -> str:
    """Return ``, 5.2 pounds of it cured``; nothing for a total that was all weighed fresh."""
    told = ((total.cured, "cured"), (total.dried, "dried"))
    parts = [(weight(showing, part), how) for part, how in told if part]
    words = listed(f"{part} {how if at else f'of it {how}'}" for at, (part, how) in enumerate(parts))
    return f", {words}" if words else ""


def alike(showing: Showing, one: Weight, other: Weight) -> bool:
    """Return whether two weights are too near to each other for the difference to be said."""
    apart = one - other if one > other else other - one
    return rounded(apart.within(GRAM if showing.metric else OUNCE), 0) == "0"


def per_area(showing: Showing, amount: Weight, square_feet: Fraction) -> str:
    """Return a weight over square feet: ``0.83 pounds per square foot``; nothing for next to nothing."""
    if showing.metric:
        number = rounded(amount.within(KILOGRAM) / (square_feet * _SQUARE_METRES), 2)
        words = "kilograms per square metre"
    else:
        number = rounded(amount.within(POUND) / square_feet, 2)
        words = "pounds per square foot"
    return f"{number} {words}" if Fraction(number) else ""
