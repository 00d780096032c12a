"""What pages say of a garden with one bed, one season and hardly a record: in its own number, and no more."""

from __future__ import annotations

import pytest

from tests.pages.gardens import Parsed, html_of, only, said, written

GARDEN = """\
name: Doorstep Bed
beds:
  - {name: step, title: The doorstep bed, length: 3 squares, width: 3 squares}
"""
TREATED = """\
---
title: Sprayed
date: 2026-05-10
done:
  - {treat: spinosad, crop: garlic, product: spinosad}
---
"""


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    """One radish of one ounce, and nobody told from which square."""
    files = {
        "garden.yaml": GARDEN,
        "2026/plan.yaml": "- {crop: radish, squares: B2, sow: Apr 20, plants: 1}\n",
        "2026/harvest.yaml": "- {date: 2026-05-30, crop: radish, weight: 1 oz, count: 1}\n",
    }
    return html_of(written(tmp_path_factory.mktemp("garden"), files))


@pytest.mark.parametrize(
    ("path", "where"),
    [
        ("2026/tally/index.html", ".standing .figure"),
        ("2026/tally/index.html", "#whole-narrow .d-line-name"),
        ("seasons/index.html", "#c-seasons-narrow .d-line-name"),
        ("seasons/index.html", "#seasons tr:nth-child(7) td"),
    ],
)
def test_a_light_season_weighs_the_same_on_every_page(pages: Parsed, path: str, where: str) -> None:
    assert "0.06" in said(only(pages[path], where)).split()


def test_one_bed_is_told_as_one(pages: Parsed) -> None:
    assert said(only(pages["your-place/index.html"], ".lead")).startswith(
        "One bed in one place: what it took and gave in 2026"
    )
    assert said(only(pages["2026/bulletins/index.html"], ".lead")) == (
        "One week with a record. A bulletin takes a minute to read out."
    )


def test_months_of_one_bed_lead_to_its_maps_by_their_names(pages: Parsed) -> None:
    section = only(pages["2026/index.html"], "section:has(> #months)")
    before, ahead = section.select(":scope > p")
    assert said(before) == "Nothing in the beds, by any record: January , February , March ."
    assert [one.get_text() for one in ahead.select("a")] == [
        *("June", "July", "August", "September", "October", "November", "December")
    ]
    assert len(section.select(".chapters > li")) == 2, "April and May"


def test_nothing_is_drawn_of_squares_that_nobody_told(pages: Parsed) -> None:
    section = only(pages["2026/tally/index.html"], "section:has(> #beds)")
    assert not section.select("svg")
    assert said(section).endswith("1 oz came with no square told, and stands in none.")
    rows = pages["2026/rows/index.html"]
    assert not rows.select("#t-grounds, [aria-labelledby=squares] svg")
    assert "dashed line" not in said(only(rows, "main")), "no drawing has one"


def test_one_season_alone_is_held_against_none(pages: Parsed) -> None:
    assert [one["id"] for one in pages["seasons/index.html"].select("main h2")] == ["totals"]


@pytest.fixture(scope="module")
def ahead(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    """Garlic whose wait nobody knows is carried into a season that is still to come."""
    files = {
        "garden.yaml": GARDEN,
        "2026/plan.yaml": "- {crop: garlic, tag: GA1, squares: A1, set out: Apr 1}\n",
        "2026/harvest.yaml": "- {date: 2026-05-30, crop: garlic, squares: A1, weight: 4 oz}\n",
        "2026/log/2026-05-10-sprayed.md": TREATED,
        "2027/plan.yaml": "- {crop: garlic, tag: GA1, squares: A1, carried from: 2026, until: Jul 1}\n",
        "2027/log/.keep": "",
    }
    return html_of(written(tmp_path_factory.mktemp("garden"), files))


def test_a_sign_that_no_map_shows_has_no_key(ahead: Parsed) -> None:
    months = only(ahead["2027/index.html"], "section:has(> #months)")
    assert not months.select("svg")
    assert "not to be picked" not in said(months)
    assert "not to be picked" in said(only(ahead["2026/index.html"], "section:has(> #months)"))


def test_a_season_ahead_has_no_line_and_no_visits(ahead: Parsed) -> None:
    page = ahead["seasons/index.html"]
    assert [one["data-name"] for one in page.select("#c-seasons-wide .d-panel")] == ["2026"]
    visits = next(row for row in page.select("#seasons tr") if said(row).startswith("Visits"))
    assert said(visits) == "Visits written up to come 1"
