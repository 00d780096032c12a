"""The seasons side by side, and the crops of all seasons: what is said of a season ahead."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.pages.gardens import Parsed, folder, html_of, only, written


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    plan = "- {crop: carrot, tag: CA1, squares: front/A1, sow: Apr 20}\n"
    rows = (
        "- {date: 2025-07-01, crop: carrot, weight: 1 lb}\n- {date: 2025-07-02, crop: radish, weight: 1 lb}\n"
    )
    more = rows.replace("2025-07", "2026-05").replace("1 lb", "6 oz")
    files = {"2025/harvest.yaml": rows, "2026/harvest.yaml": more, "2027/plan.yaml": plan}
    return html_of(written(folder(tmp_path_factory.mktemp("garden")), files))


def row(pages: Parsed, path: str, name: str) -> list[str]:
    found = next(one for one in pages[path].select("tr") if one.get_text(" ").strip().startswith(name))
    return [" ".join(cell.get_text(" ").split()) for cell in found.find_all(["th", "td"])]


def test_a_picking_weighed_fresh_and_cured_is_one(tmp_path: Path) -> None:
    """Fails where all seasons count the rows of the ledger and the tally counts pickings."""
    rows = (
        "- {date: 2026-05-01, crop: onion-bulb, squares: front/A1, weight: 6 lb}\n"
        "- {date: 2026-05-01, crop: onion-bulb, squares: front/A1, weight: 5 lb, state: cured}\n"
    )
    found = html_of(written(folder(tmp_path), {"2026/harvest.yaml": rows}))
    assert "1" in row(found, "seasons/index.html", "Pickings on record")


@pytest.mark.parametrize("name", ["Visits written up", "Pickings on record", "Weight, lb"])
def test_a_season_ahead_is_to_come(pages: Parsed, name: str) -> None:
    assert row(pages, "seasons/index.html", name)[1] == "to come"


def test_a_crop_of_a_season_ahead_is_to_come_or_not_planned(pages: Parsed) -> None:
    assert row(pages, "crops/index.html", "carrots")[1] == "to come"
    words = " ".join(only(pages["seasons/index.html"], "main").get_text(" ").split())
    assert "carrots: 2025 1.0 lb, 2026 0.38 lb so far, 2027 to come" in words
    assert "radishes: 2025 1.0 lb, 2026 0.38 lb so far, 2027 not planned" in words
