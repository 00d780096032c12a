"""Sheets to print: what stands on each, held against the small garden's own records."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from hypothesis import example, given
from hypothesis import strategies as st

from tallybed.pages.paper.scancodes import NO_ADDRESS
from tallybed.pages.paper.tally_sheet import FEWEST_NOTES, ON_A_SHEET, OTHERS, SHEETS, WAYS, fitted
from tallybed.reckoning.calendar.stages import Stage
from tests.pages.gardens import GARDEN, LEDGER, LOG, PLAN, Parsed, html_of, only, written

BASE = "https://beds.example/"
INDOORS = """\
- {crop: tomato-indeterminate, tag: TO1, variety: Red, squares: back/A2, sow indoors: Mar 20,
   pot up: Apr 10, set out: May 12, plants: 1}
- {crop: kale, tag: KA1, squares: back/B2, sow indoors: Apr 1, set out: May 8}
"""
DONE = """\
---
title: Indoors
date: 2026-03-23
done:
  - {sow indoors: tomato-indeterminate, tag: TO1}
---
"""
MOVED = """\
---
title: Out
date: 2026-05-14
done:
  - {set out: tomato-indeterminate, tag: TO1, squares: back/B3, plants: 1}
---
"""


def garden(root: Path, *, address: str = BASE, plan: str = PLAN + INDOORS) -> Path:
    told = f"address: {address}\n" if address else ""
    log = LOG | {"2026-03-23-in.md": DONE, "2026-05-14-out.md": MOVED}
    files = {"garden.yaml": GARDEN + told, "2026/harvest.yaml": LEDGER, "2026/plan.yaml": plan}
    return written(root, files | {f"2026/log/{name}": text for name, text in log.items()})


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    return html_of(garden(tmp_path_factory.mktemp("papers")))


def words(page: BeautifulSoup, selector: str) -> list[str]:
    return [" ".join(one.get_text(" ").split()) for one in page.select(selector)]


def test_every_sheet_is_listed(site: Parsed) -> None:
    links = {str(link["href"]) for link in site["sheets/index.html"].select("main a")}
    assert links >= {
        *("sign/front/index.html", "sign/back/index.html", "tally-sheet/index.html"),
        *("plant-tags/index.html", "poster/2026/index.html"),
    }


def test_a_sign_tells_its_own_bed(site: Parsed) -> None:
    page = site["sheets/sign/front/index.html"]
    # 1 lb 8 oz from front/A1:A2, and the planting SP1 of the front bed, not weighed.
    assert words(page, ".sum") == ["at least 1.5 lb"]
    # 8 squares of one foot: 1.5 / 8 = 0.1875, halves away from zero.
    assert "at least 0.19 lb per sq ft of the squares" in words(page, ".given p")
    assert words(page, ".shared li") == ["1.5 lb food pantry"]
    # The mixed bowl of about 8 oz and the radishes of 6 oz name no bed, and there are two.
    assert "Besides, 14 oz was weighed with no bed named." in only(page, ".caveat").get_text()
    assert "told" not in only(page, ".paper").get_text(), "what nobody told is for the tally, not for a fence"
    assert {"SP spinach"} == set(words(page, ".letter"))
    assert only(page, "svg.scan-code desc").get_text() == f"{BASE}#bed-front", "the bed today, in any season"
    assert only(site["index.html"], "h2#bed-front").get_text() == "The front bed"
    assert len(page.select("svg.bedmap")) == 2


def test_the_sign_of_a_bed_much_longer_than_broad_has_its_list_below_the_map(tmp_path: Path) -> None:
    told = GARDEN.replace("The front bed, length: 4 squares", "The front bed, length: 12 squares")
    pages = html_of(written(tmp_path, {"garden.yaml": told, "2026/plan.yaml": PLAN}))
    assert pages["sheets/sign/front/index.html"].select(".sign figure.low")
    assert not pages["sheets/sign/back/index.html"].select(".sign figure.low")


def test_a_bed_that_gave_nothing_says_so(site: Parsed) -> None:
    page = site["sheets/sign/back/index.html"]
    assert page.select(".sum") == []
    assert "No picking on record names this bed." in words(page, ".unknown")


def test_the_tally_sheet_lists_what_stands(site: Parsed) -> None:
    page = site["sheets/tally-sheet/index.html"]
    rows = [one for one in page.select(".tally-lines tbody") if one.select("td[rowspan]")]
    told = {(only(one, "th").get_text(), words_of(one, "td[rowspan]")) for one in rows}
    assert told == {
        ("front/A1:B2", "spinach ‘Broad’ (SP1) bearing"),
        ("back/A1:B1", "carrot (CA1) growing"),
        ("back/B3", "tomato, indeterminate, ‘Red’ (TO1) growing"),
        ("back/B2", "kale (KA1) growing"),
        ("back/C1", "okra (OK1) sown"),
    }
    heads = ["Squares", "Crop", "Date", "Weight", "Count", "To"]
    assert words(page, ".tally-lines thead th") == heads
    assert all(
        len(one.select("td")) in (4, 5) for one in page.select(".tally-lines tbody:not(.of-bed) tr")[:-OTHERS]
    )
    assert len(page.select(".ruled li")) >= FEWEST_NOTES


def words_of(part: BeautifulSoup, selector: str) -> str:
    one = only(part, selector)
    for place in one.select("wbr"):  # where a line may break, and no space
        place.unwrap()
    one.smooth()
    return " ".join(one.get_text(" ").split())


TREATED = "---\ntitle: Treated\ndate: 2026-05-16\ndone:\n"


@pytest.mark.parametrize(
    ("number", "told"),
    [
        (1, "Do not pick spinach ‘Broad’ (SP1) in A1 before 19 May 2026"),
        # Of four, the last of the days is said of all their squares: 9 days from 16 May.
        (4, "Do not pick from A1:B2 before 25 May 2026"),
    ],
)
def test_a_sign_has_the_mark_of_its_map_and_no_more_notices_than_it_has_room_for(
    tmp_path: Path, number: int, told: str
) -> None:
    lines = "".join(
        f"  - {{treat: soap, crop: spinach, tag: SP1, squares: front/{square}, wait: {days} days,"
        f" re-entry: {days} hours, at: 9:00 am}}\n"
        for square, days in list(zip(("A1", "B1", "A2", "B2"), (3, 9, 4, 6), strict=True))[:number]
    )
    log = {f"2026/log/{name}": text for name, text in LOG.items()} | {
        "2026/log/2026-05-16-treated.md": f"{TREATED}{lines}---\n"
    }
    pages = html_of(written(tmp_path, {"garden.yaml": GARDEN, "2026/plan.yaml": PLAN} | log))
    sign = pages["sheets/sign/front/index.html"]
    assert len(sign.select("svg.bedmap .d-barred")) > 0, "the map has the mark"
    found = words(sign, ".waiting-here li")
    assert len(sign.select(".waiting-here .swatch .d-barred")) >= len(found), "and each notice begins with it"
    assert len(found) == 2, "one for picking, one for keeping off"
    assert found[0] == told


@example(stages=[Stage.SOWN] * SHEETS * ON_A_SHEET, beds=1)
@given(stages=st.lists(st.sampled_from([Stage.SOWN, Stage.GROWING, Stage.BEARING])), beds=st.integers(1, 6))
def test_two_sheets_are_enough_wherever_they_can_be(stages: list[Stage], beds: int) -> None:
    way, notes = fitted(stages, beds)
    bearing, growing, sown = way
    each = {Stage.SOWN: sown, Stage.GROWING: growing, Stage.BEARING: bearing}
    used = sum(each[stage] for stage in stages) + OTHERS + beds + notes
    assert notes >= FEWEST_NOTES
    assert way in WAYS
    if len(stages) + OTHERS + beds + FEWEST_NOTES <= SHEETS * ON_A_SHEET:
        assert used <= SHEETS * ON_A_SHEET
        assert used in (ON_A_SHEET, SHEETS * ON_A_SHEET), "a sheet is left half empty"
    else:
        assert way == (1, 1, 1)


def test_a_tag_tells_names_and_days_and_what_lies_between(site: Parsed) -> None:
    page = site["sheets/plant-tags/index.html"]
    tags = {words_of(one, ".tag"): one for one in page.select(".tags > li")}
    assert set(tags) == {"SP1", "CA1", "BB1", "TO1", "KA1"}, "okra was dropped, and nothing was done for it"
    tomato = tags["TO1"]
    assert [words_of(tomato, name) for name in ("h2", ".botanical", ".variety", ".where")] == [
        "tomato, indeterminate",
        "Solanum lycopersicum",
        "‘Red’",
        "B3 of the back bed, 2026",
    ]
    # 23 March to 10 April: 8 + 10 = 18 days; 10 April to 14 May: 20 + 14 = 34.
    assert words(tomato, "dl > div") == [
        "sown indoors 23 Mar",
        "potted up 10 Apr 18 days on",
        "set out 14 May 34 days on",
    ]
    assert [bool(one.get("class")) for one in tomato.select("dl > div")] == [False, True, False]
    assert words(tomato, ".reckoned") == ["18 days on", "34 days on"], "a planned day is part of both"
    # 1 April to 8 May: 29 + 8 = 37 days, both planned.
    assert words(tags["KA1"], "dl > div.planned") == ["sown indoors 1 Apr", "set out 8 May 37 days on"]
    assert words(tags["SP1"], "dl > div") == ["sown 6 Apr"]
    assert only(tomato, "svg desc").get_text() == f"{BASE}2026/plants/TO1/"
    for tag in tags.values():
        target = only(tag, "svg desc").get_text().removeprefix(BASE)
        assert f"{target}index.html" in site


def test_tags_fill_sheets_of_ten(tmp_path: Path) -> None:
    plan = "".join(
        f"- {{crop: radish, tag: RA{n}, squares: front/A1, sow: Apr {n}, until: Apr {n + 1}}}\n"
        for n in range(1, 22)
    )
    page = html_of(garden(tmp_path, plan=plan))["sheets/plant-tags/index.html"]
    assert [len(one.select("li")) for one in page.select("ul.tags")] == [10, 10, 4]


@pytest.mark.parametrize(
    ("seasons", "titled", "where"),
    [
        ("", "Plant tags for 2026 and 2027", [{"2026"}, {"2027"}]),
        # Of a season that is over nobody needs any.
        ("seasons: {2026: {closed: yes}}\n", "Plant tags for 2027", [{"2027"}]),
    ],
)
def test_the_tags_of_a_season_to_come_are_there_once_it_has_a_plan(
    seasons: str, titled: str, where: list[set[str]], tmp_path: Path
) -> None:
    """They were there on the first day of its records, when everything was sown."""
    folder = garden(tmp_path)
    (folder / "content" / "garden.yaml").write_text(f"{GARDEN}{seasons}", encoding="utf-8")
    assert "Plant tags for 2026" in html_of(folder)["sheets/index.html"].get_text()
    (folder / "content" / "2027").mkdir()
    (folder / "content" / "2027" / "plan.yaml").write_text(PLAN, encoding="utf-8")
    pages = html_of(folder)
    sheets = pages["sheets/plant-tags/index.html"].select("ul.tags")
    assert [{one[-4:] for one in words(sheet, ".where")} for sheet in sheets] == where
    assert words(sheets[-1], ".tag") == ["SP1", "CA1", "BB1"]
    assert titled in pages["sheets/index.html"].get_text()
    assert titled in only(pages["sheets/plant-tags/index.html"], "title").get_text()
    ids = [one["id"] for one in pages["sheets/plant-tags/index.html"].select("[id]")]
    assert len(ids) == len(set(ids))


def test_a_poster_has_the_heaviest_weeks_first_and_of_equal_ones_the_earlier(tmp_path: Path) -> None:
    weighed = (("05-05", "1 lb"), ("05-12", "2 lb"), ("05-19", "3 lb"), ("05-26", "2 lb"))
    ledger = "".join(f"- {{date: 2026-{day}, crop: kale, weight: {weight}}}\n" for day, weight in weighed)
    pages = html_of(written(tmp_path, {"garden.yaml": GARDEN, "2026/harvest.yaml": ledger}))
    page = pages["sheets/poster/2026/index.html"]
    numbers = [words(part, "li") for part in page.select(".numbers")]
    assert numbers[1] == ["3.00 18 to 24 May", "2.00 11 to 17 May", "2.00 25 to 31 May"]


def test_a_poster_tells_the_season(site: Parsed) -> None:
    page = site["sheets/poster/2026/index.html"]
    names = words(page, ".year figcaption")
    assert names[0] == "31 March"
    assert names[-1] == "31 October planned"
    assert len(names) == len(page.select(".year svg")) == 8
    may = only(page, "#map-2026-05")
    said = [word for one in may.select(".d-signs > g") for word in words(one, "text")]
    assert said == ["spinach", "carrot", "OK", "KA", "TO"]
    assert only(may, "title").get_text() == "The beds on 20 May 2026"
    numbers = [words(part, "li") for part in page.select(".numbers")]
    assert numbers[0] == [
        "1.50 spinach at least",
        "0.50 mixed bowl: radishes and spinach",
        "0.38 radishes",
    ]
    # ISO weeks 19 (1 lb 8 oz), 20 (8 oz and a handful) and 21 (6 oz) of 2026.
    assert numbers[1] == ["1.50 4 to 10 May", "0.50 11 to 17 May at least", "0.38 18 to 24 May"]


def test_without_an_address_there_is_no_code_and_the_reason_is_said(tmp_path: Path) -> None:
    pages = html_of(garden(tmp_path, address=""))
    for path in ("sheets/sign/front/index.html", "sheets/plant-tags/index.html"):
        assert pages[path].select(".scan-code") == []
        assert NO_ADDRESS in pages[path].get_text(), path


def test_without_season_or_bed_there_is_nothing_to_print(tmp_path: Path) -> None:
    bare = html_of(written(tmp_path / "a", {"garden.yaml": GARDEN}))
    marking = {f"sheets/marking-out/{bed}/index.html" for bed in ("front", "back")}
    assert {path for path in bare if path.startswith("sheets/")} == {"sheets/index.html", *marking}
    lone = html_of(
        written(
            tmp_path / "b",
            {
                "garden.yaml": "name: X\n",
                "2026/harvest.yaml": "- {date: 2026-05-01, crop: kale, weight: 1 lb}\n",
            },
        )
    )
    assert not [path for path in lone if path.startswith("sheets/")]


def test_before_the_season_the_sheets_show_what_is_planned(tmp_path: Path) -> None:
    written(tmp_path, {"garden.yaml": GARDEN, "2026/plan.yaml": PLAN})
    pages = html_of(tmp_path)
    assert "lies outside season 2026" in pages["sheets/tally-sheet/index.html"].get_text()
    assert "as planned" in pages["sheets/sign/front/index.html"].get_text()
    assert "sheets/poster/2026/index.html" not in pages
    assert len(pages["sheets/plant-tags/index.html"].select(".tags > li")) == 3
