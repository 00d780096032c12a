"""The pages of the sun: a map, the same in a table, and how it is reckoned."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from tallybed.pages.season.sun import planting_sun
from tallybed.reckoning.sun.scene import Light
from tests.pages.gardens import GARDEN, folder, html_of, only, site_of, written

WALL = "surroundings:\n  - {wall: the <hall>, bearing: 180, distance: 9 ft, width: 60 ft, height: 30 ft}\n"


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, BeautifulSoup]:
    root = folder(tmp_path_factory.mktemp("sun"))
    return html_of(written(root, {"garden.yaml": GARDEN + WALL}))


def test_every_bed_has_a_page_of_sun_for_each_month(pages: dict[str, BeautifulSoup]) -> None:
    found = sorted(path for path in pages if path.endswith("/sun/index.html"))
    assert len(found) == 2 * 8
    assert found[0] == "2026/beds/back/03/sun/index.html"


def test_the_map_and_the_table_say_the_same(pages: dict[str, BeautifulSoup]) -> None:
    page = pages["2026/beds/front/05/sun/index.html"]
    table = only(page, "#sun")
    told = {}
    for row in table.select("tbody tr"):
        cells = row.find_all(["th", "td"])
        told[cells[0].get_text().split()[0]] = cells[2].get_text()
    drawn = {
        str(one["data-square"]): only(one, ".d-letters").get_text()
        for one in page.select("#map-flat [data-square]")
    }
    assert told == drawn
    assert len(told) == 8
    assert all(0 <= float(hours) < 15 for hours in told.values())


def test_what_takes_the_sun_is_named_and_escaped(pages: dict[str, BeautifulSoup]) -> None:
    page = pages["2026/beds/front/05/sun/index.html"]
    assert "the <hall>" in only(page, "#sun").get_text()
    assert page.find("hall") is None


def test_the_page_says_how_it_is_reckoned(pages: dict[str, BeautifulSoup]) -> None:
    words = only(pages["2026/beds/back/06/sun/index.html"], "main").get_text()
    for said in ("level horizon", "clear sky", "Trees without leaves", "not shade one another", "mean of"):
        assert said in words


def test_one_neighbour_is_told_as_one_and_an_empty_column_not_at_all(tmp_path: Path) -> None:
    plan = (
        "- {crop: sweet-corn, tag: SC1, squares: front/A2, sow: May 10, until: Sep 1}\n"
        "- {crop: lettuce-leaf, tag: LE1, squares: front/A1, set out: May 10, until: Sep 1}\n"
    )
    pages = html_of(written(tmp_path, {"garden.yaml": GARDEN, "2026/plan.yaml": plan}))
    told = only(pages["2026/plants/LE1/index.html"], "main").get_text()
    assert "Its neighbour sweet corn (SC1) takes " in told
    heads = [one.get_text() for one in pages["2026/beds/front/07/sun/index.html"].select("#sun thead th")]
    assert heads == ["Square", "Crop", "Sun", "Lost to neighbours", "Taken by"]


def test_a_month_leads_to_its_sun_and_back(pages: dict[str, BeautifulSoup]) -> None:
    month = pages["2026/beds/front/index.html"]
    assert month.find("a", href="05/sun/index.html") is not None
    sun = pages["2026/beds/front/05/sun/index.html"]
    assert sun.find("a", href="../../index.html") is not None
    assert sun.find("a", rel="next", href="../../06/sun/index.html") is not None


def test_a_planting_says_how_much_sun_it_gets(pages: dict[str, BeautifulSoup]) -> None:
    words = only(pages["2026/plants/SP1/index.html"], "main").get_text()
    assert "hours of direct sun a day" in words


@pytest.mark.parametrize(
    ("to", "told"), [({"SP1": 3.0, "CA1": 2.0}, True), ({"SP1": 2.0, "CA1": 2.0}, False)]
)
def test_hours_that_neighbours_take_at_once_are_said_to_be_told_of_each(
    tmp_path: Path, to: dict[str, float], told: bool
) -> None:
    """Fails where 4 hours are lost, 3 to the one and 2 to the other, and nothing is said of it."""
    plan = "".join(
        f"- {{crop: {crop}, tag: {tag}, squares: front/{square}, sow: Apr 10}}\n"
        for crop, tag, square in (("spinach", "SP1", "A1"), ("carrot", "CA1", "B1"), ("beet", "BE1", "C1"))
    )
    year = site_of(written(tmp_path, {"garden.yaml": GARDEN, "2026/plan.yaml": plan})).all[-1]
    year.kept(
        "sun of plantings",
        lambda: {"BE1": Light(days=10, open=100, lost=40, to={k: 10 * v for k, v in to.items()})},
    )
    words = planting_sun(year, year.holding.planting("BE1"))
    assert "Its neighbours take 4 hours from it" in words
    assert (", several at once: " in words) is told


@pytest.mark.parametrize(("bearing", "said"), [("", True), (", bearing: 90", False)])
def test_pages_say_where_it_is_not_known_which_way_a_bed_lies(
    tmp_path: Path, bearing: str, said: bool
) -> None:
    beds = GARDEN.replace("The front bed, ", f"The front bed{bearing}, ")
    pages = html_of(written(folder(tmp_path), {"garden.yaml": beds}))
    for path in ("2026/beds/front/05/sun/index.html", "2026/beds/front/index.html"):
        words = only(pages[path], "main").get_text()
        assert ("he garden does not say which way the front bed lies" in words) is said, path


def test_a_garden_without_a_latitude_has_none_of_it(tmp_path: Path) -> None:
    root = folder(tmp_path)
    pages = html_of(written(root, {"garden.yaml": GARDEN.replace("latitude: 41\n", "")}))
    assert not [path for path in pages if "sun" in path.split("/")]
    assert "direct sun" not in only(pages["2026/plants/SP1/index.html"], "main").get_text()
    assert "Hours of sun" not in only(pages["2026/beds/front/index.html"], "main").get_text()


def test_the_legend_tells_figures_of_this_very_map(pages: dict[str, BeautifulSoup]) -> None:
    """An invented figure would be looked for in vain."""
    losing = 0
    for month in ("03", "05", "06"):
        page = pages[f"2026/beds/front/{month}/sun/index.html"]
        told = [one.get_text() for one in page.select(".legend .key li") if not one.select("svg")]
        label = told[0].rpartition(" ")[2]
        square = only(page, f'#map-flat [data-square="{label}"]')
        drawn = [one.get_text() for one in square.select("text")]
        assert told[0].split()[0] in drawn
        for line in told[1:]:
            losing += 1
            assert line.split()[0] in drawn
            narrow = any(one.get_text().startswith("−") for one in page.select("#map-upright text"))
            assert ("wide page" in line) is not narrow
    assert losing


def test_the_legend_of_a_long_bed_tells_what_stands_in_its_small_squares(tmp_path: Path) -> None:
    beds = "beds:\n  - {name: front, length: 30 squares, width: 2 squares}\n"
    garden = GARDEN[: GARDEN.index("beds:")] + beds
    plan = "- {crop: bean-pole, tag: BP1, squares: F1:J2, sow: May 5}\n"
    plan += "- {crop: carrot, tag: CA1, squares: A1:E2, sow: Apr 20}\n"
    pages = html_of(written(tmp_path, {"garden.yaml": garden, "2026/plan.yaml": plan}))
    page = pages["2026/beds/front/08/sun/index.html"]
    told = [one.get_text(" ", strip=True) for one in page.select(".legend .key li") if not one.select("svg")]
    for name, where in (("flat", "on a wide page and on paper"), ("upright", "on a narrow page")):
        (line,) = (one for one in told if one.endswith(where))
        label = line.removesuffix(where).split()[-1]
        drawn = only(page, f'#map-{name} [data-square="{label}"]')
        assert line.split()[0] in [one.get_text() for one in drawn.select("text")]
    assert any("full hours" in line for line in told)
    assert any(line.startswith("−") for line in told) is ("−" in only(page, "#map-flat").get_text())


def test_a_bed_of_one_square_has_no_neighbours_and_no_every_square(tmp_path: Path) -> None:
    garden = (
        GARDEN[: GARDEN.index("beds:")] + "beds:\n  - {name: front, length: 1 squares, width: 1 squares}\n"
    )
    plan = "- {crop: carrot, squares: A1, sow: Apr 20}\n"
    pages = html_of(written(tmp_path, {"garden.yaml": garden, "2026/plan.yaml": plan}))
    lead = only(pages["2026/beds/front/08/sun/index.html"], ".lead").get_text()
    assert "hours" in lead
    assert "every square" not in lead
    assert "each other" not in lead


def test_the_lead_tells_what_neighbours_take_in_hours(
    pages: dict[str, BeautifulSoup], tmp_path: Path
) -> None:
    lead = only(pages["2026/beds/front/05/sun/index.html"], ".lead").get_text()
    assert "square-hour" not in lead
    assert "Plantings take next to none of it from each other." in lead
    bed = "beds:\n  - {name: b, length: 4 squares, width: 2 squares, bearing: 90}\n"
    plan = "- {crop: sweet-corn, tag: SC1, squares: 'A2:D2', sow: May 1, until: Sep 30}\n"
    plan += "- {crop: pepper-sweet, tag: PP1, squares: 'A1:D1', set out: May 10, until: Sep 30}\n"
    garden = GARDEN[: GARDEN.index("beds:")] + bed
    page = html_of(written(tmp_path, {"garden.yaml": garden, "2026/plan.yaml": plan}))[
        "2026/beds/b/08/sun/index.html"
    ]
    lost = [float(row.select("td")[2].get_text() or 0) for row in page.select("#sun tbody tr")]
    assert len(lost) == 8, "each of them planted all month"
    (told,) = re.findall(
        r"Neighbours take ([0-9.]+) hours a day from a planted square", only(page, ".lead").get_text()
    )
    assert float(told) == pytest.approx(sum(lost) / 8, abs=0.1)
    assert float(told) > 1


def test_a_crop_of_no_known_height_is_named(tmp_path: Path) -> None:
    own = "- {new: oca, family: Oxalidaceae, habit: upright, start: tubers, letters: Oc, spacing: 12 in}\n"
    plan = "- {crop: oca, tag: OC1, squares: front/A1, set out: May 10}\n"
    files = {"garden.yaml": GARDEN, "crops.yaml": own, "2026/plan.yaml": plan}
    page = html_of(written(tmp_path, files))["2026/beds/front/07/sun/index.html"]
    assert "No height is known of oca (OC1)" in " ".join(page.get_text(" ").split())
