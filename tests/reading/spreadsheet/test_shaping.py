"""Sheets as people lay them out: which rows tell a picking, and which add up others."""

from __future__ import annotations

from datetime import date

import pytest

from tallybed.reading.spreadsheet.cells import EMPTY, SheetCell, SheetTable
from tallybed.reading.spreadsheet.shaping import found_sheet


def cell(text: str, formula: str = "") -> SheetCell:
    return SheetCell(text, number=text.isdigit(), formula=formula)


def table(*rows: list[SheetCell]) -> SheetTable:
    return SheetTable(name="", rows=tuple((number, tuple(row)) for number, row in enumerate(rows, start=1)))


def knows(text: str) -> bool:
    return text in ("kale", "radish")


@pytest.mark.parametrize("day", ["", "2026-06-30"])
@pytest.mark.parametrize(
    "formula", ["=SUM({0}2:{0}3)", "=sum( ${0}$2 : ${0}$3 )", "=SUBTOTAL(109,{0}2:{0}3)"]
)
def test_a_sum_of_its_own_column_is_a_total_in_a_column_of_a_crop(formula: str, day: str) -> None:
    head = [cell("Date"), cell("Kale (oz)"), cell("Radish (oz)")]
    days = [[cell(f"2026-06-0{one}"), cell("1"), cell("2")] for one in (2, 3)]
    last = [cell(day), cell("2", formula.format("B")), cell("4", formula.format("C"))]
    sheet = found_sheet(table(head, *days, last), {}, knows, blanks=True)
    assert [number for number, _cells in sheet.rows] == [2, 2, 3, 3]
    assert sheet.left_out == ((4, "a total"),)


@pytest.mark.parametrize(
    ("formula", "total"),
    [
        ("=SUM(C2:C2)", True),
        ("=SUM(D3:E3)", False),
        ("=SUM(G2:G9)", False),
        ("=SUM(Other!C2:C9)", False),
        ("=1+2", False),
    ],
)
def test_a_sum_of_other_cells_may_be_a_picking(formula: str, total: bool) -> None:
    head = [cell("Date"), cell("Crop"), cell("Weight (oz)")]
    rows = [[cell("2026-06-02"), cell("kale"), cell("3")], [EMPTY, cell("kale"), cell("3", formula)]]
    sheet = found_sheet(table(head, *rows), {}, knows, blanks=True)
    assert bool(sheet.left_out) is total


@pytest.mark.parametrize(
    ("weights", "last", "total"),
    [
        (("9 oz", "1 lb", "400 g"), "2 lb 7.1 oz", True),  # in mixed units, rounded
        (("9 oz", "not weighed", "1 lb"), "25 oz", True),
        (("9", "16", "1.5"), "26.5", True),
        (("9", "16", "1.5"), "25", False),
        (("9 oz", "1 lb", "400 g"), "1 lb", False),
        (("9 oz",), "9 oz", False),  # it may be another picking
        (("9 oz", "two"), "11 oz", False),
    ],
)
def test_a_row_of_nothing_but_the_sum_of_those_above_is_a_total(
    weights: tuple[str, ...], last: str, total: bool
) -> None:
    """Fails where a sum that nothing is written beside asks for its day and its crop."""
    head = [cell("Date"), cell("Crop"), cell("Weight")]
    rows = [[cell(f"2026-06-0{day}"), cell("kale"), cell(one)] for day, one in enumerate(weights, 1)]
    sheet = found_sheet(table(head, *rows, [EMPTY, EMPTY, cell(last)]), {}, knows)
    assert sheet.left_out == (((len(rows) + 2, "a total"),) if total else ())
    assert sheet.dateless == (0 if total else 1)
    beside = found_sheet(table(head, *rows, [EMPTY, cell("kale"), cell(last)]), {}, knows)
    assert beside.left_out == ()


def test_below_a_sum_the_next_is_of_what_follows_and_the_last_may_be_of_all() -> None:
    head = [cell("Date"), cell("Crop"), cell("lb"), cell("oz")]
    week = [[cell("2026-06-01"), cell("kale"), cell("1"), cell("2")]] * 2
    sums = [[EMPTY, EMPTY, cell(lb), cell(oz)] for lb, oz in (("2", "4"), ("2", "4"), ("4", "8"))]
    sheet = found_sheet(table(head, *week, sums[0], *week, sums[1], sums[2]), {}, knows)
    assert [number for number, _why in sheet.left_out] == [4, 7, 8]


@pytest.mark.parametrize("dash", ["-", "–", "— —"])
def test_a_dash_is_no_name(dash: str) -> None:
    head = [cell("Date"), cell("Crop"), cell("Variety"), cell("Weight (oz)"), cell("To"), cell("Note")]
    rows = [
        [cell("2026-06-02"), cell("kale"), cell("Red"), cell("3"), cell("kitchen"), cell("wet")],
        [cell("2026-06-03"), cell("kale"), cell(dash), cell("3"), cell(dash), cell(dash)],
        [cell("2026-06-04"), cell("kale"), cell('"'), cell("3"), cell("do."), cell("")],
    ]
    _first, second, third = (cells for _number, cells in found_sheet(table(head, *rows), {}, knows).rows)
    assert [one.text for one in second] == ["2026-06-03", "kale", "", "3", "", ""]
    assert [one.text for one in third] == ["2026-06-04", "kale", "", "3", "", ""]


@pytest.mark.parametrize(
    ("row", "left_out"),
    [
        (["2026-06-02", "", "", "", "0"], True),
        (["2026-06-02", "-", "0", "rain all day", ""], True),
        (["2026-06-02", "3", "", "", "3"], False),
        (["2026-06-02", "", "", "", "4"], False),  # of a crop that nobody understood, or a slip
        (["", "", "", "ask Ann", ""], False),  # no day at all
    ],
)
def test_a_day_on_which_no_column_of_a_crop_has_anything_is_no_row(row: list[str], left_out: bool) -> None:
    head = ["Date", "Kale (oz)", "Radish (oz)", "Note", "All"]
    sheet = found_sheet(table(*(list(map(cell, one)) for one in (head, row))), {}, knows)
    assert sheet.left_out == (((2, "a day without a picking"),) if left_out else ())
    assert bool(sheet.rows) is not left_out


def test_a_row_without_crop_and_weight_is_told_where_rows_are_pickings() -> None:
    head, row = ["Date", "Crop", "Weight (oz)"], ["2026-06-02", "", ""]
    sheet = found_sheet(table(*(list(map(cell, one)) for one in (head, row))), {}, knows)
    assert (len(sheet.rows), sheet.left_out) == (1, ())


def test_a_ditto_mark_in_a_column_of_a_crop_means_the_cell_above_it() -> None:
    head = [cell("Date"), cell("Kale (oz)"), cell("Radish (oz)")]
    rows = [
        [cell("2026-06-02"), cell("5"), cell("3")],
        [cell("2026-06-03"), cell('"'), cell("do.")],
        [cell("2026-06-04"), cell("0"), cell("2")],
        [cell("2026-06-05"), cell('"'), cell('"')],
    ]
    sheet = found_sheet(table(head, *rows), {}, knows)
    assert [[one.text for one in cells[:3]] for _number, cells in sheet.rows] == [
        ["2026-06-02", "kale", "5"],
        ["2026-06-02", "radish", "3"],
        ["2026-06-03", "kale", "5"],
        ["2026-06-03", "radish", "3"],
        ["2026-06-04", "radish", "2"],
        ["2026-06-05", "radish", "2"],
    ]


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("3", "May 3, 2026"),
        ("3rd", "May 3, 2026"),
        ("Day 3", "May 3, 2026"),
        ("Sun 3", "Sun May 3, 2026"),
        ("Su 3", "May 3, 2026"),
        ("June 3", "June 3, 2026"),
        ("sept. 3", "September 3, 2026"),
        ("Week 3", "Week 3"),
        ("Jnue 3", "Jnue 3"),
        ("Juni 3", "Juni 3"),
        ("Those 3", "Those 3"),
    ],
)
def test_a_word_before_a_day_is_not_passed_over(typed: str, read: str) -> None:
    rows = [[cell("May 2026")], [cell("Date"), cell("Crop"), cell("Weight (oz)")]]
    sheet = found_sheet(table(*rows, [cell(typed), cell("kale"), cell("3")]), {}, knows)
    assert sheet.rows[0][1][0].text == read


@pytest.mark.parametrize(
    ("first", "alone", "days"),
    [
        ("June 24", "June 25", ["June 24", "June 25", "27"]),
        ("Jun. 9", "Jun. 25", ["Jun. 9", "Jun. 25", "27"]),
        # No other date of that form: a month and its year, above days.
        ("24", "June 25", ["24", "June 27, 2025"]),
        ("June 24", "June '25", ["June 24", "June 27, 2025"]),
        ("June 24", "June", ["June 24", "June 27"]),
    ],
)
def test_a_date_alone_in_its_row_is_no_month_where_others_are_days(
    first: str, alone: str, days: list[str]
) -> None:
    head = [cell("Date"), cell("Crop"), cell("Weight (oz)")]
    rows = [
        [cell(first), cell("kale"), cell("3")],
        [cell(alone), EMPTY, EMPTY],
        [cell("27"), cell("kale"), cell("4")],
    ]
    sheet = found_sheet(table(head, *rows), {}, knows)
    assert [cells[0].text for _number, cells in sheet.rows] == days


def test_what_stands_beside_columns_of_crops_is_told_once_by_its_own_cell() -> None:
    head = [cell("Date"), EMPTY, cell("Kale (oz)"), cell("Radish (oz)")]
    rows = [
        [cell("2026-06-02"), cell("wet"), cell("5"), cell("3"), cell("hail")],
        [EMPTY, EMPTY, EMPTY, EMPTY, cell("frost")],
        [EMPTY, EMPTY, cell("5", "=SUM(C2:C3)"), cell("3", "=SUM(D2:D3)"), cell("so far")],
    ]
    sheet = found_sheet(table(head, *rows), {}, knows)
    assert sheet.beside == ("B2 “wet”", "E2 “hail”", "E3 “frost”", "E4 “so far”")
    assert [number for number, _cells in sheet.rows] == [2, 2]


@pytest.mark.parametrize(
    ("named", "days"),
    [
        ("July 1", ["June 30, 2026", "July 1, 2026", "July 2, 2026", "August 3, 2026"]),
        ("1 July 2026", ["June 30, 2026", "1 July 2026", "July 2, 2026", "August 3, 2026"]),
        ("July 1, 2025", ["June 30, 2026", "July 1, 2025", "July 2, 2025", "August 3, 2026"]),
        ("1", ["June 30, 2026", "June 1, 2026", "June 2, 2026", "August 3, 2026"]),
        ("1.0", ["June 30, 2026", "June 1, 2026", "June 2, 2026", "August 3, 2026"]),
        ("2026-07-01", ["June 30, 2026", "2026-07-01", "July 2, 2026", "August 3, 2026"]),
        ("6/1/2026", ["June 30, 2026", "6/1/2026", "June 2, 2026", "August 3, 2026"]),
        # Of 7/1 nobody knows the month, so nobody knows that of the 2 below it: it stays a bare number.
        ("7/1/2026", ["June 30, 2026", "7/1/2026", "2", "August 3, 2026"]),
    ],
)
def test_a_bare_day_is_of_the_last_month_named_above_it(named: str, days: list[str]) -> None:
    head = [[cell("June 2026")], [cell("Date"), cell("Crop"), cell("Weight (oz)")]]
    typed = ("30", named, "2", "August 2026", "3")
    rows = [
        [cell(day), *((EMPTY, EMPTY) if day == "August 2026" else (cell("kale"), cell("3")))] for day in typed
    ]
    sheet = found_sheet(table(*head, *rows), {}, knows)
    assert [cells[0].text for _number, cells in sheet.rows] == days


def test_a_bare_day_below_a_cell_with_a_date_is_of_its_month() -> None:
    dated = SheetCell("2026-07-01", day=date(2026, 7, 1))
    rows = [[cell("June 2026")], [cell("Date"), cell("Crop"), cell("Weight (oz)")]]
    rows += [[day, cell("kale"), cell("3")] for day in (cell("30"), dated, cell("2"))]
    sheet = found_sheet(table(*rows), {}, knows)
    assert [cells[0].text for _number, cells in sheet.rows] == ["June 30, 2026", "2026-07-01", "July 2, 2026"]


def test_january_below_a_december_is_not_of_its_year() -> None:
    rows = [[cell("Dec 2025")], [cell("Date"), cell("Crop"), cell("Weight (oz)")]]
    rows += [[cell(day), cell("kale"), cell("3")] for day in ("30", "Jan 2", "3", "Feb 1, 2026", "2")]
    sheet = found_sheet(table(*rows), {}, knows)
    assert [cells[0].text for _number, cells in sheet.rows] == [
        "December 30, 2025",
        "January 2",
        "January 3",
        "Feb 1, 2026",
        "February 2, 2026",
    ]
    assert sheet.year == "2025", "the season they fall into, which may end in spring"


def test_a_mark_in_a_column_of_a_crop_may_say_that_some_was_picked() -> None:
    """Fails where an ``x`` is passed over as nothing, and nobody is told."""
    head = [cell("Date"), cell("Kale (oz)"), cell("Radish (oz)")]
    sheet = found_sheet(table(head, [cell("2026-06-02"), cell("4"), cell("x")]), {}, knows)
    assert [(one[1].text, one[2].text) for _number, one in sheet.rows] == [("kale", "4"), ("radish", "x")]


@pytest.mark.parametrize(
    ("day", "note", "total"),
    [
        ("2026-06-02", "total rain 12 mm", False),
        ("2026-06-02", "total loss of the peas", False),
        ("2026-06-02", "total", True),
        ("2026-06-30", "Total for June", True),
        ("2026-06-30", "monthly total", True),
        ("", "total of both beds", True),
    ],
)
def test_a_remark_makes_a_total_of_a_day_only_where_it_says_nothing_else(
    day: str, note: str, total: bool
) -> None:
    """Fails where the kale of a day is left out because its remark tells the rain."""
    by_crop = [cell("Date"), cell("Kale (oz)"), cell("Radish (oz)"), cell("Note")]
    sheet = found_sheet(table(by_crop, [cell(day), cell("4"), EMPTY, cell(note)]), {}, knows)
    assert sheet.left_out == (((2, "a total"),) if total else ())
    by_square = [cell("Date"), cell("Tag"), cell("Squares"), cell("Weight (oz)"), cell("Note")]
    sheet = found_sheet(table(by_square, [cell(day), EMPTY, cell("A1"), cell("4"), cell(note)]), {}, knows)
    assert sheet.left_out == (((2, "a total"),) if total else ())


@pytest.mark.parametrize("heading", ["", "Week"])
def test_a_label_makes_a_total_of_a_row_of_crops_in_a_column_without_a_heading_too(heading: str) -> None:
    """Fails where what is added up in ``Total | 2026-06-30 | 9`` is taken for a picking of that day."""
    head = [cell(heading), cell("Date"), cell("Kale (oz)"), cell("Radish (oz)")]
    first = [EMPTY, cell("2026-06-02"), cell("4"), cell("5")]
    last = [cell("Total"), cell("2026-06-30"), cell("4"), cell("5")]
    sheet = found_sheet(table(head, first, last), {}, knows)
    assert [number for number, _cells in sheet.rows] == [2, 2]
    assert sheet.left_out == ((3, "a total"),), "not a day without a picking"
