"""Which day of a season is the same as one of another year: for a season over new year as well."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.rows.season import same_day
from tallybed.reckoning.year import Years

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


@pytest.mark.parametrize(("bounds", "today", "same"), CASES)
def test_the_same_day_of_an_earlier_season(bounds: str, today: str, same: str | None, tmp_path: Path) -> None:
    content = tmp_path / "content"
    (content / "2026").mkdir(parents=True)
    (content / "garden.yaml").write_text(
        f"name: T\nseason: {bounds}\nbeds: [{{name: b, length: 2 squares, width: 2 squares}}]\n"
    )
    (content / "2026" / "harvest.yaml").write_text("[]\n")
    garden = read(tmp_path).garden
    assert garden is not None
    day = date.fromisoformat(today)
    year = Years(garden=garden, today=day).named("2026")
    assert year is not None
    found = same_day(year, day)
    assert (found and found.isoformat()) == same
