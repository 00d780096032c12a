"""An error elsewhere in the content keeps no notice back: the last good site gets it, and nothing else."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.pages.care.notices import UNREAD
from tallybed.tasks.build import build
from tests.commands.test_cli import run
from tests.pages.gardens import written

pytestmark = pytest.mark.usefixtures("few_crops")

FILES = {
    "garden.yaml": "name: Plank\nlatitude: 41\nlongitude: -80\nseason: {start: May 1, end: May 31}\n"
    "beds:\n  - {name: front, length: 2 squares, width: 1 square}\n",
    "2026/plan.yaml": "- {crop: spinach, tag: SP1, squares: front/A1, sow: May 1, until: May 31}\n",
    "2026/log/2026-05-01-in.md": "---\ntitle: In\ndone: [{sow: spinach, tag: SP1, squares: front/A1}]\n---\n",
}
TREATED = """\
---
title: Not to be read yet
date: 2026-05-20
unfinished: yes
done:
  - {treat: spray, product: spinosad, crop: spinach, squares: front/A1, wait: 7 days, re-entry: 4 hours}
---
Secret prose.
"""
WRONG = "- {crop: spinich, squares: front/B1, sow: May 5}\n"
NOTICE = "Do not pick spinach (SP1) in A1 before 27 May 2026 (treated with spinosad on 20 May 2026"


@pytest.fixture(scope="module")
def good(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A garden with a good site."""
    root = written(tmp_path_factory.mktemp("good"), FILES)
    assert build(root).good
    return root


@pytest.fixture
def garden(good: Path, tmp_path: Path) -> Path:
    """The garden with a treatment logged since, and a slip in the plan."""
    root = copied(good, tmp_path)
    (root / "content/2026/log/2026-05-20-spray.md").write_text(TREATED, encoding="utf-8")
    spoil(root)
    return root


def copied(good: Path, folder: Path) -> Path:
    return shutil.copytree(good, folder / "garden")


def spoil(root: Path) -> None:
    plan = root / "content/2026/plan.yaml"
    plan.write_text(plan.read_text(encoding="utf-8") + WRONG, encoding="utf-8")


def mend(root: Path) -> None:
    plan = root / "content/2026/plan.yaml"
    plan.write_text(plan.read_text(encoding="utf-8").replace(WRONG, ""), encoding="utf-8")


def site(root: Path) -> dict[str, bytes]:
    """Return the site's files but the marker."""
    return {
        path.relative_to(root / "site").as_posix(): path.read_bytes()
        for path in sorted((root / "site").rglob("*"))
        if path.is_file() and path.name != ".tallybed"
    }


def words(data: bytes) -> str:
    return " ".join(BeautifulSoup(data, "lxml").get_text(" ").split())


def test_the_notice_comes_into_every_page_and_nothing_else_changes(garden: Path) -> None:
    before = site(garden)
    built = build(garden)
    after = site(garden)
    assert not built.good
    pages = [name for name, data in before.items() if b'<main id="content">' in data]
    assert built.warned == len(pages) > 20
    assert set(after) == set(before)
    for name, data in after.items():
        if name not in pages:
            assert data == before[name], name
            continue
        page = BeautifulSoup(data, "lxml")
        (added,) = page.select("aside[aria-label='Added since this page was made']")
        told = " ".join(added.get_text(" ").split())
        assert NOTICE in told, name
        assert "As of 20 May 2026:" in told
        assert "Secret" not in told
        assert added.find_next_sibling("main") is not None, "before the content, where a reader begins"
        text, old = data.decode(), before[name].decode()
        begins, ends = text.index("<!-- notices added"), text.index("<main id=")
        assert text[:begins] + text[ends:] == old, f"{name}: more than the notice has changed"


@pytest.mark.parametrize(
    ("right", "wrong", "told"),
    [
        ("wait: 7 days", "wiat: 7 days", True),
        ("crop: spinach", "crop: spinich", True),
        (
            TREATED[TREATED.index("  - {") : TREATED.index("---\nSecret")],
            "  - {water: beds, wiat: 7}\n",
            False,
        ),
    ],
    ids=["in its wait", "in its crop", "in another line"],
)
def test_a_treatment_that_a_slip_keeps_from_being_read_is_a_wait_nobody_knows(
    good: Path, tmp_path: Path, right: str, wrong: str, told: bool
) -> None:
    """Fails where a slip takes away the notice that the line was written for."""
    root = copied(good, tmp_path)
    text = TREATED.replace(right, wrong)
    (root / "content/2026/log/2026-05-20-spray.md").write_text(text, encoding="utf-8")
    before = site(root)
    built = build(root)
    assert not built.good
    after = site(root)
    pages = [name for name in after if after[name] != before[name]]
    assert len(pages) == built.warned
    assert bool(pages) is told
    assert all(UNREAD in words(after[name]) for name in pages)


def test_it_is_told_that_the_site_was_left_but_for_the_notices(garden: Path) -> None:
    told = run("build", garden)
    assert told.exit_code == 1
    assert "spinich" in told.stderr
    pages = sum(b'<main id="content">' in data for data in site(garden).values())
    assert f"left as it was, but for notices of what must still wait, on {pages} pages." in told.stderr


def test_once_there_it_stays_the_same_and_a_good_build_takes_its_place(garden: Path) -> None:
    build(garden)
    once = site(garden)
    assert build(garden).warned == 0
    assert site(garden) == once
    mend(garden)
    assert build(garden).good
    after = site(garden)
    assert not [name for name, data in after.items() if b"notices added later" in data]
    assert "before 27 May 2026" in words(after["2026/plants/SP1/index.html"]), "told by the page itself now"


def test_what_the_site_says_already_is_not_said_twice(garden: Path) -> None:
    mend(garden)
    assert build(garden).good
    before = site(garden)
    spoil(garden)
    assert build(garden).warned == 0
    assert site(garden) == before


def test_without_anything_that_waits_the_site_is_left_alone(good: Path, tmp_path: Path) -> None:
    root = copied(good, tmp_path)
    before = site(root)
    spoil(root)
    assert build(root).warned == 0
    assert site(root) == before


@pytest.mark.parametrize("how", ["changed by hand", "no site yet"])
def test_where_it_cannot_be_added_that_is_said_beside_the_errors(garden: Path, how: str) -> None:
    page = garden / "site/index.html"
    if how == "no site yet":
        for path in sorted((garden / "site").rglob("*"), reverse=True):
            path.rmdir() if path.is_dir() else path.unlink()
    else:
        page.write_text("mine", encoding="utf-8")
    told = run("build", garden)
    assert told.exit_code == 1
    assert "spinich" in told.stderr
    assert "what must still wait could not be told on it: put a sign at the bed" in told.stderr
    assert how == "no site yet" or page.read_text(encoding="utf-8") == "mine"


def test_a_garden_that_cannot_be_understood_changes_nothing(garden: Path) -> None:
    before = site(garden)
    (garden / "content/garden.yaml").write_text("name: [\n", encoding="utf-8")
    assert not build(garden).good
    assert site(garden) == before
