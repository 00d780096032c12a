"""Nobody eats what should still wait: on each page, sheet and file that offers it, the notice stands.

A small invented garden with one wait open on its last day, built whole.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from PIL import Image

from tallybed.tasks.build import build
from tests.small_garden import written

pytestmark = pytest.mark.usefixtures("few_crops")

FILES = {
    "garden.yaml": """\
name: Plank End
latitude: 41
longitude: -80
address: https://plank.example/
season: {start: Mar 1, end: Oct 31}
beds:
  - {name: near, title: The near bed, length: 4 squares, width: 2 squares}
  - {name: far, title: The far bed, length: 3 squares, width: 2 squares}
""",
    "2026/plan.yaml": """\
- {crop: kale, tag: KA1, squares: near/A1:B2, set out: Apr 5, until: Oct 1}
- {crop: carrot, tag: CA1, squares: near/C1:D2, sow: Apr 5, until: Sep 1}
- {crop: beet, tag: BE1, squares: far/A1:C2, sow: Apr 5, until: Sep 1}
""",
    "2026/log/2026-04-05-in.md": """\
---
title: In
done:
  - {set out: kale, tag: KA1, squares: near/A1:B2, plants: 4}
  - {sow: carrot, tag: CA1, squares: near/C1:D2}
  - {sow: beet, tag: BE1, squares: far/A1:C2}
---
In.
""",
    "2026/log/2026-06-09-a-bowl.md": """\
---
title: A bowl of kale
done:
  - {thin: kale, tag: KA1, plants: 1}
photos:
  - {file: kale.png, alt: Kale with wide leaves, licence: CC0 1.0, shows: KA1}
---
A bowl.
""",
    "2026/log/2026-06-10-aphids.md": """\
---
title: Not to be read yet
unfinished: yes
done:
  - {treat: Wonderspray, product: salts of fatty acids, crop: kale, squares: near/A1:B2, wait: 7 days,
     re-entry: 4 hours}
---
Secret prose.
""",
    "2026/harvest.yaml": "- {date: 2026-06-09, crop: kale, squares: near/A1, weight: 6 oz, to: pantry}\n"
    "- {date: 2026-06-11, crop: beet, squares: far/A1, weight: 2 oz, to: pantry}\n",
    "about.md": "---\ntitle: About\n---\nA garden.\n",
}
SAFE = "17 June 2026"
PLAIN = "Do not pick kale (KA1) before 17 June 2026."
"""What is said with a picture."""
OFFERS = (
    *("index.html", "2026/index.html", "2026/plants/index.html"),
    *("2026/plants/KA1/index.html", "2026/beds/near/index.html", "2026/beds/near/07/index.html"),
    *("2026/tally/index.html", "2026/log/index.html", "crops/kale/index.html", "cautions/index.html"),
    *("sheets/index.html", "sheets/sign/near/index.html", "sheets/tally-sheet/index.html"),
    *("sheets/volunteers/index.html", "sheets/plant-tags/index.html", "sheets/poster/2026/index.html"),
    *("2026/bulletins/2026-w24/index.html", "calendar.ics", "2026/data/treatments.csv"),
)
"""Where the planting, or one of its squares, is offered to hands."""
ELSEWHERE = (
    "about/index.html",
    "2026/plants/BE1/index.html",
    "2026/beds/far/index.html",
    "crops/beet/index.html",
)
SUFFIXES = {".html", ".ics", ".csv", ".json", ".xml", ".txt"}


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = written(tmp_path_factory.mktemp("waits"), FILES)
    picture = root / "content" / "2026" / "photos" / "kale.png"
    picture.parent.mkdir()
    Image.new("RGB", (40, 30), "green").save(picture)
    assert build(root, root / "site").good, "a finding must never stop the build that carries a notice"
    return root / "site"


def words(path: Path) -> str:
    """What a person reads of a file."""
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".html":
        return " ".join(BeautifulSoup(text, "lxml").get_text(" ").split())
    return re.sub(r"\r\n ", "", text)


def told(text: str) -> bool:
    """Whether a file tells the first safe day."""
    return SAFE in text or "2026-06-17" in text or "20260617" in text


@pytest.mark.parametrize("path", OFFERS)
def test_the_notice_stands_where_the_planting_is_offered(site: Path, path: str) -> None:
    assert told(words(site / path)), path


def test_every_page_that_names_the_planting_with_a_way_to_it_has_the_notice(site: Path) -> None:
    """Whatever page is added: one that leads to the planting, of this season, tells that it waits."""
    without = []
    for path in sorted(site.rglob("*.html")):
        name = path.relative_to(site).as_posix()
        soup = BeautifulSoup(path.read_bytes(), "lxml")
        leads = [one for one in soup.select("a[href]") if "plants/KA1" in str(one["href"])]
        maps = soup.select(".bedmap") if "/near/" in name else []
        if (leads or maps) and not told(words(path)):
            without.append(name)
    assert without == []


def test_the_map_marks_the_squares_without_colour(site: Path) -> None:
    page = (site / "2026/beds/near/index.html").read_text(encoding="utf-8")
    assert "Not to be picked from: A1:B2." in page
    assert page.count("d-barred") >= 8
    assert "d-barred" not in (site / "2026/beds/far/index.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("path", ["2026/plants/KA1/index.html", "2026/log/06-09-a-bowl/index.html"])
def test_a_photograph_of_it_is_marked_wherever_it_is_shown(site: Path, path: str) -> None:
    page = BeautifulSoup((site / path).read_bytes(), "lxml")
    (caption,) = page.select("figure.photograph figcaption b")
    assert caption.get_text() == PLAIN


def test_what_travels_from_the_site_carries_the_mark(site: Path) -> None:
    """What others show with a link, and the feed, is read far from the head of any page."""
    visit = BeautifulSoup((site / "2026/log/06-09-a-bowl/index.html").read_bytes(), "lxml")
    planting = BeautifulSoup((site / "2026/plants/KA1/index.html").read_bytes(), "lxml")

    def meta(page: BeautifulSoup, name: str) -> str:
        (found,) = page.select(f'meta[property="{name}"]')
        return str(found["content"])

    assert meta(visit, "og:image:alt") == f"Kale with wide leaves. {PLAIN}"
    assert meta(planting, "og:image:alt").endswith(PLAIN)
    assert meta(planting, "og:description").startswith(PLAIN)
    assert PLAIN in (site / "feed.xml").read_text(encoding="utf-8")
    other = BeautifulSoup((site / "2026/plants/BE1/index.html").read_bytes(), "lxml")
    assert "Do not pick" not in meta(other, "og:description") + meta(other, "og:image:alt")


SMALL_MAPS = ("2026/index.html", "2026/beds/near/index.html", "sheets/poster/2026/index.html")


@pytest.mark.parametrize("path", SMALL_MAPS)
def test_small_maps_mark_the_squares_too(site: Path, path: str) -> None:
    """The months of season, bed and poster show what is offered: June is barred, July is not."""
    soup = BeautifulSoup((site / path).read_bytes(), "lxml")
    barred = {
        str(one["id"]): len(one.select(".d-waiting circle"))
        for one in soup.select("svg.sheetmap")
        if one.select(".d-waiting")
    }
    assert barred, path
    assert set(barred.values()) == {4}, "the four squares of the kale, and no other"
    for ident in barred:
        assert ident.startswith(("sheet-near-4", "map-2026-06"))
        (desc,) = soup.select(f"#{ident}-desc")
        assert "Not to be picked from: A1:B2" in desc.get_text()
    assert "not to be picked from" in " ".join(one.get_text() for one in soup.select(".map-key, .letters-of"))


def test_the_short_key_of_the_first_page_tells_what_the_barred_ring_means(site: Path) -> None:
    soup = BeautifulSoup((site / "index.html").read_bytes(), "lxml")
    assert "Not to be picked from: A1:B2" in " ".join(
        one.get_text() for one in soup.select("svg.bedmap desc")
    )
    keys = " ".join(one.get_text() for one in soup.select(".map-key"))
    assert keys.count("not to be picked from") == 1


def test_what_tells_no_squares_tells_the_last_of_a_planting_s_days(tmp_path: Path) -> None:
    """Two waits in different squares of the kale: the earlier day must not stand for all of it."""
    written(tmp_path, FILES)
    log = tmp_path / "content" / "2026" / "log"
    (log / "2026-06-09-a-bowl.md").unlink()
    oil = "{treat: oil, squares: near/B2, wait: 20 days, re-entry: 1 day}"
    text = f"---\ntitle: Oil\ndone:\n  - {oil}\n---\n"
    (log / "2026-06-10-oil.md").write_text(text, encoding="utf-8")
    assert build(tmp_path, tmp_path / "site").good
    calendar = words(tmp_path / "site" / "calendar.ics").replace("\n ", "")
    ids = re.findall(r"^UID:(.*)$", calendar, re.MULTILINE)
    assert len(ids) == len(set(ids)), "of two events with one name a calendar keeps one"
    events = [one for one in calendar.split("BEGIN:VEVENT") if "SUMMARY:First day to pick kale (KA1)" in one]
    assert [re.findall(r"DTSTART;VALUE=DATE:(\d+)", one) for one in events] == [["20260630"]]
    assert "before 17 June 2026" in events[0], "of the squares that are over sooner it tells as well"
    bulletin = words(tmp_path / "site" / "2026/bulletins/2026-w24/index.html")
    assert "kale (KA1) before 30 June 2026" in bulletin
    assert "kale (KA1) before 17 June 2026" not in bulletin
    page = BeautifulSoup((tmp_path / "site" / "2026/plants/KA1/index.html").read_bytes(), "lxml")
    (described,) = page.select('meta[property="og:description"]')
    assert "before 30 June 2026" in str(described["content"])


@pytest.mark.parametrize("path", ELSEWHERE)
def test_it_is_silent_elsewhere(site: Path, path: str) -> None:
    assert not told(words(site / path)), path


def test_nothing_says_that_anything_is_safe_to_eat_and_no_brand_or_waiting_word_is_out(site: Path) -> None:
    for path in sorted(site.rglob("*")):
        if path.suffix in SUFFIXES:
            text = path.read_text(encoding="utf-8").casefold()
            for never in ("safe to eat", "wonderspray", "secret prose", "not to be read yet"):
                assert never not in text, f"{path}: {never}"


def test_advice_stands_below_the_label(site: Path) -> None:
    for name in ("cautions", "sheets/volunteers"):
        assert "label, local rules and licensed practice stand above" in words(site / name / "index.html")


def test_the_data_package_tells_the_wait(site: Path) -> None:
    described = json.loads((site / "2026/data/datapackage.json").read_text(encoding="utf-8"))
    assert "treatments" in {resource["name"] for resource in described["resources"]}
