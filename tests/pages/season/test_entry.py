"""The small maps of a visit: what its lines touched, also where they tell a tag alone."""

from __future__ import annotations

import pytest
from bs4 import BeautifulSoup

from tests.pages.gardens import GARDEN, html_of, written

PLAN = """\
- {crop: carrot, tag: CA1, squares: "front/A1:B1", sow: May 1, until: Aug 20}
- {crop: kale, tag: KA1, squares: front/C1, set out: May 20, until: Oct 20}
"""
VISIT = "---\ntitle: V\ndate: 2026-{day}\ndone:\n  - {done}\n---\nV.\n"
LINES = {
    "04-20": "{sow indoors: kale, tag: KA1}",
    "05-01": '{sow: carrot, squares: "front/A1:B1", tag: CA1}',
    "05-21": "{set out: kale, tag: KA1}",
    "06-01": "{thin: carrot, tag: CA1}",
    "07-01": "{clear: carrot, squares: front/A1, tag: CA1}",
    "07-02": "{weed: carrot}",
    "07-09": "{water: carrot, tag: CA1}",
    "08-20": "{clear: carrot, tag: CA1}",
}


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, BeautifulSoup]:
    files = {f"2026/log/2026-{day}-v.md": VISIT.format(day=day, done=done) for day, done in LINES.items()}
    return html_of(
        written(tmp_path_factory.mktemp("garden"), {"garden.yaml": GARDEN, "2026/plan.yaml": PLAN, **files})
    )


@pytest.mark.parametrize(
    ("day", "touched"),
    [
        ("04-20", None),  # indoors
        ("05-01", "A1:B1"),
        ("05-21", "C1"),
        ("06-01", "A1:B1"),
        ("07-01", "A1"),
        ("07-02", None),  # which carrots, nobody says
        ("07-09", "B1"),  # A1 is cleared
        ("08-20", "B1"),
    ],
)
def test_a_line_with_a_tag_alone_touches_the_squares_that_its_planting_held(
    pages: dict[str, BeautifulSoup], day: str, touched: str | None
) -> None:
    titles = pages[f"2026/log/{day}-v/index.html"].select(".touched svg title")
    assert [one.get_text().rpartition("touched ")[2] for one in titles[:1]] == ([touched] if touched else [])
