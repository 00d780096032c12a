"""Days to plant a crop, as its page tells them: tender crops, winter crops, bulbs and what bears in fall."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.garden.days import Span
from tallybed.garden.garden import FreezeDates
from tallybed.pages.care.growing import ready_from
from tallybed.reading.folder.library import load_library
from tallybed.reckoning.calendar.windows.windows import window
from tallybed.reckoning.year import Years
from tests.pages.gardens import Parsed, html_of, only, written
from tests.small_garden import read_garden

GARDEN = """\
name: Two Plank Garden
latitude: 45.5
longitude: -90
time zone: America/Chicago
season: {start: Mar 1, end: Nov 30}
freeze dates:
  last spring: {10%: May 15, 50%: May 1, 90%: Apr 17}
  first fall: {10%: Sep 26, 50%: Oct 10, 90%: Oct 24}
beds:
  - {name: front, length: 4 squares, width: 2 squares}
"""
PLAN = """\
- {crop: tomato-indeterminate, squares: A1:B1, set out: May 20, until: Sep 30, plants: 1}
- {crop: garlic, squares: C1, set out: Oct 12}
- {crop: onion-bulb, squares: D1, set out: Apr 12, until: Aug 20}
- {crop: brussels-sprouts, squares: A2:B2, set out: Jun 10, until: Nov 10, plants: 1}
"""


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Parsed:
    files = {"garden.yaml": GARDEN, "2026/plan.yaml": PLAN}
    return html_of(written(Path(tmp_path_factory.mktemp("garden")), files))


def rows(page: BeautifulSoup) -> dict[str, str]:
    table = only(page, "table#windows")
    cells = [
        [" ".join(cell.get_text(" ").split()) for cell in row.find_all(["th", "td"])] for row in table("tr")
    ]
    return {row[0]: row[1] for row in cells[1:]}


def test_a_tender_crop_is_told_from_an_even_chance_to_one_in_ten(pages: Parsed) -> None:
    told = rows(pages["crops/tomato-indeterminate/index.html"])
    assert told["Plant in spring, at a risk"] == "from 1 May: a freeze still follows in one year of two"
    assert told["Plant in spring, safely"] == "from 15 May: a freeze still follows in one year of ten"
    assert told["Planted in this garden"] == "20 May 2026"


def test_garlic_goes_in_before_winter_and_is_dug_in_the_next_summer(pages: Parsed) -> None:
    # 0 to 5 weeks after 10 October; 8 to 13.5 weeks (94 or 95 days) after 1 May of the next year.
    told = rows(pages["crops/garlic/index.html"])
    assert told == {
        "Plant before winter": "10 October to 14 November",
        "Harvest if planted before winter": "26 June 2027 to 3 August 2027",
    }


def test_bulb_onions_are_bounded_by_the_length_of_the_day(pages: Parsed) -> None:
    # At 45.5 degrees the sun's middle is up for 14 hours from about 29 April on (NOAA's equations; from
    # memory).
    page = pages["crops/onion-bulb/index.html"]
    told = rows(page)
    assert told["Plant at the latest"] in {
        f"{day} April, as long-day types begin to bulb" for day in (28, 29, 30)
    }
    assert "14 hours for a long-day type" in page.get_text()
    assert not [name for name in told if "counted back" in name]


def test_bulb_onions_near_the_equator_have_no_last_day(tmp_path: Path) -> None:
    """At 5 degrees days have 11.7 to 12.3 hours (NOAA's equations; from memory), and no freeze is told."""
    place = GARDEN.split("freeze dates")[0].replace("latitude: 45.5", "latitude: -5")
    place += "beds:\n  - {name: front, length: 4 squares, width: 2 squares}\n"
    plan = "- {crop: onion-bulb, squares: D1, set out: Apr 12, until: Aug 20}\n"
    page = html_of(written(tmp_path, {"garden.yaml": place, "2026/plan.yaml": plan}))[
        "crops/onion-bulb/index.html"
    ]
    told = rows(page)
    assert "Plant at the latest" not in told
    assert told["Short-day types begin to bulb"] == "in any month: the shortest day has 11.7 hours"
    assert told["Long-day types begin to bulb"] == "never here: the longest day has 12.3 hours"
    assert "freeze dates" not in page.get_text()


def short_summer(tmp_path: Path) -> Parsed:
    """Pages of a garden with 76 days between its freezes, as by the polar circle."""
    place = GARDEN.split("latitude")[0] + "latitude: 67\nseason: {start: May 1, end: Sep 10}\n"
    place += "freeze dates: {last spring: Jun 10, first fall: Aug 25}\n"
    place += "beds:\n  - {name: front, length: 4 squares, width: 2 squares}\n"
    plan = "- {crop: tomato-determinate, squares: A1, set out: Jun 15}\n"
    plan += "- {crop: potato, squares: B1, sow: May 14}\n- {crop: radish, squares: C1, sow: Jun 1}\n"
    plan += "- {crop: pumpkin, squares: D1, sow: Jun 20}\n"
    return html_of(written(tmp_path, {"garden.yaml": place, "2026/plan.yaml": plan}))


def test_a_summer_too_short_for_a_crop_has_no_days_for_it(tmp_path: Path) -> None:
    """Fails where tomatoes go in from 10 June and, two rows below, on 24 May at the latest."""
    pages = short_summer(tmp_path)
    assert rows(pages["crops/tomato-determinate/index.html"]) == {
        "Plant": "no day leaves it time: it can go in from 10 June on, and would have to by 24 May"
    }
    # Its 110 days and four weeks more lead to a day before the season: it has no time all the more.
    assert rows(pages["crops/pumpkin/index.html"]) == {
        "Sow": "no day leaves it time: it can go in from 17 June on, and would have to by 9 April"
    }
    assert "at the latest" in " ".join(rows(pages["crops/radish/index.html"]))


def test_spring_ends_where_too_little_time_is_left(tmp_path: Path) -> None:
    """Its spring weeks last until 27 May, and 14 weeks before the first fall freeze is 19 May."""
    page = short_summer(tmp_path)["crops/potato/index.html"]
    told = rows(page)
    assert told["Plant in spring"] == "13 May to 19 May"
    assert not [name for name in told if "fall" in name]
    assert "too little time is left before the first fall freeze" in page.get_text()


def test_brussels_sprouts_are_a_fall_crop(pages: Parsed) -> None:
    # 20 to 13.3 weeks before 10 October; the harvest not before two weeks before it.
    told = rows(pages["crops/brussels-sprouts/index.html"])
    assert told["Plant for fall"] == "23 May to 9 July"
    assert told["First harvest if planted for fall"].startswith("26 September")
    assert "Plant in spring" not in told


GULF = FreezeDates(spring=((32, ((50, (2, 18)),)),), fall=((32, ((50, (12, 7)),)),), latitude=Fraction(30))
"""292 days lie between the freezes, as on the Gulf coast (from memory)."""
WHOLE = Span(first=date(2026, 1, 1), last=date(2026, 12, 31))


@pytest.mark.parametrize(
    ("slug", "all_winter"),
    [("carrot", True), ("garlic", False), ("brussels-sprouts", False), ("potato", False)],
)
def test_what_goes_in_all_winter_has_no_latest_day(slug: str, all_winter: bool) -> None:
    """Where there is hardly any winter; not at 45 degrees."""
    found = window(load_library().crops[slug], GULF, WHOLE)
    assert found.all_winter is all_winter
    assert (found.last is None) is (all_winter or slug == "garlic")
    north = window(load_library().crops[slug], replace(GULF, latitude=Fraction(45)), WHOLE)
    assert not north.all_winter


def test_a_calendar_year_in_the_south_has_its_own_spring(tmp_path: Path) -> None:
    """Else in January 2026 a gardener in Tasmania is told to sow in September 2025."""
    garden = (
        GARDEN.replace("45.5", "-42.2")
        .replace("{start: Mar 1, end: Nov 30}", "{start: Jan 1, end: Dec 31}")
        .replace("{10%: May 15, 50%: May 1, 90%: Apr 17}", "{10%: Nov 2, 50%: Oct 12, 90%: Sep 20}")
        .replace("{10%: Sep 26, 50%: Oct 10, 90%: Oct 24}", "{10%: Apr 12, 50%: May 3, 90%: May 25}")
    )
    plan = "- {crop: kale, squares: A1, set out: Feb 1}\n"
    pages = html_of(written(tmp_path, {"garden.yaml": garden, "2026/plan.yaml": plan}))
    kale = rows(pages["crops/kale/index.html"])
    assert (kale["Sow in spring"], kale["Sow for fall, at the latest"]) == (
        "7 September to 18 September",
        "2 March",
    )
    assert kale["First harvest if sown in spring"] == "6 November to 17 November"
    tomato = rows(pages["crops/tomato-determinate/index.html"])
    assert tomato["Plant in spring, safely"].startswith("from 2 November: ")
    assert tomato["Sow indoors"] == "21 August to 21 September"


def test_a_crop_of_the_gardens_own_is_not_said_to_grow_in_winter() -> None:
    """Nobody tells how hardy it is: it may be a pepper as well as a leek."""
    carrot = load_library().crops["carrot"]
    own = replace(carrot, chosen=tuple(one for one in carrot.chosen if one.fact != "hardiness"))
    assert (window(carrot, GULF, WHOLE).all_winter, window(own, GULF, WHOLE).all_winter) == (True, False)


def test_no_harvest_is_told_of_what_a_freeze_kills_before(tmp_path: Path) -> None:
    """Sweet potatoes take 130 days (the library), more than lie between the middle of June and October."""
    garden = read_garden(written(tmp_path, {"garden.yaml": GARDEN, "2026/plan.yaml": "[]\n"}))
    year = Years(garden=garden, today=date(2026, 5, 1)).all[-1]
    assert ready_from(year, garden.crop("sweet-potato"), date(2026, 6, 15)) is None
    assert ready_from(year, garden.crop("bean-bush"), date(2026, 6, 15)) == date(2026, 8, 9)
    assert ready_from(year, garden.crop("leek"), date(2026, 6, 25)) is not None, (
        "a freeze does not kill leeks"
    )
