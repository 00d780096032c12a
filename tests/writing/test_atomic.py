"""One writer for every file that must be the old one or the new one; the ledger's tests end it in between."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.publishing.swap import disk
from tallybed.publishing.swap.machine import machine_words
from tallybed.publishing.swap.refused import RefusedError
from tallybed.writing.atomic import write_new, write_over


def test_a_new_file_is_written_once_and_over_only_when_said(tmp_path: Path) -> None:
    path = tmp_path / "week.png"
    write_new(path, b"first")
    with pytest.raises(RefusedError, match=r"exists already; .* use --replace"):
        write_new(path, b"second")
    assert path.read_bytes() == b"first"
    write_new(path, b"second", replace=True)
    assert path.read_bytes() == b"second"
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("replace", [False, True])
def test_a_folder_is_never_written_over(tmp_path: Path, replace: bool) -> None:
    with pytest.raises(RefusedError, match="is a folder; name a file"):
        write_new(tmp_path, b"x", replace=replace)


def test_a_folder_that_is_not_there_is_named(tmp_path: Path) -> None:
    with pytest.raises(RefusedError, match=r"there is no folder .*nowhere to write week\.png into"):
        write_new(tmp_path / "nowhere" / "week.png", b"x")


def test_a_file_that_cannot_be_written_is_named_as_it_was_asked_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "week.png"

    def refused(beside: Path, _data: bytes) -> int:
        raise PermissionError(13, "Permission denied", str(beside))

    monkeypatch.setattr(Path, "write_bytes", refused)
    with pytest.raises(PermissionError) as caught:
        write_new(path, b"new")
    assert caught.value.filename == str(path)


def test_a_disk_that_fails_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "2026.zip"
    path.write_bytes(b"old")

    def full(_path: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(disk, "flush_file", full)
    with pytest.raises(OSError, match="No space"):
        write_new(path, b"new", replace=True)
    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]


def test_a_disk_that_fills_leaves_no_part_and_says_of_which_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "2026.zip"
    path.write_bytes(b"old")
    write = Path.write_bytes

    def filled(beside: Path, data: bytes) -> int:
        write(beside, data[:1])
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "write_bytes", filled)
    with pytest.raises(OSError, match="No space") as caught:
        write_new(path, b"new", replace=True)
    assert caught.value.filename == str(path)
    assert "make room" in machine_words(caught.value)
    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]


def test_an_error_that_concerns_no_file_names_none() -> None:
    assert machine_words(OSError(5, "Input/output error")) == "Input/output error"


def test_a_link_stays_a_link_and_its_file_is_written(tmp_path: Path) -> None:
    target, link = tmp_path / "real.txt", tmp_path / "link.txt"
    target.write_bytes(b"old")
    link.symlink_to(target)
    write_over(link, b"new")
    assert link.is_symlink()
    assert target.read_bytes() == b"new"
