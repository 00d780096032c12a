"""Files are opened bounded, inside the folder, as UTF-8."""

from __future__ import annotations

import ast
import os
import stat
from pathlib import Path

import pytest

from tallybed.garden.findings import Finding, Place
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.folder.disk import LARGEST, FolderItem, FolderOnDisk
from tallybed.reading.folder.garden_folder import read
from tests.reading.bad_cases import GARDEN
from tests.tools import ROOT

READING = ROOT / "src" / "tallybed" / "reading"


def _refused(root: Path, file: str) -> Finding:
    problems = Problems()
    with pytest.raises(LeftOut):
        FolderOnDisk(root, problems).text(file)
    (finding,) = problems.all()
    return finding


def test_only_sources_opens_the_gardeners_files() -> None:
    opening = {"open", "read_text", "read_bytes", "iterdir", "glob", "rglob", "scandir", "walk", "stat"}
    for path in sorted(READING.rglob("*.py")):
        if path.name in ("disk.py", "library.py"):  # the library is the package's own
            continue
        text = path.read_text(encoding="utf-8")
        if not any(f"{name}(" in text for name in opening):  # which no reading of its syntax would find
            continue
        for node in ast.walk(ast.parse(text)):
            if isinstance(node, ast.Call):
                name = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
                assert name not in opening, f"{path.name}:{node.lineno} opens files"


def test_a_file_at_the_limit_is_read_and_one_byte_more_is_not(tmp_path: Path) -> None:
    (tmp_path / "at.md").write_bytes(b"x" * LARGEST)
    (tmp_path / "over.md").write_bytes(b"x" * (LARGEST + 1))
    assert len(FolderOnDisk(tmp_path, Problems()).text("at.md")) == LARGEST
    assert _refused(tmp_path, "over.md").code == "file-too-large"


def test_a_file_that_says_it_is_empty_is_read_no_further_than_the_limit(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Else a file that grows while it is read, or that tells no size as those of /proc, fills the memory."""
    (tmp_path / "a.md").write_bytes(b"x" * (3 * LARGEST))
    plain = Path.stat

    def empty(path: Path, **how: bool) -> os.stat_result:
        told = list(plain(path, **how))
        told[stat.ST_SIZE] = 0
        return os.stat_result(told)

    monkeypatch.setattr(Path, "stat", empty)
    finding = _refused(tmp_path, "a.md")
    assert (finding.code, finding.found) == (
        "file-too-large",
        "the file has 2,000,001 bytes, so it was not read",
    )


@pytest.mark.parametrize("target", ["../outside.md", "/etc/hostname", "..", "inside/../../outside.md"])
def test_no_link_leads_out(tmp_path: Path, target: str) -> None:
    root = tmp_path / "garden"
    (root / "inside").mkdir(parents=True)
    (tmp_path / "outside.md").write_text("secret", encoding="utf-8")
    (root / "a.md").symlink_to(target)
    assert _refused(root, "a.md").code == "outside-folder"


def test_a_folder_next_door_with_a_longer_name_is_outside(tmp_path: Path) -> None:
    for name in ("garden", "garden-two"):
        (tmp_path / name).mkdir()
    (tmp_path / "garden-two" / "a.md").write_text("secret", encoding="utf-8")
    (tmp_path / "garden" / "a.md").symlink_to(tmp_path / "garden-two" / "a.md")
    assert _refused(tmp_path / "garden", "a.md").code == "outside-folder"


def test_a_link_within_the_folder_is_followed_and_so_is_one_to_the_folder(tmp_path: Path) -> None:
    root = tmp_path / "garden"
    root.mkdir()
    (root / "a.md").write_text("x", encoding="utf-8")
    (root / "b.md").symlink_to("a.md")
    (tmp_path / "elsewhere").symlink_to(root)
    for folder in (root, tmp_path / "elsewhere"):
        assert FolderOnDisk(folder, Problems()).text("b.md") == "x"


def test_a_linked_folder_that_leads_out_is_not_listed(tmp_path: Path) -> None:
    root = tmp_path / "garden"
    root.mkdir()
    (root / "content").symlink_to("/usr")
    assert [finding.code for finding in read(root).findings] == ["outside-folder", "no-garden"]


def test_hidden_files_and_backups_are_passed_over(tmp_path: Path) -> None:
    names = (
        "a.md",
        ".git",
        ".plan.yaml.swp",
        "plan.yaml~",
        "#plan.yaml#",
        "plan.yaml.bak",
        "Thumbs.db",
        "x.orig",
    )
    for name in names:
        (tmp_path / name).write_text("", encoding="utf-8")
    assert FolderOnDisk(tmp_path, Problems()).listing("") == (FolderItem("a.md", False),)
    assert FolderOnDisk(tmp_path, Problems()).listing("nowhere") == ()


@pytest.mark.parametrize(
    ("data", "line", "column"),
    [
        (b"\xe9", 1, 1),
        (b"ab\xe9", 1, 3),
        ("é€".encode() + b"\xe9", 1, 3),
        (b"\xef\xbb\xbfa\xe9", 1, 2),
        (b"a\r\nb\r\ncd\xe9", 3, 3),
        (b"a\rb\rcd\xe9", 3, 3),
        (b"a\n\xc3", 2, 1),
        (b"a\n\xed\xa0\x80", 2, 1),  # half of a pair, which UTF-8 never holds
        (b"a\n\xc0\x80", 2, 1),  # a null in two bytes, which UTF-8 forbids
    ],
)
def test_a_byte_that_is_not_utf_8_is_told_at_its_column(
    tmp_path: Path, data: bytes, line: int, column: int
) -> None:
    (tmp_path / "a.md").write_bytes(data)
    finding = _refused(tmp_path, "a.md")
    assert (finding.code, finding.place) == ("not-utf-8", Place("a.md", line, column))


@pytest.mark.parametrize(
    "sign", ["\0", "\x07", "\x1b", "\x7f", "\x85", "\u2028", "\u202e", "\u2067", "\ufeff"]
)
def test_a_character_nobody_sees_is_told_at_its_column(tmp_path: Path, sign: str) -> None:
    (tmp_path / "a.md").write_text(f"one\ntwo {sign}x\n", encoding="utf-8", newline="")
    finding = _refused(tmp_path, "a.md")
    assert (finding.code, finding.place) == ("unseen-character", Place("a.md", 2, 5))


def test_letters_of_any_script_and_signs_are_read(tmp_path: Path) -> None:
    text = "Gurken, огурцы, 黄瓜, خيار, 🥒\u200d🌱, ½ lb\ttab\n"
    (tmp_path / "a.md").write_text(text, encoding="utf-8")
    assert FolderOnDisk(tmp_path, Problems()).text("a.md") == text


def test_trouble_with_the_machine_is_no_finding(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "content").mkdir()
    (tmp_path / "content" / "garden.yaml").write_text(GARDEN, encoding="utf-8")

    def refuse(path: Path, *_: object) -> None:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(PermissionError, match="garden"):
        read(tmp_path)
