"""How wide words run, held against a font's own measures."""

from __future__ import annotations

import pytest
from PIL import ImageFont

from tallybed.drawing.base.lettering import clipped, every_that_fits, width_of
from tests import tools

FONT = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"
SAMPLES = (
    "The long bed",
    "Sp → 22",
    "May 2026, as recorded to 31 May",
    "WS1",
    "path 2 ft 6 in",
    "Ti 6 → 10 ×",
    "okra",
)


@pytest.mark.parametrize("words", SAMPLES)
def test_room_is_counted_as_wide_as_a_wide_font_runs(words: str) -> None:
    """DejaVu Sans is among the widest common sans-serifs; text set in it must fit its box."""
    real = ImageFont.truetype(str(tools.font(FONT)), 1000).getlength(words) / 1000
    assert real <= width_of(words, 1) * 1.02
    assert width_of(words, 1) <= real * 1.2, "and no room is wasted"


@pytest.mark.parametrize(
    ("widest", "step", "every"), [(10, 10, 1), (10.1, 10, 2), (10, 4, 5), (0, 1, 1), (99, 1, 100)]
)
def test_names_stand_as_close_as_they_have_room(widest: float, step: float, every: int) -> None:
    assert every_that_fits(widest, step) == every


def test_words_that_fit_are_kept_whole() -> None:
    assert clipped("spinach", 10, 100) == "spinach"


@pytest.mark.parametrize("room", [0, 5, 20, 40])
def test_words_that_do_not_fit_are_cut_with_an_ellipsis(room: float) -> None:
    cut = clipped("a very long name of a crop", 10, room)
    assert cut.endswith("…")
    assert width_of(cut, 10) <= max(room, width_of("a…", 10))
