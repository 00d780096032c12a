"""Rows added to ledgers: whole or not at all, whoever is killed, however many write; and taken back."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest

from tallybed.publishing.swap import disk
from tallybed.writing import atomic
from tallybed.writing.ledger import LOCK, MEMORY, UnfitError, append, take_back, turn
from tests.tools import ROOT
from tests.writing.test_ledger_insert import FORMS, NEW

LEDGER = "2026/harvest.yaml"
posix_alone = pytest.mark.skipif(sys.platform == "win32", reason="no fork and no SIGKILL there")


def agreed(_old: bytes, _new: bytes) -> None:
    """Have nothing against the new bytes."""


@pytest.fixture
def content(tmp_path: Path) -> Path:
    (tmp_path / "content" / "2026").mkdir(parents=True)
    return tmp_path / "content"


def killing(folder: Path, *words: str | int) -> object:
    done = subprocess.run(
        [sys.executable, "-m", "tests.writing.killing", str(folder), *map(str, words)],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


@posix_alone
@pytest.mark.parametrize(("what", "kills"), [("moments", 120), ("commands", 60)])
def test_kills_at_random_moments_lose_no_row_and_leave_no_half_one(
    tmp_path: Path, what: str, kills: int
) -> None:
    """Of the writing alone, where most of them meet it, and of the whole command."""
    record = killing(tmp_path / "garden", what, kills, 20260602)
    assert isinstance(record, dict)
    assert record["kills"] == kills
    assert record["rows"] > 0, "no process lived long enough to write"
    if what == "moments":  # a whole command seldom is at its writing
        assert record["midway"] > 0, "no kill met a process that was writing"


@posix_alone
def test_a_kill_at_any_step_leaves_the_old_rows_or_the_new_ones(tmp_path: Path) -> None:
    records = killing(tmp_path / "garden", "steps")
    assert isinstance(records, list)
    four = ["before write beside", "after write beside", "before replace", "after replace"]
    assert [record["step"] for record in records] == four * 3, "the note, the ledger, what can be taken back"
    for at, record in enumerate(records):
        written = [1, 2] if at >= 7 else [1]
        assert record["rows"] == written, record["step"]
        assert record["then"] == [*written, len(written) + 1], record["step"]


@posix_alone
def test_four_at_once_lose_nothing(tmp_path: Path) -> None:
    notes = killing(tmp_path / "garden", "four", 12)
    assert isinstance(notes, list)
    assert Counter(notes) == Counter(["", *(f"{who}-{row}" for who in range(4) for row in range(1, 13))])
    for who in range(4):
        own = [note for note in notes if note.startswith(f"{who}-")]
        assert own == [f"{who}-{row}" for row in range(1, 13)], "rows of one writer changed their order"


def test_who_waits_too_long_is_told_and_writes_nothing(content: Path) -> None:
    with (
        disk.alone(content / LOCK),
        pytest.raises(disk.BusyError, match="somebody else"),
        atomic.in_turn(content / LOCK, patience=0.05),
    ):
        pytest.fail("two had their turn at once")


def test_who_waits_is_told_soon_and_once_for_whom(content: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Else a terminal stands still for half a minute, and nobody knows why."""
    monkeypatch.setattr(atomic, "SOON", 0.0)
    told: list[str] = []
    token = atomic.ON_WAIT.set(told.append)
    try:
        with (
            disk.alone(content / LOCK),
            pytest.raises(disk.BusyError, match=rf"somebody else .* \(process {os.getpid()}\)"),
            atomic.in_turn(content / LOCK, patience=0.1),
        ):
            pytest.fail("two had their turn at once")
        with atomic.in_turn(content / LOCK):
            pass
    finally:
        atomic.ON_WAIT.reset(token)
    assert told == [
        f"somebody else is writing there just now (process {os.getpid()}); waiting for up to 0 seconds"
    ]


@pytest.mark.parametrize("form", FORMS)
def test_rows_taken_back_leave_the_bytes_that_were_there(content: Path, form: str) -> None:
    before = FORMS[form][0].encode()
    (content / LEDGER).write_bytes(before)
    append(content, LEDGER, [NEW, NEW.replace("kale", "leek")], agreed)
    longer = (content / LEDGER).read_bytes()
    append(content, LEDGER, [NEW], agreed)
    assert take_back(content) is not None
    assert (content / LEDGER).read_bytes() == longer
    taken = [take_back(content), take_back(content)]
    assert [one.row for one in taken if one] == [NEW.replace("kale", "leek"), NEW]
    assert (content / LEDGER).read_bytes() == before
    assert take_back(content) is None


def test_a_row_is_taken_back_after_something_above_it_was_changed(content: Path) -> None:
    (content / LEDGER).write_bytes(b"- {note: a}\n")
    append(content, LEDGER, [NEW], agreed)
    (content / LEDGER).write_bytes(b"# Mended.\n" + (content / LEDGER).read_bytes())
    take_back(content)
    assert (content / LEDGER).read_bytes() == b"# Mended.\n- {note: a}\n"


@pytest.mark.parametrize("more", [b"\n", b"# a word\n", b"- {note: b}\n"])
def test_a_row_that_is_no_longer_the_end_stays(content: Path, more: bytes) -> None:
    append(content, LEDGER, [NEW], agreed)
    longer = (content / LEDGER).read_bytes() + more
    (content / LEDGER).write_bytes(longer)
    with pytest.raises(UnfitError, match=r"no longer ends with .* delete by hand what does not belong there"):
        take_back(content)
    assert (content / LEDGER).read_bytes() == longer


def test_a_ledger_that_a_row_began_is_gone_with_the_row(content: Path) -> None:
    append(content, LEDGER, [NEW], agreed)
    assert (content / LEDGER).read_text(encoding="utf-8") == f"- {NEW}\n"
    take_back(content)
    assert not (content / LEDGER).exists()


def test_a_damaged_note_of_what_was_added_hinders_nothing(content: Path) -> None:
    (content / MEMORY).write_text("{half", encoding="utf-8")
    assert take_back(content) is None
    append(content, LEDGER, [NEW], agreed)
    assert take_back(content) is not None


def test_bytes_that_do_not_read_as_meant_never_take_the_old_ones_place(content: Path) -> None:
    (content / LEDGER).write_bytes(b"- {note: a}\n")

    def against(old: bytes, new: bytes) -> None:
        assert old == b"- {note: a}\n"
        assert new == f"- {{note: a}}\n- {NEW}\n".encode()
        raise UnfitError("no")

    with pytest.raises(UnfitError):
        append(content, LEDGER, [NEW], against)
    assert (content / LEDGER).read_bytes() == b"- {note: a}\n"
    assert sorted(path.name for path in content.rglob("*")) == ["2026", "harvest.yaml"]


def test_a_disk_that_gives_back_other_bytes_is_told(content: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (content / LEDGER).write_bytes(b"- {note: a}\n")
    monkeypatch.setattr(Path, "read_bytes", lambda self: b"- {no" if "tallybed-new" in self.name else b"")
    with pytest.raises(OSError, match="other bytes"):
        atomic.write_over(content / LEDGER, b"- {note: b}\n")
    monkeypatch.undo()
    assert (content / LEDGER).read_bytes() == b"- {note: a}\n"


@posix_alone
def test_a_link_stays_a_link_and_modes_stay(content: Path, tmp_path: Path) -> None:
    real = tmp_path / "real.yaml"
    real.write_bytes(b"- {note: a}\n")
    real.chmod(0o640)
    (content / LEDGER).symlink_to(real)
    append(content, LEDGER, [NEW], agreed)
    assert (content / LEDGER).is_symlink()
    assert real.read_bytes() == f"- {{note: a}}\n- {NEW}\n".encode()
    assert os.stat(real).st_mode & 0o777 == 0o640  # noqa: PTH116 - the link's target


def test_a_ledger_marked_as_read_only_stays_as_it_is(content: Path) -> None:
    (content / LEDGER).write_bytes(b"- {note: a}\n")
    (content / LEDGER).chmod(0o444)
    with pytest.raises(PermissionError, match=f"read-only; content/{LEDGER} stands as it was"):
        append(content, LEDGER, [NEW], agreed)
    assert (content / LEDGER).read_bytes() == b"- {note: a}\n"
    assert sorted(path.name for path in content.rglob("*")) == ["2026", "harvest.yaml"]


def test_nothing_is_left_beside_the_ledger_but_the_note_for_taking_back(content: Path) -> None:
    with turn(content):
        append(content, LEDGER, [NEW], agreed)
    assert sorted(path.name for path in content.rglob("*")) == [MEMORY, "2026", "harvest.yaml"]
