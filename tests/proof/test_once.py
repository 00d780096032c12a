"""Who hears a page, or reads it without style sheets, meets each drawing once, though it lies there twice."""

from __future__ import annotations

import subprocess
from collections import Counter
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from playwright.sync_api import Page

from tallybed.drawing.base.twice import passed_over
from tests import tools

PAIRED = 'svg[class*="-flat"], svg[class*="-wide"], svg[class*="-upright"], svg[class*="-narrow"]'
TWO = '<svg role="img"><title>first drawing</title></svg><svg role="img"><desc>second drawing</desc></svg>'


def words(text: str) -> str:
    """Return a text as one line."""
    return " ".join(text.split())


def pairs(page: BeautifulSoup, element: str) -> Counter[str]:
    """Return what the drawings of a page that lie there twice say of themselves, each counted once."""
    found = Counter(words(each.find(element).get_text()) for each in page.select(PAIRED))
    assert all(number % 2 == 0 for number in found.values()), "a drawing lies there once"
    return Counter({said: number // 2 for said, number in found.items()})


def dumped(page: Path) -> str:
    """Return what w3m shows of a page, as one line."""
    w3m = tools.program("w3m", remedy="apt-get install w3m")
    done = subprocess.run(
        [w3m, "-dump", "-cols", "400", "-T", "text/html", "-I", "UTF-8", "-O", "UTF-8", str(page)],
        capture_output=True,
        text=True,
        check=True,
    )
    return words(done.stdout)


def test_a_text_browser_shows_each_drawing_once(samples: dict[str, Path]) -> None:
    met = 0
    for kind, path in samples.items():
        page = BeautifulSoup(path.read_bytes(), "lxml")
        drawings = page.select(PAIRED)
        if not drawings:
            continue
        text = dumped(path)
        shown = Counter(words(each.desc.get_text()) for each in drawings[::2])
        unseen = Counter(words(each.desc.get_text()) for each in drawings[1::2])
        for said, number in shown.items():
            assert text.count(said) == number, f"{kind} does not say once: {said[:80]}"
        for said in unseen.keys() - shown.keys():
            assert said not in text, f"{kind} says a drawing for narrow pages too: {said[:80]}"
        assert words(page.select("footer")[0].get_text())[-40:] in text, f"{kind} is not shown to its end"
        met += len(drawings)
    assert met > 30


def test_a_drawing_shown_twice_would_be_seen(tmp_path: Path) -> None:
    page = tmp_path / "page.html"
    first, second = TWO.replace("</svg><svg", "</svg>\n<svg").split("\n")
    page.write_text(f"<!DOCTYPE html><title>x</title>{first}{second}<p>end", encoding="utf-8")
    assert "second drawing" in dumped(page)
    page.write_text(f"<!DOCTYPE html><title>x</title>{first}{passed_over(second)}<p>end", encoding="utf-8")
    assert dumped(page) == "end"


@pytest.mark.parametrize("width", [360, 1280])
def test_a_screen_reader_meets_each_drawing_once(tab: Page, samples: dict[str, Path], width: int) -> None:
    tab.set_viewport_size({"width": width, "height": 900})
    reader = tab.context.new_cdp_session(tab)
    for kind in ("bed-month", "season", "tally", "marking-out", "entry"):
        path = samples[kind]
        tab.goto(path.as_uri())
        tab.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)")
        heard = Counter(
            words(node["name"]["value"])
            for node in reader.send("Accessibility.getFullAXTree")["nodes"]
            if not node["ignored"] and node["role"]["value"] in ("group", "image") and node.get("name")
        )
        titles = pairs(BeautifulSoup(path.read_bytes(), "lxml"), "title")
        assert titles, f"{kind} has no drawing"
        assert {said: heard[said] for said in titles} == dict(titles), kind
