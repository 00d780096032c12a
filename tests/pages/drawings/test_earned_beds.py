"""The beds drawn by what each square gave: the figures in their squares."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.pages.gardens import folder, pages_of, parsed, written


@pytest.mark.parametrize(
    ("units", "weight", "told"),
    [
        ("kilograms", "160 g", "A1 0.04, B1 0.04, A2 0.04, B2 0.04."),
        ("kilograms", "16 g", "A1 under 0.01, B1 under 0.01, A2 under 0.01, B2 under 0.01."),
        ("pounds", "2 lb", "A1 0.5, B1 0.5, A2 0.5, B2 0.5."),
    ],
)
def test_a_square_that_gave_little_is_not_told_as_nothing(
    tmp_path: Path, units: str, weight: str, told: str
) -> None:
    root = folder(tmp_path)
    garden = root / "content" / "garden.yaml"
    garden.write_text(garden.read_text().replace("units: pounds", f"units: {units}"))
    row = f"- {{date: 2026-05-10, crop: spinach, squares: front/A1:B2, weight: {weight}}}\n"
    page = parsed(pages_of(written(root, {"2026/harvest.yaml": row}))["2026/tally/index.html"])
    assert told in [one.get_text() for one in page.select("svg desc")]
