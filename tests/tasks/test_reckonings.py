from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from tallybed.pictures.rooms import FOLDER
from tallybed.tasks.site import reckonings
from tallybed.tasks.site.reckonings import Reckonings

NO_TEXT = (
    "UPDATE kept SET text = x'ff', hash = 'a8100ae6aa1940d0b663bb31cd466142ebbdbd5187131b92d93818987832eb89'"
)
"""A byte that no text has, with its hash."""


class Work:
    """Something that takes long, and counts how often it was done."""

    def __init__(self, gives: str = "5.25 h “sun”\n") -> None:
        self.gives, self.done = gives, 0

    def __call__(self) -> str:
        self.done += 1
        return self.gives


def file_of(root: Path) -> Path:
    return root / FOLDER / "reckoned" / "kept.sqlite"


def spoilt(path: Path, statement: str) -> None:
    with closing(sqlite3.connect(path)) as file, file:
        file.execute(statement)


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
        lambda path: path.write_bytes(path.read_bytes()[:100]),
        lambda path: path.write_bytes(b"\xff" * 5000),
        lambda path: path.write_bytes(path.read_bytes().replace(b"5.25", b"9.25")),
        lambda path: spoilt(path, "UPDATE kept SET text = CAST(text || 'x' AS BLOB)"),
        lambda path: spoilt(path, "UPDATE kept SET text = 'words'"),
        lambda path: spoilt(path, NO_TEXT),
        lambda path: spoilt(path, "UPDATE kept SET hash = 7"),
    ],
)
def test_what_is_not_sound_is_reckoned_anew(tmp_path: Path, harm: Callable[[Path], object]):
    """Fails where a file that was cut off or changed comes into the site."""
    work = Work()
    Reckonings(tmp_path).kept("sun", work)
    harm(file_of(tmp_path))
    for _run in range(2):
        assert Reckonings(tmp_path).kept("sun", work) == work.gives
    assert work.done == 2, "it was worked out anew, and kept again"


def test_one_run_that_began_another_shares_no_file_with_it(tmp_path: Path):
    mine = Reckonings(tmp_path)
    assert mine.kept("sun", Work("1")) == "1"
    before, mine._opened_by = mine._opened, -1
    assert mine.kept("sun", Work("2")) == "1"
    assert mine._opened is not before


def test_who_cannot_write_because_another_does_works_it_out(tmp_path: Path):
    Reckonings(tmp_path).kept("sun", Work("1"))
    with closing(sqlite3.connect(file_of(tmp_path), isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        work = Work("2")
        assert Reckonings(tmp_path).kept("sun", work) == "2"
        other.execute("ROLLBACK")
    assert Reckonings(tmp_path).kept("sun", work) == "1"


def test_another_version_of_the_program_reckons_anew(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    work = Work()
    Reckonings(tmp_path).kept("sun", work)
    monkeypatch.setattr(reckonings, "of_program", lambda: "another")
    Reckonings(tmp_path).kept("sun", work)
    assert work.done == 2


def test_no_more_is_kept_than_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(reckonings, "_MOST_BYTES", 35)
    first = Reckonings(tmp_path)
    for number in range(5):
        first.kept(f"sun {number}", Work(f"{number}" * 10))
    again, last, old = Reckonings(tmp_path), Work("4"), Work("0")
    assert again.kept("sun 4", last) == "4" * 10, "the newest stay"
    assert again.kept("sun 0", old) == "0"
    with closing(sqlite3.connect(file_of(tmp_path))) as file:
        assert file.execute("SELECT count(*) FROM kept").fetchone() == (2,)


def test_nothing_is_written_through_a_link_or_where_it_cannot_be(tmp_path: Path):
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    garden = tmp_path / "garden"
    garden.mkdir()
    (garden / FOLDER).symlink_to(elsewhere)
    assert Reckonings(garden).kept("sun", Work("1")) == "1"
    (garden / FOLDER).unlink()
    file_of(garden).parent.mkdir(parents=True)
    file_of(garden).symlink_to(elsewhere / "kept.sqlite")
    assert Reckonings(garden).kept("sun", Work("1")) == "1"
    assert list(elsewhere.iterdir()) == []
    other = tmp_path / "other"
    other.mkdir()
    (other / FOLDER).write_text("a file\n")
    assert Reckonings(other).kept("sun", Work("2")) == "2"
