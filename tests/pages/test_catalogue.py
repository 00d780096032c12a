"""Every page of a small garden: which there are, how they are built, and where they lead."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from itertools import product
from pathlib import Path
from posixpath import dirname, join, normpath
from urllib.parse import unquote

import html5lib
import pytest

from tallybed.pages.wording import sentences
from tests.pages.gardens import Links, Parsed, built_pages, every_page, folder, only, parsed, site_of

pytestmark = pytest.mark.usefixtures("few_crops")

ALWAYS = {
    *("cautions/index.html", "your-place/index.html", "sheets/volunteers/index.html"),
    *("index.html", "seasons/index.html", "crops/index.html", "about/index.html"),
    *("questions/index.html", "questions/why-so-few/index.html", "crops/spinach/index.html"),
    *("sheets/index.html", "sheets/marking-out/front/index.html", "sheets/marking-out/back/index.html"),
    *("sheets/tally-sheet/index.html", "sheets/plant-tags/index.html"),
    *("sheets/sign/front/index.html", "sheets/sign/back/index.html"),
    *("2026/index.html", "2026/beds/front/index.html", "2026/beds/back/index.html"),
    *(f"2026/beds/{bed}/{month:02d}/sun/index.html" for bed in ("front", "back") for month in range(3, 11)),
}
WITH_PLAN = {"2026/seeds/index.html"}
WITH_LOG = {
    *("2026/log/index.html", "2026/log/04-06-spinach-in/index.html", "2026/log/04-21-carrots-in/index.html"),
}
WITH_LEDGER = {"2026/tally/index.html", "2026/rows/index.html"}
WITH_A_RECORD = {"2026/bulletins/index.html", "sheets/poster/2026/index.html"}
WEEKS_OF_LOG = {f"2026/bulletins/2026-w{week}/index.html" for week in (15, 17)}
"""Weeks with a visit: 6 and 21 April."""
WEEKS_OF_LEDGER = {f"2026/bulletins/2026-w{week}/index.html" for week in (19, 20, 21)}
"""Weeks with a picking: 10, 16 and 20 May."""
WITH_ANY = {"2026/data/index.html"}
FILES_WITH_PLAN = {"2026/seeds/seeds-2026.csv"}
"""Files beside the pages that links lead to; that they are there is held where each is tested."""
FILES = {
    *("calendar.ics", "done.ics", "2026/data/datapackage.json"),
    *(
        f"2026/data/{table}.{ending}"
        for table in (
            *("plan", "log", "ledger", "given", "stood", "beds", "treatments"),
            *("row-ground", "areas", "planting-yields", "work", "water", "costs", "prices"),
        )
        for ending in ("csv", "json")
    ),
}
"""Files as above, for whatever papers are there."""
Papers = tuple[bool, bool, bool]
"""Whether plan, log and ledger are there."""
Built = Callable[[Papers], dict[str, str]]


def _named(papers: Papers) -> str:
    there = [name for name, is_there in zip(("plan", "log", "ledger"), papers, strict=True) if is_there]
    return "-".join(there) or "none"


ALL: list[Papers] = [(a, b, c) for a, b, c in product((True, False), repeat=3)]
PRESENCE = [pytest.param(papers, id=_named(papers)) for papers in ALL]


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Built:
    """Return what builds the garden with the papers asked for, each once."""

    @cache
    def of(papers: Papers) -> dict[str, str]:
        plan, log, ledger = papers
        return built_pages(folder(tmp_path_factory.mktemp("garden"), plan=plan, log=log, ledger=ledger))

    return of


@pytest.fixture(scope="module")
def full(built: Built) -> Parsed:
    return Parsed(built((True, True, True)))


@pytest.mark.parametrize("papers", PRESENCE)
def test_pages_and_sentences_follow_the_papers_that_are_there(built: Built, papers: Papers) -> None:
    plan, log, ledger = papers
    pages = built(papers)
    own = {path for path in pages if not path.startswith(("crops/", "2026/plants/"))} | (ALWAYS & set(pages))
    # The present month is the bed's own page: the ledger's last day is in May, the log's in April; without
    # either nothing says what day it is, and the middle month of March to October stands for the season.
    present = 5 if ledger else 4 if log else 7
    months = [month for month in range(3, 11) if month != present]
    expected = ALWAYS | {
        f"2026/beds/{bed}/{month:02d}/index.html" for bed in ("front", "back") for month in months
    }
    expected |= WITH_PLAN if plan else set()
    expected |= WITH_LOG if log else set()
    expected |= WITH_LEDGER if ledger else set()
    expected |= WEEKS_OF_LOG if log else set()
    expected |= WEEKS_OF_LEDGER if ledger else set()
    expected |= WITH_A_RECORD if log or ledger else set()
    expected |= WITH_ANY if any(papers) else set()
    assert own == expected, "the lists above say which pages come with which papers: a new kind joins one"
    for path in ("index.html", "2026/index.html"):
        said = [one.get_text() for one in parsed(pages[path]).select(".unknown")]
        missing = [
            sentence
            for sentence, there in (
                (sentences.NO_PLAN, plan),
                (sentences.NO_LOG, log),
                (sentences.NO_LEDGER, ledger),
            )
            if not there
        ]
        assert said == ([sentences.ONLY_PLAN] if papers == (True, False, False) else missing), path
    month = [one.get_text() for one in parsed(pages["2026/beds/front/index.html"]).select(".unknown")]
    assert month == [one for one, there in ((sentences.NO_PLAN, plan), (sentences.NO_LOG, log)) if not there]
    assert bool(parsed(pages["2026/index.html"]).select(".standing")) is ledger


@pytest.mark.parametrize("papers", PRESENCE)
def test_every_link_leads_to_a_page_and_every_page_is_reached(built: Built, papers: Papers) -> None:
    pages = {path: Links(text) for path, text in built(papers).items()}
    reached, waiting = {"index.html"}, ["index.html"]
    while waiting:
        here = waiting.pop()
        for target, anchor in _links(pages[here], here):
            if target in FILES or (papers[0] and target in FILES_WITH_PLAN):
                continue
            assert target in pages, f"{here} leads to {target}, which is not there"
            assert not anchor or anchor in pages[target].ids, f"{here} leads to #{anchor} of {target}"
            if target not in reached:
                reached.add(target)
                waiting.append(target)
    assert set(pages) - reached == set(), "pages that nothing leads to"


def _links(page: Links, here: str) -> list[tuple[str, str]]:
    found = []
    for href in page.links:
        assert href, f"{here}: a link without an address"
        if href.startswith(("https://", "http://", "mailto:")):
            continue
        assert not href.startswith("/"), f"{here}: {href} is not relative"
        path, _, anchor = href.partition("#")
        target = normpath(join(dirname(here), unquote(path))) if path else here
        found.append((target, unquote(anchor)))
    return found


def test_the_same_garden_gives_the_same_pages(tmp_path: Path) -> None:
    years = site_of(folder(tmp_path))
    assert every_page(years) == every_page(years)


def test_every_page_has_its_landmarks(full: Parsed) -> None:
    for path, page in full.items():
        assert page.html is not None
        assert page.html["lang"] == "en", path
        assert len(page.find_all("h1")) == len(page.find_all("main")) == 1, path
        assert len(page.select("body > header")) == len(page.select("body > footer")) == 1, path
        assert only(page, "main h1"), path
        labels = [nav.get("aria-label") for nav in page.find_all("nav")]
        assert labels, path
        assert all(labels), path
        assert len(labels) == len(set(labels)), f"{path}: two landmarks of one name"
        assert only(page, "body a")["href"] == "#content", f"{path}: the first link skips to the content"


def test_every_page_says_what_it_is(full: Parsed) -> None:
    titles = [page.title.get_text() for page in full.values() if page.title]
    assert len(titles) == len(set(titles)) == len(full), "two pages have one title"
    for path, page in full.items():
        described = str(only(page, "meta[name=description]")["content"])
        assert 20 <= len(described) <= 200, f"{path}: {described}"


def test_headings_leave_no_level_out(full: Parsed) -> None:
    for path, page in full.items():
        before = 0
        for heading in page.find_all(["h1", "h2", "h3", "h4", "h5", "h6"]):
            level = int(heading.name[1])
            assert level <= before + 1, f"{path}: {heading.get_text()!r} skips a level"
            before = level


def test_every_table_has_a_caption_and_headings(full: Parsed) -> None:
    tables = [(path, table) for path, page in full.items() for table in page.find_all("table")]
    assert len(tables) > 100
    for path, table in tables:
        assert table.caption, f"{path}: a table without a caption"
        assert table.caption.get_text(strip=True), f"{path}: an empty caption"
        columns = table.find_all("th", scope="col")
        assert columns, f"{path}: {table.caption.get_text()} has no column headings"
        assert all(head.get_text(strip=True) for head in columns)
        assert all(head.get("scope") in ("col", "row", "rowgroup") for head in table.find_all("th"))
        frame = table.parent
        assert frame is not None
        assert frame["class"] == ["frame"], f"{path}: a table that does not scroll by itself"
        assert frame["tabindex"] == "0"


def test_every_row_of_a_table_is_as_long_as_its_head(full: Parsed) -> None:
    for path, page in full.items():
        for table in page.select("table:not(.holders, .tally-lines)"):
            width = len(table.select("thead th"))
            assert {len(row.find_all(["td", "th"])) for row in table.find_all("tr")} == {width}, path


def test_ids_are_unique_and_labels_point_somewhere(full: Parsed) -> None:
    for path, page in full.items():
        ids = [str(element["id"]) for element in page.select("[id]")]
        assert len(ids) == len(set(ids)), f"{path}: {sorted({one for one in ids if ids.count(one) > 1})}"
        for element in page.select("[aria-labelledby]"):
            assert set(str(element["aria-labelledby"]).split()) <= set(ids), path


def test_no_page_runs_a_script_or_fetches_from_elsewhere(full: Parsed) -> None:
    for path, page in full.items():
        acting = 'script:not([type="application/ld+json"]), iframe, object, embed, form'
        assert not page.select(acting), path
        for element in page.select("[src]"):
            assert not str(element["src"]).startswith(("http", "/")), path
        for sheet in page.find_all("link"):
            assert not str(sheet["href"]).startswith(("http", "/")), path
        for element in page.find_all(True):
            assert not [name for name in element.attrs if name.startswith("on")], path


def test_the_markup_is_html_without_errors(built: Built) -> None:
    kinds: dict[str, int] = {}
    for path, text in built((True, True, True)).items():
        kind = path.split("/")[0]
        kinds[kind] = kinds.get(kind, 0) + 1
        if kind != "crops" or kinds[kind] <= 5:  # the other crops have the same template
            html5lib.HTMLParser(strict=True).parse(text)


def test_dates_are_told_with_their_year_on_the_frame(full: Parsed) -> None:
    for path, page in full.items():
        stamp = only(page, "footer time")
        assert (stamp["datetime"], stamp.get_text()) == ("2026-05-20", "20 May 2026"), path
