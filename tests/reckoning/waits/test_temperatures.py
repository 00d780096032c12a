"""Temperatures told of kinds of product, each at its bound, and the words that a kind is known by.

The figures are those of the publications named in ``LIMITS``, that for soap from memory; the lines are
invented.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from tallybed.garden.records.log import Event, Verb
from tallybed.garden.records.treatment import Treatment
from tallybed.garden.records.weather import WeatherDay
from tallybed.reckoning.waits.temperatures import outside_limits

LINES = (
    # subject, active ingredient, °F noted, what is told of the side
    ("horticultural oil", "", 100, ""),
    ("horticultural oil", "", 101, "above the 100 °F (38 °C) printed for oil"),
    ("horticultural oil", "", 32, ""),
    ("horticultural oil", "", 31, "below the 32 °F (0 °C) printed for oil"),
    ("Dormant Oil", "", 40, ""),
    ("Dormant Oil", "", 100, ""),
    ("Dormant Oil", "", 101, "above the 100 °F (38 °C) printed for dormant oil"),
    ("dormant oils", "", 39, "below the 40 °F (4 °C) printed for dormant oil"),
    ("oil", "", -10, "−10 °F (−23 °C) was noted, below the 32 °F (0 °C)"),
    ("soap", "", 90, ""),
    ("soap", "", 91, "above the 90 °F (32 °C) usual for soap (from memory, no source)"),
    ("soap", "", -10, ""),
    # The label's own word for it counts as well as the gardener's.
    ("our spray", "azadirachtin", 31, "below the 32 °F (0 °C) printed for oil"),
    (
        "our spray",
        "potassium salts of fatty acids",
        91,
        "above the 90 °F (32 °C) usual for soap (from memory, no source)",
    ),
    # A word within a word is none.
    ("soil drench", "", 31, ""),
    ("foil strips", "", 31, ""),
    ("spinosad", "spinosad", 120, ""),
)


@pytest.mark.parametrize(("subject", "product", "noted", "told"), LINES)
def test_a_temperature_is_told_outside_the_bounds_alone(
    subject: str, product: str, noted: int, told: str
) -> None:
    treatment = Treatment(product=product, temperature=Fraction(noted))
    event = Event(day=date(2024, 6, 10), verb=Verb.TREAT, subject=subject, treatment=treatment)
    found = outside_limits(event)
    assert (told in found) if told else found == ""


def test_nothing_is_told_where_no_temperature_was_noted() -> None:
    for treatment in (None, Treatment(product="soap")):
        event = Event(day=date(2024, 6, 10), verb=Verb.TREAT, subject="oil", treatment=treatment)
        assert outside_limits(event) == ""


@pytest.mark.parametrize(
    ("low", "high", "noted", "told"),
    [
        (40, 101, None, "the day came to 101 °F (38 °C), above the 100 °F (38 °C) printed for oil"),
        (31, 60, None, "the day came to 31 °F (−1 °C), below the 32 °F (0 °C) printed for oil"),
        (32, 100, None, ""),
        (None, None, None, ""),
        # What was noted at the hour outranks the day.
        (31, 101, 60, ""),
    ],
)
def test_the_day_speaks_where_nobody_noted_a_temperature(
    low: int | None, high: int | None, noted: int | None, told: str
) -> None:
    event = Event(
        day=date(2024, 6, 10),
        verb=Verb.TREAT,
        subject="oil",
        treatment=Treatment(temperature=None if noted is None else Fraction(noted)),
    )
    sky = WeatherDay(
        day=event.day,
        low=None if low is None else Fraction(low),
        high=None if high is None else Fraction(high),
    )
    found = outside_limits(event, sky)
    assert (told in found) if told else found == ""
