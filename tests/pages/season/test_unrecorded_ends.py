"""An end that nobody recorded stays supposed until a record shows it, on every page alike."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.garden.days import Month
from tallybed.reckoning.beds import month_of, months_of
from tallybed.reckoning.calendar.month import over_by_plan
from tallybed.reckoning.squares.occupancy import Grade
from tests.pages.gardens import GARDEN, html_of, only, site_of, written

PLAN = """\
- {crop: bean-bush, tag: BB1, squares: front/A1, sow: May 1, until: Aug 20}
- {crop: carrot, tag: CA1, squares: front/B1, sow: May 1, until: Aug 20}
- {crop: radish, tag: RA1, squares: front/C1, sow: May 1, until: Jun 10}
- {crop: spinach, tag: SP1, squares: front/C1, sow: Sep 10, until: Oct 20}
- {crop: okra, tag: OK1, squares: back/A1, sow: May 20, until: Sep 1, dropped: Jun 2, because: rotted}
"""
VISIT = "---\ntitle: {what}\ndate: {day}\ndone:\n{done}---\n{what}.\n"


def visit(day: str, what: str, *done: str) -> dict[str, str]:
    lines = "".join(f"  - {one}\n" for one in done)
    return {f"2026/log/{day}-visit.md": VISIT.format(day=day, what=what, done=lines)}


FILES = {
    "garden.yaml": GARDEN,
    "2026/plan.yaml": PLAN,
    **visit(
        "2026-05-01",
        "Sown",
        "{sow: bean-bush, squares: front/A1, tag: BB1}",
        "{sow: carrot, squares: front/B1, tag: CA1}",
        "{sow: radish, squares: front/C1, tag: RA1}",
    ),
    **visit("2026-08-20", "Carrots up", "{clear: carrot, squares: front/B1, tag: CA1}"),
    **visit("2026-09-14", "The stalks are still there", "{weed: bed, squares: front}"),
}
LATER = visit("2026-10-03", "Stalks gone", "{clear: bean-bush, squares: front/A1, tag: BB1}")


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, BeautifulSoup]:
    return html_of(written(tmp_path_factory.mktemp("garden"), FILES))


def row_of(page: BeautifulSoup, square: str) -> str:
    """Return what the table of holders says of a square."""
    for body in page.select("#holders tbody"):
        if only(body, "th").get_text() == square:
            return " | ".join(cell.get_text(" ", strip=True) for cell in body.select("td"))
    raise AssertionError(f"no {square}")


def test_in_its_own_month_the_end_is_supposed_though_it_was_seen(pages: dict[str, BeautifulSoup]):
    table = row_of(pages["2026/beds/front/08/index.html"], "A1")
    assert table.endswith("over | supposed"), "known by the plan alone, days and end"
    said = [link.get("aria-label", "") for link in pages["2026/beds/front/08/index.html"].select("svg a")]
    assert any("over since 20 Aug" in one and one.endswith("supposed from the plan") for one in said)


def test_what_is_still_to_come_is_planned_and_not_said_as_if_it_were_past(tmp_path: Path):
    """Fails where a page of 14 August tells of days after that as of days gone by."""
    early = {
        path: text for path, text in FILES.items() if "/2026-08-20" not in path and "/2026-09" not in path
    }
    seen = visit("2026-08-14", "A look", "{weed: bed, squares: front}")
    pages = html_of(written(tmp_path, early | seen))
    month = pages["2026/beds/front/index.html"]
    assert row_of(month, "A1").endswith("its end planned")
    assert "until 20 Aug (planned)" in only(month, "svg desc").get_text()
    assert "in the bed 1 May to 19 August (its end planned)" in str(pages["crops/bean-bush/index.html"])
    titles = [one.get_text() for one in pages["sheets/poster/2026/index.html"].select("svg title")]
    assert "The beds on 30 September 2026, as planned" in titles
    assert "The beds on 31 July 2026" in titles
    spinach = str(pages["crops/spinach/index.html"])
    assert "sown 10 Sep (planned), in the bed 10 September to 19 October (planned)" in spinach


def test_the_month_after_it_is_still_supposed_and_not_bare(pages: dict[str, BeautifulSoup]):
    page = pages["2026/beds/front/index.html"]
    assert row_of(page, "A1") == "bean, bush (BB1) | until 19 August |  | over | its end supposed"
    told = only(page, "svg desc").get_text()
    said = [link.get("aria-label", "") for link in page.select("svg a")]
    assert any("bush bean over since 20 Aug" in one and "supposed from the plan" in one for one in said)
    assert "A1" not in told.partition("Bare: ")[2]
    assert "nothing on record" in str(only(page, "#holders")), "a square that was recorded as cleared is bare"


def test_a_recorded_end_is_an_end(pages: dict[str, BeautifulSoup]):
    page = pages["2026/beds/front/index.html"]
    assert "CA1" not in page.get_text().partition("Changes")[0].partition("Who held")[2].partition("BB1")[0]
    month = site_of_month(pages, 9)
    assert month["Bare"] != ""


def site_of_month(pages: dict[str, BeautifulSoup], number: int) -> dict[str, str]:
    table = only(pages["2026/beds/front/index.html"], "#months-table")
    heads = [head.get_text(strip=True) for head in table.select("thead th")]
    row = table.select("tbody tr")[number - 3]
    cells = [cell.get_text(" ", strip=True) for cell in row.select("th, td")]
    return dict(zip(heads, cells, strict=True))


def test_the_months_side_by_side_count_it_apart_from_bare_squares(pages: dict[str, BeautifulSoup]):
    september = site_of_month(pages, 9)
    assert september["Over, end supposed"] == "1"
    assert int(september["Squares held"]) + 1 + int(september["Bare"]) == 8


def test_the_sheet_for_the_clipboard_lists_it(pages: dict[str, BeautifulSoup]):
    sheet = pages["sheets/tally-sheet/index.html"].get_text(" ")
    assert "BB1" in sheet
    assert "over, its end supposed" in sheet
    assert "CA1" not in sheet


def test_its_own_page_and_the_list_say_so(pages: dict[str, BeautifulSoup]):
    own = pages["2026/plants/BB1/index.html"]
    assert "supposed from the plan: nobody wrote down that it was cleared" in own.get_text(" ")
    other = pages["2026/plants/CA1/index.html"]
    assert "nobody wrote down" not in other.get_text(" ")
    listed = {row.get_text(" ", strip=True) for row in pages["2026/plants/index.html"].select("tbody tr")}
    assert any("BB1" in row and "its end supposed" in row for row in listed)
    assert not any("CA1" in row and "its end supposed" in row for row in listed)


def test_the_first_page_shows_the_same_map_and_the_job(pages: dict[str, BeautifulSoup]):
    home = pages["index.html"]
    said = [link.get("aria-label", "") for link in home.select("svg a")]
    assert any("over since 20 Aug" in one and one.endswith("supposed from the plan") for one in said)


def test_what_the_plan_gave_up_is_no_end_that_nobody_recorded(tmp_path: Path):
    year = site_of(written(tmp_path, FILES)).all[0]
    back = next(bed for bed in year.garden.beds if bed.name == "back")
    assert not month_of(year, back, Month(2026, 9)).ended


def test_until_a_record_shows_it(tmp_path: Path):
    year = site_of(written(tmp_path, FILES | LATER)).all[0]
    bed = next(bed for bed in year.garden.beds if bed.name == "front")
    said = {
        month.month.month: [str(square) for square in over_by_plan(month)] for month in months_of(year, bed)
    }
    assert not said[9], "the log has it standing until 3 October"
    assert not said[10]


def test_a_planting_recorded_in_the_square_shows_it(tmp_path: Path):
    sown = visit("2026-09-20", "Kale in", "{set out: kale, squares: front/A1}")
    year = site_of(written(tmp_path, FILES | sown)).all[0]
    bed = next(bed for bed in year.garden.beds if bed.name == "front")
    assert not over_by_plan(month_of(year, bed, Month(2026, 9)))


def test_the_grade_of_an_end_is_none_where_it_stands(tmp_path: Path):
    year = site_of(written(tmp_path, FILES)).all[0]
    bed = next(bed for bed in year.garden.beds if bed.name == "front")
    ends = {one.planting: one.end for one in month_of(year, bed, Month(2026, 8)).holders}
    assert ends == {"BB1": Grade.SUPPOSED, "CA1": Grade.SEEN}
