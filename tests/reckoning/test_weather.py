"""What a season's weather comes to: freezes, months, means, and what nobody measured."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.days import Span
from tallybed.garden.records.weather import WeatherDay, celsius, fahrenheit
from tallybed.garden.units import INCH, Length
from tallybed.reckoning.weather import SeasonWeather, Spell, season_weather
from tests.pages.gardens import site_of, written

NORTH = """\
name: A garden
latitude: 41
season: {start: Mar 1, end: Nov 30}
freeze dates: {last spring: Apr 20, first fall: Oct 15}
beds: [{name: b, length: 2 squares, width: 1 square}]
"""
SOUTH = NORTH.replace("41", "-43").replace("start: Mar 1, end: Nov 30", "start: Jan 1, end: Dec 31")
SOUTH = SOUTH.replace("Apr 20, first fall: Oct 15", "Oct 20, first fall: Apr 15")
NOWHERE = NORTH.replace("latitude: 41\n", "").replace(
    "freeze dates: {last spring: Apr 20, first fall: Oct 15}\n", ""
)


def of(folder: Path, rows: str, garden: str = NORTH, until: str = "2026-11-30") -> SeasonWeather | None:
    texts = {
        "garden.yaml": garden,
        "2026/harvest.yaml": f"- {{date: {until}, crop: kale, weight: 1 oz}}\n",
        "2026/weather.csv": f"date,low F,high F,rain in\n{rows}",
    }
    return season_weather(site_of(written(folder, texts)).all[-1])


def lows(*told: tuple[str, int]) -> str:
    return "".join(f"2026-{day},{low},,\n" for day, low in told)


@pytest.mark.parametrize(
    ("garden", "rows", "last", "first", "between"),
    [
        # 32 °F is a freeze, 33 is none.
        (
            NORTH,
            lows(("04-10", 30), ("05-09", 32), ("05-10", 33), ("10-05", 33), ("10-06", 32)),
            "05-09",
            "10-06",
            150,
        ),
        (NORTH, lows(("04-10", 30)), "04-10", None, None),
        (NORTH, lows(("10-06", 30), ("11-06", 20)), None, "10-06", None),
        (NORTH, lows(("07-01", 60)), None, None, None),
        # South of the equator a calendar year has its fall before its spring.
        (SOUTH, lows(("04-30", 31), ("07-01", 25), ("10-12", 30)), "10-12", "04-30", None),
        # Where nobody told when it freezes, the middle of the season parts spring from fall.
        (NOWHERE, lows(("04-10", 30), ("10-06", 30)), "04-10", "10-06", 179),
    ],
)
def test_freezes_of_spring_and_fall(
    garden: str, rows: str, last: str | None, first: str | None, between: int | None, tmp_path: Path
) -> None:
    """The public reads from it how long tender plants had."""
    found = of(tmp_path, rows, garden)
    assert found is not None
    told = [one and f"{one.day:%m-%d}" for one in (found.last_freeze, found.first_freeze)]
    assert told == [last, first]
    assert found.between == between


@pytest.mark.parametrize(
    ("until", "days", "past"), [("2026-05-20", ["04-10"], False), ("2026-11-30", ["04-10", "09-30"], True)]
)
def test_days_after_the_newest_record_are_not_known_yet(
    until: str, days: list[str], past: bool, tmp_path: Path
) -> None:
    """Else a site built as of May tells the weather of September."""
    found = of(tmp_path, lows(("04-10", 30), ("09-30", 31)), until=until)
    assert found is not None
    assert [f"{one.day:%m-%d}" for one in found.whole.days] == days
    assert found.past_spring is past


def test_a_season_without_a_day_measured_has_no_weather(tmp_path: Path) -> None:
    assert of(tmp_path, lows(("09-30", 31)), until="2026-05-20") is None


def test_months_add_up_and_tell_what_is_missing(tmp_path: Path) -> None:
    """A day's mean is halfway from its low to its high: FAO Irrigation and Drainage Paper 56, equation 9."""
    rows = (
        "2026-03-01,20,40,0.5\n2026-03-02,30,52,0\n2026-03-31,10,,\n2026-04-02,40,60,T\n2026-04-03,,,1.25\n"
    )
    found = of(tmp_path, rows)
    assert found is not None
    march, april = found.whole.months[:2]
    assert (march[1].coldest or rows).day == date(2026, 3, 31)  # type: ignore[union-attr]
    assert (march[1].hottest or rows).day == date(2026, 3, 2)  # type: ignore[union-attr]
    assert march[1].mean == Fraction(71, 2), "(30 + 41) / 2"
    assert len(march[1].freezes) == 3
    assert march[1].rain == Length.of(Fraction(1, 2), INCH)
    assert (march[1].without_low, march[1].without_rain) == (28, 29)
    assert april[1].rain == Length.of(Fraction(5, 4), INCH)


def test_days_that_wait_to_be_entered_are_not_missing_while_the_season_runs(tmp_path: Path) -> None:
    """The gauge is read into the file once a week; a season that is over has missing days to its end."""
    found = of(tmp_path, lows(("03-01", 30), ("03-03", 31)), until="2026-05-20")
    assert found is not None
    assert (found.whole.span.last, found.whole.without_low) == (date(2026, 3, 3), 1)


spells: st.SearchStrategy[Spell] = st.builds(
    lambda lows: Spell(
        span=Span(first=date(2026, 3, 1), last=date(2026, 3, 1) + timedelta(days=len(lows) - 1)),
        days=tuple(
            WeatherDay(
                day=date(2026, 3, 1) + timedelta(days=at),
                low=Fraction(low),
                high=Fraction(low + 10),
                rain=Length.of(abs(low), INCH),
            )
            for at, low in enumerate(lows)
            if low is not None
        ),
    ),
    st.lists(st.none() | st.integers(-40, 90), min_size=1, max_size=120),
)


@given(spells)
def test_months_of_a_spell_are_all_of_it(spell: Spell) -> None:
    """Else the table's months do not come to its last row."""
    parts = [part for _month, part in spell.months]
    assert sum(part.span.days for part in parts) == spell.span.days
    sums: tuple[Callable[[Spell], int], ...] = (
        lambda one: len(one.freezes),
        lambda one: one.without_low,
        lambda one: one.without_rain,
    )
    for of_it in sums:
        assert sum(map(of_it, parts)) == of_it(spell)
    rains = [part.rain for part in parts if part.rain is not None]
    assert sum(rains, Length()) == (spell.rain or Length())
    known = [part.coldest.low for part in parts if part.coldest and part.coldest.low is not None]
    assert min(known, default=None) == (spell.coldest.low if spell.coldest else None)


@given(st.fractions(min_value=-100, max_value=150))
def test_degrees_lead_back(value: Fraction) -> None:
    """Fixed points of both scales: 0 °C is 32 °F, 100 °C is 212 °F, −40 is one on both (NIST SP 811, B.8)."""
    assert fahrenheit(celsius(value)) == value
    assert [fahrenheit(Fraction(one)) for one in (0, 100, -40)] == [32, 212, -40]
