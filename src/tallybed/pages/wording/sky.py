"""Temperatures and rain in figures and in words to be said aloud, in the garden's units."""

from __future__ import annotations

from fractions import Fraction

from tallybed.garden.records import weather
from tallybed.garden.units import INCH, MILLIMETRE, Length, Showing, plain, rounded
from tallybed.pages.wording.sentences import counted, sentence
from tallybed.reckoning.weather import Spell


def degrees_shown(showing: Showing, fahrenheit: Fraction) -> Fraction:
    """Return a temperature in the garden's unit, exact."""
    return weather.celsius(fahrenheit) if showing.metric else fahrenheit


def degrees_number(showing: Showing, fahrenheit: Fraction) -> str:
    """Return a temperature without its unit."""
    return weather.degrees_number(fahrenheit, metric=showing.metric)


def degrees(showing: Showing, fahrenheit: Fraction) -> str:
    """Return ``27 °F``, ``−2.8 °C``."""
    return weather.degrees_words(fahrenheit, metric=showing.metric)


def degrees_unit(showing: Showing) -> str:
    """Return the unit of temperatures."""
    return "°C" if showing.metric else "°F"


def rain_shown(showing: Showing, depth: Length) -> Fraction:
    """Return a depth of rain in the garden's unit, exact."""
    return depth.within(MILLIMETRE if showing.metric else INCH)


def rain_number(showing: Showing, depth: Length) -> str:
    """Return a depth of rain without its unit: hundredths of an inch, or whole millimetres."""
    return rounded(rain_shown(showing, depth), 0 if showing.metric else 2)


def rain_word(showing: Showing) -> str:
    """Return the unit of rain in full."""
    return "millimetres" if showing.metric else "inches"


def rain(showing: Showing, depth: Length) -> str:
    """Return ``0.85 in``, ``22 mm``."""
    return f"{rain_number(showing, depth)} {'mm' if showing.metric else 'in'}"


def said(showing: Showing, spell: Spell) -> str:
    """Return the weather of some days as a sentence to be said aloud; empty where nothing is known of it."""
    cold, hot, frozen = spell.coldest, spell.hottest, len(spell.freezes)
    warmth = ""
    if cold and cold.low is not None:
        low = degrees_number(showing, cold.low).replace("−", "minus ")
        warmth = f"it went down to {low} degrees"
        if frozen:
            warmth = f"it froze on {counted(frozen, 'night')}, down to {low} degrees"
        elif hot and hot.high is not None:
            warmth = f"it was between {low} and {degrees_number(showing, hot.high)} degrees"
    fallen = _fallen(showing, spell)
    return sentence(", and ".join(one for one in (warmth, fallen) if one))


def _fallen(showing: Showing, spell: Spell) -> str:
    """Return how much rain fell in some days; empty where nobody knows whether any did."""
    fallen = spell.rain
    if fallen is None or (not fallen and spell.without_rain):
        return ""
    number = plain(rain_shown(showing, fallen), 0 if showing.metric else 2)
    if number == "0":
        return "next to no rain fell" if fallen else "no rain fell"
    unit = "millimetre" if showing.metric else "inch"
    least = "at least " if spell.without_rain else ""
    many = unit if number == "1" else f"{unit}s" if showing.metric else "inches"
    return f"{least}{number} {many} of rain fell"
