"""Season beside season: what stands below a figure."""

from __future__ import annotations

from pathlib import Path

from tests.pages.gardens import folder, html_of, only, written


def test_one_line_is_told_as_one(tmp_path: Path) -> None:
    line = "{water: bed, squares: front, amount: 10 gal, minutes: 5}"
    log = f"---\ntitle: In\ndate: 2025-05-10\ndone: [{line}]\n---\n"
    row = "- {date: 2025-06-10, crop: carrot, squares: back/A1, weight: 1 lb}\n"
    files = {"2025/log/2025-05-10-in.md": log, "2025/harvest.yaml": row}
    page = html_of(written(folder(tmp_path), files))["2026/rows/index.html"]
    words = " ".join(only(page, "main").get_text(" ").split())
    assert words.count("1 of 1 line ") >= 2
    assert "1 of 1 lines" not in words
