"""A season's archive: whole, closed in itself, and the same bytes each time."""

from __future__ import annotations

import io
import os
import re
import subprocess
import sys
from datetime import date
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile

import pytest
from lxml.html import HtmlElement, document_fromstring

from tallybed.pages.frame.addresses import name_elsewhere
from tallybed.publishing.assets import layouts
from tallybed.publishing.files.archive import archive, zipped
from tallybed.publishing.files.relinking import target
from tallybed.publishing.rendering import Rendering
from tallybed.reckoning.year import Year, Years
from tallybed.tasks.build import make
from tests.pages.gardens import GARDEN, folder, leads_on, only, parsed, written

pytestmark = pytest.mark.usefixtures("few_crops")

OLDER = {
    "2025/plan.yaml": "- {crop: leek, tag: LK1, squares: front/A1:B2, sow: Apr 5, until: Oct 1}\n",
    "2025/harvest.yaml": "- {date: 2025-09-10, crop: leek, tag: LK1, weight: 2 lb}\n",
    "2025/log/2025-09-10-leeks.md": "---\ntitle: Leeks\ndate: 2025-09-10\n---\nSee [about](/about/) and "
    "[carrots in](entry:2026-04-21-carrots-in) and [outside](https://example.org/).\n",
}


CLOSED = f"{GARDEN}seasons: {{2025: {{closed: yes}}}}\n"


@pytest.fixture(scope="module", params=[GARDEN, CLOSED], ids=["open", "closed"])
def root(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The garden, once with the books of its older season closed: those know no later season."""
    return written(folder(tmp_path_factory.mktemp("garden")), OLDER | {"garden.yaml": request.param})


@pytest.fixture(scope="module")
def whole(root: Path) -> tuple[Years, dict[str, bytes]]:
    made = make(root)
    assert made.years is not None
    return made.years, dict(made.files)


def season(site: Years, name: str) -> Year:
    return next(year for year in site.all if year.name == name)


def packed(root: Path, whole: tuple[Years, dict[str, bytes]], name: str) -> dict[str, bytes]:
    laid = layouts(root)
    site, files = whole
    return archive(season(site, name), files, laid.assets, Rendering(laid))


@pytest.fixture(scope="module", params=["2025", "2026"])
def files(
    request: pytest.FixtureRequest, root: Path, whole: tuple[Years, dict[str, bytes]]
) -> tuple[str, dict[str, bytes]]:
    return request.param, packed(root, whole, request.param)


@pytest.fixture(scope="module")
def pages(files: tuple[str, dict[str, bytes]]) -> dict[str, HtmlElement]:
    """As bare trees: all of them are gone through, and others take twenty times as long to make."""
    texts = {path: data.decode() for path, data in files[1].items() if path.endswith(".html")}
    return {path: document_fromstring(text) for path, text in texts.items() if not leads_on(text)}


def addresses(page: HtmlElement) -> list[str]:
    found = []
    for tag in page.iter():
        found += [str(value) for name, value in tag.items() if name in ("href", "src", "xlink:href")]
        found += [part.split()[0] for part in str(tag.get("srcset", "")).split(",") if part]
    return found


def test_every_link_inside_leads_to_something_inside(
    files: tuple[str, dict[str, bytes]], pages: dict[str, HtmlElement]
) -> None:
    ids = {path: {str(tag.get("id")) for tag in page.iterfind(".//*[@id]")} for path, page in pages.items()}
    checked = 0
    for path, page in pages.items():
        for address in addresses(page):
            to, anchor = target(path, address)
            if not to:
                continue
            assert to in files[1], f"{path} leads to {address}, which is not in the archive"
            assert not anchor or to not in ids or anchor in ids[to], f"{path}: no #{anchor} in {to}"
            checked += 1
    assert checked > 500


def test_every_page_is_reached_from_the_first(pages: dict[str, HtmlElement]) -> None:
    seen, waiting = {"index.html"}, ["index.html"]
    while waiting:
        here = waiting.pop()
        for address in addresses(pages[here]):
            to, _anchor = target(here, address)
            if to in pages and to not in seen:
                seen.add(to)
                waiting.append(to)
    assert set(pages) - seen == set()


def test_all_of_the_season_is_in_and_nothing_of_another(
    files: tuple[str, dict[str, bytes]], whole: tuple[Years, dict[str, bytes]]
) -> None:
    name, found = files
    other = {"2025": "2026", "2026": "2025"}[name]
    own = {path for path in whole[1] if path.startswith(f"{name}/")}
    assert own <= set(found)
    assert not [path for path in found if path.startswith(f"{other}/")]
    assert {"style.css", "about/index.html"} <= set(found)
    assert ("crops/leek/index.html" in found) == (name == "2025"), "only crops that the season leads to"
    assert "crops/index.html" not in found
    for path in own:
        if not path.endswith(".html"):
            assert found[path] == whole[1][path]


def test_a_link_to_another_season_leads_to_where_that_is_said(
    root: Path, whole: tuple[Years, dict[str, bytes]]
) -> None:
    found = packed(root, whole, "2025")
    page = parsed(found["2025/log/09-10-leeks/index.html"].decode())
    links = {link.get_text(): str(link["href"]) for link in page.select(".prose a")}
    assert links == {
        "about": "../../../about/index.html",
        "carrots in": "../../../index.html#outside",
        "outside": "https://example.org/",
    }
    first = parsed(found["index.html"].decode())
    assert "are not in this folder" in only(first, "section[aria-labelledby=outside]").get_text()
    assert only(first, "h1").get_text() == "Season 2025 in one folder"
    crops = [one.get_text() for one in first.select("section[aria-labelledby=crops] li")]
    assert "leeks" in crops


def test_the_same_site_gives_the_same_bytes_packed_sorted_and_stamped_with_its_day(
    root: Path, whole: tuple[Years, dict[str, bytes]]
) -> None:
    site, _files = whole
    name = name_elsewhere(season(site, "2025"))
    data = zipped(packed(root, whole, "2025"), name, site.today)
    assert data == zipped(dict(reversed(packed(root, whole, "2025").items())), name, site.today)
    with ZipFile(io.BytesIO(data)) as file:
        assert file.testzip() is None
        entries = file.infolist()
        assert [one.filename for one in entries] == sorted(one.filename for one in entries)
        assert {one.filename.split("/")[0] for one in entries} == {"two-plank-garden-2025"}
        for one in entries:
            stored = one.filename.endswith((".jpg", ".png", ".webp"))
            assert one.compress_type == (ZIP_STORED if stored else ZIP_DEFLATED), one.filename
        assert sum(one.compress_size for one in entries) < sum(one.file_size for one in entries) / 3
        assert {one.date_time for one in entries} == {(2026, 5, 20, 0, 0, 0)}
        assert all(not re.search(r"(^|/)\.\.?(/|$)|^/", one.filename) for one in entries)


def test_another_process_clock_and_zone_give_the_same_bytes() -> None:
    code = (
        "import hashlib; from datetime import date; from tallybed.publishing.files.archive import zipped;"
        "files = {f'p{n}.html': bytes(range(256)) * n for n in range(40)} | {'p.jpg': b'x'};"
        "print(hashlib.sha256(zipped(files, 'x', date(2026, 9, 14))).hexdigest())"
    )
    told = {
        subprocess.run(
            [sys.executable, "-c", code],
            env={**os.environ, "PYTHONHASHSEED": seed, "TZ": zone},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed, zone in (("1", "Asia/Tokyo"), ("2", "America/New_York"))
    }
    assert len(told) == 1


@pytest.mark.parametrize(("day", "year"), [(date(1900, 1, 1), 1980), (date(2999, 12, 31), 2107)])
def test_a_day_outside_those_that_the_format_knows_is_kept_within_them(day: date, year: int) -> None:
    with ZipFile(io.BytesIO(zipped({"a": b"a"}, "x", day))) as archive:
        assert [entry.date_time[:3] for entry in archive.infolist()] == [(year, day.month, day.day)]
