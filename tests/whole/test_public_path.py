"""The public's path: what a visitor asks at the gate, and how many clicks lead to the answer."""

from __future__ import annotations

import importlib.util
import re
from pathlib import Path
from posixpath import dirname, join, normpath
from statistics import median
from types import ModuleType
from urllib.parse import unquote

import pytest
from bs4 import BeautifulSoup, Tag
from lxml.html import HtmlElement

from tallybed.garden.days import without_year
from tallybed.pages.drawings.months import shown_month
from tallybed.pages.frame import addresses
from tallybed.pages.frame.moved import moved
from tallybed.reckoning.beds import histories_of, month_of
from tallybed.reckoning.rows.season import answer
from tallybed.reckoning.year import Year, Years
from tests.pages.gardens import Links, Parsed, leads_on, only
from tests.tools import ROOT

HOME = "index.html"
ONCE = (ROOT / "tests/data/addresses/once_public.txt").read_text(encoding="utf-8").split("\n")[:-1]
"""Every address that the demonstration's site had at commit 8f096f9, but for photographs, which a garden may
take back."""
FIRST_FLIGHT = 14_600
"""Bytes that a server sends before it waits for an answer: ten segments of 1,460 (RFC 6928)."""


@pytest.fixture(scope="module")
def year(the_demo: Years) -> Year:
    assert the_demo.running is not None
    return the_demo.running


def within(texts: dict[str, str], clicks: int) -> set[str]:
    """Return the pages that so many clicks lead to from the first page, by following links."""
    reached, edge = {HOME}, {HOME}
    for _click in range(clicks):
        edge = {to for here in edge for to in _targets(here, texts[here]) if to in texts} - reached
        reached |= edge
    return reached


def _targets(here: str, text: str) -> set[str]:
    paths = (link.partition("#")[0] for link in Links(text).links if "://" not in link)
    return {normpath(join(dirname(here), unquote(path))) for path in paths if path}


def rows_of(trees: dict[str, HtmlElement], texts: dict[str, str], clicks: int, to: str) -> list[str]:
    """Return the words of each row of a table that leads to a page, on pages so few clicks away."""
    end = to.split("/", 1)[1].removeprefix("plants/")
    near = sorted(path for path in within(texts, clicks) if end in texts[path])
    return [
        " ".join(" ".join(row.itertext()).split())
        for path in near
        for row in trees[path].iter("tr")
        if any(normpath(join(dirname(path), link.get("href", ""))) == to for link in row.iter("a"))
    ]


def test_how_much_so_far_stands_on_the_first_page(year: Year, pages: Parsed) -> None:
    assert year.garden.showing.kept_number(year.total.weight) in only(pages[HOME], ".sum").get_text()


@pytest.mark.parametrize("bed", ["long", "elbow"])
def test_what_stands_in_a_square_now_stands_on_the_first_page(year: Year, pages: Parsed, bed: str) -> None:
    month = month_of(year, year.garden.bed(bed), shown_month(year))
    (holder,) = {
        one.planting
        for one in month.holders
        if one.square.label == "C2" and one.first <= year.today <= one.last
    }
    drawn = only(pages[HOME], f"#map-{bed}-flat")
    (link,) = (one for one in drawn.select("a") if f"/plants/{holder}/" in str(one["href"]))
    assert link["aria-label"], "the map says it in words too"


def test_the_verdict_and_its_row_ground_stand_together_on_the_first_page(year: Year, pages: Parsed) -> None:
    found = answer(year)
    assert found is not None
    section = " ".join(only(pages[HOME], ".verdict").get_text(" ").split())
    assert "Too little to tell" in section
    assert (
        f"{year.garden.showing.area_number(found.rows.square_feet.middle)} sq ft of ordinary rows" in section
    )


def test_when_peas_are_planted_is_one_click_away(
    year: Year, trees: dict[str, HtmlElement], texts: dict[str, str]
) -> None:
    (pea, *_more) = (one for one in year.plantings if one.crop.slug == "pea-snap")
    began = histories_of(year)[pea.key].began
    assert pea.planned
    assert began
    said = rows_of(trees, texts, 1, addresses.planting(pea))
    assert any(without_year(began) in row and without_year(pea.planned.begins) in row for row in said)


def test_what_became_of_last_years_squash_is_two_clicks_away(
    year: Year, trees: dict[str, HtmlElement], texts: dict[str, str]
) -> None:
    before = year.beside(-1)
    assert before
    squash = [one for one in before.plantings if (one.crop.slug or "").startswith("squash")]
    assert squash
    for one in squash:
        gone = histories_of(before)[one.key].gone
        said = rows_of(trees, texts, 2, addresses.planting(one))
        assert gone is None or any(without_year(gone) in row for row in said), one.key


def test_whether_it_can_be_done_elsewhere_is_one_click_away(
    the_demo: Years, pages: Parsed, texts: dict[str, str]
) -> None:
    assert addresses.YOUR_PLACE in within(texts, 1)
    words = only(pages[addresses.YOUR_PLACE], "main").get_text(" ")
    for needed in ("sq ft", "hours a day", "minutes a week", "twine", "extension office"):
        assert needed in words
    ways = _targets(addresses.YOUR_PLACE, texts[addresses.YOUR_PLACE])
    assert {addresses.marking(bed) for bed in the_demo.garden.beds} <= ways


def test_the_weeks_jobs_are_those_of_its_bulletin(year: Year, pages: Parsed) -> None:
    """The first page tells the plan's jobs that the bulletin of the week names; the late ones stand apart."""
    bulletin = only(pages[addresses.bulletin(year, year.weeks[-1])], "main").get_text(" ")
    ahead = only(pages[HOME], "section.ahead")
    late = only(ahead, "h3.late")
    last = late.find_next_sibling("ul")
    assert isinstance(last, Tag)
    named = re.findall(r"on (\d+ \w+)", bulletin.partition("Next")[2])
    days = {one.get_text() for one in ahead.select(".due time")}
    assert set(named) <= days
    assert not {one.get_text() for one in last.select("time")} & set(named)


def test_every_address_that_was_once_public_leads_on(demo: Path, the_demo: Years) -> None:
    leads = {path: link.to for path, link in moved(the_demo)}
    gone = []
    for path in ONCE:
        file = demo / path
        if not file.is_file():
            gone.append(path)
        elif path.endswith(".html") and leads_on(file.read_text(encoding="utf-8")):
            assert (demo / leads[path]).is_file(), path
    assert gone == [], "an address leads nowhere: give its rule a line in pages/frame/moved.py"


def test_the_small_pages_lead_on_without_a_script_and_are_no_pages_of_the_site(
    demo: Path, the_demo: Years, texts: dict[str, str]
) -> None:
    sitemap = (demo / "sitemap.xml").read_text(encoding="utf-8")
    found = dict(moved(the_demo))
    assert found
    for path, link in found.items():
        text = (demo / path).read_text(encoding="utf-8")
        page = BeautifulSoup(text, "lxml")
        refresh = str(only(page, "meta[http-equiv=refresh]")["content"])
        assert refresh.startswith("0; url="), "at once, or a reader is moved while reading (WCAG 2.2, 2.2.1)"
        for typed in (refresh.removeprefix("0; url="), str(only(page, "main a")["href"])):
            assert normpath(join(dirname(path), typed)) == link.to, path
        assert link.to in texts
        assert path not in texts
        assert not page.select("script")
        assert f"/{path.removesuffix(HOME)}<" not in sitemap


@pytest.fixture(scope="module")
def weights(demo: Path) -> dict[str, float]:
    return _bench("weight").weighed(demo)  # type: ignore[no-any-return]


def _bench(name: str) -> ModuleType:
    """Load a script of the bench."""
    spec = importlib.util.spec_from_file_location(name, ROOT / "bench" / f"{name}.py")
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_pages_are_light(weights: dict[str, float]) -> None:
    """HTML and every style sheet of the page, gzipped, in KB: the project's own bounds."""
    assert weights[HOME] <= 36
    assert median(weights.values()) <= 12


def test_the_first_paint_needs_two_round_trips(demo: Path, texts: dict[str, str]) -> None:
    """The page, then its style sheets side by side, which ask for nothing more and come in one flight."""
    for path, text in texts.items():
        head = text.partition("</head>")[0]
        assert "<script src" not in head, path
        for sheet in re.findall(r'<link rel="stylesheet" href="([^"]+)">', head):
            assert "://" not in sheet, path
    zipped = {sheet.name: _bench("weight").zipped(sheet) for sheet in demo.glob("*.css")}
    assert sum(zipped.values()) <= FIRST_FLIGHT
    for sheet in demo.glob("*.css"):
        assert not re.search(r"@import|url\(", sheet.read_text(encoding="utf-8")), sheet
