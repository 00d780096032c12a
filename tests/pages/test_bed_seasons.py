"""Pages and files of a garden where a bed was taken away after a season, and another was added."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.pages.frame.addresses import NOT_FOUND
from tallybed.publishing.files.relinking import target
from tallybed.tasks.build import make
from tests.bed_seasons import FRONT, OLD, garden_yaml, season_files, three_years
from tests.pages.gardens import Links, Parsed, leads_on, only

pytestmark = pytest.mark.usefixtures("few_crops")
THERE = {"2024": {"old", "front"}, "2025": {"old", "front"}, "2026": {"front", "new"}}
NOW = {"front", "new"}
_NAME = re.compile(r"(?<![\w-])(old|new)(?: bed\b|/[A-Z][0-9])")
"""A bed told by its title or with its squares."""


@pytest.fixture(scope="module")
def files(few_crops: None, tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:  # noqa: ARG001 -- it must come first
    made = make(three_years(tmp_path_factory.mktemp("garden")))
    assert made.files, made.findings
    return dict(made.files)


@pytest.fixture(scope="module")
def texts(files: dict[str, bytes]) -> dict[str, str]:
    """Every page by its path, those too that lead on."""
    return {path: data.decode("utf-8") for path, data in files.items() if path.endswith(".html")}


@pytest.fixture(scope="module")
def pages(texts: dict[str, str]) -> Parsed:
    return Parsed({path: text for path, text in texts.items() if not leads_on(text)})


def words(page: BeautifulSoup) -> str:
    return " ".join(only(page, "main").get_text(" ").split())


def test_each_season_has_pages_of_its_beds_and_of_no_other(pages: Parsed) -> None:
    found: dict[str, set[str]] = {}
    months: dict[str, set[str]] = {}
    for path in pages:
        if match := re.fullmatch(r"(\d{4})/beds/(\w+)/index.html", path):
            found.setdefault(match[1], set()).add(match[2])
        if match := re.match(r"(\d{4})/beds/(\w+)/\d\d/sun/", path):
            months.setdefault(match[1], set()).add(match[2])
    assert found == months == THERE


def test_no_page_of_a_season_speaks_of_a_bed_that_was_not_there(pages: Parsed) -> None:
    spoken: dict[str, set[str]] = {year: set() for year in THERE}
    for path in pages:
        year = re.match(r"(\d{4})/|sheets/poster/(\d{4})/", path)
        if year:
            spoken[year[1] or year[2]] |= {match[1] for match in _NAME.finditer(words(pages[path]))}
    assert spoken == {"2024": {"old"}, "2025": {"old"}, "2026": {"new"}}


def test_no_link_leads_to_a_bed_in_a_season_in_which_it_was_not_there(
    files: dict[str, bytes], texts: dict[str, str]
) -> None:
    links = {
        target(path, link)[0]
        for path, text in texts.items()
        if path != NOT_FOUND  # that one names where the site lies on its host
        for link in Links(text).links
    }
    assert "2024/beds/front/04/index.html" in links
    assert links - set(files) == {""}, "an empty one leads elsewhere"


def test_the_data_of_a_season_holds_its_beds(files: dict[str, bytes]) -> None:
    told = {}
    for year in THERE:
        rows = csv.DictReader(files[f"{year}/data/beds.csv"].decode("utf-8-sig").splitlines())
        told[year] = {row["bed"]: row["squares"] for row in rows}
    assert told == {
        "2024": {"old": "6", "front": "8"},
        "2025": {"old": "6", "front": "8"},
        "2026": {"front": "8", "new": "10"},
    }


def test_a_season_is_told_over_its_own_squares(pages: Parsed) -> None:
    # 12 lb over 14 and over 18 squares of a foot
    assert "0.86 lb per sq ft of the squares" in words(pages["2024/tally/index.html"])
    assert "0.86 lb per sq ft of the squares" in words(pages["2025/tally/index.html"])
    assert "0.67 lb per sq ft of the squares" in words(pages["2026/tally/index.html"])


def test_the_first_page_shows_the_beds_of_today(pages: Parsed) -> None:
    page = pages["index.html"]
    titles = [one.get_text() for one in page.select(".beds h2, .beds h3") if "bed" in one.get_text()]
    assert titles == ["The front bed", "The new bed"]
    assert not _NAME.search(words(page).replace("new bed", ""))


def test_sheets_and_signs_are_of_the_beds_of_today(pages: Parsed, texts: dict[str, str]) -> None:
    assert {path.split("/")[2] for path in pages if path.startswith("sheets/sign/")} == NOW
    assert leads_on(texts["sheets/sign/old/index.html"])
    # Its page in its last season leads to how it is marked out, which stays true of it.
    assert {path.split("/")[2] for path in pages if path.startswith("sheets/marking-out/")} == {*NOW, "old"}
    assert "old bed" not in words(pages["sheets/index.html"])
    assert "new bed" in words(pages["sheets/index.html"])
    assert "old" not in words(pages["sheets/tally-sheet/index.html"])


def test_a_bed_to_come_can_be_marked_out_before_its_season(tmp_path: Path) -> None:
    """Fails where the page of the bed in the season to come leads to a sheet that is not there yet."""
    root = three_years(tmp_path)
    for path in (root / "content/2026").rglob("*"):
        if path.is_file() and path.name != "plan.yaml":
            path.unlink()
    made = make(root)
    assert made.files, made.findings
    sheets = words(BeautifulSoup(made.files["sheets/index.html"], "lxml"))
    assert "Marking out the front bed Marking out the new bed, from 2026 on" in sheets
    assert "Marking out the old bed" in sheets
    for year, beds in THERE.items():
        for bed in beds:
            page = BeautifulSoup(made.files[f"{year}/beds/{bed}/index.html"], "lxml")
            assert page.select(f'a[href="../../../sheets/marking-out/{bed}/index.html"]')
            assert not leads_on(made.files[f"sheets/marking-out/{bed}/index.html"].decode())


def test_the_addresses_of_a_bed_that_is_gone_lead_to_its_last_season(texts: dict[str, str]) -> None:
    """Fails where a month that was published before the bed was told to be gone leads nowhere."""
    led = {
        path: text for path, text in texts.items() if leads_on(text) and "/old/" in path and "2026" in path
    }
    of_another = {path for path in texts if path.startswith("2026/beds/front/")}
    assert {path.replace("/old/", "/front/") for path in led} == of_another, "an address leads nowhere"
    assert any(path.endswith("/sun/index.html") for path in led)
    led["sheets/sign/old/index.html"] = texts["sheets/sign/old/index.html"]
    for text in led.values():
        assert "2025/beds/old/" in only(BeautifulSoup(text, "lxml"), "a").attrs["href"]
    assert not [path for path in texts if "/new/" in path and path.startswith(("2024", "2025"))]


def test_a_gardener_elsewhere_reads_the_ground_that_gave_the_figures(pages: Parsed) -> None:
    said = words(pages["your-place/index.html"])
    assert "Two beds in one place: what they took and gave in 2025" in said
    assert "14 sq ft: the squares" in said
    assert "The old bed: 3 ft by 2 ft." in said
    assert "Marking out the new bed, step by step" in said
    assert "Marking out the old bed" not in said


def test_what_to_take_care_of_is_told_of_the_beds_of_today(pages: Parsed) -> None:
    page = pages["cautions/index.html"]
    assert [one["id"] for one in page.select("[id^=ground-]")] == ["ground-front", "ground-new"]


def test_a_link_to_a_bed_that_is_gone_still_leads_somewhere(tmp_path: Path) -> None:
    log = "---\ntitle: Gone\ndate: 2026-05-20\n---\n[Sign](/sheets/sign/old/) and [bed](/2026/beds/old/).\n"
    made = make(three_years(tmp_path, {"2026/log/2026-05-20-gone.md": log}))
    assert [one for one in made.findings if one.code == "link-nowhere"] == []
    page = BeautifulSoup(made.files["2026/log/05-20-gone/index.html"], "lxml")
    leads = {one.get_text(): str(one["href"]) for one in page.select("main a")}
    assert "2025/beds/old/" in leads["Sign"]
    assert "2025/beds/old/" in leads["bed"]


@pytest.mark.parametrize("keys", ["since: 2025", "until: 2025", "since: 2025, until: 2025"])
def test_a_season_without_any_bed_has_the_pages_of_a_garden_without_one(tmp_path: Path, keys: str) -> None:
    bed = f"  - {{name: front, title: The front bed, length: 2 squares, width: 2 squares, {keys}}}\n"
    rows = "- {date: 2026-05-20, crop: spinach, weight: 6 oz}\n"
    ledgers = {f"{year}/harvest.yaml": rows.replace("2026", year) for year in THERE}
    content = {"garden.yaml": garden_yaml(bed), **ledgers}
    root = three_years(tmp_path, content)
    for year in THERE:
        (root / f"content/{year}/plan.yaml").unlink()
        for path in (root / f"content/{year}/log").iterdir():
            path.unlink()
    made = make(root)
    assert made.files, made.findings
    pages = {
        path
        for path, data in made.files.items()
        if path.endswith(".html") and not leads_on(data.decode("utf-8"))
    }
    first, last = ("2025" if "since" in keys else "2024"), ("2025" if "until" in keys else "2026")
    there = {year for year in THERE if first <= year <= last}
    assert {path[:4] for path in pages if re.fullmatch(r"\d{4}/beds/front/index.html", path)} == there
    assert {path.split("/")[2] for path in pages if path.startswith("sheets/poster/")} == there
    assert ("sheets/index.html" in pages) is ("2026" in there)
    sheet = made.files["sheets/marking-out/front/index.html"]
    assert (b'href="../../index.html"' in sheet) is ("2026" in there), "the way back to the list of sheets"


def test_an_added_and_a_taken_away_bed_leave_a_past_season_as_it_was(
    files: dict[str, bytes], tmp_path: Path
) -> None:
    """All of it: pages, drawings and data of 2024, before the two changes of beds and after them."""
    plain = garden_yaml(OLD.replace(", until: 2025", ""), FRONT)
    before = make(three_years(tmp_path, {"garden.yaml": plain, **season_files("2026", "old")})).files
    own = [
        {path: data for path, data in made.items() if path.startswith("2024/")} for made in (before, files)
    ]
    assert len(own[0]) > 50
    assert sorted(own[0]) == sorted(own[1])
    assert [path for path, data in own[0].items() if own[1][path] != data] == []
