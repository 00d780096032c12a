"""Texts that are set as they are read have one kind of quotes."""

from __future__ import annotations

import pytest

from tallybed.reading.text.texts import curled, region, title


@pytest.mark.parametrize(
    ("typed", "set_as"),
    [
        ("Why don't you put the peas in the same place?", "Why don’t you put the peas in the same place?"),
        ('somebody said "well, put the others in", so', "somebody said “well, put the others in”, so"),
        ("the children's room, N.'s doing", "the children’s room, N.’s doing"),
        ('("so")', "(“so”)"),
        ("boards of 6' by 4\"", "boards of 6' by 4\""),
        ("the volunteers’ “supper”", "the volunteers’ “supper”"),
        ("", ""),
    ],
)
def test_straight_quotes_become_curly_and_measures_stay(typed: str, set_as: str) -> None:
    assert curled(typed) == set_as
    assert curled(set_as) == set_as


def test_a_title_is_one_line_with_curly_quotes() -> None:
    assert title("  The  lone survivor of April's freeze ") == "The lone survivor of April’s freeze"


@pytest.mark.parametrize(
    ("language", "country"),
    [
        ("en", ""),
        ("en-NZ", "NZ"),
        ("EN-nz", "NZ"),
        ("en-UK", "GB"),
        ("en-Latn-AU", "AU"),
        ("en-US", "US"),
        ("en-scotland", ""),
        ("mi-NZ", ""),
        ("fr-CA", ""),
    ],
)
def test_a_country_is_that_of_a_code_of_english(language: str, country: str) -> None:
    """Codes are read by their form in BCP 47: a script has four letters, a country two."""
    assert region(language) == country
