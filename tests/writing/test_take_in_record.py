"""What was taken from which file, written so that ledger and record never part."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.pickings import SheetRow
from tallybed.publishing.swap import disk
from tallybed.reading.base.problems import Problems
from tallybed.reading.spreadsheet.dates import DateOrder
from tallybed.reading.spreadsheet.record import taken_files
from tallybed.reading.spreadsheet.rows import KEPT
from tallybed.writing import take_in_record
from tallybed.writing.ledger import UnfitError

ROW = "{date: 2026-06-02, crop: kale, weight: 3 oz}"
OLD = f"- {ROW}\n"
WRITING = ("harvest.yaml", "taken-in.yaml")


@pytest.fixture
def content(tmp_path: Path) -> Path:
    (tmp_path / "2026").mkdir()
    (tmp_path / "2026/harvest.yaml").write_text(OLD, encoding="utf-8")
    (tmp_path / "2026/taken-in.yaml").write_text("old\n", encoding="utf-8")
    return tmp_path


def take(content: Path, rows: list[str]) -> None:
    take_in_record.write(content, "2026", *WRITING, rows, lambda _old, _new: None, "new\n")


def state(content: Path, row: str = ROW) -> tuple[int, str]:
    """How many rows the ledger has, and what the record says."""
    ledger = (content / "2026/harvest.yaml").read_text(encoding="utf-8")
    return ledger.count(row), (content / "2026/taken-in.yaml").read_text(encoding="utf-8").strip()


class Stopped(BaseException):
    """The machine stops."""


@pytest.mark.parametrize("rows", [1, 2])
@pytest.mark.parametrize("row", [ROW, ROW.replace("}", ', note: "a {half} bowl}"}')])
def test_a_machine_that_stops_at_any_step_leaves_both_or_neither_after_the_next_command(
    content: Path, rows: int, row: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The rows to add equal the one that stands there, so that presence alone says nothing."""
    met = set()
    for at in range(100):
        (content / "2026/harvest.yaml").write_text(f"- {row}\n", encoding="utf-8")
        (content / "2026/taken-in.yaml").write_text("old\n", encoding="utf-8")
        passed = 0

        def step(name: str, at: int = at) -> None:
            nonlocal passed
            if passed >= at:  # nothing whatever happens after a machine stopped, no clearing up either
                raise Stopped(name)
            passed += 1

        monkeypatch.setattr(disk, "step", step)
        monkeypatch.setattr(Path, "unlink", lambda self, **_more: step(f"unlink {self.name}"))
        try:
            take(content, [row] * rows)
        except Stopped:
            stopped = True
        else:
            stopped = False
        monkeypatch.undo()
        take_in_record.finish(content, "2026", *WRITING)
        met.add(state(content, row))
        assert state(content, row) in {(1, "old"), (1 + rows, "new")}, f"stopped at step {at}"
        take_in_record.finish(content, "2026", *WRITING)
        assert not (content / "2026" / take_in_record.PENDING).exists()
        if not stopped:
            break
    assert met == {(1, "old"), (1 + rows, "new")}
    assert at > 8, "hardly a step was met"


def test_rows_that_the_ledger_will_not_take_leave_no_trace(content: Path) -> None:
    def against(_old: bytes, _new: bytes) -> None:
        raise UnfitError("no")

    with pytest.raises(UnfitError):
        take_in_record.write(content, "2026", *WRITING, [ROW], against, "new\n")
    assert state(content) == (1, "old")
    assert sorted(path.name for path in (content / "2026").iterdir()) == sorted(WRITING)


def test_a_damaged_note_of_what_was_under_way_is_dropped(content: Path) -> None:
    (content / "2026" / take_in_record.PENDING).write_text("{half", encoding="utf-8")
    take_in_record.finish(content, "2026", *WRITING)
    assert state(content) == (1, "old")
    assert not (content / "2026" / take_in_record.PENDING).exists()


_TEXT = st.text(
    st.characters(exclude_categories=["Cs", "Cc", "Zl", "Zp"], exclude_characters="\ufeff\ufffe\uffff")
)
_CELL = _TEXT.map(lambda text: " ".join(text.split())).filter(bool)
_ROWS = st.lists(
    st.builds(
        lambda number, cells: SheetRow(
            number=number, cells=tuple((key, cells[key]) for key in KEPT if key in cells)
        ),
        st.integers(1, 20_000),
        st.dictionaries(st.sampled_from(KEPT), _CELL, max_size=4),
    ),
    max_size=4,
)


@given(_ROWS, st.sampled_from(["", *(order.value for order in DateOrder)]))
def test_the_record_reads_back_as_it_was_written(rows: list[SheetRow], order: str) -> None:
    text = take_in_record.record_text([("a: b.csv", order, rows), ("c.xlsx", "", [])])
    problems = Problems()
    found = taken_files(text, "taken-in.yaml", problems)
    assert problems.all() == ()
    assert list(found) == ["a: b.csv", "c.xlsx"]
    assert list(found["a: b.csv"].rows) == rows
    assert (found["a: b.csv"].order or "") == order
    assert found["c.xlsx"].rows == ()
    assert yaml.safe_load(text)[1] == {"from": "c.xlsx", "rows": []}
