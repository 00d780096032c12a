"""What a bed is called within a sentence."""

from __future__ import annotations

import pytest

from tallybed.garden.squares import Bed


@pytest.mark.parametrize(
    ("title", "called"),
    [
        ("The long bed", "the long bed"),
        ("Our bed by the gate", "our bed by the gate"),
        ("L-Beet am Zaun", "L-Beet am Zaun"),
        ("Wren’s corner", "Wren’s corner"),
        ("The", "The"),
        ("long", "bed long"),
        ("", "bed long"),
    ],
)
def test_only_a_small_word_at_the_beginning_loses_its_capital(title: str, called: str) -> None:
    assert Bed(name="long", title=title, columns=2, rows=1).called == called
