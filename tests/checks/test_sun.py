"""Crops in too little sun, and tall crops that take it: found where they are, else silent."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tallybed.checks.sun import shades_neighbours, too_little_sun
from tallybed.garden.findings import Finding, worded
from tallybed.reckoning.sun.needs import sun_of
from tallybed.reckoning.sun.scene import Light
from tallybed.reckoning.year import Year
from tests.pages.gardens import site_of, written

GARDEN = """\
name: Tiny
latitude: LATITUDE
season: {start: Mar 1, end: Oct 31}
seasons:
  2026: {closed: CLOSED}
beds:
  - {name: b, length: 4 squares, width: 3 squares, bearing: 90}
SURROUNDINGS"""
CORN_SOUTH = """\
- {crop: sweet-corn, tag: SC1, squares: A3:D3, sow: May 1, until: Sep 30}
- {crop: pepper-sweet, tag: PP1, squares: A2:D2, set out: May 10, until: Sep 30}
"""
FREEZES = "freeze dates: {last spring: Apr 25, first fall: Oct 5}\n"
CORN_NORTH = CORN_SOUTH.replace("A3:D3", "A1:D1")
WALL = "surroundings:\n  - {wall: the hall, bearing: 180, distance: 3 ft, width: 60 ft, height: HEIGHT}\n"


def _year(root: Path, plan: str, *, latitude: str = "45", around: str = "", closed: str = "no") -> Year:
    garden = GARDEN.replace("LATITUDE", latitude).replace("SURROUNDINGS", around).replace("CLOSED", closed)
    written(root, {"garden.yaml": garden, "2026/plan.yaml": plan})
    return site_of(root).all[-1]


def _shading(year: Year) -> list[Finding]:
    return [finding for _row, finding in shades_neighbours(year)]


def _dim(year: Year) -> list[Finding]:
    return [finding for _row, finding in too_little_sun(year)]


def test_corn_on_the_sunny_side_no_longer_passes_in_silence(tmp_path: Path) -> None:
    year = _year(tmp_path, CORN_SOUTH)
    (found,) = _shading(year)
    assert found.code == "shades-neighbours"
    assert re.fullmatch(
        r"SC1 \(sweet corn\) grows tall, and takes [0-9.]+ hours of direct sun a day"
        r" from PP1 \(sweet pepper\)",
        found.found,
    )
    assert "tall crops belong on the north side; `tallybed sun b --better`" in found.remedy
    assert _dim(year) == []


def test_of_several_that_a_tall_crop_shades_the_one_it_takes_most_from_is_named_first(tmp_path: Path) -> None:
    near = "- {crop: pepper-sweet, tag: PP2, squares: A2:D2, set out: May 10, until: Sep 30}\n"
    (found,) = _shading(_year(tmp_path, CORN_SOUTH.replace("A2:D2", "A1:D1") + near))
    assert found.found.index("PP2") < found.found.index("PP1"), "the row beside the corn loses most"


def test_what_takes_less_than_an_hour_is_not_told_however_little_sun_there_is(tmp_path: Path) -> None:
    """The wall leaves the peppers seven hours; corn to the north takes from them early and late alone."""
    plan = CORN_NORTH.replace("A2:D2", "A3:D3")
    year = _year(tmp_path, plan, around=WALL.replace("HEIGHT", "8 ft"))
    peppers = sun_of(year)["PP1"]
    assert 0.1 < peppers.to["SC1"] / peppers.days < 0.9
    assert peppers.sun / peppers.days < 8
    assert _shading(year) == []


def test_an_exchange_in_the_plan_of_a_coming_season_is_looked_for_there(tmp_path: Path) -> None:
    """Fails where the command that is named looks at the season that is over."""
    written(tmp_path, {"2025/log/2025-06-01-x.md": "---\ntitle: X\ndate: 2025-06-01\n---\nX.\n"})
    years = _year(tmp_path, CORN_SOUTH).years
    for day, option in ((date(2025, 11, 20), " --month 2026-07"), (date(2026, 5, 1), "")):
        (found,) = _shading(replace(years, today=day).all[-1])
        assert f"`tallybed sun b --better{option}` looks" in found.remedy


def test_an_exchange_is_looked_for_in_the_bed_that_holds_both(tmp_path: Path) -> None:
    """Fails where the command names the first bed of the corn, in which it stands alone."""
    plan = CORN_SOUTH.replace("A3:D3", "'a/A1, b/A3:D3'").replace("A2:D2", "b/A2:D2")
    garden = GARDEN.replace("LATITUDE", "45").replace("SURROUNDINGS", "").replace("CLOSED", "no")
    garden += "  - {name: a, length: 1 square, width: 1 square, bearing: 90}\n"
    written(tmp_path, {"garden.yaml": garden, "2026/plan.yaml": plan})
    (found,) = _shading(site_of(tmp_path).all[-1])
    assert "`tallybed sun b --better` looks" in found.remedy


def test_between_two_rows_of_corn_a_fruit_crop_gets_too_little(tmp_path: Path) -> None:
    more = "- {crop: sweet-corn, tag: SC2, squares: A1:D1, sow: May 1, until: Sep 30}\n"
    plan = CORN_SOUTH.replace("set out: May 10", "set out: Jun 20") + more
    (short,) = _dim(_year(tmp_path, plan))
    assert short.code == "too-little-sun"
    assert "SC1 (sweet corn) takes " in short.found
    assert "SC2 (sweet corn) takes " in short.found
    assert short.found.index("SC1") < short.found.index("SC2"), "the corn to the south takes most"
    assert "6 to 8 hours" in worded(short)
    assert "a source of weight B" in short.expected


def test_where_summer_has_no_night_a_shadow_of_hours_does_no_harm(tmp_path: Path) -> None:
    # At 66 degrees north the sun of June hardly sets: twenty hours and more of it reach any bed.
    plan = CORN_SOUTH.replace("May 1,", "Jun 1,").replace("May 10,", "Jun 5,").replace("Sep 30", "Jul 20")
    assert _shading(_year(tmp_path, plan, latitude="66")) == []


def test_in_the_southern_hemisphere_the_other_side_is_the_sunny_one(tmp_path: Path) -> None:
    plan = CORN_NORTH.replace("May 1,", "Mar 2,").replace("May 10,", "Mar 5,")
    (found,) = _shading(_year(tmp_path, plan, latitude="-35"))
    assert "tall crops belong on the south side" in found.remedy


def test_between_the_tropics_no_side_is_called_the_sunny_one(tmp_path: Path) -> None:
    assert [
        one for one in _shading(_year(tmp_path, CORN_SOUTH, latitude="1")) if "belong" in one.remedy
    ] == []
    (found,) = _shading(_year(tmp_path / "north", CORN_NORTH, latitude="-1"))
    assert "no side is right all year" in found.remedy


def test_low_crops_are_told_of_by_nobody_however_much_they_shade(tmp_path: Path) -> None:
    plan = """\
- {crop: onion-bulb, squares: A3:D3, set out: Apr 4, until: Aug 30}
- {crop: carrot, squares: A2:D2, sow: Apr 4, until: Aug 30}
"""
    assert _shading(_year(tmp_path, plan)) == []


@pytest.mark.parametrize(
    ("row", "told"),
    [
        # Garlic only roots before winter; the year after it stands by itself.
        ("crop: garlic, tag: GA1, squares: A2:D2, set out: Sep 20", False),
        ("crop: garlic, tag: GA1, squares: A2:D2, carried from: 2025", True),
        # Green ones, cleared before winter, grow in this season; so does spinach, which is cut in fall.
        ("crop: garlic, tag: GA1, squares: A2:D2, set out: Sep 20, until: Oct 25", True),
        ("crop: spinach, tag: SP1, squares: A2:D2, sow: Sep 1", True),
    ],
)
def test_what_only_roots_before_winter_is_not_told_to_want_sun(tmp_path: Path, row: str, told: bool) -> None:
    corn = "- {crop: sweet-corn, tag: SC1, squares: ROW, sow: May 1}\n"
    plan = (
        corn.replace("ROW", "A3:D3") + corn.replace("ROW", "A1:D1").replace("SC1", "SC2") + f"- {{{row}}}\n"
    )
    year = _year(tmp_path, plan, around=FREEZES)
    assert bool(_shading(year)) is told
    assert told or _dim(year) == []


@pytest.mark.parametrize(("hours", "told"), [(5.94, True), (5.96, False)])
def test_hours_are_held_against_the_need_as_they_are_told(tmp_path: Path, hours: float, told: bool) -> None:
    """Nobody is told of 6 hours where 6 to 8 are needed."""
    year = _year(tmp_path, "- {crop: pepper-sweet, tag: PP1, squares: A2, set out: May 10}\n")
    year.kept("sun of plantings", lambda: {"PP1": Light(days=100, open=100 * hours)})
    assert [one.found.split("; ")[0] for one in _dim(year)] == (
        ["PP1 (sweet pepper) gets 5.9 hours of direct sun a day"] if told else []
    )


def test_what_takes_next_to_nothing_is_not_named(tmp_path: Path) -> None:
    """Fails where a neighbour "takes 0 hours"."""
    year = _year(tmp_path, CORN_SOUTH)
    light = Light(days=100, open=1000, lost=500, around=20, to={"SC1": 498, "PP1": 4}, to_things={"a hut": 4})
    year.kept("sun of plantings", lambda: {"PP1": light})
    assert [one.found.partition("; ")[2] for one in _dim(year)] == ["SC1 (sweet corn) takes 5 hours"]


@pytest.mark.parametrize(("height", "told"), [("30 ft", True), ("2 ft", False)])
def test_a_wall_that_takes_the_sun_is_named_with_its_hours(tmp_path: Path, height: str, told: bool) -> None:
    plan = "- {crop: pepper-sweet, tag: PP1, squares: A2:D2, set out: May 10, until: Sep 30}\n"
    found = _dim(_year(tmp_path, plan, around=WALL.replace("HEIGHT", height)))
    assert bool(found) is told
    assert all("; the hall takes " in one.found for one in found)


def test_nothing_is_found_without_a_latitude_or_in_a_closed_season(tmp_path: Path) -> None:
    year = _year(tmp_path / "a", CORN_SOUTH, closed="yes")
    assert (_shading(year), _dim(year)) == ([], [])
    written(
        tmp_path / "b", {"garden.yaml": "name: T\nbeds: [{name: b, length: 4 squares, width: 3 squares}]\n"}
    )
    year = site_of(written(tmp_path / "b", {"2026/plan.yaml": CORN_SOUTH})).all[-1]
    assert (_shading(year), _dim(year)) == ([], [])
