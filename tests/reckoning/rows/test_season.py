"""Which day of a season is the same as one of another year: for a season over new year as well."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tallybed.garden.garden import Garden, Season
from tallybed.garden.naming import CropName
from tallybed.garden.records.ledger import Weighing
from tallybed.garden.units import POUND, Weight
from tallybed.reading.folder.library import load_library
from tallybed.reckoning.rows.season import answer, same_day
from tallybed.reckoning.rows.verdicts import Verdict
from tallybed.reckoning.year import Years
from tests.reckoning.byhand import SPAN
from tests.reckoning.harvest.test_areas import BED, PATH
from tests.small_garden import read_garden, written

SUMMER = "{start: Mar 1, end: Nov 30}"
WINTER = "{start: Oct 1, end: Apr 30}"
CASES = (
    # the bounds, today, the day of the season that is named 2026
    (SUMMER, "2026-06-10", "2026-06-10"),
    (SUMMER, "2027-06-10", "2026-06-10"),
    (SUMMER, "2027-12-10", "2026-11-30"),
    (SUMMER, "2027-02-10", None),
    (SUMMER, "2028-02-29", None),
    ("{start: Mar 1, end: Oct 30}", "2027-10-31", "2026-10-30"),
    ("{start: Jan 1, end: Dec 31}", "2028-02-29", "2026-02-28"),
    (WINTER, "2028-01-10", "2027-01-10"),
    (WINTER, "2027-11-10", "2026-11-10"),
    # The summer after its end, which is no day before its beginning.
    (WINTER, "2027-07-01", "2027-04-30"),
    (WINTER, "2028-02-29", "2027-02-28"),
)


@pytest.mark.parametrize(
    ("pounds", "verdict"),
    [
        # Ordinary rows of carrots give 0.67 to 1.2 pounds a square foot, 1.02 in the middle (the library):
        # 12 pounds need about as much ground, 11.8 sq ft, and 20 at the least 16.7, which is a third more.
        (12, Verdict.SAME),
        (20, Verdict.MORE),
    ],
)
def test_a_season_stands_beside_rows_on_squares_and_path_together(pounds: int, verdict: Verdict) -> None:
    """Six squares and 6 sq ft of path: on the squares alone 12 pounds were more than rows give."""
    carrot = CropName(typed="carrot", slugs=("carrot",))
    row = Weighing(
        day=date(2026, 7, 1), crops=(carrot,), weight=Weight.of(pounds, POUND), squares=BED.squares
    )
    one = Season(name="2026", span=SPAN, ledger=(row,), plan=(), log=())
    garden = Garden(
        name="g", beds=(replace(BED, paths=PATH),), crops=tuple(load_library().crops.values()), seasons=(one,)
    )
    (year,) = Years(garden=garden, today=date(2026, 12, 5)).all
    found = answer(year)
    assert found is not None
    assert found.ground is not None
    assert [ground.square_feet for ground in found.grounds] == [6, 12]
    assert found.ground.square_feet == 12
    assert found.verdict is verdict


@pytest.mark.parametrize(("bounds", "today", "same"), CASES)
def test_the_same_day_of_an_earlier_season(bounds: str, today: str, same: str | None, tmp_path: Path) -> None:
    bed = f"name: T\nseason: {bounds}\nbeds: [{{name: b, length: 2 squares, width: 2 squares}}]\n"
    garden = read_garden(written(tmp_path, {"garden.yaml": bed, "2026/harvest.yaml": "[]\n"}))
    day = date.fromisoformat(today)
    year = Years(garden=garden, today=day).named("2026")
    assert year is not None
    found = same_day(year, day)
    assert (found and found.isoformat()) == same
