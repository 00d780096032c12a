"""The record of what was taken from which file, as text."""

from __future__ import annotations

import yaml
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.invisible import UNSEEN
from tallybed.garden.records.pickings import SheetRow
from tallybed.reading.base.problems import Problems
from tallybed.reading.spreadsheet.dates import DateOrder
from tallybed.reading.spreadsheet.record import taken_files
from tallybed.reading.spreadsheet.rows import KEPT
from tallybed.writing import take_in_record

_TEXT = st.text(st.characters(exclude_categories=["Cs"])).filter(lambda text: not UNSEEN.search(text))
"""As of cells that are taken: one with a character that nobody sees is told, and its row left out."""
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
    files = [("a: b.csv", order, rows), ("c #4.xlsx", "", [])]
    text = take_in_record.record_text(files)
    assert take_in_record.record_text(files, text) == text, "a cell was taken for a comment"
    problems = Problems()
    found = taken_files(text, "taken-in.yaml", problems)
    assert problems.all() == ()
    assert list(found) == ["a: b.csv", "c #4.xlsx"]
    assert list(found["a: b.csv"].rows) == rows
    assert (found["a: b.csv"].order or "") == order
    assert found["c #4.xlsx"].rows == ()
    assert yaml.safe_load(text)[1] == {"from": "c #4.xlsx", "rows": []}


def test_comments_stay_where_they_were_written() -> None:
    """Fails where a comment at a line's end is lost, moves to another row, or is torn out of a text."""
    one = SheetRow(number=2, cells=(("crop", "kale"), ("note", "row # 3")))
    two = SheetRow(number=3, cells=(("crop", "leek"),))
    written = take_in_record.record_text([("a.csv", "", [one, two]), ("b #1.csv", "month-first", [])])
    lines = written.splitlines()
    assert lines[-5:] == [
        '    - {row: 2, crop: kale, note: "row # 3"}',
        "    - {row: 3, crop: leek}",
        '- from: "b #1.csv"',
        "  dates: month-first",
        "  rows: []",
    ]
    told = ["# Ann's file", "# its rows", "# wet, # dry", "# two", "#", "# American", "# none"]
    ends = [f"{line}  {comment}" for line, comment in zip(lines[-7:], told, strict=True)]
    before = "\n".join([*lines[:-7], "# Above.", *ends[:4], "    # Between.", *ends[4:]]) + "\n"
    corrected = SheetRow(number=2, cells=(("crop", "chard"),))
    more = SheetRow(number=9, cells=(("crop", "beet"),))
    after = take_in_record.record_text(
        [("a.csv", "", [corrected, two, more]), ("b #1.csv", "month-first", [])], before
    )
    assert after.splitlines() == [
        *lines[:-7],
        "# Above.",
        "# Between.",
        *ends[:2],
        "    - {row: 2, crop: chard}  # wet, # dry",
        ends[3],
        "    - {row: 9, crop: beet}",
        *ends[4:],
    ]
    assert take_in_record.record_text([("b #1.csv", "month-first", [])], after).splitlines() == [
        *lines[:-7],
        *("# Above.", "# Between.", *told[:4]),
        *ends[4:],
    ]


def test_a_record_in_other_lines_keeps_its_comments() -> None:
    before = "# Mine.\n- from: a.csv  # file\n  rows:\n    - row: 2  # first\n      crop: kale  # second\n"
    before += "    - {row: 3,  # third\n       note: 'a\n        # b'}\n"
    after = take_in_record.record_text(
        [("a.csv", "", [SheetRow(number=2, cells=()), SheetRow(number=3, cells=())])], before
    )
    assert after.removeprefix(take_in_record.OPENING).splitlines() == [
        "# Mine.",
        "# second",
        "- from: a.csv  # file",
        "  rows:",
        "    - {row: 2}  # first",
        "    - {row: 3}  # third",
    ]
