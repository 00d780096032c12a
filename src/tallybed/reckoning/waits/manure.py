"""Raw manure: how long before a crop may be picked, by whether the part that is eaten touches soil.

7 CFR 205.203(c)(1): raw animal manure is worked into the soil at least 120 days before
harvest where the edible part touches soil or soil particles, 90 days where it does not. The rule
is of manure put on land, in whatever way: tea that was watered with and litter laid on as a cover
count like what was dug in. The days count from the line, for nobody knows when a cover was worked in.
Compost with manure that does not meet (c)(2) counts as raw: 131 to 170 °F, for 3 days in a
vessel or static pile, for 15 days with five turnings in a windrow.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import timedelta
from fractions import Fraction

from tallybed.garden.crops import Crop
from tallybed.garden.records.log import SPREADING, Event
from tallybed.garden.records.treatment import Manure, names_manure

TOUCHES_SOIL = timedelta(days=120)
OFF_THE_SOIL = timedelta(days=90)
CLEAR_OF_SOIL = frozenset(
    {
        *("bean-pole", "eggplant", "okra", "pea-garden", "pea-snap", "pepper-sweet", "sweet-corn"),
        *("tomato-determinate", "tomato-indeterminate"),
    }
)
"""Library crops whose edible part is held off the soil where they are staked as usual. Common practice, no
source; every other crop, and every crop of the garden's own, is taken to touch soil: the longer wait."""
_COMPOSTS = ("compost", "humus", "worm cast")
_NUMBER = r"[0-9]{1,4}(?:\.[0-9]{1,2})?"
_SIGN = r"\s*(?:°|º|˚|degrees?\b|deg\b\.?)"
_SCALE = r"\s*(f|c)(?:ahrenheit|elsius)?\b"
_FROM = rf"(?:({_NUMBER})(?:{_SIGN})?\s*[fc]?\s*(?:to|and|-|–)\s*)?"
_TEMPERATURE = re.compile(rf"{_FROM}({_NUMBER})(?:(?:{_SIGN})?{_SCALE}|{_SIGN})")
_BARE = re.compile(rf"\bat\s+{_FROM}({_NUMBER})(?![\w.])(?!{_SIGN}|\s*[fc]\b|[ -]*(?:days?|weeks?|times)\b)")
"""Degrees of which only the word before them says that they are some: ``3 days at 140``."""
_DAYS = re.compile(rf"({_NUMBER})[ -]*(day|week)s?\b")
_TURNINGS = re.compile(r"([0-9]{1,3}) *(?:times|turn)|turned *([0-9]{1,3})\b(?! *(?:days|f|c|°))")
_HOT = {"f": (131, 170), "c": (55, 77)}
"""Degrees between which 7 CFR 205.203(c)(2) has the heat; in Celsius the same in whole degrees."""
_UNSAID = "f"
"""The scale of degrees that name none: 60 °F is a cool heap, and 140 °C is none."""
_STILL_DAYS, _TURNED_DAYS, _LEAST_TURNINGS = 3, 15, 5


def manure_wait(crop: Crop | None) -> timedelta:
    """Return the wait for a crop; the longer one where it is not known."""
    return OFF_THE_SOIL if crop and not crop.own and crop.slug in CLEAR_OF_SOIL else TOUCHES_SOIL


def is_raw(event: Event) -> bool:
    """Return whether a line put something down that counts as raw manure.

    Aged manure does, and compost with manure whose heat was not recorded. Where the line does not say,
    its words decide: one that names manure counts as raw.
    """
    if event.verb not in SPREADING:
        return False
    if event.manure is Manure.COMPOSTED:
        return not heat_recorded(event.heat)
    if event.manure is None:
        return names_manure(_words(event))
    return event.manure is Manure.RAW


def heat_recorded(words: str) -> bool:
    """Return whether words record heat that makes compost of manure.

    Words without degrees, such as ``unknown`` or ``3 days``, record none, nor do those that do not say for
    how many days; nor do those whose own degrees, days or turnings are outside the rule.
    """
    plain = words.casefold()
    told = list(_degrees(plain))
    if not told or not all(_is_hot(*each) for each in told):
        return False
    turned = ("windrow" in plain or "turn" in plain) and "vessel" not in plain and "static" not in plain
    days = (Fraction(each) * (7 if unit == "week" else 1) for each, unit in _DAYS.findall(plain))
    if max(days, default=0) < (_TURNED_DAYS if turned else _STILL_DAYS):
        return False
    turnings = [int(each) for pair in _TURNINGS.findall(plain) for each in pair if each]
    return not turned or not turnings or max(turnings) >= _LEAST_TURNINGS


def _degrees(words: str) -> Iterator[tuple[Fraction, str]]:
    """Yield each temperature in words in small letters with the letter of its scale, a range as two."""
    for match in (*_TEMPERATURE.finditer(words), *_BARE.finditer(words)):
        low, high, *scale = match.groups(default="")
        yield from ((Fraction(each), "".join(scale)) for each in (low, high) if each)


def _is_hot(degrees: Fraction, scale: str) -> bool:
    """Return whether a temperature is within the rule."""
    low, high = _HOT[scale or _UNSAID]
    return low <= degrees <= high


def is_unsaid(event: Event) -> bool:
    """Return whether a line put compost down and does not say what of animals is in it: no wait starts."""
    return event.verb in SPREADING and event.manure is None and not is_raw(event) and _names_compost(event)


def _names_compost(event: Event) -> bool:
    """Return whether a line names compost by one of its words."""
    words = _words(event).casefold()
    return any(one in words for one in _COMPOSTS)


def _words(event: Event) -> str:
    """Return what a line says was put down, and how much of what."""
    return f"{event.subject} {event.amount}"
