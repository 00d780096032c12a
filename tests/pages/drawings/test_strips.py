"""Season strips and contact sheets on their pages: drawn, told in a table, leading on, with a key."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.pages.drawings.contact_sheets import contact_sheet
from tallybed.pages.drawings.strips import season_strips
from tests.pages.gardens import Parsed, folder, html_of, only, rows, said, site_of

SEASON, BED = "2026/index.html", "2026/beds/front/index.html"


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    return html_of(folder(tmp_path_factory.mktemp("garden")))


def test_each_bed_has_its_strip_twice_and_both_lead_to_plantings(pages: Parsed) -> None:
    page = pages[SEASON]
    assert [one["id"] for one in page.select("svg.strip")] == [
        "strip-front-wide",
        "strip-front-narrow",
        "strip-back-wide",
        "strip-back-narrow",
    ]
    for name in ("wide", "narrow"):
        hrefs = [one["href"] for one in page.select(f"#strip-front-{name} .d-planting-strip")]
        assert hrefs == ["plants/BB1/index.html", "plants/SP1/index.html"]


def test_the_strip_and_its_table_say_the_same(pages: Parsed) -> None:
    page = pages[SEASON]
    assert rows(page, "strip-front-table") == [
        [
            "spinach ‘Broad’ (SP1)",
            "A1:B2",
            "6 April to 31 May",
            "sown 6 April, growing 20 April, bearing 10 May",
            "implied, supposed from 17 May, planned from 21 May",
            "A1:B2, 5 April to 31 May",
        ],
        [
            "bean, bush (BB1)",
            "A1:B2",
            "5 June to 19 September",
            "sown 5 June, growing 19 June, bearing 30 July",
            "planned",
            "A1:B2, 5 June to 19 September",
        ],
    ]
    drawn = {
        (
            str(planting["data-planting"]),
            *(str(one[name]) for name in ("data-squares", "data-first", "data-last")),
        )
        for planting in page.select("#strip-front-wide .d-planting-strip")
        for one in planting.select(".d-spell")
    }
    assert drawn == {
        ("SP1", "A1:B1", "2026-04-06", "2026-05-31"),
        ("SP1", "A2:B2", "2026-04-06", "2026-05-31"),
        ("BB1", "A1:B1", "2026-06-05", "2026-09-19"),
        ("BB1", "A2:B2", "2026-06-05", "2026-09-19"),
    }
    folded = only(page, "table#strip-front-table").find_parent("details")
    assert folded is not None
    assert said(only(folded, "summary")) == "The front bed: the same in a table"


def test_a_planting_dropped_tomorrow_stands_until_then(pages: Parsed) -> None:
    okra = [row for row in rows(pages[SEASON], "strip-back-table") if row[0] == "okra (OK1)"]
    assert okra == [
        [
            "okra (OK1)",
            "C1",
            "20 to 21 May",
            "sown 20 May",
            "supposed, planned from 21 May",
            "C1, 20 to 21 May",
        ]
    ]


def test_the_key_of_a_seasons_home_is_short(pages: Parsed) -> None:
    key = only(pages[SEASON], "#strips ~ div .map-key")
    assert [said(one) for one in key.select(".letter")] == [
        *("BB bean, bush", "CA carrot", "OK okra", "SP spinach")
    ]
    assert "over" in [said(one) for one in key.select(".sign")], "the small maps of the months show it"


def test_the_contact_sheet_leads_to_each_month(pages: Parsed) -> None:
    sheet = only(pages[BED], "ol.contact")
    months = (f"{month:02d}/" if month != 5 else "" for month in range(3, 11))
    assert [one["href"] for one in sheet.select("a")] == [f"{month}index.html" for month in months]
    kinds = [" ".join(one.get("class") or []) for one in sheet.select("li")]
    assert kinds == ["recorded"] * 2 + ["running"] + ["planned"] * 5
    assert [said(one) for one in sheet.select("li a > span")][2:4] == ["20 May under way", "30 June planned"]
    drawn = [[name for name in one["class"] if name.startswith("kind-")] for one in sheet.select("svg")]
    assert drawn == [[f"kind-{kind}"] for kind in kinds for _twice in ("flat", "upright")]


def test_ids_are_unique_on_each_page(pages: Parsed) -> None:
    for path in (SEASON, BED):
        ids = [str(one["id"]) for one in pages[path].find_all(id=True)]
        assert len(ids) == len(set(ids)), path


def test_a_season_of_which_nothing_is_known_has_no_strip(tmp_path: Path) -> None:
    years = site_of(folder(tmp_path, plan=False, log=False, ledger=False))
    (year,) = years.all
    assert season_strips(year, SEASON) is None
    sheet = contact_sheet(year, years.garden.beds[0])
    assert len(sheet.months) == 8, "the bed itself is known"
