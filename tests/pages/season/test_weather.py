"""The page of a season's weather, and where else it is told: the season's page, the bulletin, the data."""

from __future__ import annotations

import csv
import io
from datetime import date
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.garden.days import Week
from tallybed.pages.season.bulletins import week_facts, week_text
from tallybed.publishing.files.data_package import data_files
from tests.pages.gardens import html_of, site_of, written

GARDEN = """\
name: A garden
latitude: 41
units: {units}
season: {{start: Mar 1, end: Nov 30}}
freeze dates: {{last spring: Apr 20, first fall: Oct 15}}
beds: [{{name: b, length: 2 squares, width: 1 square}}]
"""
WEATHER = """\
date,low F,high F,rain in
2026-03-01,20,40,0.5
2026-04-22,27,50,0
2026-04-23,41,60,0.25
2026-07-04,70,95,T
2026-10-12,31.5,52,
2026-11-30,-4,12,1
"""
NEWEST = "- {date: 2026-11-30, crop: kale, weight: 1 oz}\n"

pytestmark = pytest.mark.usefixtures("few_crops")


def laid_out(folder: Path, weather: str = WEATHER, *, units: str = "pounds") -> Path:
    texts = {
        "garden.yaml": GARDEN.format(units=units),
        "2026/harvest.yaml": NEWEST,
        "2026/weather.csv": weather,
    }
    return written(folder, texts)


def words(page: BeautifulSoup, selector: str) -> str:
    return " ".join(" ".join(one.get_text(" ").split()) for one in page.select(selector))


def cells(page: BeautifulSoup) -> list[list[str]]:
    rows = page.select("#months tr")
    return [[one.get_text(" ", strip=True) for one in row.select("th, td")] for row in rows]


def test_freezes_stand_beside_the_average_dates(tmp_path: Path) -> None:
    """22 April is two days after 20 April, 12 October three before the 15th, and 173 days after the first."""
    page = html_of(laid_out(tmp_path))["2026/weather/index.html"]
    head = words(page, ".head")
    assert (
        "The last freeze of spring was on 22 April (27 °F), two days after the average of 20 April." in head
    )
    assert "The first of fall was on 12 October (32 °F), three days before" in head
    assert "173 days lay between" in head
    assert "coldest on 30 November (−4 °F) and hottest on 4 July (95 °F)" in head
    assert "1.75 in of rain" in head


def test_in_the_south_fall_comes_first_and_each_has_its_own_average(tmp_path: Path) -> None:
    """A calendar year there holds the fall of one growing time and the spring of the next."""
    weather = "date,low C\n2026-04-06,-0.4\n2026-07-01,-3\n2026-11-06,-0.3\n2026-11-30,5\n"
    root = laid_out(tmp_path, weather, units="kilograms")
    path = root / "content/garden.yaml"
    text = (
        path.read_text(encoding="utf-8")
        .replace("41", "-45")
        .replace("start: Mar 1, end: Nov 30", "start: Jan 1, end: Dec 31")
    )
    path.write_text(
        text.replace("Apr 20, first fall: Oct 15", "Oct 25, first fall: Apr 20"), encoding="utf-8"
    )
    head = words(html_of(root)["2026/weather/index.html"], ".head")
    assert (
        "first freeze of fall was on 6 April (−0.4 °C), 14 days before the average of 20 April. The last"
        in head
    )
    assert (
        "last freeze of spring was on 6 November (−0.3 °C), 12 days after the average of 25 October." in head
    )


def test_each_month_has_its_row(tmp_path: Path) -> None:
    rows = cells(html_of(laid_out(tmp_path))["2026/weather/index.html"])
    assert rows[0] == ["Month", "Low", "Mean", "High", "Freezes", "Rain"]
    assert rows[2] == ["April", "27", "45", "60", "1", "0.25"], "(38.5 + 50.5) / 2 = 44.5, away from zero"
    assert rows[3] == ["May", "", "", "", "", ""], "nobody measured"
    assert rows[-1] == ["In all", "−4", "41", "95", "4", "1.75"]


def test_metric_gardens_read_their_own_units(tmp_path: Path) -> None:
    """27 °F is −2.8 °C, and a quarter of an inch 6.35 mm (NIST SP 811, appendix B.8)."""
    page = html_of(laid_out(tmp_path, units="kilograms"))["2026/weather/index.html"]
    assert "22 April (−2.8 °C)" in words(page, ".head")
    assert cells(page)[2] == ["April", "−2.8", "6.9", "15.6", "1", "6"]
    assert "rain in millimetres" in words(page, "#months caption")


@pytest.mark.parametrize(
    ("weather", "heads"),
    [
        ("date,rain in\n2026-05-01,0.5\n", ["Month", "Rain"]),
        ("date,low F\n2026-08-01,40\n", ["Month", "Low", "Freezes"]),
        ("date,high F\n2026-05-01,40\n", ["Month", "High"]),
    ],
)
def test_what_nobody_measures_has_no_column_and_no_sentence(
    weather: str, heads: list[str], tmp_path: Path
) -> None:
    """Else a garden with a rain gauge alone is told that it never froze."""
    page = html_of(laid_out(tmp_path, weather))["2026/weather/index.html"]
    assert cells(page)[0] == heads
    assert ("freeze" in words(page, ".head")) is ("Freezes" in heads)
    assert ("rain" in words(page, ".head, .note").replace("no measure of rain", "rain")) is ("Rain" in heads)


def test_missing_days_are_told(tmp_path: Path) -> None:
    page = html_of(laid_out(tmp_path))["2026/weather/index.html"]
    # 275 days from 1 March to 30 November, of which six were measured, and rain on five.
    assert "Of the 275 days from 1 March to 30 November 2026, 269 have no lowest" in words(page, ".note")
    assert "270 have no measure of rain" in words(page, ".note")


def test_a_season_without_weather_has_no_page_and_no_link(tmp_path: Path) -> None:
    texts = {"garden.yaml": GARDEN.format(units="pounds"), "2026/harvest.yaml": NEWEST}
    pages = html_of(written(tmp_path, texts))
    assert "2026/weather/index.html" not in pages
    assert "weather" not in str(pages["2026/index.html"].select("main a")).lower()


def test_the_season_leads_there(tmp_path: Path) -> None:
    page = html_of(laid_out(tmp_path))["2026/index.html"]
    (link,) = page.select('main a[href="weather/index.html"]')
    said = words(page, "#papers ~ div li")
    assert link.get_text() == "Weather of 2026"
    assert "Last freeze 22 April, first freeze 12 October, 1.75 in of rain." in said


@pytest.mark.parametrize(
    ("weather", "said"),
    [
        ("2026-11-23,30,44,0.5\n2026-11-24,35,44,0\n", "It froze on one night, down to 30 degrees"),
        ("2026-11-30,-4,12,1\n", "down to minus 4 degrees, and 1 inch of rain fell."),
        ("2026-11-30,40,52,0.75\n", "It was between 40 and 52 degrees, and 0.75 inches of rain fell."),
        ("2026-11-30,40,52,0\n", "It was between 40 and 52 degrees, and no rain fell."),
        ("2026-11-30,40,52,\n", "It was between 40 and 52 degrees."),
        ("2026-11-30,,,0.001\n", "Next to no rain fell."),
        ("2026-11-30,40,,\n", "It went down to 40 degrees."),
        ("2026-11-29,40,52,0\n", ""),
    ],
)
def test_the_bulletin_tells_the_weather_of_its_days(weather: str, said: str, tmp_path: Path) -> None:
    """Week 49 of 2026 has one day of the season: Monday 30 November (ISO 8601)."""
    folder = laid_out(tmp_path, f"date,low F,high F,rain in\n{weather}")
    (year,) = site_of(folder).all
    week = Week.of(date(2026, 11, 24) if "11-23" in weather else date(2026, 11, 30))
    text = week_text(year, week_facts(year, week)).text
    assert said in text
    assert bool(said) is any(word in text for word in ("degrees", "rain"))


def test_the_data_keeps_numbers_below_zero_numbers(tmp_path: Path) -> None:
    """A sign for words before them would make a column of temperatures one of texts."""
    (year,) = site_of(laid_out(tmp_path)).all
    data = data_files(year)["2026/data/weather.csv"].decode()
    rows = list(csv.DictReader(io.StringIO(data)))
    assert rows[1] == {
        "date": "2026-04-22",
        "low_c": "-2.777778",
        "high_c": "10",
        "low_f": "27",
        "high_f": "50",
        "rain_mm": "0",
    }
    assert (rows[4]["low_f"], rows[4]["rain_mm"]) == ("31.5", "")
