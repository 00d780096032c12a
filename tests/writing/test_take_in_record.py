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
    text = take_in_record.record_text([("a: b.csv", order, rows), ("c.xlsx", "", [])])
    problems = Problems()
    found = taken_files(text, "taken-in.yaml", problems)
    assert problems.all() == ()
    assert list(found) == ["a: b.csv", "c.xlsx"]
    assert list(found["a: b.csv"].rows) == rows
    assert (found["a: b.csv"].order or "") == order
    assert found["c.xlsx"].rows == ()
    assert yaml.safe_load(text)[1] == {"from": "c.xlsx", "rows": []}
