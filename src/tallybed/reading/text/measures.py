"""Numbers, weights and lengths as people type them: text in, exact value out, Misread otherwise.

Generous in form (``1 lb 6 oz``, ``22oz``, ``1 1/2 lb``, ``½ lb``), strict in
meaning: a decimal comma, a missing unit or ounces beside pounds that make a
pound of their own are never guessed at.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from tallybed.garden.naming import nearest
from tallybed.garden.units import (
    CUBIC_FOOT,
    GRAM,
    LENGTH_UNITS,
    LITRE,
    VOLUME_UNITS,
    WATER_UNITS,
    WEIGHT_UNITS,
    Length,
    Unit,
    Weight,
)
from tallybed.reading.base.problems import Misread, listed, quoted
from tallybed.reading.text.other_units import other_unit

WEIGHT = "a weight such as 1 lb 6 oz or 620 g"
WEIGHING = f"{WEIGHT}, or “not weighed”"
LENGTH = "a length such as 4 ft 6 in or 30 cm"
VOLUME = "a volume such as 1.5 cu ft or 40 L"
WHOLE = "a whole number"
SHARE = "a share above 0 and up to 1, such as 1/3"
YES_NO = "yes or no"
PERCENT = "a percentage such as 50%"

_NEAR_UNIT = 0.65
"""How alike a word must be to a unit's name to be one spelt wrong (1 is equal): a bunch is no ounce."""
_LONGEST = 60
"""Characters in the longest measure anybody writes; more is never searched."""
_ABOUT = re.compile(r"(?:about|around|roughly|approx\.?|ca\.?|~)\s*", re.IGNORECASE)
_AMOUNT = r"(?:[0-9]{1,9} [0-9]{1,4}/[0-9]{1,4}|[0-9]{1,4}/[0-9]{1,4}|[0-9]{0,9}\.[0-9]{1,9}|[0-9]{1,9})"
_PART = re.compile(rf"\s*({_AMOUNT})\s*([^\W\d_]+|[\"'])\.?\s*(?:,|and\b|&)?\s*")
_NUMBER = re.compile(rf"({_AMOUNT})")
_COMMA = re.compile(r"[0-9],[0-9]")
_THOUSANDS = re.compile(r"[0-9],[0-9]{3}(?![0-9])")
_OPEN_GRAMS = re.compile(r"([1-9]|1[0-9]|2[0-4])\.([0-9]{3})")
"""Up to 25 kg where the point sets thousands apart: no kitchen weighs to the thousandth of a gram."""
_CUBIC = re.compile(r"\bcu(?:bic)?\.? ?(ft|foot|feet)\b", re.IGNORECASE)
_VULGAR = re.compile("[¼½¾⅐-⅞]")
_WIDE = {chr(0xFF00 + sign - 0x20): chr(sign) for sign in map(ord, "0123456789.,:/")}
"""Figures and signs of East Asian keyboards, as wide as a letter there: ``１２０``."""
_SIGNS = str.maketrans(
    {"’": "'", "′": "'", "‘": "'", "”": '"', "″": '"', "“": '"', "⁄": "/", "−": "-", **_WIDE}
)


@dataclass(frozen=True, slots=True)
class Measured:
    """A weight as typed: None where it was not weighed, estimated where it said *about*."""

    weight: Weight | None
    estimated: bool = False


def plain(text: str) -> str:
    """Return ``text`` with single spaces, straight quotes, figures of usual width, and ``½`` as `` 1/2``."""
    text = _VULGAR.sub(lambda sign: " " + unicodedata.normalize("NFKC", sign.group()), text)
    return " ".join(text.translate(_SIGNS).split())


@lru_cache(maxsize=4096)
def weighing(text: str) -> Measured:
    """Read the weight of a picking: ``1 lb 6 oz``, ``about 2 lb``, ``not weighed``."""
    words = plain(text)
    if words.casefold() == "not weighed":
        return Measured(None)
    about = _ABOUT.match(words)
    amount = _measure(words[about.end() :] if about else words, text, WEIGHT_UNITS, _WEIGHTS)
    return Measured(Weight(amount), about is not None)


def weight(text: str) -> Weight:
    """Read a plain weight; *about* is taken along, *not weighed* is none."""
    words = plain(text)
    about = _ABOUT.match(words)
    return Weight(_measure(words[about.end() :] if about else words, text, WEIGHT_UNITS, _PLAIN_WEIGHTS))


def length(text: str) -> Length:
    """Read a length: ``4 ft 6 in``, ``4' 6"``, ``1.2 m``."""
    return Length(_measure(plain(text), text, LENGTH_UNITS, _LENGTHS))


def length_within(least: Length, most: Length, expected: str) -> Callable[[str], Length]:
    """Return a scanner of lengths from ``least`` to ``most``; ``expected`` says so in words."""

    def scan(text: str) -> Length:
        """Read a length, both bounds inside. Raises Misread."""
        found = length(text)
        if not least <= found <= most:
            raise Misread("length", f"the length {quoted(text)} is out of bounds", expected)
        return found

    return scan


def volume(text: str) -> Fraction:
    """Read a volume as cubic feet: ``1.5 cu ft``, ``40 L``."""
    words = _CUBIC.sub("cuft", plain(text))
    return _measure(words, text, VOLUME_UNITS, _VOLUMES) / CUBIC_FOOT.size


def litres(text: str) -> Fraction:
    """Read a volume of water as litres: ``10 gal`` (of the United States), ``20 L``."""
    return _measure(plain(text), text, WATER_UNITS, _VOLUMES) / LITRE.size


def without_about(text: str) -> str:
    """Return a measure without the word by which it is an estimate: ``about 10 gal``."""
    words = plain(text)
    about = _ABOUT.match(words)
    return words[about.end() :] if about else words


@dataclass(frozen=True, slots=True)
class _Measure:
    code: str
    what: str
    expected: str
    zero: str


_WEIGHTS = _Measure("weight", "weight", WEIGHING, "a weight above zero")
_PLAIN_WEIGHTS = _Measure("weight", "weight", WEIGHT, "a weight above zero")
_LENGTHS = _Measure("length", "length", LENGTH, "a length above zero")
_VOLUMES = _Measure("volume", "volume", VOLUME, "a volume above zero")


def _measure(words: str, typed: str, units: Sequence[Unit], kind: _Measure) -> Fraction:
    """Return the size in base units of amounts and units in falling order."""
    found = f"the {kind.what} {quoted(typed)} cannot be read"
    if len(words) > _LONGEST:
        raise Misread(kind.code, found, kind.expected)
    _refuse_comma(words, typed, kind)
    parts = _parts(words, found, units, kind)
    total = Fraction(0)
    for place, (amount, unit) in enumerate(parts):
        if place:
            _fits_below(parts[place - 1], (amount, unit), typed, kind)
        total += amount * unit.size
    if not total:
        raise Misread(kind.code, f"the {kind.what} {quoted(typed)} is zero", kind.zero)
    return total


def _refuse_comma(words: str, typed: str, kind: _Measure) -> None:
    """Raise Misread where a comma stands between two digits."""
    if _COMMA.search(words):
        raise Misread(
            "decimal-comma",
            f"the {kind.what} {quoted(typed)} has a comma inside a number",
            "a decimal point, and no sign between thousands",
            nearest="" if _THOUSANDS.search(words) else words.replace(",", "."),
        )


def _parts(words: str, found: str, units: Sequence[Unit], kind: _Measure) -> list[tuple[Fraction, Unit]]:
    """Return the amounts and units that make up a measure, at least one. Raises Misread."""
    by_name = {name: unit for unit in units for name in unit.names}
    parts: list[tuple[Fraction, Unit]] = []
    at = 0
    while at < len(words):
        part = _PART.match(words, at)
        if part is None:
            bare = _NUMBER.fullmatch(words[at:])
            if bare is not None:
                raise Misread(kind.code, f"{found}: no unit follows {bare.group()}", kind.expected)
            raise Misread(kind.code, found, kind.expected)
        unit = by_name.get(part.group(2).casefold())
        if unit is None:
            other = other_unit(part.group(2)) if units == WEIGHT_UNITS else None
            raise Misread(
                kind.code,
                f"{found}: {quoted(part.group(2))} is not a unit of {kind.what}",
                listed(unit.symbol for unit in units),
                "" if other else nearest_unit(part.group(2), units),
                remedy=other.words if other else "",
            )
        if unit is GRAM and (thousands := _OPEN_GRAMS.fullmatch(part.group(1))):
            both = f"it may be {''.join(thousands.groups())} g or {float(part.group(1)):g} g"
            raise Misread(
                kind.code, f"{found}: {both}", "no point between thousands, and two decimals at most"
            )
        parts.append((_amount(part.group(1), found, kind.code, kind.expected), unit))
        at = part.end()
    if not parts:
        raise Misread(kind.code, found, kind.expected)
    return parts


def nearest_unit(word: str, units: Iterable[Unit]) -> str:
    """Return the name of a unit that a word is most like, or an empty text where none is near.

    Of two letters one may be wrong, most likely the second: ``cn`` is like ``cm``.
    """
    names = [name for unit in units for name in unit.names]
    for place in (0, 1):
        alike = [name for name in names if len(name) == len(word) == 2 and name[place] == word[place].lower()]
        if len(alike) == 1:
            return alike[0]
    return nearest(word, names, _NEAR_UNIT)


def _fits_below(
    before: tuple[Fraction, Unit], after: tuple[Fraction, Unit], typed: str, kind: _Measure
) -> None:
    """Refuse ``6 oz 1 lb``, ``1 lb 20 oz``, ``1.5 lb 6 oz`` and ``1 lb 200 g``."""
    whole = before[1].size / after[1].size
    if whole.denominator != 1 or whole <= 1 or before[0].denominator != 1 or after[0] >= whole:
        raise Misread(
            kind.code,
            f"the {kind.what} {quoted(typed)} does not add up as {before[1].symbol} and {after[1].symbol}",
            f"whole {before[1].symbol}, then less than 1 {before[1].symbol} in {after[1].symbol}"
            if whole.denominator == 1 and whole > 1
            else kind.expected,
        )


def _amount(text: str, found: str, code: str, expected: str) -> Fraction:
    """Return an amount such as ``1 1/2`` or ``.5``. Raises Misread where it divides by zero."""
    total = Fraction(0)
    for part in text.split():
        above, slash, below = part.partition("/")
        if slash and not int(below):
            raise Misread(code, found, expected)
        total += (
            Fraction(int(above), int(below)) if slash else Fraction(part if part[0] != "." else f"0{part}")
        )
    return total


def whole(lowest: int = 1, highest: int = 100_000, of: str = "") -> Callable[[str], int]:
    """Return a scanner of whole numbers from ``lowest`` to ``highest``, ``of`` what they are."""

    def scan(text: str) -> int:
        """Read a whole number, both bounds inside. Raises Misread."""
        words = plain(text)
        bounds = f"{WHOLE}{of and f' of {of}'} from {lowest} to {highest}"
        if not re.fullmatch(r"-?[0-9]{1,12}", words):
            raise Misread("whole-number", f"{quoted(text)} is not a whole number", bounds)
        if not lowest <= int(words) <= highest:
            raise Misread("whole-number", f"{quoted(text)} is out of bounds", bounds)
        return int(words)

    return scan


def counted(unit: str, lowest: int, highest: int) -> Callable[[str], int]:
    """Return a scanner of a whole number of ``unit``, which may be left out: ``3 years``, ``3``."""
    number = whole(lowest, highest, unit)

    def scan(text: str) -> int:
        """Read a number with or without its unit. Raises Misread."""
        words = text.strip()
        return number(words.removesuffix(f" {unit}").removesuffix(f" {unit[:-1]}").rstrip())

    return scan


def share(text: str) -> Fraction:
    """Read a share of a square or path: ``1/3``, ``0.25``, ``25%``."""
    words = plain(text)
    found = f"the share {quoted(text)} cannot be read"
    if _COMMA.search(words):
        found = f"the share {quoted(text)} has a comma inside a number"
        raise Misread("decimal-comma", found, "a decimal point", words.replace(",", "."))
    percent = words.endswith("%")
    words = words.removesuffix("%").strip()
    if not _NUMBER.fullmatch(words):
        raise Misread("share", found, SHARE)
    value = _amount(words, found, "share", SHARE) / (100 if percent else 1)
    if not 0 < value <= 1:
        raise Misread("share", f"the share {quoted(text)} is out of bounds", SHARE)
    return value


def percentage(text: str) -> int:
    """Read a percentage as a whole number from 1 to 99: ``50%``."""
    match = re.fullmatch(r"([0-9]{1,2}) ?%", text.strip())
    if match is None or not int(match.group(1)):
        raise Misread("percentage", f"{quoted(text)} is not a percentage", PERCENT)
    return int(match.group(1))


_LIKE_YES = frozenset({"y", "on", "ok", "1", "yep"})
_LIKE_NO = frozenset({"n", "off", "0", "none", "nope", "never"})


def yes_no(text: str) -> bool:
    """Read ``yes`` or ``no`` (also ``true`` and ``false``)."""
    word = text.strip().casefold()
    if word in ("yes", "true"):
        return True
    if word in ("no", "false"):
        return False
    close = "yes" if word in _LIKE_YES else "no" if word in _LIKE_NO else nearest(word, ("yes", "no"))
    raise Misread("yes-or-no", f"{quoted(text)} is neither yes nor no", YES_NO, close)
