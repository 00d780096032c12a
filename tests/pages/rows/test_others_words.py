"""Measures in the words about other gardens, as gardens in either units read them."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest

from tallybed.garden.units import Showing
from tallybed.pages.rows.others_words import as_read
from tallybed.reading.folder.benchmarks import load_benchmarks

FEET, METRES = Showing(), Showing(metric=True)
THEIRS = {
    METRES: re.compile(r"[0-9] (?:sq ft|ft|lb)\b|square (?:foot|feet)"),
    FEET: re.compile(r"[0-9] (?:m²|m|kg)\b|square met(?:re|er)"),
}
"""Units of the others."""


@pytest.mark.parametrize(
    ("showing", "printed", "shown"),
    [  # by hand with the factors of NIST Handbook 44, appendix C: 0.3048 m, 0.45359237 kg
        (METRES, "garden of about 365 sq ft", "garden of about 33.9 m²"),  # 33.91
        (METRES, "325 lb over 365 sq ft", "147 kg over 33.9 m²"),  # 147.4
        (METRES, "1.50 lb per sq ft, which", "7.32 kg per m², which"),  # 7.324
        (METRES, "at about 7,200 ft", "at about 2,190 m"),  # 2194.6
        (METRES, "0.52 dollars a square foot", "5.6 dollars a square metre"),  # 5.597
        (METRES, "plot of 250 square metres", "plot of 250 square metres"),
        (FEET, "plot of 250 square metres", "plot of 2,690 sq ft"),  # 2691
        (FEET, "garden of 77.4 square metres", "garden of 833 sq ft"),  # 833.1
        (FEET, "0.08 to 5.18 kg per square metre", "0.02 to 1.06 lb per sq ft"),  # 0.0164, 1.061
        (FEET, "325 lb over 365 sq ft", "325 lb over 365 sq ft"),
    ],
)
def test_measures_in_words(showing: Showing, printed: str, shown: str) -> None:
    one = load_benchmarks().figures[0]
    told = as_read(showing, replace(one, where=printed, area=printed, note=printed))
    assert {told.where, told.area, told.note} == {shown}


@pytest.mark.parametrize("showing", [FEET, METRES])
def test_no_figure_of_the_library_speaks_in_the_other_units(showing: Showing) -> None:
    for one in load_benchmarks().figures:
        told = as_read(showing, one)
        for words in (told.where, told.what, told.when, told.number, told.area, told.note):
            assert not THEIRS[showing].search(words), words
