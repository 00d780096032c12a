"""What people type stays text, whatever field it is typed in."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.tasks.build import make
from tests.pages.gardens import leads_on, parsed, written

pytestmark = pytest.mark.usefixtures("few_crops")

EVIL = "<script>alert(1)</script>"
QUOTED = "\\\"'><img src=x onerror=alert(1)>"

GARDEN = f"""\
name: "Garden {EVIL}"
place: "Town {QUOTED}"
latitude: 41
longitude: -80
time zone: America/New_York
units: pounds
about: "About {EVIL}"
season: {{start: Mar 1, end: Oct 31}}
seasons:
  2026: {{note: "Note {EVIL}"}}
beds:
  - {{name: front, title: "Bed {QUOTED}", length: 3 squares, width: 2 squares, note: "Bed note {EVIL}"}}
"""
CROPS = f"""\
- new: "beanstalk {EVIL}"
  plural: "beanstalks {QUOTED}"
  also: ["vine {EVIL}"]
  botanical name: "Phaseolus {EVIL}"
  family: "Fabaceae {EVIL}"
  habit: upright
  start: sown
  letters: Bx
  spacing: 6 in
  days: 60
  source: "jar {EVIL}"
  varieties:
    - {{name: "Jack {EVIL}", days: 50, source: "packet {EVIL}"}}
"""
CROP = f'"beanstalk {EVIL}"'
PLAN = f"""\
- {{crop: {CROP}, tag: BX1, variety: "Jack {EVIL}", squares: A1:A2, sow: Apr 5, note: "Plan note {EVIL}"}}
- {{crop: {CROP}, tag: BX2, squares: B1, sow: Apr 5, dropped: May 1, because: "cause {EVIL}"}}
"""
ENTRY = f"""\
---
title: "Visit {EVIL}"
date: 2026-04-06
by: "someone {QUOTED}"
done:
  - {{sow: {CROP}, tag: BX1, squares: A1:A2, note: "done note {EVIL}", amount: "amount {EVIL}"}}
  - {{lost: {CROP}, tag: BX1, squares: A2, because: "slugs {EVIL}"}}
  - {{water: "bed {EVIL}", squares: A1}}
further reading:
  - {{title: "A book {EVIL}", address: "https://example.org/?a=1&b=2"}}
---
Prose {EVIL} here.
"""
LEDGER = f"""\
- {{date: 2026-06-05, crop: {CROP}, tag: BX1, weight: 1 lb, to: "pantry {EVIL}"}}
- {{date: 2026-06-05, tag: BX1, weight: 1 lb, as: "form {EVIL}", note: "n {EVIL}"}}
- {{date: 2026-06-06, mixed: [{CROP}, spinach], weight: 1 lb, to: {{"hall {QUOTED}": 8 oz, home: the rest}}}}
"""
QUESTION = f"""\
---
question: "Why {EVIL}?"
asked: 2026-05-18
by: "visitor {QUOTED}"
about: [{CROP}]
---
Answer {EVIL}.
"""
LEAF = f'---\ntitle: "Leaf {EVIL}"\n---\nBody {EVIL}\n'


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, BeautifulSoup]:
    root = written(
        tmp_path_factory.mktemp("evil"),
        {
            "garden.yaml": GARDEN,
            "crops.yaml": CROPS,
            "2026/plan.yaml": PLAN,
            "2026/log/2026-04-06-visit.md": ENTRY,
            "2026/harvest.yaml": LEDGER,
            "questions/why.md": QUESTION,
            "leaf.md": LEAF,
        },
    )
    return _built(root)


def _built(root: Path) -> dict[str, BeautifulSoup]:
    made = make(root)
    assert made.files, made.findings
    library = {"crops/index.html"}
    return {
        path: parsed(data.decode("utf-8"))
        for path, data in made.files.items()
        if path.endswith(".html")
        and not leads_on(data.decode("utf-8"))
        and (not path.startswith("crops/") or path in library or "beanstalk" in path)
    }


def test_nothing_typed_becomes_an_element(pages: dict[str, BeautifulSoup]) -> None:
    assert len(pages) > 15
    for path, page in pages.items():
        # Linked data is data: see test_linked.py for what it may hold.
        assert not page.select('script:not([type="application/ld+json"])'), path
        assert not page.find_all("img"), path
        for element in page.find_all(True):
            assert not [name for name in element.attrs if name.startswith("on")], f"{path}: {element.name}"


FIELDS = {
    "index.html": ("Garden", "About"),
    "2026/index.html": ("Note", "Visit"),
    "2026/beds/front/index.html": ("Bed note",),
    "2026/plants/index.html": ("beanstalk", "Jack", "Plan note", "cause"),
    "2026/log/04-06-visit/index.html": ("Visit", "done note", "amount", "slugs", "bed", "A book", "Prose"),
    "2026/tally/index.html": ("pantry", "Jack"),
    "questions/why/index.html": ("Why", "Answer"),
    "leaf/index.html": ("Leaf", "Body"),
}


@pytest.mark.parametrize("path", FIELDS)
def test_what_was_typed_is_read_as_typed(pages: dict[str, BeautifulSoup], path: str) -> None:
    text = " ".join(pages[path].get_text(" ").split())
    for word in FIELDS[path]:
        assert f"{word} {EVIL}" in text, f"{path} does not show the field of {word!r} as typed"


def test_titles_and_descriptions_are_text(pages: dict[str, BeautifulSoup]) -> None:
    page = pages["2026/log/04-06-visit/index.html"]
    assert page.title is not None
    assert page.title.get_text() == f"Visit {EVIL} – Garden {EVIL}"
    assert page.title.find() is None
