"""The list of seeds and plants of a season: what stands where in it."""

from __future__ import annotations

from pathlib import Path

from tests.pages.gardens import html_of, written

GARDEN = "name: A garden\nbeds:\n  - {name: b, length: 4 squares, width: 1 square}\n"
OWN = """\
- {new: runner bean, kind: runner, family: Fabaceae, habit: climbing, start: sown, spacing: 6 in}
"""
PLAN = """\
- {crop: runner bean, squares: A1, sow: 2026-06-01}
- {crop: sweet-corn, squares: B1, sow: 2026-06-01}
- {crop: radish, squares: C1, sow: 2026-06-01}
- {crop: beet, squares: D1, sow: 2026-06-01}
"""


def test_crops_stand_where_their_names_are_looked_for(tmp_path: Path) -> None:
    """Fails where sweet corn, shown as "corn, sweet", stands among what begins with S."""
    texts = {"garden.yaml": GARDEN, "crops.yaml": OWN, "2026/plan.yaml": PLAN}
    page = html_of(written(tmp_path, texts))["2026/seeds/index.html"]
    names = [one.get_text(strip=True) for one in page.select("#crops tbody tr > :first-child")]
    assert names == ["beans, runner", "beets", "corn, sweet", "radishes"]
