"""Seasons kept as JSON: what comes back is what was read, to the last field and place."""

from __future__ import annotations

import shutil
from dataclasses import asdict
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from tallybed.garden.days import Span
from tallybed.garden.garden import Season
from tallybed.reading.folder.garden_folder import FolderRead, read
from tallybed.reading.folder.kept_seasons import as_bytes, from_bytes
from tallybed.reading.folder.season_folder import SeasonFolder
from tests.reading.folder.test_remembered import EDITS
from tests.small_garden import folder, read_garden

ROOT = Path(__file__).parents[3]


class Shelf(dict[str, tuple[str, bytes]]):
    """Keeps bytes in memory."""

    changing = ""

    def find(self, name: str, made_of: str) -> bytes | None:
        told, data = self.get(name, ("", b""))
        return data if told == made_of else None

    def leave(self, name: str, made_of: str, data: bytes) -> None:
        self[name] = (made_of, data)


def wholly(found: FolderRead) -> object:
    """Everything that was read, with the places that values do not compare."""
    seasons = found.garden.seasons if found.garden else ()
    return found.garden, found.findings, found.taking, [asdict(season) for season in seasons]


def test_every_season_of_the_demonstration_comes_back_to_the_last_place():
    garden = read_garden(ROOT)
    for season in garden.seasons:
        data = as_bytes(season)
        assert data is not None, "it would be read anew each time"
        assert asdict(from_bytes(data)) == asdict(season)


def test_whatever_changes_what_is_read_with_a_shelf_is_what_lies_there(tmp_path: Path):
    """Fails where a season comes from the shelf though a file that it depends on has changed."""
    root = folder(tmp_path / "garden")
    shelf = Shelf()
    read(root, shelf=shelf)
    for number, (name, edit) in enumerate(EDITS.items()):
        edit(root)
        shutil.copytree(root, tmp_path / f"{number}")
        for _run in range(2):
            assert wholly(read(root, shelf=shelf)) == wholly(read(tmp_path / f"{number}")), name


def test_a_season_is_read_from_its_text_but_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    root, shelf = folder(tmp_path / "garden"), Shelf()
    first = read(root, shelf=shelf)
    monkeypatch.setattr(SeasonFolder, "season", lambda *_given: pytest.fail("it was read again"))
    assert wholly(read(root, shelf=shelf)) == wholly(first)


def test_what_lies_on_a_shelf_and_is_no_season_is_passed_over(tmp_path: Path):
    root = folder(tmp_path / "garden")
    right, shelf = wholly(read(root)), Shelf()
    read(root, shelf=shelf)
    for data in (b"", b"{}", b"\xff", b'{"name": 7}', b"[" * 10_000, shelf["2026"][1].replace(b"[", b"{", 1)):
        shelf["2026"] = (shelf["2026"][0], data)
        assert wholly(read(root, shelf=shelf)) == right


def test_a_season_with_something_to_tell_of_is_read_each_time(tmp_path: Path):
    """Fails where an error is told by the first run alone."""
    root, shelf = folder(tmp_path / "garden"), Shelf()
    with (root / "content/2026/harvest.yaml").open("a", encoding="utf-8") as ledger:
        ledger.write("- {date: 2026-05-20, crop: radich}\n")
    first, second = read(root, shelf=shelf), read(root, shelf=shelf)
    assert first.findings == second.findings != ()
    assert not shelf


def test_what_json_would_give_back_otherwise_is_not_kept():
    """Fails where a field of a kind that was not thought of would lose what it holds on the way."""
    season = Season(name="2026", span=Span(first=date(2026, 3, 1), last=date(2026, 11, 30)))
    assert as_bytes(season) is not None
    for value in (1j, Fraction(1, 3), b"bytes"):
        object.__setattr__(season, "note", value)
        assert as_bytes(season) is None
