"""The class's notebook run as it stands, and its results held against the site's own figures."""

from __future__ import annotations

import contextlib
import io
import re
import shutil
import subprocess
from calendar import month_abbr, month_name
from datetime import datetime
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from lxml.html import HtmlElement

from tests.documents import PAGES
from tests.tools import program

PAGE = "docs/class-notebook.md"
SHOWN = "2025"
"""The season whose figures the page shows: it is closed, so they stay."""
SEASONS = ("2024", SHOWN, "2026")
BLOCK = re.compile(r"^```(python|sh|r)\n(.*?)^```\n(?:\n```text\n(.*?)^```\n)?", re.MULTILINE | re.DOTALL)
BLOCKS = [(kind, code, said) for kind, code, said in BLOCK.findall(PAGES[PAGE])]
REMEDY = {
    "sqlite3": "apt-get install sqlite3",
    "Rscript": "apt-get install --no-install-recommends r-base-core",
    "soffice": "apt-get install --no-install-recommends libreoffice-calc-nogui",
}


@pytest.fixture(scope="module")
def folders(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The files of each season of the demonstration, in a folder of their own, as a class would save them."""
    root = tmp_path_factory.mktemp("notebook")
    found = {season: root / season for season in SEASONS}
    for season, folder in found.items():
        folder.mkdir()
        for file in (demo / season / "data").glob("*.csv"):
            shutil.copy(file, folder)
    return found


@pytest.fixture(scope="module")
def worked(folders: dict[str, Path]) -> dict[str, tuple[dict[str, Any], list[str]]]:
    """What the page's Python comes to in each season: its names, and what each block prints."""
    found = {}
    for season, folder in folders.items():
        names: dict[str, Any] = {}
        said = []
        with contextlib.chdir(folder):
            for kind, code, _shown in BLOCKS:
                if kind == "python":
                    with contextlib.redirect_stdout(io.StringIO()) as out:
                        exec(compile(code, PAGE, "exec"), names)  # noqa: S102 - it is our own page
                    said.append(out.getvalue())
        found[season] = names, said
    return found


def same(shown: str, said: str) -> bool:
    """Whether two outputs are the same but for spaces at the end of their lines."""
    return [line.rstrip() for line in shown.strip("\n").splitlines()] == [
        line.rstrip() for line in said.strip("\n").splitlines()
    ]


def rows(trees: dict[str, HtmlElement], path: str, ident: str) -> list[list[str]]:
    """The cells of a table of the site, row by row; in the place of a planting's words, its page's name."""
    table = trees[path].get_element_by_id(ident)
    found = []
    for row in table.iter("tr"):
        cells = [" ".join(cell.text_content().split()) for cell in row.iter("th", "td")]
        leads = [str(link.get("href")) for link in row.iter("a")]
        planting = re.search(r"(?:^|plants/)([\w-]+)/index\.html$", leads[0]) if leads else None
        found.append([planting[1] if planting and ident == "plantings" else cells[0], *cells[1:]])
    return found


def in_data(listed: str) -> str:
    """A crop as the data call it: a list of the site has the kind after the name, ``onions, bulb``."""
    name, comma, kind = listed.partition(", ")
    return f"{kind} {name}" if comma and not listed.startswith("mixed bowl") else listed


def figure(cell: str) -> float | None:
    """The number that a cell begins with, perhaps after “at least” as a sign; None where there is none."""
    match = re.match(r"(?:≥ )?([\d,]+(?:\.\d+)?)", cell)
    return float(match[1].replace(",", "")) if match else None


def near(shown: float, reckoned: float, places: int = 2) -> bool:
    """Whether a figure is what the site shows of it, rounded; a half may go either way."""
    return abs(shown - reckoned) <= 0.5 * 10**-places + 1e-4


def test_the_page_prints_what_it_shows(worked: dict[str, tuple[dict[str, Any], list[str]]]) -> None:
    _names, said = worked[SHOWN]
    shown = [text for kind, _code, text in BLOCKS if kind == "python"]
    assert len(shown) > 6
    for text, out in zip(shown, said, strict=True):
        assert same(text, out), f"the page shows\n{text}\nand now it is\n{out}"


@pytest.mark.parametrize("season", SEASONS)
def test_weight_by_crop_and_month_is_the_tallys(
    worked: dict[str, tuple[dict[str, Any], list[str]]], trees: dict[str, HtmlElement], season: str
) -> None:
    by_month = worked[season][0]["by_month"]
    heads, *told = rows(trees, f"{season}/tally/index.html", "t-crops")
    months = {list(month_abbr).index(head): place for place, head in enumerate(heads) if head in month_abbr}
    own = {in_data(row[0]): row for row in told}
    checked = 0
    for crop, weights in by_month.iterrows():
        bowl = str(crop).split("; ")
        name = crop if len(bowl) == 1 else f"mixed bowl: {', '.join(bowl[:-1])} and {bowl[-1]}"
        for month, weight in weights.items():
            assert near(figure(own[name][months[month]]) or 0, weight), (name, month)
            checked += bool(weight)
    assert checked > 40
    season_at = heads.index("Season")
    assert near(figure(own["All crops"][season_at]) or 0, worked[season][0]["counted"]["pounds"].sum())


@pytest.mark.parametrize("season", SEASONS)
def test_weight_per_planting_and_square_foot_is_that_of_the_plantings(
    worked: dict[str, tuple[dict[str, Any], list[str]]], trees: dict[str, HtmlElement], season: str
) -> None:
    names, _said = worked[season]
    heads, *told = rows(trees, f"{season}/plants/index.html", "plantings")
    weight = heads.index("Weight, lb")
    over = next(place for place, head in enumerate(heads) if head.startswith("Over its squares"))
    own = {row[0]: row for row in told}
    found = {key: value for key, value in names["per_square_foot"].items() if value}
    assert {key for key, row in own.items() if figure(row[over])} == set(found)
    for key, value in found.items():
        assert near(figure(own[key][over]) or 0, value), key
        assert near(figure(own[key][weight]) or 0, names["per_planting"][key]), key
    assert len(found) > 20


@pytest.mark.parametrize("season", SEASONS)
def test_the_use_of_the_beds_is_that_of_the_page_beside_rows(
    worked: dict[str, tuple[dict[str, Any], list[str]]], trees: dict[str, HtmlElement], season: str
) -> None:
    names, _said = worked[season]
    _heads, *told, whole = rows(trees, f"{season}/rows/index.html", "t-use")
    held = names["held"]["day"].dt.month.value_counts()
    for name, held_days, there, use in told:
        month = list(month_name).index(name.split()[0])
        assert figure(held_days) == held.get(month, 0), name
        assert figure(there) == names["there"][month], name
        assert near(figure(use) or 0, names["use_by_month"][month] * 100, 0), name
    assert figure(whole[1]) == len(names["held"])
    squares = names["beds"].set_index("bed")["squares"]
    mean = (names["use_of_bed"] * squares).sum() / squares.sum()
    assert near(figure(whole[3]) or 0, mean * 100, 0)


@pytest.mark.parametrize("season", SEASONS)
def test_where_it_went_is_what_the_tally_says(
    worked: dict[str, tuple[dict[str, Any], list[str]]], trees: dict[str, HtmlElement], season: str
) -> None:
    by_place = worked[season][0]["by_place"]
    _heads, *told = rows(trees, f"{season}/tally/index.html", "t-destination")
    own = {row[0].removesuffix(": given to nobody"): figure(row[1]) for row in told if row[0] != "not told"}
    assert set(own) == set(by_place.index)
    for place, weight in by_place.items():
        assert near(own[place] or 0, weight), place


@pytest.mark.parametrize("season", SEASONS)
def test_weight_over_each_ground_is_the_tallys(
    worked: dict[str, tuple[dict[str, Any], list[str]]], trees: dict[str, HtmlElement], season: str
) -> None:
    """The squares alone, and all the ground together, as the head of the tally has them."""
    told = " ".join(trees[f"{season}/tally/index.html"].text_content().split())
    per_ground = worked[season][0]["per_ground"]
    for words, value in (("the squares", per_ground.iloc[0]), ("their share of path", per_ground.iloc[2])):
        found = re.findall(rf"([\d.]+) lb per sq ft of [^()]*?{words}", told)
        assert any(near(float(one), value) for one in found), (words, value, found)


@pytest.mark.parametrize("kind", ["sqlite3", "Rscript"])
def test_another_program_says_what_the_page_shows(folders: dict[str, Path], kind: str) -> None:
    path = program(kind, remedy=REMEDY[kind])
    wanted = "r" if kind == "Rscript" else "sh"
    ((code, shown),) = [
        (code, text) for lang, code, text in BLOCKS if lang == wanted and (wanted == "r" or kind in code)
    ]
    command = [path, "-e", code] if wanted == "r" else ["sh", "-c", code]
    done = subprocess.run(command, cwd=folders[SHOWN], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert same(shown, done.stdout), done.stdout


def test_libreoffice_makes_a_workbook_of_dates_numbers_and_truth(
    folders: dict[str, Path], worked: dict[str, tuple[dict[str, Any], list[str]]], tmp_path: Path
) -> None:
    office = program("soffice", remedy=REMEDY["soffice"])
    (code,) = [code for kind, code, _said in BLOCKS if kind == "sh" and "soffice" in code]
    (formula,) = re.findall(r"`(=SUMIFS[^`]+)`", PAGES[PAGE])
    shutil.copy(folders[SHOWN] / "ledger.csv", tmp_path)
    own = f"-env:UserInstallation={(tmp_path / 'settings').as_uri()}"
    run = {"cwd": tmp_path, "capture_output": True, "text": True, "check": True}
    subprocess.run(["sh", "-c", code.replace("soffice", f"{office} {own}", 1)], **run)
    book = openpyxl.load_workbook(tmp_path / "ledger.xlsx")
    heads, first, *_ = book.active.iter_rows(values_only=True)
    row = dict(zip(heads, first, strict=True))
    assert (row["date"], row["grams"], row["in_total"]) == (datetime(2025, 4, 26), 141.748, True)  # noqa: DTZ001
    book.active["X1"] = formula
    book.save(tmp_path / "sum.xlsx")
    as_utf8 = "csv:Text - txt - csv (StarCalc):44,34,76"
    subprocess.run([office, own, "--headless", "--convert-to", as_utf8, "sum.xlsx"], **run)
    heads_again = (tmp_path / "sum.csv").read_text(encoding="utf-8").splitlines()[0].split(",")
    says = f"{PAGE}: `{formula}` names the columns pounds and in_total by their letters"
    assert near(float(heads_again[-1]), worked[SHOWN][0]["counted"]["pounds"].sum()), says
