"""Seasons held against each other on their page: charts, and the same figures in tables."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.garden.days import Span
from tallybed.pages.drawings.season_charts import across_seasons, weeks_of
from tests.pages.gardens import folder, only, pages_of, parsed, rows, said, site_of, written

LAST_YEAR = {
    "2025/plan.yaml": """\
- {crop: spinach, tag: SP1, squares: front/A1:B2, sow: Apr 5, until: Jun 1}
- {crop: kale, tag: KA1, squares: back/A1, sow: Apr 20, until: Aug 1}
""",
    "2025/harvest.yaml": """\
- {date: 2025-05-02, crop: spinach, squares: front/A1:A2, weight: 2 lb}
- {date: 2025-05-03, crop: spinach, squares: front/A1:A2, weight: 1 lb}
- {date: 2025-06-30, crop: kale, tag: KA1, weight: 4 oz}
""",
    "2024/harvest.yaml": "- {date: 2024-05-10, crop: spinach, weight: not weighed}\n",
}


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> BeautifulSoup:
    root = written(folder(tmp_path_factory.mktemp("garden")), LAST_YEAR)
    return parsed(pages_of(root)["seasons/index.html"])


def test_running_totals_are_told_week_by_week_of_each_season(page: BeautifulSoup) -> None:
    """The season begins on 1 March: 2 and 3 May are its 63rd and 64th day, in weeks 9 and 10."""
    table = {row[0]: row[1:] for row in rows(page, "t-seasons")}
    # 2024: one picking, not weighed, on 10 May, the 71st day, in week 11.
    # 2026: 1 lb 8 oz on 10 May and a bowl of 8 oz on the 16th (week 11), 6 oz of radishes on the 20th (12).
    assert table["9"] == ["", "2.00", ""]
    assert table["10"] == ["", "3.00", ""]
    assert table["11"] == ["not weighed", "3.00", "2.00 at least"]
    assert table["12"] == ["not weighed", "3.00", "2.38 at least"]
    assert table["18"][1] == "3.25"
    assert table["35"] == ["not weighed", "3.25", ""], "2026 is known to May alone"
    assert "8" not in table, "before the first picking there is nothing to tell"


def test_panels_and_table_end_at_the_same_totals(page: BeautifulSoup) -> None:
    chart = only(page, "#c-seasons-wide")
    assert [one["data-name"] for one in chart.select(".d-panel")] == ["2024", "2025", "2026"]
    last = [said(one) for one in chart.select(".d-line-name")]
    assert last == ["not weighed", "3.3", "≥ 2.4 so far"]
    assert only(page, "table#seasons")


def test_crops_of_two_seasons_are_set_side_by_side(page: BeautifulSoup) -> None:
    panels = only(page, "#c-crops-wide").select(".d-panel")
    assert [one["data-name"] for one in panels] == ["spinach"], "kale was weighed once, radish once"
    assert [said(one) for one in panels[0].select("text")] == [
        "spinach",
        *("2024", "not weighed"),
        *("2025", "3.0 lb"),
        *("2026", "≥ 1.5 lb so far"),
    ]


def test_tables_are_folded_beside_their_charts(page: BeautifulSoup) -> None:
    for ident in ("t-seasons", "crops"):
        folded = only(page, f"table#{ident}").find_parent("details")
        assert folded is not None, ident
        section = folded.find_parent("section")
        assert section is not None
        assert len(section.select("svg.chart")) == 2, "for wide pages and for narrow ones"
    crops = {row[0]: row[1:] for row in rows(page, "crops")}
    assert crops["kale"] == ["", "0.25", ""]
    assert crops["spinach"] == ["not weighed", "3.00", "1.50 at least"]


def test_without_a_weighing_there_is_nothing_to_hold_against_each_other(tmp_path: Path) -> None:
    assert list(across_seasons(site_of(folder(tmp_path, ledger=False)))) == []


def test_one_season_alone_has_its_line_and_no_crop_beside_another(tmp_path: Path) -> None:
    (totals,) = across_seasons(site_of(folder(tmp_path)))
    assert totals.chart
    assert "2026" in str(totals.chart.wide)


def test_where_no_crop_was_weighed_twice_the_table_stands_alone_and_open(tmp_path: Path) -> None:
    last = {"2025/harvest.yaml": "- {date: 2025-06-30, crop: kale, weight: 4 oz}\n"}
    section = only(parsed(pages_of(written(folder(tmp_path), last))["seasons/index.html"]), "#crops-across")
    whole = section.find_parent("section")
    assert whole is not None
    assert not whole.select("svg, details"), "nothing to hold against each other"
    assert len(whole.select("table#crops")) == 1


@pytest.mark.parametrize(("days", "weeks"), [(1, 1), (7, 1), (8, 2), (275, 40), (365, 53)])
def test_a_season_has_its_days_in_weeks_the_last_may_be_short(days: int, weeks: int) -> None:
    first = date(2026, 3, 1)
    assert weeks_of(Span(first=first, last=first + timedelta(days=days - 1))) == weeks


def test_a_crop_that_went_into_bowls_alone_was_not_left_unpicked(tmp_path: Path) -> None:
    """It was picked; what it weighed nobody knows."""
    records = LAST_YEAR | {
        "2024/harvest.yaml": "- {date: 2024-06-10, crop: kale, weight: 3 oz}\n",
        "2023/harvest.yaml": "- {date: 2023-06-10, mixed: [kale, spinach], weight: 9 oz}\n",
    }
    page = parsed(pages_of(written(folder(tmp_path), records))["seasons/index.html"])
    kale = next(one for one in page.select("#c-crops-wide .d-panel") if one["data-name"] == "kale")
    assert [said(one) for one in kale.select("text")][1:3] == ["2023", "in mixed bowls"]
