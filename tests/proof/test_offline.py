"""A site on a stick: opened from its folder, every link leads on, without script and without a server."""

from __future__ import annotations

import json
from pathlib import Path
from urllib.parse import urldefrag, urlsplit
from urllib.request import url2pathname

import pytest
from playwright.sync_api import Browser, Page

from tests.pages.gardens import leads_on
from tests.proof.conftest import watched

READ = """([text, here]) => {
    const page = new DOMParser().parseFromString(text, 'text/html');
    const all = (what, told) => [...new Set([...page.querySelectorAll(what)].flatMap(told))]
        .filter(each => each).map(each => new URL(each, here).href);
    return JSON.stringify({
        headings: page.querySelectorAll('h1').length,
        elsewhere: page.querySelectorAll('base, meta[http-equiv=refresh]').length,
        ids: [...page.querySelectorAll('[id]')].map(each => each.id),
        links: all('a', each => each.getAttribute('href') ?? each.getAttribute('xlink:href')),
        fetched: [
            ...all('[src], [data], [poster]', each => ['src', 'data', 'poster'].map(
                name => each.getAttribute(name))),
            ...all('link[rel~=stylesheet], link[rel~=icon], use, image', each => each.getAttribute('href')),
            ...all('[srcset]', each => each.srcset.split(',').map(copy => copy.trim().split(' ')[0])),
        ],
    });
}"""
"""What the browser makes of a page's text at an address, without laying the page out."""


@pytest.fixture
def scripted() -> bool:
    """No page needs script for what is asked here."""
    return False


def path_of(address: str) -> Path:
    """Return the file that an address leads to."""
    return Path(url2pathname(urlsplit(address).path))


def test_every_link_of_every_page_leads_on(tab: Page, demo: Path) -> None:
    """From the front page on, every link that is found is followed, until no page is left unread.

    What the browser would fetch for a page is there beside it. That it does fetch nothing else is
    seen where a page of each kind is opened, by every test with a ``tab``.
    """
    front = (demo / "index.html").as_uri()
    anchors: dict[str, set[str]] = {front: set()}
    held: dict[str, set[str]] = {}
    files: set[str] = set()
    ahead = [front]
    while ahead:
        here = ahead.pop()
        page = json.loads(tab.evaluate(READ, [path_of(here).read_text(encoding="utf-8"), here]))
        assert page["headings"] == 1, f"{here} is no page of the site"
        assert page["elsewhere"] == 0, f"{here} leads away by itself"
        held[here] = set(page["ids"])
        files |= {urldefrag(address)[0] for address in page["fetched"]}
        for address in page["links"]:
            if not address.startswith("file:"):
                continue
            target, anchor = urldefrag(address)
            if not target.endswith(".html"):
                files.add(target)
                continue
            if target not in anchors:
                assert target.startswith(demo.as_uri()), f"{here} links {target}, outside the site"
                anchors[target] = set()
                ahead.append(target)
            anchors[target] |= {anchor} - {""}
    assert {page: wanted - held[page] for page, wanted in anchors.items() if wanted - held[page]} == {}
    assert [each for each in sorted(files) if not each.startswith(demo.as_uri())] == []
    assert [each for each in sorted(files) if not path_of(each).is_file()] == []
    every = {path.as_uri(): path.read_text(encoding="utf-8") for path in demo.rglob("*.html")}
    everything = {uri for uri, text in every.items() if not leads_on(text)}
    everything -= {(demo / "404.html").as_uri()}  # a host shows it where nothing lies
    assert everything - set(held) == set(), "pages that no link leads to"


@pytest.mark.parametrize("painted", [True])
def test_links_can_be_followed_by_hand(tab: Page, samples: dict[str, Path]) -> None:
    """From the bed's map to a planting and its crop, back, then by the ways about to the log and an entry."""
    tab.goto(samples["bed-month"].as_uri())
    tab.locator("svg.bedmap-flat a .d-tag-shape").first.click()
    assert "/plants/" in tab.url
    tab.locator("main .head a").first.click()
    assert "/crops/" in tab.url
    tab.go_back()
    tab.go_back()
    tab.get_by_role("navigation", name="Site").get_by_role("link", name="Log").click()
    tab.locator("main .entries a").first.click()
    assert tab.locator("body.entry").count() == 1
    tab.locator("header.masthead .garden a").click()
    assert tab.locator("body.home").count() == 1


def test_a_page_that_asks_for_more_is_noticed(chromium: Browser, tmp_path: Path) -> None:
    page = tmp_path / "asking.html"
    page.write_text(
        '<!DOCTYPE html><link rel="stylesheet" href="gone.css"><img src="http://127.0.0.1:9/x.png" alt="">'
        "<script>console.error('no')</script>",
        encoding="utf-8",
    )
    context = chromium.new_context()
    complaints = watched(context)
    context.new_page().goto(page.as_uri())
    context.close()
    told = " ".join(complaints)
    for part in ("not there: file://", "gone.css", "asked for http://127.0.0.1:9/x.png", "no"):
        assert part in told
