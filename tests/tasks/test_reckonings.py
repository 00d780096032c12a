from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.pictures.rooms import FOLDER
from tallybed.tasks.site import reckonings
from tallybed.tasks.site.reckonings import Reckonings


class Work:
    """Something that takes long, and counts how often it was done."""

    def __init__(self, gives: str = "5.25 h “sun”\n") -> None:
        self.gives, self.done = gives, 0

    def __call__(self) -> str:
        self.done += 1
        return self.gives


def files(root: Path) -> list[Path]:
    return sorted((root / FOLDER / "reckoned").iterdir())


def test_what_was_reckoned_once_is_known_to_the_next_run(tmp_path: Path):
    work = Work()
    for _run in range(3):
        assert Reckonings(tmp_path).kept("sun of a bed", work) == work.gives
    assert work.done == 1
    assert Reckonings(tmp_path).kept("sun of another bed", Work("other")) == "other"


@pytest.mark.parametrize(
    "harm",
    [
        lambda path: path.write_bytes(b""),
        lambda path: path.write_bytes(path.read_bytes().replace(b"5.25", b"9.25")),
        lambda path: path.write_bytes(path.read_bytes()[:-2]),
        lambda path: path.write_bytes(b"\xff" * 100),
        lambda path: (path.rename(path.with_name("x")), path.symlink_to("x")),
    ],
)
def test_what_is_not_sound_is_reckoned_anew(tmp_path: Path, harm):
    """Fails where a file that was cut off or changed comes into the site."""
    work = Work()
    Reckonings(tmp_path).kept("sun", work)
    harm(files(tmp_path)[0])
    assert Reckonings(tmp_path).kept("sun", work) == work.gives
    assert work.done == 2


def test_another_version_of_the_program_reckons_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    work = Work()
    Reckonings(tmp_path).kept("sun", work)
    monkeypatch.setattr(reckonings, "of_program", lambda: "another")
    Reckonings(tmp_path).kept("sun", work)
    assert work.done == 2


def test_no_more_is_kept_than_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(reckonings, "_MOST_FILES", 3)
    for number in range(6):
        Reckonings(tmp_path).kept(f"sun {number}", Work(str(number)))
    assert len(files(tmp_path)) == 3 + 1, "what runs before left, and what this one made"
    last = Work()
    assert Reckonings(tmp_path).kept("sun 5", last) == "5"


def test_nothing_is_written_through_a_link_or_where_it_cannot_be(tmp_path: Path):
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    garden = tmp_path / "garden"
    garden.mkdir()
    (garden / FOLDER).symlink_to(elsewhere)
    assert Reckonings(garden).kept("sun", Work("1")) == "1"
    assert list(elsewhere.iterdir()) == []
    other = tmp_path / "other"
    other.mkdir()
    (other / FOLDER).write_text("a file\n")
    assert Reckonings(other).kept("sun", Work("2")) == "2"
