"""Can I do this at my place? The page's figures, by hand from a small garden's records."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.pages.frame import addresses
from tests.pages.gardens import GARDEN, folder, html_of, only, written


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> BeautifulSoup:
    return html_of(folder(tmp_path_factory.mktemp("garden")))[addresses.YOUR_PLACE]


def said(page: BeautifulSoup, ident: str) -> str:
    return " ".join(only(page, f"section[aria-labelledby={ident}]").get_text(" ").split())


def test_the_ground_is_that_of_the_squares(page: BeautifulSoup) -> None:
    # 4 by 2 squares, and 3 by 3 less one: 8 + 8 squares of one foot
    assert "16 sq ft: the squares" in said(page, "ground")
    assert "The back bed: 3 ft by 3 ft, with 1 square left out." in said(page, "ground")


def test_minutes_are_told_for_a_week_with_a_visit(page: BeautifulSoup) -> None:
    # 10 minutes of two people, in the weeks of 6 and of 21 April
    assert "10 minutes a week with a visit, at least" in said(page, "time")
    assert "20 minutes in 2 weeks with a visit" in said(page, "time")


def test_a_season_entered_without_a_record_is_not_what_a_bed_gave(tmp_path: Path) -> None:
    earlier = {"2025/plan.yaml": "- {crop: kale, squares: front/A1, sow: Apr 20}\n"}
    page = html_of(written(folder(tmp_path), earlier))[addresses.YOUR_PLACE]
    assert "what they took and gave in 2026, the season under way" in page.get_text()


def test_one_minute_and_one_line_are_told_as_one(tmp_path: Path) -> None:
    done = "[{sow: kale, squares: front/A1, minutes: 1}, {observe: sun}]"
    log = f"---\ntitle: In\ndate: 2026-04-20\ndone: {done}\n---\n"
    root = folder(tmp_path, plan=False, log=False, ledger=False)
    page = html_of(written(root, {"2026/log/2026-04-20-in.md": log}))[addresses.YOUR_PLACE]
    assert "1 minute a week with a visit, at least" in said(page, "time")
    assert "minutes times people. Only 1 of 2 lines of the log was timed." in said(page, "time")


def test_what_nobody_wrote_down_has_no_section(page: BeautifulSoup) -> None:
    titles = [one.get_text() for one in page.select("main h2")]
    assert titles == [
        *("Ground", "Sun", "Time", "What it gave", "Marking it out", "Where you are"),
        "In proportion",
    ]


def test_marking_out_counts_twine_and_staples(page: BeautifulSoup) -> None:
    # Front: 3 lines of 2 ft, 1 of 4 ft; back: lines of 3, 2, 3 and 2 ft. One foot more a line for its knots.
    assert "28 ft of twine" in said(page, "marking")
    assert "16 staples" in said(page, "marking")
    ways = {str(one["href"]) for one in page.select("main a")}
    assert {"../sheets/marking-out/front/index.html", "../sheets/marking-out/back/index.html"} <= ways


def test_marking_out_is_of_the_beds_that_the_figures_are_of(tmp_path: Path) -> None:
    beds = (
        "  - {name: old, title: The old bed, length: 2 squares, width: 2 squares, until: 2025}\n"
        "  - {name: new, title: The new bed, length: 9 squares, width: 9 squares, since: 2026}\n"
    )
    garden = f"seasons: {{2025: {{closed: yes}}}}\n{GARDEN[: GARDEN.index('  - {name: front')]}{beds}"
    row = "- {date: 2025-07-01, crop: kale, squares: old/A1, weight: 1 lb}\n"
    plan = "- {crop: kale, squares: new/A1, sow: Apr 20}\n"
    files = {"garden.yaml": garden, "2025/harvest.yaml": row, "2026/plan.yaml": plan}
    files["2026/harvest.yaml"] = "- {date: 2026-07-01, crop: kale, squares: new/A1, weight: 1 lb}\n"
    page = html_of(written(tmp_path, files))[addresses.YOUR_PLACE]
    assert "The old bed: 2 ft by 2 ft." in said(page, "ground")
    # a line each way of 2 ft, and one foot more for its knots; the new bed would take 160
    assert "6 ft of twine" in said(page, "marking")


def test_local_advice_is_named(page: BeautifulSoup) -> None:
    words = said(page, "advice")
    assert "the last freeze of spring comes about 1 May" in words
    assert "cooperative extension office" in words
    assert "../cautions/index.html" in {str(one["href"]) for one in page.select("main a")}


def test_proportions_are_over_the_squares(page: BeautifulSoup) -> None:
    # 38 oz from 16 sq ft, and so from 16
    table = only(page, "table#scaled")
    assert [" ".join(row.get_text(" ").split()) for row in table.select("tbody tr")] == [
        "Weight 2.4 lb 2.4 lb",
        "Work that was timed 20 minutes 20 minutes",
    ]


def test_a_first_small_weight_is_not_rounded_to_another_proportion(tmp_path: Path) -> None:
    beds = "  - {name: box, length: 3 squares, width: 3 squares}\n"
    garden = GARDEN[: GARDEN.index("  - {name: front")] + beds
    ledger = "- {date: 2026-05-30, crop: radish, weight: 1 oz}\n"
    page = html_of(written(tmp_path, {"garden.yaml": garden, "2026/harvest.yaml": ledger}))[
        addresses.YOUR_PLACE
    ]
    # an ounce from 9 sq ft is 0.0625 lb, and from 16 it would be 0.1111
    assert "Weight 0.06 lb 0.11 lb" in " ".join(only(page, "table#scaled").get_text(" ").split())


def test_without_a_season_ground_and_marking_out_are_left(tmp_path: Path) -> None:
    page = html_of(written(tmp_path, {"garden.yaml": GARDEN}))[addresses.YOUR_PLACE]
    assert [one.get_text() for one in page.select("main h2")] == ["Ground", "Marking it out", "Where you are"]
