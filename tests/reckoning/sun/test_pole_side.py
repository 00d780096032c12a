"""The oldest rule of the plan, out of the computation: tall crops on the side away from the sun.

Ten beds of rows (at the desk five) are thrown together at random for each hemisphere, one row tall
and three low. Moved to the pole side, the tall row never lowers the sun that the bed's crops
get over the season. On single days round midsummer it may: the sun then rises and sets
on the pole side. For rows of about one height the rule does not hold, and that is shown.
"""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

import pytest

from tallybed.reckoning.sun.bodies import Body, Spot
from tallybed.reckoning.sun.hours import SeasonSun
from tests.laws import tries
from tests.reckoning.sun.beds import bed_of, body, season, spot

COLUMNS, ROWS, BEDS = 4, 4, tries(10)
SEASONS = {45: (date(2026, 3, 15), date(2026, 10, 31)), -35: (date(2026, 9, 1), date(2027, 4, 30))}


def _rows(heights: list[float], days: tuple[date, date]) -> tuple[list[Body], list[Spot]]:
    """Return a bed with one crop in each row; letters run east, so row 1 is the north row."""
    bodies, spots = [], []
    for row, height in enumerate(heights):
        bodies.append(
            body(f"R{height:.1f}", (0.0, 12.0 * COLUMNS, 12.0 * row, 12.0 * row + 12), height, days)
        )
        spots += [spot(column, row, f"R{height:.1f}", height, days) for column in range(COLUMNS)]
    return bodies, spots


def _sun(latitude: int, heights: list[float]) -> SeasonSun:
    return season(bed_of(COLUMNS, ROWS), latitude, *_rows(heights, SEASONS[latitude]))


def _total(found: SeasonSun, day: date | None = None) -> float:
    return sum(one.light.sun for one in (found.on(day) if day else found.whole).spots)


@pytest.mark.parametrize("latitude", sorted(SEASONS))
def test_the_tallest_row_on_the_pole_side_never_lowers_the_seasons_sun(latitude: int) -> None:
    random = Random(latitude)
    first, last = SEASONS[latitude]
    solstice = date(2026, 6, 21) if latitude > 0 else date(2026, 12, 21)
    lower: list[date] = []
    for _bed in range(BEDS):
        tallest, others = random.uniform(48, 84), [random.uniform(6, 36) for _row in range(ROWS - 1)]
        away = random.randint(1, ROWS - 1)
        moved = [tallest, *others] if latitude > 0 else [*others, tallest]
        lies = others[:]
        lies.insert(away if latitude > 0 else ROWS - 1 - away, tallest)
        before, after = _sun(latitude, lies), _sun(latitude, moved)
        assert _total(after) >= _total(before) - 0.5, (lies, moved)
        lower += _lowered(before, after, (first, last))
    print(f"{latitude}°: lowered on {len(lower)} of the days looked at: {_told(lower)}")
    assert all(abs((day - solstice).days) < 93 for day in lower), "from the equinox on the sun stays away"


def _lowered(before: SeasonSun, after: SeasonSun, span: tuple[date, date]) -> list[date]:
    days = [span[0] + timedelta(days=step) for step in range(0, (span[1] - span[0]).days + 1, 3)]
    return [day for day in days if _total(after, day) < _total(before, day) - 1e-6]


def _told(days: list[date]) -> str:
    return f"{min(days)} to {max(days)}" if days else "none"


def test_for_rows_of_about_one_height_the_rule_does_not_hold() -> None:
    """At 45° N a row little taller than the next one shades it longer from the north, in the
    mornings and evenings of summer, than from the south, where the noon sun comes over it.
    """
    south, north = _sun(45, [47, 48, 54, 55]), _sun(45, [55, 47, 48, 54])
    assert _total(north) < _total(south)
    lower = _lowered(south, north, SEASONS[45])
    print(f"rows of about one height: lowered from {_told(lower)}")
    assert min(lower) > date(2026, 3, 20)
    assert max(lower) < date(2026, 9, 23)
