"""What was found in a bed's soil beside printed figures, as the page of cautions tells it.

Levels of lead are those of the publications named in ``pages/care/ground.py``: 80 to 400 mg/kg.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.pages.gardens import folder, html_of, only, written


@pytest.mark.parametrize(
    ("found", "told", "open_"),
    [
        ("31", "Lead of 31 mg/kg is below each of six published levels, the lowest of them 80 mg/kg.", False),
        ("80", "Lead of 80 mg/kg reaches one of six published levels.", True),
        ("310", "Lead of 310 mg/kg reaches five of six published levels.", True),
        ("<10", "Lead of less than 10 mg/kg is below each of six", False),
        ("<250", "", True),
    ],
)
def test_levels_of_lead_are_folded_only_where_the_soil_is_below_all(
    found: str, told: str, open_: bool, tmp_path: Path
) -> None:
    """Fails where a soil that reaches a published level has it hidden in a fold."""
    root = written(
        folder(tmp_path), {"soil.yaml": f'- {{date: 2026-04-02, bed: front, lead: "{found} mg/kg"}}\n'}
    )
    page = html_of(root)["cautions/index.html"]
    assert told in only(page, "main").get_text(" ")
    assert (only(page, "table#lead-front").find_parent("details") is None) is open_
    assert "reaches" in told or "reaches" not in only(page, "main").get_text()


@pytest.mark.parametrize(("ph", "outside"), [("6.5", False), ("4.1", True), ("8.9", True)])
def test_crops_whose_range_a_ph_is_outside_of_are_named(ph: str, outside: bool, tmp_path: Path) -> None:
    """Fails where the fold hides that a bed is too sour or too sweet for what is meant to grow in it."""
    root = written(folder(tmp_path), {"soil.yaml": f"- {{date: 2026-04-02, bed: front, ph: {ph}}}\n"})
    page = html_of(root)["cautions/index.html"]
    rows = only(page, "table#ph-front").select("tbody tr")
    fold = only(page, "table#ph-front").find_parent("details")
    assert fold is not None
    answer = fold.find_previous("p")
    assert answer is not None
    assert answer.get_text().startswith(f"pH {ph} is ")
    for row in rows:
        word = row.select("td")[1].get_text()
        assert (word != "within") is outside
        assert (only(row, "th").get_text() in answer.get_text()) is outside
