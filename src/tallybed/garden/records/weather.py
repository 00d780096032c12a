"""What the sky did, day by day: temperatures and rain, as a file beside the season's papers tells them."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from fractions import Fraction

from tallybed.garden.findings import NOWHERE, Place
from tallybed.garden.units import Length, rounded

FREEZING = 32
"""Degrees Fahrenheit at which water freezes, and at or below which a day counts as one with a freeze."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherDay:
    """The weather of one day. Temperatures in degrees Fahrenheit, exact; None where nobody measured."""

    day: date
    low: Fraction | None = None
    high: Fraction | None = None
    rain: Length | None = None
    """Rain and melted snow; nothing where it was too little to measure."""
    place: Place = field(default=NOWHERE, compare=False, repr=False)

    @property
    def froze(self) -> bool:
        """Whether it is known to have frozen."""
        return self.low is not None and self.low <= FREEZING


@dataclass(frozen=True, slots=True, kw_only=True)
class Weather:
    """The weather of a season."""

    station: str = ""
    """The station that measured it, as the file names it; empty in a file of the garden's own."""
    days: tuple[WeatherDay, ...] = ()
    """Those within the season of which anything was measured, in order, each day once."""


def celsius(fahrenheit: Fraction) -> Fraction:
    """Return a temperature in degrees Celsius (NIST Special Publication 811, appendix B.8)."""
    return (fahrenheit - FREEZING) * Fraction(5, 9)


def fahrenheit(celsius: Fraction) -> Fraction:
    """Return a temperature in degrees Fahrenheit (the same)."""
    return celsius * Fraction(9, 5) + FREEZING


def degrees_number(fahrenheit: Fraction, *, metric: bool) -> str:
    """Return a temperature without its unit: whole degrees Fahrenheit, or Celsius to a tenth."""
    words = rounded(celsius(fahrenheit), 1) if metric else rounded(fahrenheit, 0)
    return words.replace("-", "−")


def degrees_words(fahrenheit: Fraction, *, metric: bool) -> str:
    """Return ``27 °F``, ``−2.8 °C``."""
    return f"{degrees_number(fahrenheit, metric=metric)} {'°C' if metric else '°F'}"
