"""Latitudes, longitudes and bearings as people type them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.reading.base.problems import Misread
from tallybed.reading.text.degrees import degrees


@pytest.mark.parametrize(
    ("typed", "angle"),
    {
        "39.6": Fraction("39.6"),
        "-83.1": Fraction("-83.1"),
        "−83.1": Fraction("-83.1"),
        "+12°": 12,
        "90": 90,
    }.items(),
)
def test_degrees_are_exact(typed: str, angle: Fraction) -> None:
    assert degrees("latitude", -90, 90)(typed) == angle


@pytest.mark.parametrize(
    ("what", "lowest", "highest", "typed", "meant"),
    [
        ("latitude", -90, 90, "34.2 S", "-34.2"),
        ("latitude", -90, 90, "57,2° N", "57.2"),
        ("longitude", -180, 180, "3.1W", "-3.1"),
        ("longitude", -180, 180, "14.4 east", "14.4"),
        ("latitude", -90, 90, "14.4 E", ""),
        ("bearing", 0, 360, "south", "180"),
        ("bearing", 0, 360, "NE", "45"),
        ("bearing", 0, 360, "north west", "315"),
        ("bearing", 0, 360, "S-E", "135"),
        ("bearing", 0, 360, "uphill", ""),
        ("latitude", -90, 90, "34.2 something", ""),
        ("latitude", -90, 90, "95 S", ""),
    ],
)
def test_a_side_of_the_world_leads_to_its_degrees(
    what: str, lowest: int, highest: int, typed: str, meant: str
) -> None:
    with pytest.raises(Misread) as misread:
        degrees(what, lowest, highest)(typed)
    assert misread.value.nearest == meant


@pytest.mark.parametrize("typed", ["91", "-90.0001", "39.6 N", "39° 36'", "", "nan", "inf", "1e1"])
def test_degrees_out_of_bounds_or_form_are_refused(typed: str) -> None:
    with pytest.raises(Misread):
        degrees("latitude", -90, 90)(typed)
