"""Words about other gardens, with the measures in them as the garden's own readers take them.

The library keeps them as they were printed, some in feet and pounds, some in metres and kilograms.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from tallybed.garden.benchmarks import Benchmark
from tallybed.garden.units import FOOT, KILOGRAM, METRE, POUND, SQUARE_FOOT, Showing, plain

_POUND = POUND.size / KILOGRAM.size
_IN_METRES: Mapping[str, tuple[str, Fraction]] = {
    "lb per sq ft": ("kg per m²", _POUND / SQUARE_FOOT),
    "dollars a square foot": ("dollars a square metre", 1 / SQUARE_FOOT),
    "sq ft": ("m²", SQUARE_FOOT),
    "ft": ("m", FOOT.size / METRE.size),
    "lb": ("kg", _POUND),
}
_IN_FEET: Mapping[str, tuple[str, Fraction]] = {
    "kg per square metre": ("lb per sq ft", SQUARE_FOOT / _POUND),
    "square metres": ("sq ft", 1 / SQUARE_FOOT),
}
"""What a printed unit becomes, and what one of it is in that (NIST Handbook 44, appendix C)."""
_NUMBER = r"[0-9][0-9,]*(?:\.[0-9]+)?"


def as_read(showing: Showing, one: Benchmark) -> Benchmark:
    """Return a figure of another garden with its words in the units the garden reads."""
    return replace(
        one, where=_words(showing, one.where), area=_words(showing, one.area), note=_words(showing, one.note)
    )


def _words(showing: Showing, words: str) -> str:
    units = _IN_METRES if showing.metric else _IN_FEET
    printed = rf"({_NUMBER})(?: to ({_NUMBER}))? ({'|'.join(units)})(?!\w)"

    def converted(found: re.Match[str]) -> str:
        name, factor = units[found[3]]
        ends = (_three_figures(Fraction(end.replace(",", "")) * factor) for end in found.group(1, 2) if end)
        return f"{' to '.join(ends)} {name}"

    return re.sub(printed, converted, words)


def _three_figures(value: Fraction) -> str:
    """Return a number as finely as three figures tell it, in hundredths at the finest."""
    whole = len(str(int(value)))
    if whole <= 3:
        return plain(value, min(2, 3 - whole))
    step = 10 ** (whole - 3)
    return f"{int(value / step + Fraction(1, 2)) * step:,}"
