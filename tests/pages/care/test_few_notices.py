"""Many notices at the head of a page: told bed by bed, and nothing that is not so of each planting."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.pages.gardens import Parsed, html_of, only, written

CROPS = ("kale", "chard", "leek", "beet", "carrot", "spinach", "parsley", "celery")
GARDEN = """\
name: Corner
beds:
  - {name: front, title: The front bed, length: 8 squares, width: 1 square}
  - {name: back, title: The back bed, length: 2 squares, width: 1 square}
"""


def garden(root: Path, plantings: int) -> Parsed:
    """Return the pages of a garden whose front bed was sprayed as a whole, and one square of the back bed."""
    rows = [
        f"- {{crop: {crop}, squares: front/{'ABCDEFGH'[at]}1, set out: May 1}}\n"
        for at, crop in enumerate(CROPS)
    ]
    rows = [*rows[:plantings], "- {crop: basil, squares: back/A1, set out: May 1}\n"]
    return html_of(
        written(
            root,
            {
                "garden.yaml": GARDEN,
                "2026/plan.yaml": "".join(rows),
                "2026/log/2026-06-10-soap.md": (
                    "---\ntitle: Soap\ndate: 2026-06-10\ndone:\n"
                    "  - {treat: soap, product: soap, squares: front, wait: 7 days, re-entry: until dry}\n"
                    "  - {treat: soap, product: soap, squares: back/A1, wait: 3 days, re-entry: until dry}\n"
                    "---\nDone.\n"
                ),
            },
        )
    )


def told(pages: Parsed, path: str) -> list[str]:
    return [" ".join(one.get_text().split()) for one in only(pages[path], ".waiting").select("li")]


@pytest.mark.parametrize(
    "path", ["2026/index.html", "2026/beds/front/index.html", "sheets/tally-sheet/index.html"]
)
def test_many_plantings_of_one_bed_that_wait_alike_are_one_line(tmp_path: Path, path: str) -> None:
    found = told(garden(tmp_path, 8), path)
    together = [one for one in found if "what stands" in one]
    assert len(together) == 1
    assert together[0].startswith("Do not pick what stands in A1:H1 of the front bed before 17 June 2026")
    assert sum(one.startswith("Do not pick") for one in found) == (1 if "beds" in path else 2)
    assert "basil" in " ".join(found) or "beds" in path, "another day, another line"


def test_few_are_told_one_by_one(tmp_path: Path) -> None:
    found = told(garden(tmp_path, 2), "2026/index.html")
    picks = [one.split(" in ")[0] for one in found if one.startswith("Do not pick")]
    assert picks == ["Do not pick basil", "Do not pick kale", "Do not pick chard"]


@pytest.mark.parametrize("path", ["cautions/index.html", "sheets/volunteers/index.html"])
def test_the_pages_that_are_there_for_it_tell_each(tmp_path: Path, path: str) -> None:
    text = garden(tmp_path, 8)[path].get_text(" ")
    assert all(crop in text for crop in CROPS)


@pytest.mark.parametrize(
    ("path", "begins"),
    [
        ("2026/plants/kale/index.html", True),
        ("crops/kale/index.html", True),
        ("2026/plants/index.html", False),
    ],
)
def test_where_a_page_of_what_waits_is_passed_on_it_begins_with_the_wait(
    path: str, begins: bool, tmp_path: Path
) -> None:
    """Only its title and description are shown there."""
    said = str(only(garden(tmp_path, 2)[path], "meta[name=description]")["content"])
    assert said.startswith("Do not pick kale before 17 June 2026.") is begins
