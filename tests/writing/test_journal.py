"""Stopped at any step, by the machine or for want of room, ledger and notes agree after the next command."""

from __future__ import annotations

import errno
from collections.abc import Callable
from pathlib import Path

import pytest

from tallybed.publishing.swap import disk
from tallybed.writing.journal import NOTE, StandsError
from tallybed.writing.ledger import (
    MEMORY,
    UnfitError,
    append,
    append_with_record,
    recover,
    remembered,
    take_back,
    turn,
)

LEDGER, RECORD = "2026/harvest.yaml", "2026/taken-in.yaml"
ROW = "{date: 2026-06-02, crop: kale, weight: 3 oz}"
UNLINK, WRITE_BYTES = Path.unlink, Path.write_bytes
OLD = f"- {ROW}\n"
"""The rows to add equal the one that stands there, so that presence alone says nothing."""


class Stopped(BaseException):
    """The machine stops."""


def agreed(_old: bytes, _new: bytes) -> None:
    """Have nothing against the new bytes."""


def add(content: Path) -> None:
    append(content, LEDGER, [ROW], agreed)


def take_in(content: Path) -> None:
    append_with_record(content, LEDGER, [ROW, ROW], agreed, RECORD, "new\n", "2 rows of a.csv")


def undo(content: Path) -> None:
    take_back(content)


def nothing(_content: Path) -> None:
    """Begin with nothing that could be taken back."""


def begin(content: Path) -> None:
    """Begin without a ledger."""
    (content / LEDGER).unlink()


def fresh(content: Path, before: Callable[[Path], None]) -> None:
    for path in sorted(content.rglob("*"), reverse=True):
        path.unlink() if path.is_file() else path.rmdir()
    (content / "2026").mkdir(parents=True, exist_ok=True)
    (content / LEDGER).write_text(OLD, encoding="utf-8")
    (content / RECORD).write_text("old\n", encoding="utf-8")
    before(content)


def state(content: Path) -> tuple[int, str, str]:
    """Rows of the ledger, what the record says, and what would be taken back."""
    last, ledger = remembered(content), content / LEDGER
    return (
        ledger.read_text(encoding="utf-8").count(ROW) if ledger.exists() else 0,
        (content / RECORD).read_text(encoding="utf-8").strip(),
        last.row if last else "",
    )


CASES = {
    "a row": (nothing, add, (1, "old", ""), (2, "old", ROW)),
    "the first row of a season": (begin, add, (0, "old", ""), (1, "old", ROW)),
    "a row after another": (add, add, (2, "old", ROW), (3, "old", ROW)),
    "a spreadsheet": (nothing, take_in, (1, "old", ""), (3, "new", "2 rows of a.csv")),
    "a row taken back": (add, undo, (2, "old", ROW), (1, "old", "")),
    "a spreadsheet taken back": (take_in, undo, (3, "new", "2 rows of a.csv"), (1, "old", "")),
}


@pytest.mark.parametrize("by_hand", ["", "# written after the stop\n", "# more than a row\n" * 20])
@pytest.mark.parametrize("case", CASES)
def test_stopped_at_any_step_both_or_neither_are_written_and_that_is_said(
    case: str, by_hand: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before, work, old, new = CASES[case]
    met = set()
    for at in range(100):
        fresh(tmp_path, before)
        passed = 0

        def step(name: str, at: int = at) -> None:
            nonlocal passed
            if passed >= at:  # nothing whatever happens after a machine stopped, no clearing up either
                raise Stopped(name)
            passed += 1

        def step_and_unlink(self: Path, *, missing_ok: bool = False) -> None:
            step(f"unlink {self.name}")
            UNLINK(self, missing_ok=missing_ok)

        monkeypatch.setattr(disk, "step", step)
        monkeypatch.setattr(Path, "unlink", step_and_unlink)
        stopped = False
        try:
            work(tmp_path)
        except Stopped:
            stopped = True
        monkeypatch.undo()
        with (tmp_path / LEDGER).open("a", encoding="utf-8") as ledger:
            ledger.write(by_hand)
        words = recover(tmp_path)
        assert state(tmp_path) in (old, new), f"stopped at step {at}"
        if words:
            assert ("after it wrote" in words) == (state(tmp_path) == new), words
        assert recover(tmp_path) == "", "it is told once"
        left = {path.name for path in tmp_path.rglob("*")} - {"2026", "harvest.yaml", "taken-in.yaml", MEMORY}
        assert left == set(), "something is left for ever"
        met.add(state(tmp_path))
        if not stopped:
            break
    assert met == {old, new}
    assert at > 8, "hardly a step was met"


@pytest.mark.parametrize("case", CASES)
def test_a_full_disk_leaves_the_ledger_or_says_that_its_rows_stand(
    case: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before, work, old, new = CASES[case]
    for at in range(10):
        fresh(tmp_path, before)
        written = 0

        def full(self: Path, data: bytes, at: int = at) -> int:
            nonlocal written
            written += 1
            if written > at:
                raise OSError(errno.ENOSPC, "No space left on device", str(self))
            return WRITE_BYTES(self, data)

        monkeypatch.setattr(Path, "write_bytes", full)
        try:
            work(tmp_path)
        except OSError as error:
            stands, words, named = isinstance(error, StandsError), str(error), error.filename
        else:
            break
        finally:
            monkeypatch.undo()
        assert "No space left" in words
        assert named, "the file is named"
        if stands:
            assert "the next command writes what lacks" in words
        else:
            assert f"content/{LEDGER} stands as it was" in words
        with turn(tmp_path):
            pass
        assert state(tmp_path) == (new if stands else old), at
    assert at > 1, "the disk was never full"


@pytest.mark.parametrize("case", CASES)
def test_a_key_pressed_once_the_ledger_is_written_loses_nothing_that_goes_with_it(
    case: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before, work, old, new = CASES[case]
    met = set()
    for at in range(100):
        fresh(tmp_path, before)
        passed = 0

        def step(name: str, at: int = at) -> None:
            nonlocal passed
            passed += 1
            if passed == at + 1:
                raise KeyboardInterrupt(name)

        monkeypatch.setattr(disk, "step", step)
        try:
            work(tmp_path)
        except KeyboardInterrupt:
            stopped = True
        else:
            stopped = False
        monkeypatch.undo()
        recover(tmp_path)
        assert state(tmp_path) in (old, new), f"stopped at step {at}"
        met.add(state(tmp_path))
        if not stopped:
            break
    assert met == {old, new}


def test_a_damaged_note_of_what_was_under_way_is_dropped(tmp_path: Path) -> None:
    fresh(tmp_path, nothing)
    (tmp_path / NOTE).write_text("{half", encoding="utf-8")
    assert recover(tmp_path) == ""
    assert not (tmp_path / NOTE).exists()


def test_a_spreadsheet_whose_record_was_changed_since_is_not_taken_back(tmp_path: Path) -> None:
    fresh(tmp_path, take_in)
    (tmp_path / RECORD).write_text("changed\n", encoding="utf-8")
    with pytest.raises(UnfitError, match="no longer as it was after 2 rows"):
        take_back(tmp_path)
    assert state(tmp_path)[0] == 3
