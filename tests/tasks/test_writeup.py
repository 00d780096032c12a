"""``tallybed writeup`` as a person has it: the file, the editor, and what it refuses."""

from __future__ import annotations

import os
import re
import stat
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tallybed.cli import main
from tallybed.garden.findings import worded
from tallybed.tasks.build import build
from tallybed.tasks.check import check
from tallybed.tasks.start import start
from tallybed.tasks.writeup import findings_in
from tests.pictures.test_gathering import photograph, taken


@pytest.fixture
def garden(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.delenv("VISUAL", raising=False)
    monkeypatch.delenv("EDITOR", raising=False)
    start(tmp_path / "garden", 2026)
    return tmp_path / "garden"


def run(garden: Path, *words: str | Path) -> Result:
    return CliRunner().invoke(
        main, ["writeup", *map(str, words), "--folder", str(garden)], catch_exceptions=False
    )


def editor(tmp_path: Path, script: str) -> str:
    path = tmp_path / "the editor"
    path.write_text(f"#!/bin/sh\n{script}\n")
    path.chmod(path.stat().st_mode | stat.S_IXUSR)
    return f"'{path}' --wait"


def codes(garden: Path) -> list[str]:
    """Return what is told of a garden, but for the web address that a new one does not have yet."""
    return [one.code for one in check(garden) if one.code != "no-address"]


def test_an_entry_is_begun_and_nothing_is_wrong_but_that_it_is_unfinished(garden: Path) -> None:
    result = run(garden, "Peas are up", "--date", "2026-05-12")
    path = garden / "content/2026/log/2026-05-12-peas-are-up.md"
    assert (result.exit_code, result.output) == (0, f"{path} is ready to be written.\n")
    assert codes(garden) == ["unfinished"]
    built = build(garden)
    assert built.today == date(2026, 5, 10), "an empty draft moved the site's day"


@pytest.mark.parametrize(
    ("title", "name"),
    [
        ("Łąka", "laka"),
        ("Rødbeder på række", "rodbeder-pa-raekke"),
        ("Straße", "strasse"),
        ("Þistill", "thistill"),
    ],
)
def test_letters_of_other_languages_are_spelt_in_the_file_name(garden: Path, title: str, name: str) -> None:
    assert run(garden, title, "--date", "2026-05-12").exit_code == 0
    assert (garden / f"content/2026/log/2026-05-12-{name}.md").exists()
    assert codes(garden) == ["unfinished"]


def test_the_day_is_the_clocks_where_none_is_said(garden: Path) -> None:
    year = date.today().year  # noqa: DTZ011 - the command asks the clock too
    (garden / "content" / str(year)).mkdir(exist_ok=True)
    text = (garden / "content/garden.yaml").read_text(encoding="utf-8")
    text = re.sub(r"^season:.*$", "season: {start: Jan 1, end: Dec 31}", text, flags=re.MULTILINE)
    (garden / "content/garden.yaml").write_text(text, encoding="utf-8")
    assert run(garden, "Now").exit_code == 0
    found = [path.name for path in garden.glob("content/*/log/*-now.md")]
    assert len(found) == 1
    assert abs((date.fromisoformat(found[0][:10]) - date.today()).days) <= 1  # noqa: DTZ011


def test_photographs_of_the_day_come_along_and_ask_for_their_words(garden: Path, tmp_path: Path) -> None:
    camera = tmp_path / "camera"
    camera.mkdir()
    photograph(camera / "P1.JPG", taken("2026:05:12 08:00:00"), "red")
    photograph(camera / "P2.JPG", taken("2026:05:13 08:00:00"), "blue")
    photograph(camera / "P3.JPG")
    for name in ("P4.HEIC", "P5.HEIC"):
        (camera / name).write_bytes(b"no form that is read")
    result = run(garden, "Peas", "--date", "2026-05-12", "--photos", camera)
    assert "Photographs of 12 May 2026: p1.jpg." in result.output
    assert "do not say their day: P3.JPG." in result.output
    assert (
        "Not looked at: P4.HEIC, and 1 more like it; to show one of them, save it as JPEG." in result.output
    )
    photos = garden / "content/2026/photos"
    assert [path.name for path in photos.iterdir()] == ["p1.jpg"]
    assert (photos / "p1.jpg").read_bytes() == (camera / "P1.JPG").read_bytes()
    assert codes(garden) == ["unfinished", "empty-value"]
    assert build(garden).good, "a draft keeps the site from being built"
    path = garden / "content/2026/log/2026-05-12-peas.md"
    path.write_text(path.read_text(encoding="utf-8").replace("unfinished: yes", "unfinished: no"))
    assert not build(garden).good, "a photograph without words would be published"


def test_an_entry_that_is_there_is_never_touched(garden: Path, tmp_path: Path) -> None:
    camera = tmp_path / "camera"
    camera.mkdir()
    photograph(camera / "P1.JPG", taken("2026:04:05 08:00:00"))
    before = {path: path.read_bytes() for path in (garden / "content").rglob("*") if path.is_file()}
    for title in ("The first sowing", "the FIRST sowing!"):
        result = run(garden, title, "--date", "2026-04-05", "--photos", camera)
        assert result.exit_code == 2
        assert "2026-04-05-the-first-sowing.md" in result.stderr
    log = garden / "content/2026/log"
    (log / "2026-04-06-odd.md").symlink_to(tmp_path / "nowhere.md")
    assert run(garden, "Odd", "--date", "2026-04-06").exit_code == 2
    assert not (tmp_path / "nowhere.md").exists()
    assert {path: path.read_bytes() for path in (garden / "content").rglob("*") if path.is_file()} == before


def test_a_log_folder_that_leads_out_of_the_garden_is_refused(garden: Path, tmp_path: Path) -> None:
    log = garden / "content/2026/log"
    log.rename(tmp_path / "elsewhere")
    log.symlink_to(tmp_path / "elsewhere")
    result = run(garden, "Peas", "--date", "2026-05-12")
    assert result.exit_code == 2
    assert "leads out of the garden folder" in result.stderr
    assert len(list((tmp_path / "elsewhere").iterdir())) == 1


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (
            ["Peas", "--date", "2026-12-24"],
            "24 December 2026 is in no season of this garden: 2026 runs from",
        ),
        (["Peas", "--date", "2027-05-12"], "; to begin season 2027, make the folder content/2027"),
        (["Peas", "--date", "12 May"], "not a date"),
        (["", "--date", "2026-05-12"], "empty"),
        (["a\nb", "--date", "2026-05-12"], "several lines"),
        (["a\x1bb", "--date", "2026-05-12"], "cannot be seen"),
        (["x" * 201, "--date", "2026-05-12"], "200 characters"),
        (["Peas", "--date", "2026-05-12", "--photos", "nowhere"], "nowhere"),
    ],
    ids=["season", "season to begin", "date", "empty", "two lines", "unseen", "long", "folder"],
)
def test_what_cannot_be_an_entry_is_said(garden: Path, words: list[str], says: str) -> None:
    before = sorted((garden / "content").rglob("*"))
    result = run(garden, *words)
    assert result.exit_code == 2, result.output
    assert says in result.stderr
    assert "Traceback" not in result.output
    assert sorted((garden / "content").rglob("*")) == before


@pytest.mark.skipif(os.name == "nt", reason="a shell script is the editor")
class TestEditor:
    def test_it_is_opened_on_the_file_and_what_is_wrong_then_is_said(
        self, garden: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setenv("EDITOR", editor(tmp_path, 'sed -i "s/^#by: .*/bye: M./" "$2"'))
        result = run(garden, "Peas $(touch oops) `x`", "--date", "2026-05-12")
        assert result.exit_code == 1, result.output
        assert re.search(
            r"2026-05-12-peas-touch-oops-x\.md:5:1: error: .*“bye”.*\[unknown-key\]", result.stderr
        )
        assert not list(Path.cwd().glob("oops"))

    def test_visual_goes_before_editor(
        self, garden: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setenv("VISUAL", editor(tmp_path, 'echo "Seen." >> "$2"'))
        monkeypatch.setenv("EDITOR", "false")
        assert run(garden, "Peas", "--date", "2026-05-12").exit_code == 0
        text = (garden / "content/2026/log/2026-05-12-peas.md").read_text(encoding="utf-8")
        assert text.endswith("Seen.\n")

    def test_without_one_or_with_no_editor_the_file_is_left_alone(
        self, garden: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        assert run(garden, "Peas", "--date", "2026-05-12").exit_code == 0
        monkeypatch.setenv("EDITOR", editor(tmp_path, 'echo "Seen." >> "$2"'))
        assert run(garden, "Beans", "--date", "2026-05-12", "--no-editor").exit_code == 0
        assert "Seen." not in (garden / "content/2026/log/2026-05-12-beans.md").read_text(encoding="utf-8")

    @pytest.mark.parametrize("command", ["false", "/no/such/editor"])
    def test_one_that_fails_is_said_and_the_entry_is_there(
        self, garden: Path, monkeypatch: pytest.MonkeyPatch, command: str
    ) -> None:
        monkeypatch.setenv("EDITOR", command)
        result = run(garden, "Peas", "--date", "2026-05-12")
        assert result.exit_code == 3
        assert "open" in result.stderr
        assert (garden / "content/2026/log/2026-05-12-peas.md").is_file()


def test_content_with_errors_elsewhere_hinders_no_writing(garden: Path) -> None:
    with (garden / "content/2026/plan.yaml").open("a", encoding="utf-8") as file:
        file.write("- {crop: carrrot, squares: A1, sow: Apr 5}\n")
    assert run(garden, "Peas", "--date", "2026-05-12").exit_code == 0
    (garden / "content/garden.yaml").write_text("name: [\n")
    result = run(garden, "Beans", "--date", "2026-05-12")
    assert result.exit_code == 1
    assert "content/garden.yaml:" in result.stderr


def test_findings_of_one_file_are_told_alone(garden: Path) -> None:
    with (garden / "content/2026/plan.yaml").open("a", encoding="utf-8") as file:
        file.write("- {crop: carrrot, squares: A1, sow: Apr 5}\n")
    found = findings_in(garden, garden / "content/2026/plan.yaml")
    assert len(found) == 1
    assert "carrrot" in worded(found[0])
    assert findings_in(garden, garden / "content/garden.yaml") == ()
