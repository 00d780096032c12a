"""Dates of the usual kinds in spreadsheets; those that may be read two ways are never guessed."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.days import Span
from tallybed.reading.base.problems import Misread
from tallybed.reading.spreadsheet.dates import AMBIGUOUS, DateOrder, day, order_shown

SEASON = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
APRIL_12 = date(2026, 4, 12)
APRIL_25 = date(2026, 4, 25)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2026-04-12", APRIL_12),
        ("2026-4-12", APRIL_12),
        ("2026/04/12", APRIL_12),
        ("2026-04-12 00:00:00", APRIL_12),
        ("2026-04-12T09:30", APRIL_12),
        ("Apr 12 2026", APRIL_12),
        ("Apr 12, 2026", APRIL_12),
        ("April 12th, 2026", APRIL_12),
        ("12 April 2026", APRIL_12),
        ("12-Apr-2026", APRIL_12),
        ("12-Apr-26", APRIL_12),
        ("Apr 12, '26", APRIL_12),
        ("Sun, Apr 12, 2026", APRIL_12),
        ("Sunday 12 April 2026", APRIL_12),
        ("Apr 12", APRIL_12),
        ("12-Apr", APRIL_12),
        ("4/25/2026", APRIL_25),
        ("25/4/2026", APRIL_25),
        ("25.4.2026", APRIL_25),
        ("4-25-26", APRIL_25),
        ("4/25", APRIL_25),
        ("4/4/2026", date(2026, 4, 4)),
    ],
)
def test_a_date_that_can_be_read_one_way_is_read(text: str, expected: date) -> None:
    assert day(text, None, SEASON) == expected


@pytest.mark.parametrize("text", ["Sat 5/9", "Fri 5/4"])
def test_a_day_of_the_week_that_fits_both_readings_or_neither_tells_nothing(text: str) -> None:
    with pytest.raises(Misread) as caught:
        day(text, None, SEASON)
    assert caught.value.code == AMBIGUOUS


@pytest.mark.parametrize("text", ["4/5/2026", "4/5/26", "04.05.2026", "4-5-2026", "4/5", "12/4/2026"])
def test_a_date_that_may_be_read_two_ways_is_asked_about_until_somebody_says_which(text: str) -> None:
    with pytest.raises(Misread) as caught:
        day(text, None, SEASON)
    assert caught.value.code == AMBIGUOUS
    month = day(text, DateOrder.MONTH_FIRST, Span(first=date(2026, 1, 1), last=date(2026, 12, 31)))
    number = day(text, DateOrder.DAY_FIRST, Span(first=date(2026, 1, 1), last=date(2026, 12, 31)))
    assert (month.month, month.day) == (number.day, number.month)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Mon 5/4/2026", date(2026, 5, 4)),  # 5 April is a Sunday
        ("Sunday, 5/4/2026", date(2026, 4, 5)),
        ("Mon 5/4", date(2026, 5, 4)),
        ("Sun 5.4.", date(2026, 4, 5)),
        ("Fri 4/4/2025", date(2025, 4, 4)),
    ],
)
def test_a_day_of_the_week_tells_which_number_comes_first(text: str, expected: date) -> None:
    assert day(text, None, SEASON) == expected


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("13/13/2026", "no-such-day"),
        ("2/30/2026", "no-such-day"),
        ("2026-02-30", "no-such-day"),
        ("Feb 30 2026", "date"),
        ("46123", "date"),
        # The day of the week contradicts, or days from one to another would be a year.
        ("Mon Apr 12 2026", "date"),
        ("Apr 25-26", "date"),
        ("20260412", "date"),
        ("June", "date"),
        ("12 Smarch 2026", "date"),
        ("4/2026", "date"),
        ("123/4/2026", "date"),
        ("yesterday", "date"),
        ("", "date"),
        ("Dec 24", "date-outside-season"),
    ],
)
def test_what_is_no_date_is_said(text: str, code: str) -> None:
    with pytest.raises(Misread) as caught:
        day(text, None, SEASON)
    assert caught.value.code == code


def test_an_order_that_a_date_contradicts_is_not_overruled() -> None:
    with pytest.raises(Misread):
        day("4/25/2026", DateOrder.DAY_FIRST, SEASON)


def test_a_date_without_a_year_needs_its_season() -> None:
    with pytest.raises(Misread) as caught:
        day("Apr 12", None, None)
    assert caught.value.code == "date-without-year"


@given(
    st.dates(date(2026, 3, 1), date(2026, 11, 30)), st.sampled_from(list(DateOrder)), st.sampled_from("/-.")
)
def test_a_date_written_in_the_order_said_is_read_back(when: date, order: DateOrder, sign: str) -> None:
    parts = (when.month, when.day) if order is DateOrder.MONTH_FIRST else (when.day, when.month)
    text = sign.join(map(str, (*parts, when.year)))
    assert day(text, order, None) == when
    try:
        assert day(text, None, None) == when
    except Misread as misread:
        assert misread.code == AMBIGUOUS  # noqa: PT017 - or it is asked about
        assert when.day <= 12
        assert when.day != when.month


@pytest.mark.parametrize(
    ("texts", "order"),
    [
        (["13/4/2026"] * 3, DateOrder.DAY_FIRST),
        (["4/13"] * 3, DateOrder.MONTH_FIRST),
        (["Mon 13/4/2026", "Tue. 14/4", "Wednesday, 15.4.26"], DateOrder.DAY_FIRST),
        (["13/12/26", "14/12/26", "5/6/26", "15/12/26 10:30"], DateOrder.DAY_FIRST),
        (["12/13/26", "12/14/26", "12/15/26"], DateOrder.MONTH_FIRST),
        (["13/4/2026"] * 2, None),
        (["12/4/2026"] * 3, None),
        (["13/14/2026"] * 3, None),
        (["2026/4/13"] * 3, None),
        (["13/4/2026"] * 3 + ["4/13/2026"], None),
        (["13 April"] * 3, None),
        ([], None),
    ],
)
def test_a_column_shows_the_order_by_three_dates_and_none_against(
    texts: list[str], order: DateOrder | None
) -> None:
    assert order_shown(texts) is order
