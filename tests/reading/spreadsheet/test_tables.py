"""Spreadsheet files of many kinds as the same cells; damaged and hostile ones as a sentence."""

from __future__ import annotations

import io
import random
import re
import zipfile
from collections.abc import Callable, Sequence
from datetime import date, datetime
from typing import Any

import openpyxl
import pytest

from tallybed.reading.spreadsheet import cells as module
from tallybed.reading.spreadsheet import workbooks
from tallybed.reading.spreadsheet.cells import SheetCell, TableError
from tallybed.reading.spreadsheet.columns import recognised
from tallybed.reading.spreadsheet.tables import tables

ROWS = [
    ["Date", "Crop", "Weight"],
    ["2026-04-12", "radish, red", "3 oz"],
    ["", "", ""],
    ["Apr 13", "été", "1"],
]
CELLS = [(number, tuple(row)) for number, row in enumerate(ROWS, start=1) if any(row)]


def likely(cells: Sequence[str]) -> int:
    return recognised(cells, {})


def text_rows(data: bytes) -> list[tuple[int, tuple[str, ...]]]:
    (table,) = tables("a.csv", data, likely)
    return [(number, tuple(cell.text for cell in cells)) for number, cells in table.rows]


def separated(sign: str, end: str = "\n") -> str:
    return end.join(sign.join(f'"{cell}"' if sign in cell else cell for cell in row) for row in ROWS) + end


@pytest.mark.parametrize("sign", [",", ";", "\t", "|"], ids=["comma", "semicolon", "tab", "bar"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"], ids=["unix", "windows", "mac"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_text_files_of_any_kind_hold_the_same_cells(sign: str, end: str, encoding: str) -> None:
    assert text_rows(separated(sign, end).encode(encoding)) == CELLS


def test_a_line_that_names_the_separator_is_passed_over_and_counted() -> None:
    found = text_rows(("sep=;\n" + separated(";")).encode())
    assert found == [(number + 1, row) for number, row in CELLS]


def test_quoted_cells_keep_their_lines_and_quotes() -> None:
    assert text_rows(b'Date,Crop,Note\n1,2,"a\nb ""c"""\n')[1] == (2, ("1", "2", 'a\nb "c"'))


def test_an_apostrophe_that_makes_a_formula_words_is_taken_off() -> None:
    assert text_rows(b"Date,Crop\n'=1+1,'x\n")[1] == (2, ("=1+1", "'x"))


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b'Date,Crop\n"a"b,1\n', "line 2 of a.csv has a quotation mark that fits nowhere"),
        (b'Date,Crop\n"open,1\n', "line 2 of a.csv has a quotation mark that is not closed"),
        (
            b'Date,Crop\n"open,1\n' + b"a,1\n" * 50_000,
            "line 2 of a.csv has a quotation mark that is not closed",
        ),
        (b"\xff\xfeD\x00a", "UTF-8"),
        (b"Date\x00Crop", "neither a text file"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1", "old kind"),
        (b"PK\x03\x04 nothing", "damaged"),
        (b"a\n" * (module.MOST_ROWS + 1), "more than 30,000 rows"),
        (b"x," * module.MOST_COLUMNS + b"x", "more than 100 columns"),
        (b"x" * (module.LONGEST_CELL + 1), "more than 5,000 characters"),
        (b"x" * (module.LARGEST + 1), "more than 20,000,000 bytes"),
    ],
    ids=lambda value: value if isinstance(value, str) else "data",
)
def test_what_is_no_spreadsheet_is_said(data: bytes, said: str) -> None:
    with pytest.raises(TableError, match=re.escape(said)):
        tables("a.csv", data, likely)


NOISE = bytes(one for one in random.Random(5).randbytes(3000) if one)


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("harvest.xlsx", NOISE, "harvest.xlsx is not a workbook"),
        ("harvest.XLSX", b"\x00\xff" + NOISE, "is not a workbook"),
        ("harvest.ods", NOISE, "is not a workbook"),
        ("harvest.csv", b"\x00\xff" + NOISE, "neither a text file nor an .xlsx workbook"),
        # First bytes by ISO 32000, the PNG specification (ISO/IEC 15948) and RFC 1952.
        ("harvest.xlsx", b"%PDF-1.7\n%\xe2\xe3", "is a PDF document, not a spreadsheet"),
        ("harvest.csv", b"\x89PNG\r\n\x1a\n", "is a picture, not a spreadsheet"),
        ("harvest.csv", b"\x1f\x8b\x08\x00", "is a compressed file"),
        ("harvest.xls", b"\n<HTML><table><tr><td>Date", "is a web page"),
    ],
)
def test_a_file_that_is_not_what_its_name_says_is_told_what_it_is(name: str, data: bytes, said: str) -> None:
    with pytest.raises(TableError, match=re.escape(said)) as told:
        tables(name, data, likely)
    assert "save the table as .xlsx or .csv" in str(told.value), "and how to mend it"


@pytest.mark.parametrize("name", ["harvest.xlsx", "harvest.xls"])
@pytest.mark.parametrize("encoding", ["utf-8", "cp1252"])
def test_text_that_calls_itself_a_workbook_is_read_all_the_same(name: str, encoding: str) -> None:
    """As some programs write their tables."""
    (table,) = tables(name, separated("\t").encode(encoding), likely)
    assert [(number, tuple(cell.text for cell in cells)) for number, cells in table.rows] == CELLS


def workbook(fill: Callable[[Any], None]) -> bytes:
    book = openpyxl.Workbook()
    fill(book)
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def sheet_of(rows: Sequence[Sequence[object]]) -> bytes:
    def fill(book: Any) -> None:
        for row in rows:
            book.active.append(list(row))

    return workbook(fill)


def test_a_workbook_gives_dates_numbers_and_texts_as_they_are_shown() -> None:
    row = [
        date(2026, 4, 12),
        datetime(2026, 4, 13, 9, 30),  # noqa: DTZ001 - workbooks know no zone
        1.1,
        0.1 + 0.2,
        12.0,
        16,
        True,
        " kale ",
        None,
        1e-7,
    ]
    (table,) = tables("a.xlsx", sheet_of([row]), likely)
    assert table.rows == (
        (
            1,
            (
                SheetCell("2026-04-12", date(2026, 4, 12)),
                SheetCell("2026-04-13", date(2026, 4, 13)),
                *(SheetCell(text) for text in ("1.1", "0.3", "12", "16", "yes", "kale", "", "0.0000001")),
            ),
        ),
    )


def test_hidden_and_empty_sheets_are_left_out() -> None:
    def fill(book: Any) -> None:
        book.active.title = "Harvest"
        book.active.append(["Date"])
        book.create_sheet("Empty")
        hidden = book.create_sheet("Hidden")
        hidden.append(["Date"])
        hidden.sheet_state = "hidden"

    assert [table.name for table in tables("a.xlsx", workbook(fill), likely)] == ["Harvest"]


def changed(data: bytes, part: str, change: Callable[[str], str]) -> bytes:
    """A workbook with one of its parts written otherwise."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            text = old.read(name)
            new.writestr(name, change(text.decode()) if name == part else text)
    return out.getvalue()


SHEET = "xl/worksheets/sheet1.xml"


def test_a_formula_gives_the_result_the_file_keeps_and_is_marked_where_it_keeps_none() -> None:
    data = sheet_of([["Date", "Crop", "Weight"], ["2026-04-12", "kale", "=1+2"]])
    (table,) = tables("a.xlsx", data, likely)
    assert table.rows[1][1][2] == SheetCell(unknown=True), "a formula was run, or lost"
    kept = changed(data, SHEET, lambda text: text.replace("<f>1+2</f><v />", "<f>1+2</f><v>3</v>"))
    kept = changed(kept, SHEET, lambda text: text.replace("<f>1+2</f><v></v>", "<f>1+2</f><v>3</v>"))
    (table,) = tables("a.xlsx", kept, likely)
    assert table.rows[1][1][2] == SheetCell("3")


def test_a_sheet_that_understates_its_size_is_read_whole() -> None:
    data = sheet_of([["Date", "Crop"], ["a", "b"], ["c", "d"]])
    wrong = changed(data, SHEET, lambda text: re.sub(r'<dimension ref="[^"]*"', '<dimension ref="A1"', text))
    assert len(tables("a.xlsx", wrong, likely)[0].rows) == 3


@pytest.mark.parametrize(
    ("part", "change"),
    [
        (SHEET, lambda text: text[: len(text) // 2]),
        (SHEET, lambda text: text.replace("<row", "<row r='99999999'")),
        (
            SHEET,
            lambda text: "<!DOCTYPE x [<!ENTITY a 'b'>]>" + text.replace("<sheetData>", "<sheetData>&b;"),
        ),
        ("xl/workbook.xml", lambda _text: "not xml"),
    ],
    ids=["cut off", "far row", "strange entity", "no xml"],
)
def test_a_damaged_workbook_is_said(part: str, change: Callable[[str], str]) -> None:
    data = changed(sheet_of([["Date", "Crop"], ["a", "b"]]), part, change)
    with pytest.raises(TableError, match=r"a\.xlsx is damaged"):
        tables("a.xlsx", data, likely)


def test_a_workbook_without_sheets_has_no_table() -> None:
    data = changed(sheet_of([["Date", "Crop"], ["a", "b"]]), "xl/workbook.xml", lambda _text: "<x/>")
    assert tables("a.xlsx", data, likely) == ()


@pytest.mark.parametrize("harm", ["other bytes", "a lock"])
def test_a_damaged_part_that_no_sheet_needs_is_said(harm: str) -> None:
    out = io.BytesIO(sheet_of([["Date", "Crop"], ["a", "b"]]))
    with zipfile.ZipFile(out, "a") as archive:
        archive.writestr("xl/worksheets/more.xml", "<worksheet/>")
    data = bytearray(out.getvalue())
    if harm == "other bytes":
        data[data.index(b"<worksheet/>")] ^= 0xFF
    else:  # the first flag of the part's entry in the list at the end (APPNOTE.TXT, 4.3.12 and 4.4.4)
        data[data.rindex(b"xl/worksheets/more.xml") - 46 + 8] |= 1
    with pytest.raises(TableError, match=r"a\.xlsx is damaged: it cannot be opened"):
        tables("a.xlsx", bytes(data), likely)


def test_a_whole_number_too_long_for_a_float_is_shown_to_15_digits() -> None:
    data = changed(
        sheet_of([["Date", 7]]), SHEET, lambda text: text.replace("<v>7</v>", f"<v>{'7' * 400}</v>")
    )
    ((_number, (_date, cell)),) = tables("a.xlsx", data, likely)[0].rows
    assert cell == SheetCell("777777777777778" + "0" * 385)


@pytest.mark.parametrize(
    "rows", ["<row r='1048577'><c><v>1</v></c></row>", "<row/>" * 1001], ids=["a far one", "many"]
)
def test_more_rows_than_a_sheet_can_have_are_not_read(rows: str, monkeypatch: pytest.MonkeyPatch) -> None:
    if rows.startswith("<row/>"):
        monkeypatch.setattr(workbooks, "_LAST_ROW", 1000)
    data = changed(
        sheet_of([["Date", "Crop"]]), SHEET, lambda text: text.replace("</sheetData>", f"{rows}</sheetData>")
    )
    with pytest.raises(TableError, match="has a row beyond 1,0"):
        tables("a.xlsx", data, likely)


def test_entities_that_swell_are_not_swollen() -> None:
    """Ten entities of ten each (a well-known attack on XML readers) would be ten thousand million letters."""
    entities = '<!ENTITY e0 "x">' + "".join(
        f'<!ENTITY e{number} "{f"&e{number - 1};" * 10}">' for number in range(1, 11)
    )
    data = changed(
        sheet_of([["Date", "Crop"], ["a", "b"]]),
        SHEET,
        lambda text: f"<!DOCTYPE x [{entities}]>{text.replace('<v>0</v>', '<v>&e10;</v>')}",
    )
    try:
        found = tables("a.xlsx", data, likely)
    except TableError:
        return
    assert all(
        len(cell.text) <= module.LONGEST_CELL for table in found for _row, row in table.rows for cell in row
    )


def test_a_workbook_that_unpacks_to_too_much_is_not_unpacked(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workbooks, "LARGEST_INSIDE", 1000)
    with pytest.raises(TableError, match="unpacks to"):
        tables("a.xlsx", sheet_of([["Date"]]), likely)


def test_a_zip_file_that_is_no_workbook_is_said() -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("a.txt", "x")
    with pytest.raises(TableError, match=r"not an \.xlsx workbook"):
        tables("a.zip", out.getvalue(), likely)


@pytest.mark.parametrize("encoding", ["cp1252", "mac_roman", "cp850"])
def test_old_code_pages_are_told_apart_by_the_text_and_that_is_said(encoding: str) -> None:
    """The encodings are Python's own."""
    text = "Datum;Gemüse;Gewicht;wohin\n1.5.2026;Möhren;0,3;für alle\n2.5.2026;Kürbis;1,2;schön groß\n"
    (table,) = tables("a.csv", text.encode(encoding), likely)
    assert [cell.text for cell in table.rows[1][1]] == ["1.5.2026", "Möhren", "0,3", "für alle"]
    assert table.told.startswith("a.csv is not UTF-8; it was read as ")


def test_far_stray_and_empty_coloured_cells_cost_nothing_and_are_no_rows() -> None:
    book = openpyxl.Workbook()
    book.active.append(["Date", "Crop", "Weight"])
    book.active.append(["2026-04-12", "kale", 3])
    book.active["C1048576"].fill = openpyxl.styles.PatternFill("solid", fgColor="FFFF00")
    book.active["XFD900000"] = "x"
    stream = io.BytesIO()
    book.save(stream)
    (table,) = tables("a.xlsx", stream.getvalue(), likely)
    assert [number for number, _cells in table.rows] == [1, 2]
    assert table.far == ("XFD900000 “x”",)
