"""The contrast that other tests rely on, against the standard's own examples and a second implementation."""

from __future__ import annotations

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from tests.colours import blended, contrast

COLOURS = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#ffffff", 21.0),  # the definition: "can range from 1 to 21"
        ("#ffffff", "#ffffff", 1.0),
        ("#0000ff", "#ffffff", 8.59),  # this and the next: Manning liveBook, Math for Web Design
        ("#0000ff", "#ff0000", 2.15),
        ("#777777", "#ffffff", 4.48),  # fails 4.5 on white (from memory; npm wcag-contrast 3.0.0 agrees)
        ("#767676", "#ffffff", 4.54),  # the lightest grey that passes 4.5 on white (likewise)
        ("#949494", "#ffffff", 3.03),  # and 3 (likewise)
    ],
)
def test_contrast_is_as_published(one: str, other: str, ratio: float) -> None:
    assert contrast(one, other) == pytest.approx(ratio, abs=0.006)
    assert contrast(other, one) == contrast(one, other)


@given(one=COLOURS, other=COLOURS)
def test_contrast_is_what_another_library_says(one: str, other: str) -> None:
    """Within what its unrounded weights of red, green and blue make of the standard's four decimals."""
    assert contrast(one, other) == pytest.approx(Color(one).contrast(other, method="wcag21"), rel=3e-4)


@given(over=COLOURS, under=COLOURS, share=st.floats(0, 1))
def test_what_is_seen_through_a_colour_lies_between_the_two(over: str, under: str, share: float) -> None:
    seen = Color(blended(over, under, share))
    mixed = Color(under).mix(over, share, space="srgb")
    assert seen.coords() == pytest.approx(mixed.coords(), abs=0.5 / 255 + 1e-9)
