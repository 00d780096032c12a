"""What lies in a garden's folder besides what a build reads, packed files among it."""

from __future__ import annotations

import zlib
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZipFile

import pytest

from tallybed.writing.remnants import holding


def test_a_damaged_part_of_an_archive_keeps_nobody_from_looking_into_the_rest(tmp_path: Path) -> None:
    path = tmp_path / "mails.zip"
    with ZipFile(path, "w", ZIP_DEFLATED) as archive:
        archive.writestr("first.txt", "of no use to anybody " * 50)
        archive.writestr("second.txt", "Zephyrine Quill")
    data = path.read_bytes()
    begins = data.index(b"first.txt") + len("first.txt")
    path.write_bytes(data[:begins] + b"\xff" * 10 + data[begins + 10 :])
    with ZipFile(path) as archive, pytest.raises(zlib.error):
        archive.read("first.txt")
    assert holding(tmp_path, (), lambda text: "Zephyrine" in text) == ("mails.zip",)
    path.write_bytes(data[: len(data) // 2])
    assert holding(tmp_path, (), lambda text: "Zephyrine" in text) == ()
