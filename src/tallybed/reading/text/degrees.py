"""Latitudes, longitudes and bearings in degrees: text in, exact value out, Misread otherwise."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction

from tallybed.reading.base.problems import Misread, quoted
from tallybed.reading.text.measures import plain

_NAMED = "north n, northeast ne, east e, southeast se, south s, southwest sw, west w, northwest nw"
_SIDES = {name: 45 * place for place, names in enumerate(_NAMED.split(", ")) for name in names.split()}
"""Directions by their names, in degrees clockwise from north."""


def _sided(words: str, lowest: int, highest: int) -> str:
    """Return the degrees meant by words with a side of the world, ``34.2 S`` or ``south``; else nothing."""
    told = words.casefold()
    if lowest == 0:
        return str(_SIDES.get(re.sub(r"[\s.-]", "", told), ""))
    sided = re.fullmatch(r"([0-9]{1,3}(?:[.,][0-9]{1,9})?)\s?°?\s?([a-z]+)", told)
    side = sided[2][0] if sided and sided[2] in _SIDES else ""
    if not sided or side not in (("n", "s") if highest == 90 else ("e", "w")):
        return ""
    meant = f"{'-' if side in ('s', 'w') else ''}{sided[1].replace(',', '.')}"
    return meant if lowest <= Fraction(meant) <= highest else ""


def degrees(what: str, lowest: int, highest: int) -> Callable[[str], Fraction]:
    """Return a scanner of degrees, in decimals, from ``lowest`` to ``highest``."""

    def scan(text: str) -> Fraction:
        """Read degrees with or without their sign, both bounds inside. Raises Misread."""
        words = plain(text).removesuffix("°").strip()
        bounds = f"degrees from {lowest} to {highest}, such as 39.6"
        if re.fullmatch(r"-?[0-9]+,[0-9]+", words):
            found = f"the {what} {quoted(text)} has a comma inside a number"
            raise Misread("decimal-comma", found, "a decimal point", words.replace(",", "."))
        if not re.fullmatch(r"[+-]?[0-9]{1,3}(\.[0-9]{1,9})?", words):
            close = _sided(words, lowest, highest)
            raise Misread("degrees", f"the {what} {quoted(text)} cannot be read", bounds, close)
        if not lowest <= Fraction(words) <= highest:
            raise Misread("degrees", f"the {what} {quoted(text)} is out of bounds", bounds)
        return Fraction(words)

    return scan
