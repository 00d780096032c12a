from __future__ import annotations

import shutil
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from tallybed.pictures.rooms import FOLDER
from tallybed.tasks.base.garden import understood
from tallybed.tasks.site import shelf as shelves
from tallybed.tasks.site.shelf import SeasonShelf
from tallybed.tasks.weigh import scale
from tests.tools import ROOT

DATA = b'{"name":"2026",\n"note":"\xe2\x80\x9cwet\xe2\x80\x9d"}'


@pytest.fixture
def shelf(tmp_path: Path) -> SeasonShelf:
    left = SeasonShelf(tmp_path)
    left.leave("2026", "these texts", DATA)
    return left


def test_what_was_left_is_found_by_the_next_run_for_the_same_texts_alone(tmp_path: Path, shelf: SeasonShelf):
    assert SeasonShelf(tmp_path).find("2026", "these texts") == DATA
    assert SeasonShelf(tmp_path).find("2026", "other texts") is None
    assert SeasonShelf(tmp_path).find("2025", "these texts") is None
    shelf.leave("2026", "other texts", b"1")
    assert shelf.find("2026", "these texts") is None, "of each season the newest alone is kept"


@pytest.mark.parametrize(
    "harm",
    [
        lambda path: path.write_bytes(b""),
        lambda path: path.write_bytes(path.read_bytes()[:-1]),
        lambda path: path.write_bytes(path.read_bytes().replace(b"wet", b"dry")),
        lambda path: path.write_bytes(b"\xff" * 500),
        lambda path: (path.unlink(), path.mkdir()),
        lambda path: (path.rename(path.with_name("2025.json")), path.symlink_to("2025.json")),
        lambda path: (path.parent.rename(path.parents[2] / "away"), path.parent.symlink_to("../away")),
    ],
)
def test_what_is_not_sound_or_lies_elsewhere_is_passed_over(
    tmp_path: Path, shelf: SeasonShelf, harm: Callable[[Path], object]
):
    harm(tmp_path / FOLDER / "read" / "2026.json")
    assert shelf.find("2026", "these texts") is None
    shelf.leave("2026", "these texts", DATA)  # where it cannot be kept, nothing happens


def test_another_version_of_the_program_finds_nothing(shelf: SeasonShelf, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(shelves, "of_rooms", lambda *_rooms: "another")
    assert shelf.find("2026", "these texts") is None


def test_what_is_too_long_is_not_kept(shelf: SeasonShelf, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(shelves, "_MOST", 100)
    shelf.leave("2025", "these texts", b"1" * 100)
    assert shelf.find("2025", "these texts") is None
    assert shelf.find("2026", "these texts") is None, "nor read, whoever put it there"


def test_a_weighing_leaves_every_season_but_the_one_that_it_writes_to(tmp_path: Path):
    shutil.copytree(ROOT / "content", tmp_path / "content")
    (kept := tmp_path / FOLDER / "read").mkdir(parents=True)
    scale(tmp_path, date(2026, 6, 20))
    others = {"2024.json", "2025.json"}
    assert {path.name for path in kept.iterdir()} == others
    understood(tmp_path)
    assert {path.name for path in kept.iterdir()} == {*others, "2026.json"}
