"""Air temperatures told of kinds of product, held against the one noted. The label stands above them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from tallybed.garden.records.log import Event
from tallybed.garden.records.weather import WeatherDay


@dataclass(frozen=True, slots=True, kw_only=True)
class SprayLimits:
    """Products of one kind, known by words of the line, and the temperatures told of them, in °F."""

    kind: str
    words: tuple[str, ...]
    highest: Fraction
    lowest: Fraction | None = None
    printed_in: str = ""
    """The publications; empty where the figure is from memory."""


LIMITS = (
    SprayLimits(
        kind="dormant oil",
        words=("dormant oil",),
        highest=Fraction(100),
        lowest=Fraction(40),
        printed_in="Utah State University Extension, 2021; University of Delaware, 2008",
    ),
    SprayLimits(
        kind="oil",
        words=("oil", "azadirachtin"),
        highest=Fraction(100),
        lowest=Fraction(32),
        printed_in="University of Delaware Cooperative Extension, 2008",
    ),
    SprayLimits(
        kind="soap",
        words=("soap", "salts of fatty acids"),
        highest=Fraction(90),
    ),
)
"""By whole words of the line or of the active ingredient, the first that fits: a soil drench is no oil."""


def outside_limits(event: Event, sky: WeatherDay | None = None) -> str:
    """Return how the temperature noted lies outside what is printed or usual; empty where it does not.

    Where none was noted, the day's own is held against it: its highest and its lowest, of ``sky``.
    """
    told = event.treatment
    if told is None:
        return ""
    named = f"{event.subject}; {told.product}".casefold()
    limits = next((one for one in LIMITS if _names(named, one.words)), None)
    if limits is None:
        return ""
    noted = told.temperature is not None
    high = told.temperature if noted or sky is None else sky.high
    low = told.temperature if noted or sky is None else sky.low
    if high is not None and high > limits.highest:
        found, side = high, f"above the {degrees(limits.highest)}"
    elif limits.lowest is not None and low is not None and low < limits.lowest:
        found, side = low, f"below the {degrees(limits.lowest)}"
    else:
        return ""
    rests = "printed" if limits.printed_in else "usual"
    source = limits.printed_in or "from memory, no source"
    words = f"{degrees(found)} was noted" if noted else f"the day came to {degrees(found)}"
    return f"{words}, {side} {rests} for {limits.kind} ({source})"


def _names(text: str, words: tuple[str, ...]) -> bool:
    """Return whether a text in small letters has one of these words, or its plural."""
    return any(re.search(rf"\b{word}s?\b", text) for word in words)


def degrees(value: Fraction) -> str:
    """Return degrees Fahrenheit in words, to a tenth, and in whole degrees Celsius."""
    celsius = round((value - 32) * 5 / 9)
    fahrenheit = f"{float(value):.1f}".removesuffix(".0")
    return f"{fahrenheit} °F ({celsius} °C)".replace("-", "−")
