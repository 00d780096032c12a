"""Each file of a garden's text leads to the page that shows it, and every such page is there."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.garden.garden import Leaf
from tallybed.pages.frame import addresses
from tallybed.pages.frame.file_pages import newest_entry, page_of, pages_of_files
from tallybed.reckoning.year import Years
from tests.pages.gardens import every_page, folder, site_of, written

PAGES = {
    "content/garden.yaml": "index.html",
    "content/crops.yaml": "crops/index.html",
    "content/about.md": "about/index.html",
    "content/questions/why-so-few.md": "questions/why-so-few/index.html",
    "content/questions/broken.md": "questions/index.html",
    "content/2026/plan.yaml": "2026/plants/index.html",
    "content/2026/harvest.yaml": "2026/tally/index.html",
    "content/2026/names.yaml": "2026/index.html",
    "content/2026/log/2026-04-06-spinach-in.md": "2026/log/04-06-spinach-in/index.html",
    "content/2026/log/broken.md": "2026/log/index.html",
    "content/2026/photos/x.jpg": "2026/index.html",
    "content/2031/plan.yaml": "index.html",
    "content": "index.html",
    "layouts/home.html": "index.html",
    "": "index.html",
}


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Years:
    return site_of(folder(tmp_path_factory.mktemp("garden")))


@pytest.fixture(scope="module")
def there(site: Years) -> frozenset[str]:
    """The paths of the site's pages."""
    return frozenset(page.path for page in every_page(site))


@pytest.mark.parametrize("file", PAGES)
def test_a_file_leads_to_its_page(site: Years, there: frozenset[str], file: str) -> None:
    found = page_of(file, pages_of_files(site))
    assert found == PAGES[file]
    assert found in there


def test_papers_that_are_not_there_lead_to_their_season(tmp_path: Path) -> None:
    years = site_of(folder(tmp_path, plan=False, log=False, ledger=False))
    known = pages_of_files(years)
    for name in ("plan.yaml", "harvest.yaml", "log/2026-04-06-x.md"):
        assert page_of(f"content/2026/{name}", known) == "2026/index.html"
    assert newest_entry(years) == ""


def test_a_file_that_is_told_of_before_any_site_leads_home() -> None:
    assert page_of("content/2026/plan.yaml", {}) == "index.html"


def test_the_newest_entry_is_that_of_the_latest_day_in_any_season(tmp_path: Path) -> None:
    root = written(folder(tmp_path), {"2025/log/2025-10-01-late.md": "---\ntitle: Late\n---\n"})
    assert newest_entry(site_of(root)) == "2026/log/04-21-carrots-in/index.html"


@pytest.mark.parametrize(
    ("slug", "path"),
    [
        ("about", "about/index.html"),
        ("crops", "crops-page/index.html"),
        ("sheets", "sheets-page/index.html"),
        ("2026", "2026-page/index.html"),
        ("2031", "2031/index.html"),
    ],
)
def test_a_page_of_the_gardens_own_makes_way_for_the_sites_folders(site: Years, slug: str, path: str) -> None:
    assert addresses.leaf(site, Leaf(slug=slug, title="A page")) == path
