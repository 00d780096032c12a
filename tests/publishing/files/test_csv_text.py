"""Comma-separated values: as RFC 4180 has them, and nothing in them that a spreadsheet would run."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.pages.frame.page import DataFile
from tallybed.publishing.files.csv_text import WHY, csv_text, skipped_rows, written


def file(*rows: tuple[str | int, ...]) -> DataFile:
    return DataFile(path="x.csv", heads=("name", "number"), rows=rows)


def test_lines_end_in_cr_and_lf_and_awkward_texts_are_quoted() -> None:
    text = written(file(("leek, ‘The Stacks’", 27), ('say "when"', 1))).decode("utf-8")
    assert text == 'name,number\r\n"leek, ‘The Stacks’",27\r\n"say ""when""",1\r\n'


RUN = [
    *("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", " =1+1", "  @x", " \t-1", "\u00a0=1"),
    *(" \tkale", "\rkale", "＝1", " ＋1", "－1", "＠x", "'", "'tis", " '=1"),
]
"""Cells that begin with a sign of OWASP's page "CSV Injection", bare, full-width (from memory), after spaces
of any kind, and cells that begin with the sign that makes them words."""


@pytest.mark.parametrize("typed", RUN)
def test_a_text_that_a_spreadsheet_would_run_or_that_has_its_sign_gets_one_more(typed: str) -> None:
    ((shown, _number),) = list(csv.reader(io.StringIO(csv_text(file((typed, 1))), newline="")))[1:]
    assert shown == f"'{typed}"
    back = csv.reader(io.StringIO(skipped_rows([typed], [([typed], typed)]).decode("utf-8-sig"), newline=""))
    assert list(back) == [[shown, WHY], [shown, shown]], "one guard for both kinds of file"


def test_skipped_rows_keep_their_cells_and_lose_old_reasons() -> None:
    names = ["Date", "Crop", "Why it was skipped"]
    data = skipped_rows(names, [(["=1+1", "été", "old"], "no date"), ([], "")])
    assert data.decode("utf-8-sig") == "Date,Crop,why it was skipped\r\n'=1+1,été,no date\r\n,,\r\n"


@pytest.mark.parametrize("cell", ["carrot", "", " ", " carrot", "3-4", "a=b", "two\nlines", "1", 5, -5])
def test_other_cells_stay_as_they_are(cell: str | int) -> None:
    ((shown, _number),) = list(csv.reader(io.StringIO(csv_text(file((cell, 1))), newline="")))[1:]
    assert shown == str(cell)


_TEXT = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\0"))


@given(st.lists(st.tuples(_TEXT, st.integers(0, 10**6)), max_size=5))
def test_what_is_written_reads_back_row_for_row(rows: list[tuple[str, int]]) -> None:
    back = list(csv.reader(io.StringIO(written(file(*rows)).decode("utf-8"), newline="")))
    assert back[0] == ["name", "number"]
    assert [row[0].removeprefix("'") for row in back[1:]] == [text for text, _number in rows]
    assert [row[1] for row in back[1:]] == [str(number) for _text, number in rows]
    assert not any(row[0].lstrip(" ").startswith(("=", "+", "-", "@", "\t", "\r", "\n")) for row in back[1:])
