"""The tally's cuts, from a small garden's ledger."""

from __future__ import annotations

from pathlib import Path

from tests.pages.gardens import folder, html_of, only, written


def test_a_square_of_which_nothing_was_weighed_was_not_weighed_by_itself(tmp_path: Path) -> None:
    ledger = (
        "- {date: 2026-07-20, crop: carrot, squares: back/A1, weight: 1 lb}\n"
        "- {date: 2026-07-21, crop: carrot, squares: back/B1, weight: not weighed}\n"
    )
    page = html_of(written(folder(tmp_path), {"2026/harvest.yaml": ledger}))["2026/tally/index.html"]
    words = " ".join(only(page, "main").get_text(" ").split())
    assert "Weighed square by square: A1 of the back bed." in words
