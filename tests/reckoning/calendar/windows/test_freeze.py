"""Freeze dates and chances against published freeze tables."""

from datetime import date, timedelta
from itertools import pairwise

import pytest

from tallybed.garden.days import Span
from tallybed.garden.garden import FreezeDates
from tallybed.reckoning.calendar.windows.freeze import (
    Freeze,
    first_fall,
    freezes,
    growing_span,
    last_spring,
    nearest_fall,
)

YEAR = 2027


def day(text: str) -> date:
    month, number = text.split("-")
    return date(YEAR, int(month), int(number))


# National Weather Service Wilmington NC, "spring and fall freeze statistics" of the stations named.
# They print the chance that the last (first) freeze HAS COME by the date: 1 to 99 %.
NWS = {
    ("Wilmington NC", "spring"): "02-10 02-21 02-26 03-07 03-18 03-28 04-06 04-12 04-22",
    ("Wilmington NC", "fall"): "10-19 10-27 11-01 11-09 11-17 11-26 12-03 12-08 12-16",
    ("Southport NC", "spring"): "02-24 03-05 03-09 03-17 03-26 04-03 04-11 04-16 04-25",
    ("Southport NC", "fall"): "10-06 10-16 10-21 10-30 11-09 11-19 11-29 12-04 12-14",
    ("Florence SC", "spring"): "02-15 02-24 03-01 03-10 03-20 03-29 04-07 04-12 04-22",
    ("Marion SC", "spring"): "02-22 03-05 03-10 03-19 03-30 04-09 04-18 04-23 05-04",
    ("Marion SC", "fall"): "10-04 10-12 10-17 10-24 11-01 11-09 11-16 11-20 11-28",
}
PERCENTS = (1, 5, 10, 25, 50, 75, 90, 95, 99)
CASES = [
    (station, season, percent, printed)
    for (station, season), row in NWS.items()
    for percent, printed in zip(PERCENTS, row.split(), strict=True)
    if percent not in (10, 50, 90)
]


def nws(station: str, season: str) -> Freeze:
    printed = dict(zip(PERCENTS, NWS[station, season].split(), strict=True))
    return Freeze(
        spring=season == "spring",
        threshold=32,
        middle=day(printed[50]),
        early=day(printed[10]),
        late=day(printed[90]),
    )


@pytest.mark.parametrize(("station", "season", "percent", "printed"), CASES)
def test_dates_between_and_beyond_the_given_ones_are_the_published_ones(
    station: str, season: str, percent: int, printed: str
):
    freeze = nws(station, season)
    # The fit holds to a day; the tails of 1 and 99 % to three.
    apart = timedelta(days=3 if percent in (1, 99) else 1)
    before, after = (freeze.chance(day(printed) + way * apart) for way in (-1, 1))
    assert before is not None
    assert after is not None
    by_then = (1 - before, 1 - after) if freeze.spring else (before, after)
    assert by_then[0] <= percent / 100 <= by_then[1]


@pytest.mark.parametrize(
    ("station", "season", "dates", "has_come"),
    [
        # The same pages' tables by date: percent of years in which it has come by then.
        ("Wilmington NC", "spring", "03-01 03-10 03-20 04-05 04-15", (13.0, 29.5, 54.6, 87.8, 96.5)),
        ("Southport NC", "spring", "03-10 03-20 03-30 04-10", (10.4, 31.6, 61.8, 87.6)),
        ("Marion SC", "fall", "11-01 11-10 11-20", (48.7, 76.7, 94.3)),
    ],
)
def test_chances_by_date_are_the_published_ones(
    station: str, season: str, dates: str, has_come: tuple[float, ...]
):
    freeze = nws(station, season)
    for printed, percent in zip(dates.split(), has_come, strict=True):
        chance = freeze.chance(day(printed))
        assert chance is not None
        expected = 100 - percent if freeze.spring else percent
        assert chance * 100 == pytest.approx(expected, abs=1.7), printed


# Kansas State University, Agronomy eUpdate 635-9: percent chance of a freeze on or after the date, 1991-2020.
KANSAS_DATES = ["04-05", "04-10", "04-15", "04-20", "04-25", "04-30", "05-05", "05-10", "05-15"]
KANSAS = {
    "Hill City": (100, 100, 98, 91, 76, 54, 32, 16, 7),
    "Oberlin": (100, 100, 100, 98, 91, 76, 54, 32, 16),
    "Beloit": (99, 95, 84, 66, 45, 27, 14, 6, 2),
    "Phillipsburg": (100, 100, 98, 90, 73, 48, 26, 12, 4),
    "Washington": (100, 99, 95, 84, 64, 41, 23, 11, 5),
    "Holton": (100, 98, 93, 80, 62, 42, 26, 14, 6),
}


def _where(station: str, percent: int) -> date:
    """The day of a percentage by straight lines between the printed ones; beyond the last, by its slope."""
    rows = list(zip((day(text).toordinal() for text in KANSAS_DATES), KANSAS[station], strict=True))
    for (first, high), (second, low) in pairwise(rows):
        if high >= percent > low or (second, low) == rows[-1]:
            return date.fromordinal(round(first + (high - percent) * (second - first) / (high - low)))
    raise AssertionError(percent)


@pytest.mark.parametrize("station", KANSAS)
def test_kansas_stations_keep_their_printed_chances(station: str):
    freeze = Freeze(
        spring=True,
        threshold=32,
        middle=_where(station, 50),
        early=_where(station, 90),
        late=_where(station, 10),
    )
    for text, percent in zip(KANSAS_DATES, KANSAS[station], strict=True):
        chance = freeze.chance(day(text))
        assert chance is not None
        # "On or after" counts the day itself; the three dates are interpolated: four points in all.
        assert chance * 100 == pytest.approx(percent, abs=4.5), text


@pytest.mark.parametrize(
    ("station", "mean", "deviation", "tenth"),
    [
        # North Carolina State Extension: average last spring frost and its standard deviation in days.
        # The 10 % date is mean + 1.2816 standard deviations (NIST/SEMATECH table of the normal curve).
        ("Asheville", "04-10", 10, "04-23"),
        ("Burlington", "04-01", 10, "04-14"),
        ("Durham", "04-13", 12, "04-28"),
        ("Greensboro", "04-11", 8, "04-21"),
        ("Hatteras", "03-03", 20, "03-29"),
        ("Transou", "05-15", 15, "06-03"),
        ("Banner Elk", "05-13", 17, "06-04"),
    ],
)
def test_one_standard_deviation_is_84_percent(station: str, mean: str, deviation: int, tenth: str):
    middle, late = day(mean), day(tenth)
    freeze = Freeze(spring=True, threshold=32, middle=middle, early=middle - (late - middle), late=late)
    after = freeze.chance(date.fromordinal(middle.toordinal() + deviation))
    assert after == pytest.approx(0.1587, abs=0.02), station


def test_an_average_alone_gives_no_chance():
    freeze = Freeze(spring=True, threshold=32, middle=day("04-22"))
    assert freeze.chance(day("04-22")) is None


NORTH = FreezeDates(
    spring=((32, ((10, (5, 8)), (50, (4, 22)), (90, (4, 7)))), (28, ((50, (4, 8)),))),
    fall=((32, ((10, (9, 30)), (50, (10, 14)), (90, (10, 28)))),),
)
SOUTH = FreezeDates(spring=((32, ((50, (9, 20)),)),), fall=((32, ((50, (4, 30)),)),))


def test_northern_season():
    span = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
    assert [(one.spring, one.threshold, one.middle) for one in freezes(NORTH, span)] == [
        (True, 32, date(2026, 4, 22)),
        (True, 28, date(2026, 4, 8)),
        (False, 32, date(2026, 10, 14)),
    ]


@pytest.mark.parametrize(("year", "falls"), [(2000, 29), (2024, 29), (2026, 28), (2100, 28)])
def test_the_leap_day_falls_on_the_day_before_where_there_is_none(year: int, falls: int):
    """Else a mild garden's season cannot be reckoned in most years."""
    mild = FreezeDates(spring=((32, ((50, (2, 29)),)),))
    found = last_spring(mild, Span(first=date(year, 3, 1), last=date(year, 11, 30)))
    assert found is not None
    assert found.middle == date(year, 2, falls)


@pytest.mark.parametrize("begins", [date(2026, 8, 15), date(2026, 10, 1)])
def test_southern_season_has_its_fall_freeze_in_the_next_year(begins: date):
    span = Span(first=begins, last=date(2027, 6, 30))
    spring, fall = last_spring(SOUTH, span), first_fall(SOUTH, span)
    assert spring is not None
    assert fall is not None
    assert (spring.middle, fall.middle) == (date(2026, 9, 20), date(2027, 4, 30))


@pytest.mark.parametrize(
    ("first", "last", "dates", "spring", "fall"),
    [
        ("2025-10-01", "2026-09-30", NORTH, "2026-04-22", "2026-10-14"),
        ("2025-09-15", "2026-09-14", NORTH, "2026-04-22", "2026-10-14"),
        ("2025-11-01", "2026-08-31", NORTH, "2026-04-22", "2026-10-14"),
        ("2026-01-01", "2026-12-31", NORTH, "2026-04-22", "2026-10-14"),
        ("2026-06-01", "2027-05-31", NORTH, "2026-04-22", "2026-10-14"),
        ("2026-11-01", "2027-03-31", NORTH, "2027-04-22", "2027-10-14"),
        ("2026-07-01", "2027-06-30", SOUTH, "2026-09-20", "2027-04-30"),
        ("2026-03-01", "2027-02-28", SOUTH, "2026-09-20", "2027-04-30"),
        ("2026-01-01", "2026-12-31", SOUTH, "2025-09-20", "2026-04-30"),
        ("2025-10-01", "2026-09-30", FreezeDates(spring=NORTH.spring), "2026-04-22", None),
        ("2025-10-01", "2026-09-30", FreezeDates(fall=NORTH.fall), None, "2026-10-14"),
    ],
)
def test_a_season_has_the_freezes_of_the_growing_time_it_holds_most_of(
    first: str, last: str, dates: FreezeDates, spring: str | None, fall: str | None
):
    span = Span(first=date.fromisoformat(first), last=date.fromisoformat(last))
    found = [last_spring(dates, span), first_fall(dates, span)]
    assert [one and one.middle.isoformat() for one in found] == [spring, fall]


@pytest.mark.parametrize(
    ("dates", "day", "spring", "fall"),
    [
        (SOUTH, "2026-02-01", "2025-09-20", "2026-04-30"),
        (SOUTH, "2026-06-01", "2025-09-20", "2026-04-30"),
        (SOUTH, "2026-08-15", "2026-09-20", "2027-04-30"),
        (SOUTH, "2026-11-05", "2026-09-20", "2027-04-30"),
        (NORTH, "2026-01-05", "2026-04-22", "2026-10-14"),
        (NORTH, "2026-12-30", "2026-04-22", "2026-10-14"),
    ],
)
def test_what_begins_on_a_day_is_for_the_growing_time_it_leads_into(
    dates: FreezeDates, day: str, spring: str, fall: str
):
    """A season of a calendar year holds parts of two summers in the south, and one in the north."""
    calendar = Span(first=date(2026, 1, 1), last=date(2026, 12, 31))
    span = growing_span(dates, calendar, date.fromisoformat(day))
    found = [last_spring(dates, span), first_fall(dates, span)]
    assert [one and one.middle.isoformat() for one in found] == [spring, fall]


def test_what_begins_before_winter_is_held_against_that_winter():
    span = growing_span(NORTH, Span(first=date(2025, 9, 15), last=date(2026, 9, 14)), date(2025, 9, 25))
    fall = first_fall(NORTH, span)
    assert fall is not None
    assert fall.middle == date(2025, 10, 14)


def test_chance_falls_in_spring_and_rises_in_fall_day_by_day():
    for spring in (True, False):
        freeze = Freeze(
            spring=spring,
            threshold=32,
            middle=date(2026, 5, 1),
            early=date(2026, 4, 20),
            late=date(2026, 5, 20),
        )
        chances = [freeze.chance(date.fromordinal(date(2026, 3, 1).toordinal() + n)) for n in range(120)]
        told = [chance for chance in chances if chance is not None]
        assert len(told) == 120
        assert told == sorted(told, reverse=spring)


def test_a_day_after_the_middle_has_the_chance_of_the_later_side():
    """1.2816 standard deviations are 11 days before it and 19 after it; tables of the normal curve."""
    freeze = Freeze(
        spring=True, threshold=32, middle=date(2026, 5, 1), early=date(2026, 4, 20), late=date(2026, 5, 20)
    )
    chances = [freeze.chance(date(2026, *day)) for day in ((4, 30), (5, 1), (5, 2))]
    assert chances == pytest.approx([0.5464, 0.5, 0.4731], abs=1e-4)


@pytest.mark.parametrize(("spring", "told"), [(True, [1, 0, 0]), (False, [0, 1, 1])])
def test_where_all_the_days_told_are_one_it_comes_on_that_day(spring: bool, told: list[float]):
    one = date(2026, 5, 1)
    freeze = Freeze(spring=spring, threshold=32, middle=one, early=one, late=one)
    assert [freeze.chance(date(2026, *day)) for day in ((4, 30), (5, 1), (5, 2))] == told


@pytest.mark.parametrize(
    ("day", "middle"),
    [("2026-12-20", "2027-01-05"), ("2027-01-20", "2027-01-05"), ("2026-02-01", "2026-01-05")],
)
def test_a_first_freeze_after_new_year_is_that_of_the_winter_at_hand(day: str, middle: str):
    """As on warm coasts; the days are invented."""
    dates = FreezeDates(spring=((32, ((50, (2, 10)),)),), fall=((32, ((50, (1, 5)),)),))
    found = nearest_fall(dates, date.fromisoformat(day))
    assert found is not None
    assert found.middle == date.fromisoformat(middle)
