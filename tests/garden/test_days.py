"""Days, weeks, months and the bounds of a season, each at its edge."""

from __future__ import annotations

from datetime import date

import pytest

from tallybed.garden.days import (
    Month,
    Span,
    Week,
    hours_words,
    in_full,
    months_between,
    short,
    weeks_between,
    without_year,
)

SEASON = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
WINTER = Span(first=date(2026, 9, 1), last=date(2027, 5, 31))


@pytest.mark.parametrize(
    ("day", "inside"),
    [
        (date(2026, 2, 28), False),
        (date(2026, 3, 1), True),
        (date(2026, 11, 30), True),
        (date(2026, 12, 1), False),
    ],
)
def test_both_ends_of_a_season_are_inside(day: date, inside: bool) -> None:
    assert (day in SEASON) is inside


def test_how_long_a_season_is() -> None:
    assert SEASON.days == 275
    assert Span(first=date(2026, 3, 1), last=date(2026, 3, 1)).days == 1


@pytest.mark.parametrize(
    ("span", "named", "placed"),
    [
        (SEASON, (3, 1), date(2026, 3, 1)),
        (SEASON, (11, 30), date(2026, 11, 30)),
        # Outside: the one of the first year, so that a message can name it.
        (SEASON, (12, 1), date(2026, 12, 1)),
        # Over new year a day falls in the year that has it.
        (WINTER, (9, 1), date(2026, 9, 1)),
        (WINTER, (5, 31), date(2027, 5, 31)),
        (WINTER, (1, 1), date(2027, 1, 1)),
        (WINTER, (6, 1), date(2026, 6, 1)),
        (SEASON, (2, 29), None),
        (Span(first=date(2027, 9, 1), last=date(2028, 5, 31)), (2, 29), date(2028, 2, 29)),
    ],
)
def test_a_day_without_a_year_falls_inside_its_season(
    span: Span, named: tuple[int, int], placed: date | None
) -> None:
    assert span.day_of(*named) == placed


def test_months_and_weeks_over_new_year() -> None:
    """ISO 8601: the week of 1 January 2027, a Friday, is the last of 2026; 2026 has 53 weeks."""
    first, last = date(2026, 12, 31), date(2027, 1, 4)
    assert months_between(first, last) == (Month(2026, 12), Month(2027, 1))
    assert weeks_between(first, last) == (Week(2026, 53), Week(2027, 1))
    assert (str(Week(2026, 53)), str(Week(2027, 1))) == ("2026-W53", "2027-W01")
    assert (Week(2026, 53).first, Week(2026, 53).last) == (date(2026, 12, 28), date(2027, 1, 3))
    assert Month(2028, 2).last == date(2028, 2, 29)


@pytest.mark.parametrize(
    ("first", "last", "months", "weeks"),
    [
        (date(2026, 6, 7), date(2026, 6, 7), 1, 1),
        (date(2026, 6, 7), date(2026, 6, 8), 1, 2),  # a Sunday and the Monday after it
        (date(2026, 6, 30), date(2026, 7, 1), 2, 1),
        # None where the first is the later, though both lie in one week or month.
        (date(2026, 7, 1), date(2026, 6, 30), 0, 0),
        (date(2026, 7, 6), date(2026, 7, 5), 0, 0),
        (date(2026, 7, 1), date(2026, 5, 30), 0, 0),
    ],
)
def test_how_many_months_and_weeks_lie_between(first: date, last: date, months: int, weeks: int) -> None:
    assert (len(months_between(first, last)), len(weeks_between(first, last))) == (months, weeks)


@pytest.mark.parametrize(
    ("hours", "words"),
    [(1, "1 hour"), (1.04, "1 hour"), (0.96, "1 hour"), (1.06, "1.1 hours"), (0, "0 hours")],
)
def test_hours_in_words(hours: float, words: str) -> None:
    assert hours_words(hours) == words


def test_days_and_months_in_words() -> None:
    day = date(2026, 9, 14)
    assert (in_full(day), without_year(day), short(day)) == ("14 September 2026", "14 September", "14 Sep")
    assert (str(Month(2026, 1)), str(Month.of(date(2026, 12, 31)))) == ("January 2026", "December 2026")


@pytest.mark.parametrize(
    ("span", "day", "year"),
    [
        (Span(first=date(2026, 3, 1), last=date(2026, 11, 30)), date(2027, 3, 1), 2027),
        (Span(first=date(2026, 3, 1), last=date(2026, 11, 30)), date(2027, 1, 4), None),
        (Span(first=date(2025, 7, 1), last=date(2026, 6, 30)), date(2027, 6, 30), 2026),
        (Span(first=date(2025, 7, 1), last=date(2026, 6, 30)), date(2026, 7, 1), 2026),
        (Span(first=date(2026, 1, 1), last=date(2026, 12, 31)), date(2028, 2, 29), None),
    ],
)
def test_the_year_in_which_a_season_begins_that_holds_a_day(span: Span, day: date, year: int | None) -> None:
    assert span.begins_for(day) == year
