"""Who holds a bed's squares in a month, as its page has it in a table."""

from __future__ import annotations

from pathlib import Path

from tests.pages.gardens import html_of, written
from tests.small_garden import GARDEN


def test_a_wide_crop_is_said_to_be_rooted_in_its_own_squares_alone(tmp_path: Path) -> None:
    """Fails where the squares of its neighbours are told as those in which a squash has its roots."""
    plan = "- {crop: squash-winter, tag: WS1, squares: 'back/A1:B2', sow: May 20, until: Sep 20, plants: 1}\n"
    plan += "- {crop: carrot, tag: CA1, squares: 'back/C1', sow: Apr 20, until: Sep 20, plants: 16}\n"
    files = {"garden.yaml": GARDEN, "2026/plan.yaml": plan}
    for day, done in (
        ("08-10", "{clear: squash-winter, tag: WS1, squares: 'back/A2:B2'}"),
        ("09-01", "{weed: bed}"),
    ):
        files[f"2026/log/2026-{day}-x.md"] = f"---\ntitle: X\ndate: 2026-{day}\ndone: [{done}]\n---\n"
    pages = html_of(written(tmp_path, files))
    page = pages["2026/beds/back/08/index.html"]
    told = [
        [cell.get_text(" ", strip=True) for cell in row.select("th, td")]
        for row in page.select("#holders tbody tr")
    ]
    rooted = [row for row in told if any("rooted in" in cell for cell in row)]
    assert rooted, told
    assert all("C1" not in cell for row in rooted for cell in row)
