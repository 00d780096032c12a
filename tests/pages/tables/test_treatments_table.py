"""What was used on the beds, as the page of cautions tells it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.pages.gardens import folder, html_of, only, written

LINE = (
    "{treat: spinosad, product: spinosad, squares: front, wait: 1 day, re-entry: 4 hours, at: 9:00 am, "
    "wind: calm, temperature: 14 C}"
)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        (LINE, "wind: calm; temperature: 57.2 °F (14 °C)"),
        # outside what is printed: told with that, and once
        (LINE.replace("spinosad", "soap").replace("14 C", "95 F"), "wind: calm; 95 °F (35 °C) was noted"),
    ],
)
def test_wind_and_temperature_are_told(line: str, told: str, tmp_path: Path) -> None:
    log = f"---\ntitle: Sprayed\ndate: 2026-05-18\ndone:\n  - {line}\n---\n"
    root = written(folder(tmp_path), {"2026/log/2026-05-18-sprayed.md": log})
    page = html_of(root)["cautions/index.html"]
    assert told in " ".join(only(page, "main").get_text(" ").split())
