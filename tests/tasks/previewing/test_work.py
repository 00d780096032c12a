"""What a preview shows at once: pages like those of a build, and the last good ones on errors."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.garden.findings import Severity
from tallybed.pages.catalogue import page_at
from tallybed.pages.frame.page import Page
from tallybed.reckoning.year import Years
from tallybed.server.findings_panel import News
from tallybed.server.following import Look
from tallybed.tasks.build import make
from tallybed.tasks.previewing.work import GardenWork
from tests.pages.gardens import GARDEN, LEDGER, LOG, PLAN, folder, written

pytestmark = pytest.mark.usefixtures("few_crops")

CLOSED = f"{GARDEN}seasons: {{2025: {{closed: yes}}}}\n"
ENTRY = "2026/log/2026-04-06-spinach-in.md"
PAGE = "2026/log/04-06-spinach-in/index.html"
TELLING = ("index.html", PAGE, "2026/tally/index.html", "2026/beds/back/index.html", "2025/index.html")
"""Pages that much of the garden stands on."""
DRAFT = "---\ntitle: Half\ndate: 2026-05-21\nunfinished: yes\n---\nHalf a sentence.\n"


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    """Return a garden with a closed season before the one that runs."""
    last = {
        "2025/plan.yaml": "- {crop: spinach, tag: SP9, squares: front/A1, sow: Apr 5, until: Jun 1}\n",
        "2025/harvest.yaml": "- {date: 2025-05-10, crop: spinach, tag: SP9, weight: 1 lb}\n",
    }
    return written(folder(tmp_path / "garden"), last | {"garden.yaml": CLOSED})


def shown(look: Look, path: str) -> str:
    assert look.pages is not None
    data = look.pages.data(path)
    assert data is not None, path
    return data.decode()


EDITS: dict[str, dict[str, str]] = {
    "the prose of an entry": {ENTRY: LOG["2026-04-06-spinach-in.md"] + "\nAnd a ha'penny.\n"},
    "a line of the ledger, on a later day": {
        "2026/harvest.yaml": LEDGER + "- {date: 2026-05-22, crop: radish, weight: 2 oz}\n"
    },
    "a row of the plan, and a draft": {
        "2026/plan.yaml": PLAN + "- {crop: kale, tag: KA1, squares: back/B2, sow: May 1, until: Sep 1}\n",
        "2026/log/2026-05-21-half.md": DRAFT,
    },
}


def test_a_page_shown_early_is_the_page_that_a_build_makes(garden: Path) -> None:
    """Fails where what is kept from one change to the next makes a page another than a build from nothing.

    After one edit upon another; at the end every page of the site, of the closed season too, to the byte.
    """
    work = GardenWork(garden)
    look = work.look()
    for name, files in EDITS.items():
        for path in TELLING:
            shown(look, path)  # so that something is worked out, and could be kept wrongly
        written(garden, files)
        look, fresh = work.look(), GardenWork(garden).look()
        for path in TELLING:
            assert shown(look, path) == shown(fresh, path), f"{path} after {name}"
    whole = make(garden, drafts=True)
    assert whole.years is not None
    assert look.pages is not None
    for path in whole.years.paths | look.pages.looks.keys():
        assert look.pages.data(path) == whole.files[path], path
    assert not any(look.pages.lacks(path) for path in whole.files)


def test_pages_come_and_go_with_their_files(garden: Path) -> None:
    work = GardenWork(garden)
    look = work.look()
    gone, came = (f"2026/log/04-21-{name}/index.html" for name in ("carrots-in", "roots"))
    assert "the last visit" in shown(look, gone)
    log = garden / "content" / "2026" / "log"
    (log / "2026-04-21-carrots-in.md").rename(log / "2026-04-21-roots.md")
    look = work.look()
    assert look.pages is not None
    assert look.pages.data(gone) is None
    assert look.pages.lacks(gone), "the folder's older page would be shown"
    assert "the last visit" in shown(look, came)


@pytest.mark.parametrize(
    ("file", "text", "says"),
    [
        ("2026/plan.yaml", PLAN + "- {crop: \n", "plan.yaml"),
        (ENTRY, LOG["2026-04-06-spinach-in.md"] + "\n[gone](/nowhere/)\n", "no page"),
    ],
    ids=["in reading", "a link to nowhere"],
)
def test_errors_keep_the_last_good_page(garden: Path, file: str, text: str, says: str) -> None:
    """Fails where a page is made of content with errors, or the good one before it is lost."""
    work = GardenWork(garden)
    before = shown(work.look(), PAGE)
    written(garden, {file: text})
    look = work.look()
    assert shown(look, PAGE) == before
    assert any(says in f"{one.place.file} {one.found}" for one in look.news.errors), look.news
    settled = work.settle(News(findings=look.news.findings, ended=True), look)
    assert shown(settled, PAGE) == before, "it is lost when the build has found the errors too"


def test_where_a_build_has_written_the_site_the_folder_is_the_last_good_one(garden: Path) -> None:
    work = GardenWork(garden)
    look = work.look()
    assert work.settle(News(places={"content/": "index.html"}, ended=True), look).pages is None
    written(garden, {"2026/harvest.yaml": "- {crop: \n"})
    assert work.look().pages is None


def test_notices_are_on_the_last_good_page_though_the_content_has_errors(garden: Path) -> None:
    """Fails where a treatment that just was written down is not told, because of a mistake elsewhere."""
    work = GardenWork(garden)
    assert "copper" not in shown(work.look(), PAGE)
    treated = (
        "---\ntitle: Sprayed\ndate: 2026-05-21\ndone:\n"
        "  - {treat: copper, squares: back, wait: 9 days, re-entry: 2 days}\n---\n"
    )
    written(garden, {"2026/log/2026-05-21-sprayed.md": treated, "2026/plan.yaml": PLAN + "- {crop: \n"})
    assert "copper" in shown(work.look(), "2026/beds/back/index.html")


def test_a_template_at_fault_leaves_the_site_before_it(garden: Path) -> None:
    work = GardenWork(garden)
    before = shown(work.look(), PAGE)
    (garden / "layouts").mkdir()
    (garden / "layouts" / "entry.html").write_text("{{ nothing_of_the_kind }}")
    look = work.look()
    assert look.pages is not None
    assert look.pages.data(PAGE) is None
    findings = make(garden, drafts=True).findings
    assert any(one.code == "template-mistake" for one in findings)
    assert shown(work.settle(News(findings=findings, ended=True), look), PAGE) == before


def test_what_the_last_build_doubted_is_told_until_the_next_one_has_looked(garden: Path) -> None:
    work = GardenWork(garden)
    look = work.look()
    doubts = tuple(one for one in make(garden, drafts=True).findings if one.severity is not Severity.ERROR)
    assert doubts
    work.settle(News(findings=doubts, places={"content/": "index.html"}, ended=True), look)
    assert set(doubts) <= set(work.look().news.findings)


def test_a_folder_that_is_no_garden_is_trouble_and_no_traceback(garden: Path) -> None:
    (garden / "content" / "garden.yaml").unlink()
    with pytest.raises(OSError, match="not a garden folder"):
        GardenWork(garden).look()


def test_few_pages_are_kept_however_many_are_looked_at(garden: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tallybed.tasks.previewing.early.MOST_PAGES", 2)
    site = GardenWork(garden).look().pages
    asked: list[str] = []

    def counted(years: Years, path: str) -> Page | None:
        asked.append(path)
        return page_at(years, path)

    monkeypatch.setattr("tallybed.tasks.previewing.early.page_at", counted)
    assert site is not None
    for path in (PAGE, PAGE, "crops/index.html", "questions/index.html", PAGE):
        assert site.data(path)
    assert asked == [PAGE, "crops/index.html", "questions/index.html", PAGE]
