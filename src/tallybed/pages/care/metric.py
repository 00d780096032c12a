"""The figures of a crop's care as a garden in kilograms and metres reads them.

The library keeps every figure in the unit it was printed in. What is shown is converted,
and rounded as finely as the printed figure was meant.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from tallybed.garden.crops import Crop, Figure
from tallybed.garden.units import FOOT, INCH, KILOGRAM, METRE, POUND, Length, Showing, plain, rounded

_CENTIMETRES = INCH.size / (METRE.size / 100)
_METRES = FOOT.size / METRE.size
_KILOGRAMS = POUND.size / KILOGRAM.size
_LITRES_IN_QUART = Fraction("0.946352946")
"""NIST Handbook 44, appendix C: one liquid quart; an acre is 43 560 square feet."""
_TEN_METRES_IN_100_FEET = 100 * _METRES / 10
_HECTARES_IN_ACRE = 43_560 * _METRES**2 / 10_000


@dataclass(frozen=True, slots=True)
class _Unit:
    """What a printed unit becomes: its name, and a value in it."""

    name: str
    value: Callable[[Fraction], Fraction]


def _times(factor: Fraction, name: str, places: int) -> _Unit:
    return _Unit(name, lambda value: Fraction(rounded(value * factor, places)))


def _length(value: Fraction) -> Fraction:
    """Return inches in centimetres: to a half below ten, else whole."""
    exact = value * _CENTIMETRES
    return Fraction(rounded(exact * 2, 0)) / 2 if exact < 10 else Fraction(rounded(exact, 0))


def _warmth(value: Fraction) -> Fraction:
    """Return degrees Fahrenheit in whole degrees Celsius (NIST SP 811, appendix B.8)."""
    return Fraction(rounded((value - 32) * Fraction(5, 9), 0))


_ROW = 1 / _TEN_METRES_IN_100_FEET
UNITS: Mapping[str, _Unit] = {
    "in": _Unit("cm", _length),
    "degF": _Unit("°C", _warmth),
    "sqft": _times(_METRES**2, "m²", 2),
    "plants/sqft": _times(1 / _METRES**2, "plants per m²", 0),
    "lb/sqft": _times(_KILOGRAMS / _METRES**2, "kg per m²", 2),
    "lb/acre": _times(_KILOGRAMS / _HECTARES_IN_ACRE, "kg per hectare", 0),
    "ears/acre": _times(1 / _HECTARES_IN_ACRE, "ears per hectare", 0),
    "lb/100ft": _times(_KILOGRAMS * _ROW, "kg from 10 m of row", 1),
    "lb/10ft": _times(_KILOGRAMS * _ROW * 10, "kg from 10 m of row", 1),
    **{
        f"{what}/100ft": _times(_ROW, f"{what} from 10 m of row", 0)
        for what in ("bunches", "ears", "fruit", "heads", "stalks")
    },
    "ears/10ft": _times(_ROW * 10, "ears from 10 m of row", 0),
    "lb/plant": _times(_KILOGRAMS, "kg a plant", 2),
    "quart/plant": _times(_LITRES_IN_QUART, "litres a plant", 1),
    "lb/lb": _Unit("kg for each kg planted", lambda value: value),
}
"""What each printed unit becomes. Units of time, shares and pieces are read everywhere."""
CALLED: Mapping[str, str] = {
    "plants per sqft": "plants per square metre",
    "yield per sqft": "yield per square metre of row garden",
}
"""Names of facts that hold a unit."""
_NUMBER = r"(?:[0-9]+ )?[0-9]+/[0-9]+|[0-9]+(?:\.[0-9]+)?"
"""A number in words: whole, with decimals, or with a fraction such as 1/4 and 1 1/2."""
_PRINTED = re.compile(
    rf"(?<![0-9./])(?P<low>{_NUMBER})(?: to (?P<high>{_NUMBER}))?"
    r"(?P<gap>[ -])(?P<unit>inch(?:es)?|in|feet|foot|ft|lb|pounds?|oz|ounces?|quarts?|°F)\b(?!-)"
)
_BARE = re.compile(rf"^Middle of (?P<low>{_NUMBER}) to (?P<high>{_NUMBER})(?=[,;.])")
"""A range at the head of a note that says no unit: it is in that of its figure."""
_WEIGHTS = {"lb": _KILOGRAMS, "pound": _KILOGRAMS, "oz": _KILOGRAMS / 16, "ounce": _KILOGRAMS / 16}
_IN_WORDS = {
    "nights in the high 20s °F": "nights of about −3 °C",
    "one-foot square": "square of 30 cm",
    "square foot": "square of 30 cm",
    "to a whole inch": "to a whole inch, 2.54 cm",
    "half an inch": "half an inch, 1.3 cm",
}


def as_read(showing: Showing, crop: Crop) -> Crop:
    """Return a crop with every figure in the units its garden reads."""
    if not showing.metric:
        return crop
    return replace(
        crop,
        figures=tuple(_figure(one) for one in crop.figures),
        chosen=tuple(_figure(one) for one in crop.chosen),
    )


def _figure(one: Figure) -> Figure:
    unit = UNITS.get(one.unit)
    if unit is None or one.low is None or one.high is None:
        return replace(one, text=in_metric(one.text), of=in_metric(one.of), note=in_metric(one.note))
    return replace(
        one,
        unit=unit.name,
        low=unit.value(one.low),
        high=unit.value(one.high),
        text=in_metric(one.text),
        of=in_metric(one.of),
        note=in_metric(_bare_range(one.note, unit)),
    )


def _bare_range(note: str, unit: _Unit) -> str:
    """Return a note with the range at its head in the unit that its figure becomes."""
    found = _BARE.match(note)
    if found is None:
        return note
    low, high = (plain(unit.value(_number(found[end])), 2) for end in ("low", "high"))
    return f"Middle of {low} to {high} {unit.name}{note[found.end() :]}"


def in_metric(text: str) -> str:
    """Return words with the lengths and temperatures in them converted."""
    for printed, read in _IN_WORDS.items():
        text = text.replace(printed, read)
    return _PRINTED.sub(_converted, text)


def _converted(found: re.Match[str]) -> str:
    unit = found["unit"]
    ends = [_number(end) for end in (found["low"], found["high"]) if end]
    if unit == "°F":
        return f"{' to '.join(_plain(_warmth(end)) for end in ends)} °C"
    weight = next((size for name, size in _WEIGHTS.items() if unit.startswith(name)), None)
    if weight is not None:
        return f"{' to '.join(plain(end * weight, 2) for end in ends)}{found['gap']}kg"
    if unit.startswith("quart"):
        return f"{' to '.join(_plain(Fraction(rounded(end * _LITRES_IN_QUART, 1))) for end in ends)} litres"
    inches = [end * 12 if unit in ("feet", "foot", "ft") else end for end in ends]
    if max(inches) * _CENTIMETRES >= 100:
        metres = [Length.of(end, INCH).within(METRE) for end in inches]
        return f"{' to '.join(_plain(Fraction(rounded(one, 1))) for one in metres)}{found['gap']}m"
    return f"{' to '.join(_plain(_length(end)) for end in inches)}{found['gap']}cm"


def _number(words: str) -> Fraction:
    """Return a number such as 3, 1.5, 1/4 or 1 1/2."""
    return sum((Fraction(part) for part in words.split()), Fraction())


def _plain(value: Fraction) -> str:
    text = f"{abs(value).numerator}" if value.denominator == 1 else rounded(abs(value), 1)
    return f"−{text}" if value < 0 else text
