"""A build in a process of its own: what it tells as it goes on, and that it can be ended."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.server.findings_panel import News
from tallybed.tasks.previewing.apart import Apart
from tests.pages.gardens import LEDGER, folder

pytestmark = pytest.mark.usefixtures("few_crops")

LEDGER_FILE = "content/2026/harvest.yaml"


def news(root: Path, into: Path) -> list[News]:
    """All that is told of one build."""
    build = Apart(root, into)
    try:
        return list(build.news())
    finally:
        build.end()


def test_what_is_found_comes_first_and_the_places_of_the_site_last(tmp_path: Path) -> None:
    root, into = folder(tmp_path / "garden"), tmp_path / "site"
    first, *_, last = news(root, into)
    assert not first.ended
    assert last.ended
    assert not last.trouble
    assert last.places[LEDGER_FILE]
    assert (into / "index.html").is_file()


def test_of_a_garden_in_error_the_findings_are_told_and_no_site_is_made(tmp_path: Path) -> None:
    root, into = folder(tmp_path / "garden"), tmp_path / "site"
    (root / LEDGER_FILE).write_text(f"{LEDGER}- {{date: 2026-05-20, crop: radich}}\n", encoding="utf-8")
    last = news(root, into)[-1]
    assert last.ended
    assert "unknown-crop" in {one.code for one in last.findings}
    assert not last.places
    assert not (into / "index.html").exists()


def test_nothing_comes_of_a_build_that_was_ended(tmp_path: Path) -> None:
    build = Apart(folder(tmp_path / "garden"), tmp_path / "site")
    build.end()
    assert not any(one.ended for one in build.news())


def test_trouble_is_told_in_words(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    root = folder(tmp_path / "garden")
    (tmp_path / "site").write_text("a file where the site should be", encoding="utf-8")
    last = news(root, tmp_path / "site")[-1]
    assert last.ended
    assert last.trouble
    assert "Traceback" not in capfd.readouterr().out
