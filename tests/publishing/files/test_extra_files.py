"""What lies beside the pages: the feed, the list of pages, the word to crawlers, the pictures."""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path
from urllib.parse import unquote, urlsplit
from zoneinfo import ZoneInfo

import feedparser
import pytest
from bs4 import BeautifulSoup
from lxml import etree
from PIL import Image

from tallybed.pages.files.card import Card
from tallybed.pages.frame.addresses import NOT_FOUND
from tallybed.pictures.share_cards import drawn
from tallybed.publishing.files.crawlers import robots
from tallybed.tasks.build import make
from tests import tools
from tests.pages.gardens import GARDEN, LEDGER, LOG, leads_on, written

pytestmark = pytest.mark.usefixtures("few_crops")

ATOM = "{http://www.w3.org/2005/Atom}"
SITEMAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
BASE = "https://beds.example/plot/"
INSTANT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)")
"""RFC 3339, section 5.6, as RFC 4287, section 3.3, takes it up."""
ABSOLUTE = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:\S+")
"""An IRI with its scheme (RFC 4287, section 4.2.6)."""
TAG = re.compile(r"tag:[a-z0-9.-]+,\d{4}(-\d\d(-\d\d)?)?:[A-Za-z0-9._~!$&'()*+,;=:@/%-]*")
"""RFC 4151, section 2.1."""


def garden(root: Path, address: str = BASE, log: Mapping[str, str] = LOG) -> Path:
    told = f"address: {address}\n" if address else ""
    files = {"garden.yaml": GARDEN + told, "2026/harvest.yaml": LEDGER}
    return written(root, files | {f"2026/log/{name}": text for name, text in log.items()})


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, bytes]:
    return make(garden(tmp_path_factory.mktemp("beside"))).files


@pytest.fixture(scope="module")
def feed(files: Mapping[str, bytes]) -> etree._Element:
    return etree.fromstring(files["feed.xml"])


def said(element: etree._Element, name: str) -> str:
    found = element.find(ATOM + name)
    assert found is not None, f"no {name} (RFC 4287, section 4.1)"
    return str(found.text or "")


def test_a_feed_reader_understands_the_feed(files: Mapping[str, bytes]) -> None:
    read = feedparser.parse(files["feed.xml"])
    assert not read.bozo, read.get("bozo_exception")
    assert read.version == "atom10"
    assert [one.title for one in read.entries] == ["Carrots in", "Spinach in"], "newest first"
    assert read.feed.title == "Two Plank Garden"


def test_a_feed_has_what_the_standard_requires(feed: etree._Element) -> None:
    entries = feed.findall(f"{ATOM}entry")
    for one in (feed, *entries):
        assert said(one, "title")
        assert INSTANT.fullmatch(said(one, "updated"))
        assert ABSOLUTE.fullmatch(said(one, "id"))
    idents = [said(one, "id") for one in (feed, *entries)]
    assert len(set(idents)) == len(idents)
    assert all(TAG.fullmatch(ident) for ident in idents[1:])
    assert said(feed.find(f"{ATOM}author"), "name") == "Two Plank Garden"
    links = {link.get("rel"): link.get("href") for link in feed.findall(f"{ATOM}link")}
    assert links == {"self": f"{BASE}feed.xml", "alternate": BASE}
    assert said(feed, "updated") == max(said(one, "updated") for one in entries)


def test_an_entry_is_told_with_its_date_at_the_gardens_noon_and_its_author(feed: etree._Element) -> None:
    *_, first = feed.findall(f"{ATOM}entry")
    # The garden lies in America/New_York: four hours behind universal time in summer.
    assert said(first, "published") == said(first, "updated") == "2026-04-06T12:00:00-04:00"
    assert said(first.find(f"{ATOM}author"), "name") == "the Monday pair"
    assert said(first, "id") == "tag:beds.example,2026-04-06:plot/log/2026/spinach-in"


@pytest.mark.parametrize(
    "zone", ["Pacific/Honolulu", "America/Los_Angeles", "America/New_York", "Europe/London"]
)
def test_a_reader_sees_the_day_of_the_visit(files: Mapping[str, bytes], zone: str) -> None:
    days = []
    for entry in feedparser.parse(files["feed.xml"]).entries:
        instant = datetime(*entry.updated_parsed[:6], tzinfo=UTC)
        days.append(instant.astimezone(ZoneInfo(zone)).date().isoformat())
    assert days == ["2026-04-21", "2026-04-06"]


def test_a_change_is_told_on_its_day_and_a_renamed_file_is_the_same_entry(
    tmp_path: Path, files: Mapping[str, bytes]
) -> None:
    old = "2026-04-06-spinach-in"
    told = f"---\nidentity: {old}\nchanged: 2026-05-02\n"
    log = {name.replace(f"{old}.", "2026-04-06-the-spinach."): text for name, text in LOG.items()}
    name = "2026-04-06-the-spinach.md"
    made = make(garden(tmp_path, log=log | {name: log[name].replace("---\n", told, 1)})).files
    first = {entry.title: entry for entry in feedparser.parse(files["feed.xml"]).entries}["Spinach in"]
    read = feedparser.parse(made["feed.xml"])
    then = {entry.title: entry for entry in read.entries}["Spinach in"]
    assert then.id == first.id
    assert then.link == f"{BASE}2026/log/04-06-the-spinach/"
    assert then.published == first.published == first.updated
    assert then.updated == read.feed.updated == "2026-05-02T12:00:00-04:00"
    page = BeautifulSoup(made["2026/log/04-06-the-spinach/index.html"], "lxml")
    lead = " ".join(page.select_one("header.head .lead").get_text().split())
    assert lead.endswith("changed on 2 May 2026"), lead
    assert '"dateModified": "2026-05-02"' in page.select_one("script").get_text()


def test_an_entry_is_told_in_full_and_every_link_is_whole(
    feed: etree._Element, files: Mapping[str, bytes]
) -> None:
    newest, first = (BeautifulSoup(said(one, "content"), "lxml") for one in feed.findall(f"{ATOM}entry"))
    assert "Cold hands" in first.get_text()
    assert "A penny." in first.get_text(), "the last paragraph is missing"
    assert "10 minutes" in first.get_text(), "the work is missing"
    assert "Take care." in newest.get_text(), "the notice that protects people is missing"
    links = [str(link["href"]) for page in (newest, first) for link in page.find_all("a", href=True)]
    assert links == [f"{BASE}2026/log/04-06-spinach-in/", f"{BASE}crops/carrot/"]
    for link in links:
        assert f"{unquote(link.removeprefix(BASE))}index.html" in files


def test_a_new_title_leaves_an_entry_the_one_it_was(tmp_path: Path, feed: etree._Element) -> None:
    renamed = {name: text.replace("title: ", "title: At last: ") for name, text in LOG.items()}
    renamed = {name: re.sub("title: (.*)", r'title: "\1"', text) for name, text in renamed.items()}
    other = etree.fromstring(make(garden(tmp_path, log=renamed)).files["feed.xml"])
    entries, others = feed.findall(f"{ATOM}entry"), other.findall(f"{ATOM}entry")
    assert [said(one, "title") for one in entries] != [said(one, "title") for one in others]
    assert [said(one, "id") for one in entries] == [said(one, "id") for one in others]


def test_the_feed_keeps_to_the_newest(tmp_path: Path) -> None:
    log = {f"2026-05-{day:02d}-x.md": f"---\ntitle: Day {day}\n---\nWords.\n" for day in range(1, 26)}
    entries = feedparser.parse(make(garden(tmp_path, log=log)).files["feed.xml"]).entries
    assert [one.title for one in entries] == [f"Day {day}" for day in range(25, 5, -1)]


def test_the_list_of_pages_is_sound_and_leads_to_every_page(files: Mapping[str, bytes]) -> None:
    """By the protocol of sitemaps.org: absolute addresses of one host, under 2,048 signs, each a page."""
    root = etree.fromstring(files["sitemap.xml"])
    assert root.tag == f"{SITEMAP}urlset"
    assert {one.tag for one in root} == {f"{SITEMAP}url"}
    found = [str(one.findtext(f"{SITEMAP}loc")) for one in root]
    assert len(set(found)) == len(found) <= 50_000
    assert all(one.startswith(BASE) and len(one) < 2048 and one.isascii() for one in found)
    paths = {f"{unquote(one.removeprefix(BASE))}index.html" for one in found}
    pages = {path: data.decode() for path, data in files.items() if path.endswith(".html")}
    assert paths == {path for path, text in pages.items() if path != NOT_FOUND and not leads_on(text)}


def test_the_list_of_pages_holds_to_the_protocols_own_schema(files: Mapping[str, bytes]) -> None:
    schema = etree.XMLSchema(etree.parse(tools.packaged("sitemap", "schema", "sitemap.xsd")))
    schema.assertValid(etree.fromstring(files["sitemap.xml"]))


def test_crawlers_are_told_where_the_list_is(files: Mapping[str, bytes]) -> None:
    lines = files["robots.txt"].decode("ascii").splitlines()
    assert lines == ["User-agent: *", "Allow: /", "", f"Sitemap: {BASE}sitemap.xml"]
    assert robots("") == b"User-agent: *\nAllow: /\n"


def test_without_an_address_nothing_that_needs_one_is_written(tmp_path: Path) -> None:
    made = make(garden(tmp_path, address="")).files
    beside = {path for path in made if not path.endswith((".html", ".css", ".csv", ".svg"))}
    assert not beside & {"feed.xml", "sitemap.xml", "2026/card.png"}
    assert not [path for path in made if path.endswith(".png")]
    assert "robots.txt" in made


def test_without_an_entry_there_is_no_feed(tmp_path: Path) -> None:
    made = make(garden(tmp_path, log={})).files
    assert "feed.xml" not in made
    assert b"application/atom+xml" not in made["index.html"]


@pytest.mark.parametrize(
    ("typed", "written_as"),
    [
        ("https://gärten.example/süd", "https://xn--grten-gra.example/s%C3%BCd/"),
        ("https://x.example/a%20b/", "https://x.example/a%20b/"),
    ],
)
def test_other_letters_in_the_address_are_spelt_in_ascii(tmp_path: Path, typed: str, written_as: str) -> None:
    """Host: RFC 3492 as the IDNA of Python's own codec has it; path: RFC 3987, section 3.1."""
    made = make(garden(tmp_path, address=typed)).files
    first = etree.fromstring(made["sitemap.xml"])[-1]
    assert str(first.findtext(f"{SITEMAP}loc")).startswith(written_as)
    assert urlsplit(feedparser.parse(made["feed.xml"]).feed.id).geturl() == written_as


def test_the_picture_of_a_season_has_the_size_it_is_announced_with(files: Mapping[str, bytes]) -> None:
    with Image.open(BytesIO(files["2026/card.png"])) as image:
        assert (image.format, image.size) == ("PNG", (1200, 630))
    page = BeautifulSoup(files["index.html"], "lxml")
    told = [str(tag["content"]) for tag in page.select('meta[property^="og:image:"]')]
    assert told[:2] == ["1200", "630"]


def test_each_bulletin_with_figures_has_a_picture_of_the_size_it_is_announced_with(
    files: Mapping[str, bytes],
) -> None:
    found = sorted(path for path in files if path.startswith("2026/bulletins/") and path.endswith(".png"))
    # Weighed on 10, 16 and 20 May; before that there is nothing to draw.
    assert found == [f"2026/bulletins/2026-w{week}/card.png" for week in (19, 20, 21)]
    for path in found:
        page = BeautifulSoup(files[path.replace("card.png", "index.html")], "lxml")
        told = {
            str(tag["property"]): str(tag["content"]) for tag in page.select('meta[property^="og:image"]')
        }
        assert told["og:image"] == BASE + path
        with Image.open(BytesIO(files[path])) as image:
            size = (int(told["og:image:width"]), int(told["og:image:height"]))
            assert (image.format, image.size) == ("PNG", size)


def test_only_what_says_something_new_is_drawn_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A garden of ten years has hundreds of pictures; drawing them all would double a build."""
    root = garden(tmp_path)
    again: list[str] = []

    def noting(card: Card) -> bytes:
        again.append(card.path)
        return drawn(card)

    monkeypatch.setattr("tallybed.pictures.share_cards.drawn", noting)
    first = make(root).files
    assert len(again) == 4, "one of the season, three of weeks"
    again.clear()
    assert make(root).files == first
    assert again == []
    ledger = root / "content/2026/harvest.yaml"
    row = "- {date: 2026-05-20, crop: radish, weight: 3 oz}\n"
    ledger.write_text(ledger.read_text(encoding="utf-8") + row, encoding="utf-8")
    make(root)
    assert again == ["2026/card.png", "2026/bulletins/2026-w21/card.png"]


def test_a_file_of_the_gardens_own_in_the_place_of_one_of_these_is_told(tmp_path: Path) -> None:
    own = garden(tmp_path) / "layouts" / "2026"
    own.mkdir(parents=True)
    (own / "card.png").write_bytes(b"x")
    told = [(one.place.file, one.code) for one in make(tmp_path).findings]
    assert ("layouts/2026/card.png", "name-taken") in told
