"""The demonstration site as a whole: committed as built, valid, linked together, no script needed."""

import re
from itertools import pairwise
from pathlib import Path
from urllib.parse import unquote, urldefrag

import html5lib
import pytest
from lxml.html import HtmlElement

from tallybed.pages.catalogue import KINDS
from tallybed.pages.frame.addresses import NOT_FOUND
from tests.demonstration import demo_years
from tests.folders import tree
from tests.pages.gardens import Parsed, leads_on
from tests.tools import ROOT

TOP = "/"
"""Path of the demonstration's address."""


def test_the_committed_site_is_this_build_byte_for_byte(demo: Path):
    built, committed = tree(demo), tree(ROOT / "site")
    assert set(committed) == set(built), "run `tallybed build` and commit site/"
    other = [path for path, data in built.items() if committed[path] != data]
    assert other == [], "run `tallybed build` and commit site/"


def test_each_kind_of_page_knows_the_paths_of_its_pages(demo: Path):
    """Fails where a page of the demo is one that no typed link can lead to."""
    years = demo_years()
    kinds = {path: kind.name for kind in KINDS for path in kind.paths(years)}
    every = {path: data.decode() for path, data in tree(demo).items() if path.endswith(".html")}
    built = {path: text for path, text in every.items() if not leads_on(text)}
    assert set(kinds) == set(built)
    for path, text in built.items():
        assert f'<body class="{kinds[path].replace(" ", "-")}">' in text, path


def _target(page: str, address: str) -> tuple[str, str]:
    """The file and the anchor that an address on a page leads to, within the site."""
    path, anchor = urldefrag(address)
    if not path:
        return page, anchor
    parts = page.split("/")[:-1]
    for part in unquote(path).split("/"):
        if part == "..":
            assert parts, f"{page}: {address} leaves the site"
            parts.pop()
        elif part not in (".", ""):
            parts.append(part)
    return "/".join(parts), unquote(anchor)


def _addresses(page: HtmlElement) -> list[str]:
    found = [str(tag.get(name)) for name in ("href", "src") for tag in page.iterfind(f".//*[@{name}]")]
    return [one for one in found if not re.match(r"[a-z]+:", one)]


def test_every_inner_link_and_anchor_leads_somewhere(demo: Path, trees: dict[str, HtmlElement]):
    there = tree(demo)
    ids = {path: {str(tag.get("id")) for tag in page.iterfind(".//*[@id]")} for path, page in trees.items()}
    wrong = []
    for path, page in trees.items():
        for address in _addresses(page):
            if path == NOT_FOUND and not address.startswith("#"):
                address = address.removeprefix(TOP)  # it is shown anywhere, so it leads from the top
            assert not address.startswith("/"), f"{path}: {address} is not relative"
            file, anchor = _target(path, address)
            if file not in there or (anchor and file in ids and anchor not in ids[file]):
                wrong.append((path, address))
    assert wrong == []


def test_every_page_is_reachable_from_home(trees: dict[str, HtmlElement]):
    seen, to_see = {"index.html"}, ["index.html"]
    while to_see:
        path = to_see.pop()
        for link in trees[path].iterfind(".//a[@href]"):
            if re.match(r"[a-z]+:", str(link.get("href"))):
                continue
            file, _anchor = _target(path, str(link.get("href")))
            if file in trees and file not in seen:
                seen.add(file)
                to_see.append(file)
    assert set(trees) - seen == {NOT_FOUND}


def shared(page: Path) -> bytes:
    """The address of the picture that a page is shown with."""
    found = re.search(rb'<meta property="og:image" content="([^"]+)"', page.read_bytes())
    assert found, page
    return found[1]


def test_the_picture_of_every_bulletin_is_there_and_small(demo: Path):
    """One a week for years: what they weigh together is what a garden's host has to hold."""
    pages = sorted(demo.glob("20??/bulletins/20*/index.html"))
    own = {path: path.with_name("card.png") for path in pages if b"/bulletins/" in shared(path)}
    assert len(pages) > len(own) > 70
    for path, picture in own.items():
        assert shared(path).endswith(picture.relative_to(demo).as_posix().encode()), path
        assert picture.stat().st_size < 12_000, picture
    without = [path for path in pages if path not in own]
    assert not [path for path in without if path.with_name("card.png").exists()]


def test_a_page_of_each_kind_is_sound_html(texts: dict[str, str]):
    """The largest of each; ``proof/test_markup.py`` holds every page against all rules."""
    largest: dict[str, str] = {}
    for text in texts.values():
        (kind,) = re.findall(r'<body class="([^"]+)"', text)
        largest[kind] = max(text, largest.get(kind, ""), key=len)
    assert len(largest) > 25
    for text in largest.values():
        html5lib.HTMLParser(strict=True).parse(text)


def test_every_page_has_its_landmarks_and_one_heading(trees: dict[str, HtmlElement]):
    for path, page in trees.items():
        assert page.get("lang") == "en", path
        assert len(page.findall(".//h1")) == 1, path
        for landmark in ("header", "nav", "main", "footer"):
            assert page.find(f".//{landmark}") is not None, (path, landmark)
        skip = page.find(".//a")
        assert str(skip.get("href")).startswith("#"), f"{path}: the first link skips to the content"
        title = page.findtext(".//title")
        assert 0 < len(title) <= 70, f"{path}: {title}"
        assert page.find(".//meta[@name='description']") is not None, path
        levels = [int(tag.tag[1]) for tag in page.iter("h1", "h2", "h3", "h4", "h5", "h6")]
        assert all(later - earlier <= 1 for earlier, later in pairwise(levels)), path


def test_every_table_has_a_caption_and_scoped_heads(trees: dict[str, HtmlElement]):
    for path, page in trees.items():
        captions = [one.text_content().strip() for one in page.iter("caption")]
        assert len(captions) == len(set(captions)), f"{path}: two tables are called alike"
        for table in page.iter("table"):
            assert table.find("caption") is not None, path
            for head in table.iter("th"):
                assert head.get("scope") in ("col", "row", "colgroup", "rowgroup"), (
                    path,
                    head.text_content(),
                )


def test_every_drawing_says_what_it_shows(trees: dict[str, HtmlElement]):
    for path, page in trees.items():
        ids = [str(tag.get("id")) for tag in page.iterfind(".//*[@id]")]
        assert len(ids) == len(set(ids)), f"{path} uses an id twice"
        for svg in page.iter("svg"):
            if svg.get("aria-hidden") == "true":
                continue
            assert svg.find("title") is not None, path
            assert svg.find("desc") is not None, path


def test_no_page_needs_a_script_or_another_machine(demo: Path, trees: dict[str, HtmlElement]):
    for path, page in trees.items():
        assert [tag for tag in page.iter("script") if tag.get("type") != "application/ld+json"] == [], path
        for tag in page.iter("link", "img", "source", "iframe", "object", "embed"):
            for name in ("href", "src", "srcset"):
                fetched = tag.get(name, "")
                assert tag.get("rel") == "canonical" or "//" not in fetched, (path, fetched)
    style = (demo / "style.css").read_text(encoding="utf-8")
    assert "@import" not in style
    assert not re.search(r"url\(\s*['\"]?(https?:)?//", style)


@pytest.mark.parametrize("year", ["2024", "2025", "2026"])
def test_every_bed_has_a_map_of_every_month(year: str, pages: Parsed):
    for bed in ("long", "elbow"):
        for month in range(3, 12):
            own = f"{year}/beds/{bed}/{month:02d}/index.html"
            page = pages[own if own in pages else f"{year}/beds/{bed}/index.html"]
            assert page.find("svg"), (year, bed, month)
            assert page.find("table"), (year, bed, month)
