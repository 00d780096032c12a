"""Layouts: ours, and a garden's own in their place, file by file."""

import os
from pathlib import Path

import pytest

from tallybed.garden.findings import Severity
from tallybed.publishing import assets
from tallybed.publishing.assets import layouts, shipped_folder

PIPES = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")


@pytest.fixture
def shipped(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Layouts of ours that a test can know."""
    folder = tmp_path / "shipped"
    folder.mkdir()
    (folder / "sheet.html").write_text("ours")
    (folder / "style.css").write_bytes(b"a {}\r\n")
    (folder / "map.css").write_text("b {}\n")
    monkeypatch.setattr(assets, "shipped_folder", lambda: folder)
    return folder


@pytest.fixture
def own(tmp_path: Path, shipped: Path) -> Path:
    """A garden's own layouts, empty."""
    del shipped
    folder = tmp_path / "garden" / "layouts"
    folder.mkdir(parents=True)
    return folder


def test_our_layouts_are_where_the_package_or_the_checkout_has_them() -> None:
    assert (shipped_folder() / "sheet.html").is_file()
    assert (shipped_folder() / "style.css").is_file()


@pytest.mark.usefixtures("shipped")
def test_a_garden_without_layouts_gets_ours_with_the_style_sheets_joined(tmp_path: Path) -> None:
    found = layouts(tmp_path / "garden")
    assert found.templates["sheet.html"].text == "ours"
    assert found.assets == {"style.css": b"a {}\n\nb {}\n"}
    assert found.findings == ()


def test_our_style_sheets_go_out_without_what_is_for_their_editors(shipped: Path, tmp_path: Path) -> None:
    """Fails where a comment leaves its empty line behind, or a line of its own is kept for each rule."""
    (shipped / "style.css").write_text("/* a */\n\na {\n  b: c; /* d */\n}\n\n/* e\n * f */\n\ng {}\n")
    found = layouts(tmp_path / "garden").assets["style.css"]
    assert found == b"a{b: c;}g {}\n\nb {}\n"


def test_own_files_override_one_by_one(own: Path) -> None:
    (own / "map.css").write_text("c {}\n")
    (own / "sheet.html").write_text("theirs")
    (own / "signs").mkdir()
    (own / "signs" / "gate.svg").write_text("<svg/>")
    found = layouts(own.parent)
    assert found.templates["sheet.html"].text == "theirs"
    assert found.templates["sheet.html"].file == "layouts/sheet.html"
    assert found.shipped["sheet.html"].text == "ours"
    assert found.assets == {"signs/gate.svg": b"<svg/>", "style.css": b"a {}\n\nc {}\n"}
    assert found.findings == ()


@pytest.mark.parametrize(
    "name", [".hidden.html", "sheet.html~", ".DS_Store", ".git/config.html", "Thumbs.db"]
)
def test_hidden_files_and_leavings_are_left_alone(own: Path, name: str) -> None:
    (own / name).parent.mkdir(exist_ok=True)
    (own / name).write_text("x")
    found = layouts(own.parent)
    assert set(found.templates) == {"sheet.html"}
    assert found.findings == ()


def test_what_cannot_be_used_is_told(own: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "secret.html").write_text("secret")
    (own / "linked.html").symlink_to(tmp_path / "secret.html")
    (own / "bad.html").write_bytes(b"one\ntwo \xff")
    (own / "notes.docx").write_text("x")
    (own / "big.svg").write_text("x" * 101)
    monkeypatch.setattr(assets, "MOST", 100)
    found = layouts(own.parent)
    assert [(one.place.file, one.place.line, one.code) for one in found.findings] == [
        ("layouts/bad.html", 2, "not-utf-8"),
        ("layouts/big.svg", 1, "layout-too-large"),
        ("layouts/linked.html", 1, "layout-link"),
        ("layouts/notes.docx", 1, "layout-unused"),
    ]
    assert found.findings[-1].severity is Severity.ADVICE
    assert set(found.templates) == {"sheet.html"}
    assert set(found.assets) == {"style.css"}


def test_layouts_that_are_no_folder_of_the_garden_are_told_once(tmp_path: Path) -> None:
    for name in ("elsewhere", "file", "linked", "loop"):
        (tmp_path / name).mkdir()
    (tmp_path / "elsewhere" / "home.html").write_text("secret")
    (tmp_path / "file" / "layouts").write_text("x")
    (tmp_path / "linked" / "layouts").symlink_to(tmp_path / "elsewhere")
    (tmp_path / "loop" / "layouts").symlink_to(tmp_path / "loop" / "layouts")
    for name, code in (("file", "not-a-folder"), ("linked", "layout-link"), ("loop", "not-a-folder")):
        found = layouts(tmp_path / name)
        assert [(str(one.place), one.code) for one in found.findings] == [("layouts:1:1", code)], name
        assert not any(one.own for one in found.templates.values())


@PIPES
def test_a_pipe_is_told_of_and_never_opened(own: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    os.mkfifo(own / "page.html")
    read = Path.read_bytes
    monkeypatch.setattr(Path, "read_bytes", lambda path: read(path) if path.is_file() else b"opened")
    found = layouts(own.parent)
    assert [(one.place.file, one.code) for one in found.findings] == [("layouts/page.html", "not-a-file")]
    assert "page.html" not in found.templates
