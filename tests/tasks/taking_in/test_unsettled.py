"""What is said of a sheet before its rows: what in it was left out, or lay beside the table."""

from __future__ import annotations

import pytest

from tallybed.reading.spreadsheet.columns import Columns
from tallybed.reading.spreadsheet.shaping import HeadedSheet
from tallybed.tasks.taking_in.unsettled import SHOWN_BESIDE, about_sheet

EIGHT = tuple(f"“{number}” in H{number}" for number in range(1, SHOWN_BESIDE + 1))


@pytest.mark.parametrize(
    ("left_out", "beside", "others", "told"),
    [
        ((), (), (), ()),
        (((4, "a sum"),), (), (), ("Left out as a sum: row 4.",)),
        (
            ((4, "a sum"), (7, "a heading"), (9, "a sum")),
            (),
            (),
            ("Left out as a sum: rows 4, 9.", "Left out as a heading: row 7."),
        ),
        ((), EIGHT[:1], (), ("Beside the table, not taken: “1” in H1.",)),
        ((), EIGHT, (), (f"Beside the table, not taken: {', '.join(EIGHT)}.",)),
        (
            (),
            (*EIGHT, "“9” in H9"),
            (),
            (f"Beside the table, not taken: {', '.join(EIGHT)} and 1 more.",),
        ),
        ((), (), ("Notes",), ("Left alone: the sheet Notes.",)),
        ((), (), ("Notes", "Old"), ("Left alone: the sheets Notes, Old.",)),
    ],
)
def test_nothing_of_a_sheet_is_left_without_a_word(
    left_out: tuple[tuple[int, str], ...],
    beside: tuple[str, ...],
    others: tuple[str, ...],
    told: tuple[str, ...],
) -> None:
    sheet = HeadedSheet(columns=Columns(headings=(), names=()), rows=(), left_out=left_out, beside=beside)
    assert about_sheet(sheet, others, None, ()) == told
