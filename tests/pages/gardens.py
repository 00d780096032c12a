"""Small invented gardens on disk, and their sites, for the tests of pages."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

from bs4 import BeautifulSoup, SoupStrainer, Tag

from tallybed.garden.findings import has_errors, worded
from tallybed.pages.catalogue import KINDS, framed
from tallybed.pages.frame.page import Page
from tallybed.pictures.photos import pictures
from tallybed.publishing.assets import layouts
from tallybed.publishing.rendering import Rendering
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.year import Year, Years
from tallybed.tasks.build import make
from tallybed.tasks.site.reckoned import reckoned

GARDEN = """\
name: Two Plank Garden
place: Harrowgate Lane
latitude: 41
longitude: -80
time zone: America/New_York
units: pounds
about: Two small beds behind a hall.
season: {start: Mar 1, end: Oct 31}
freeze dates: {last spring: May 1, first fall: Oct 10}
beds:
  - {name: front, title: The front bed, length: 4 squares, width: 2 squares}
  - {name: back, title: The back bed, length: 3 squares, width: 3 squares, omitted: [C3]}
"""
PLAN = """\
- {crop: spinach, tag: SP1, variety: Broad, squares: front/A1:B2, sow: Apr 5, until: Jun 1, per square: 9}
- {crop: carrot, tag: CA1, squares: back/A1:B1, sow: Apr 20, until: Aug 1}
- {crop: bean-bush, tag: BB1, squares: front/A1:B2, sow: Jun 5, until: Sep 20, per square: 9}
- {crop: okra, tag: OK1, squares: back/C1, sow: May 20, until: Sep 1, dropped: May 22, because: rotted}
"""
LOG = {
    "2026-04-06-spinach-in.md": """\
---
title: Spinach in
date: 2026-04-06
by: the Monday pair
done:
  - {sow: spinach, tag: SP1, squares: front/A1:B2}
  - {weed: bed, squares: back, minutes: 10, people: 2}
---
Cold hands, [carrots](crop:carrot) next.

## What we found

A penny.
""",
    "2026-04-21-carrots-in.md": """\
---
title: Carrots in
date: 2026-04-21
done:
  - {sow: carrot, tag: CA1, squares: back/A1:B1}
  - {treat: soap spray, squares: front, wait: 0 days, re-entry: until dry, note: for aphids}
---
See [the last visit](entry:2026-04-06-spinach-in).
""",
}
LEDGER = """\
- {date: 2026-05-10, crop: spinach, squares: front/A1:A2, weight: 1 lb 8 oz, to: food pantry}
- {date: 2026-05-16, crop: spinach, tag: SP1, weight: not weighed, note: a handful}
- {date: 2026-05-16, mixed: [spinach, radish], weight: about 8 oz}
- {date: 2026-05-20, crop: radish, count: 12, weight: 6 oz}
"""
QUESTION = """\
---
question: Why so few carrots?
asked: 2026-05-18
by: a visitor
about: [carrot]
---
They were slow.
"""
ABOUT = "---\ntitle: About the hall\norder: 1\n---\nWe meet on Mondays.\n"


def folder(root: Path, *, plan: bool = True, log: bool = True, ledger: bool = True) -> Path:
    """Write the garden with the papers asked for, and return its folder."""
    files = {"garden.yaml": GARDEN, "questions/why-so-few.md": QUESTION, "about.md": ABOUT}
    if plan:
        files["2026/plan.yaml"] = PLAN
    if log:
        files |= {f"2026/log/{name}": text for name, text in LOG.items()}
    if ledger:
        files["2026/harvest.yaml"] = LEDGER
    written(root, files)
    (root / "content" / "2026").mkdir(exist_ok=True)
    return root


def written(root: Path, files: Mapping[str, str]) -> Path:
    """Write files below the garden's ``content`` and return its folder."""
    for name, text in files.items():
        path = root / "content" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return root


def site_of(root: Path) -> Years:
    """Return the garden read and reckoned."""
    found = read(root)
    assert not has_errors(found.findings), [worded(finding) for finding in found.findings]
    assert found.garden is not None
    return reckoned(found.garden)


class Pages(Mapping[str, str]):
    """The text of each page of a garden's site by its path, made when it is first asked for.

    Of a kind of page as many are made as it takes to come to that one; to go through the paths
    makes them all.
    """

    def __init__(self, root: Path) -> None:
        self._years = site_of(root)
        self._rendering = Rendering(layouts(root), pictures(root, self._years.garden).by_name)
        self._kind_of = {path: kind for kind in KINDS for path in kind.paths(self._years)}
        self._ahead = {kind.name: iter(kind.every(self._years)) for kind in KINDS}
        self._made: dict[str, Page] = {}
        self._text = cache(self._rendered)

    def __getitem__(self, path: str) -> str:
        kind = self._kind_of[path]
        while path not in self._made:
            page = next(self._ahead[kind.name], None)
            assert page is not None, f"no page of the kind {kind.name} is {path}"
            self._made[page.path] = page
        return self._text(path)

    def __iter__(self) -> Iterator[str]:
        return iter(self._kind_of)

    def __len__(self) -> int:
        return len(self._kind_of)

    def _rendered(self, path: str) -> str:
        return self._rendering.page(framed(self._years, self._made[path])).decode("utf-8")


def every(pages: Callable[[Year], Iterable[Page]], years: Years) -> list[Page]:
    """Every page of a kind that is of one season each."""
    return [page for year in years.all for page in pages(year)]


class Parsed(Mapping[str, BeautifulSoup]):
    """Pages, each parsed when it is first asked for."""

    def __init__(self, texts: Mapping[str, str]) -> None:
        self.texts = texts
        self._of = cache(lambda path: parsed(texts[path]))

    def __getitem__(self, path: str) -> BeautifulSoup:
        return self._of(path)

    def __iter__(self) -> Iterator[str]:
        return iter(self.texts)

    def __contains__(self, path: object) -> bool:
        return path in self.texts

    def __len__(self) -> int:
        return len(self.texts)


def built_pages(root: Path) -> dict[str, str]:
    """Return the text of every page of the garden's site, as a build makes them."""
    made = make(root)
    assert made.files, [worded(finding) for finding in made.findings]
    texts = {path: data.decode("utf-8") for path, data in made.files.items() if path.endswith(".html")}
    return {path: text for path, text in texts.items() if not leads_on(text)}


def leads_on(text: str) -> bool:
    """Whether a page is the small one of an address that leads on, which counts as none."""
    return '<meta http-equiv="refresh"' in text


def pages_of(root: Path) -> Pages:
    """Return the text of each page of the garden's site; none is made before it is asked for."""
    return Pages(root)


def html_of(root: Path) -> Parsed:
    """Return each page of the garden's site, made and parsed when it is asked for."""
    return Parsed(Pages(root))


def only(page: BeautifulSoup | Tag, selector: str) -> Tag:
    """Return the first element of a selector; fail where there is none."""
    found = page.select_one(selector)
    assert found is not None, f"no {selector}"
    return found


def parsed(text: str, *elements: str) -> BeautifulSoup:
    """Return a page, parsed; the elements of these names alone are there in a quarter of the time."""
    return BeautifulSoup(text, "lxml", parse_only=SoupStrainer(elements) if elements else None)


class Links(HTMLParser):
    """Gathers the links and the ids of a page; much faster than a tree."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.links: list[str] = []
        self.ids: set[str] = set()
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        found = dict(attrs)
        if found.get("id"):
            self.ids.add(str(found["id"]))
        if tag == "a":
            self.links.append(found.get("href") or "")
