"""Dates as people type them, held against the calendar of datetime and the dates of e-mail (RFC 5322)."""

from __future__ import annotations

import locale
from datetime import date, timedelta
from email.utils import parsedate

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.days import MONTHS, Span, in_full, short, without_year
from tallybed.reading.base.problems import Misread
from tallybed.reading.text import dates
from tests.reading.refusals import refusal

SEASON = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
WINTER = Span(first=date(2026, 9, 1), last=date(2027, 5, 31))

FORMS = [
    *("2026-04-12", "Apr 12", "12 April", "April 12, 2026", "12 Apr 2026", "April 12 2026", "12 April, 2026"),
    *("apr 12", "APRIL 12", "Apr. 12", "12th April", "April 12th", "12. April", " Apr  12 "),
]


@pytest.mark.parametrize("typed", FORMS)
def test_each_form_is_the_same_day(typed: str) -> None:
    assert dates.in_season(typed, SEASON) == date(2026, 4, 12)


@pytest.mark.parametrize("typed", ["Sep 3", "Sept 3", "Sept. 3", "3 September"])
def test_september_has_two_short_names(typed: str) -> None:
    assert dates.in_season(typed, SEASON) == date(2026, 9, 3)


REFUSED = {
    "4/12": "ambiguous-date",
    "12/4": "ambiguous-date",
    "4/12/2026": "ambiguous-date",
    "12.4.2026": "ambiguous-date",
    "12.4.": "ambiguous-date",
    "12-04-26": "ambiguous-date",
    "04-12": "ambiguous-date",
    "2026-4-12": "date",
    "2026/04/12": "date",
    "20260412": "date",
    "2026-W15-7": "date",
    "Arpil 12": "date",
    "April": "date",
    "12": "date",
    "April 2026": "date",
    "mid April": "date",
    "Avril 12": "date",
    "Apr 12 26": "date",
    "tomorrow": "date",
    "": "date",
    "Apr 12 12:30": "date",
    "Apr 0": "no-such-day",
    "Apr 31": "no-such-day",
    "2026-02-29": "no-such-day",
    "2026-13-01": "no-such-day",
    "0000-01-01": "no-such-day",
    "Feb 29": "no-such-day",
    "Feb 12": "date-outside-season",
    "Dec 1": "date-outside-season",
    "2025-04-12": "date-outside-season",
    "Apr 12, 2027": "date-outside-season",
}


@pytest.mark.parametrize(("typed", "code"), REFUSED.items())
def test_what_is_no_day_of_the_season_is_refused(typed: str, code: str) -> None:
    with pytest.raises(Misread) as refused:
        dates.in_season(typed, SEASON)
    assert refused.value.code == code
    assert refused.value.expected


@pytest.mark.parametrize(
    ("typed", "day"),
    {
        "Oct 1": date(2026, 10, 1),
        "Jan 5": date(2027, 1, 5),
        "May 31": date(2027, 5, 31),
        "2027-01-05": date(2027, 1, 5),
    }.items(),
)
def test_a_day_without_year_falls_inside_a_season_across_the_new_year(typed: str, day: date) -> None:
    assert dates.in_season(typed, WINTER) == day


def test_the_leap_day_falls_into_the_leap_year() -> None:
    span = Span(first=date(2027, 9, 1), last=date(2028, 5, 31))
    assert dates.in_season("Feb 29", span) == date(2028, 2, 29)


def test_a_square_may_be_free_on_the_day_after_the_season() -> None:
    assert dates.in_season("Dec 1", SEASON, day_after=True) == date(2026, 12, 1)
    with pytest.raises(Misread):
        dates.in_season("Dec 2", SEASON, day_after=True)


def test_without_known_bounds_any_day_passes() -> None:
    assert dates.in_season("2031-01-01", SEASON, bounded=False) == date(2031, 1, 1)


DAYS = st.dates(SEASON.first, SEASON.last)


@given(DAYS)
def test_what_pages_print_reads_back_the_same(day: date) -> None:
    for typed in (in_full(day), without_year(day), short(day), day.isoformat()):
        assert dates.in_season(typed, SEASON) == day


@given(st.dates(date(1900, 1, 1), date(2199, 12, 31)))
def test_dates_with_their_year_agree_with_those_of_e_mail(day: date) -> None:
    month = MONTHS[day.month - 1]
    for typed in (
        f"{month} {day.day}, {day.year:04d}",
        f"{day.day} {month[:3]} {day.year:04d}",
    ):
        read = parsedate(f"{typed} 00:00:00")
        assert read is not None
        assert dates.with_year(typed) == date(*read[:3]) == day


@given(st.dates(date(2026, 1, 1), date(2026, 12, 31)), st.integers(1, 400))
def test_a_day_is_inside_or_refused(first: date, length: int) -> None:
    span = Span(first=first, last=first + timedelta(days=min(length, 364)))
    for day in (first, span.last, first - timedelta(days=1), span.last + timedelta(days=1)):
        if day in span:
            assert dates.in_season(day.isoformat(), span) == day
        else:
            with pytest.raises(Misread):
                dates.in_season(day.isoformat(), span)


@given(st.text(max_size=40))
def test_any_text_is_read_or_refused_in_words(typed: str) -> None:
    for scan in (dates.with_year, dates.every_year, lambda text: dates.in_season(text, SEASON)):
        refused = refusal(scan, typed)
        assert refused is None or (refused.found and refused.expected)


def test_every_year() -> None:
    assert dates.every_year("Apr 22") == (4, 22)
    assert dates.every_year("28 February") == (2, 28)
    for typed in ("Feb 29", "Apr 22, 2026", "2026-04-22"):
        with pytest.raises(Misread):
            dates.every_year(typed)


def test_the_machines_language_changes_nothing() -> None:
    before = locale.setlocale(locale.LC_TIME)
    try:
        for name in ("de_DE.UTF-8", "fr_FR.UTF-8", "C.UTF-8", "C"):
            try:
                locale.setlocale(locale.LC_TIME, name)
            except locale.Error:
                continue  # not on this machine; C always is
            assert dates.in_season("May 12", SEASON) == date(2026, 5, 12)
            with pytest.raises(Misread):
                dates.in_season("12 Mai", SEASON)
    finally:
        locale.setlocale(locale.LC_TIME, before)


@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("Oct 20", date(2026, 10, 20)),
        ("Jan 12", date(2027, 1, 12)),
        ("2027-01-12", date(2027, 1, 12)),
        ("2027-11-30", date(2027, 11, 30)),
    ],
)
def test_what_hung_to_dry_is_weighed_up_to_a_year_after_its_season(typed: str, day: date) -> None:
    assert dates.within_a_year(typed, SEASON) == day


@pytest.mark.parametrize("typed", ["2026-02-27", "2028-01-12"])
def test_a_day_of_no_weighing_is_refused(typed: str) -> None:
    with pytest.raises(Misread, match="outside the season"):
        dates.within_a_year(typed, SEASON)
