"""Every map of the demonstration site tells the truth, and the table beside it says the same."""

from __future__ import annotations

import re
from collections import Counter
from itertools import combinations
from math import hypot

import pytest
from bs4 import BeautifulSoup
from bs4.element import Tag

from tallybed.garden.units import INCH
from tallybed.pages.frame import addresses
from tallybed.reckoning.beds import months_of
from tallybed.reckoning.calendar.month import BedMonth
from tallybed.reckoning.room.plants import plants, spacing_of
from tallybed.reckoning.year import Years

Month = tuple[str, BedMonth]


@pytest.fixture(scope="module")
def months(the_demo: Years) -> dict[str, BedMonth]:
    """Every month of every bed by the path of its page."""
    found = {}
    for year in the_demo.all:
        for month in (month for bed in the_demo.garden.beds for month in months_of(year, bed)):
            found[addresses.bed_month(year, month.bed, month.month)] = month
    return found


def drawn_on(page: BeautifulSoup, kind: str) -> list[tuple[str, str, float, float]]:
    svg = page.find("svg", class_=kind)
    assert isinstance(svg, Tag)
    return sorted(
        (
            str(one["data-planting"]),
            str(one["data-square"]),
            float(str(one["data-x"])),
            float(str(one["data-y"])),
        )
        for one in svg.find_all("use", class_="plant")
    )


def test_the_plants_on_each_map_are_those_that_stand(
    the_demo: Years, months: dict[str, BedMonth], pages: dict[str, BeautifulSoup]
):
    garden = the_demo.garden
    views = {year.season.name: year for year in the_demo.all}
    counted = 0
    for path, month in months.items():
        holding = views[month.season].holding
        expected: Counter[tuple[str, str]] = Counter()
        for one in month.drawn:
            if one.standing:
                standing = plants(garden, holding, one.planting, month.as_of).by_square
                for square, number in standing.items():
                    if square.bed == month.bed.name and number:
                        expected[one.planting, square.label] += number
        shown = drawn_on(pages[path], "bedmap-flat")
        by_planting = Counter(planting for planting, _square, _x, _y in shown)
        told = Counter(
            planting for (planting, _square), number in expected.items() for _plant in range(number)
        )
        assert by_planting == told, path
        counted += len(shown)
    assert counted > 3000, "the demonstration's maps are full of plants"


def test_both_drawings_of_a_month_show_the_same_plants(
    months: dict[str, BedMonth], pages: dict[str, BeautifulSoup]
):
    """The upright one shows the flat one's plants again, or draws its own where vines are led out."""
    again = 0
    for path in months:
        flat = pages[path].find("svg", class_="bedmap-flat")
        assert isinstance(flat, Tag)
        growing = flat.select_one("g.d-plants")
        shown = pages[path].select("svg.bedmap-upright g.d-plants > use:not(.plant)")
        if shown:
            assert growing is not None
            assert [one["href"] for one in shown] == [f"#{growing['id']}"], path
            again += 1
        else:
            assert drawn_on(pages[path], "bedmap-flat") == drawn_on(pages[path], "bedmap-upright"), path
    assert 0 < again < len(months), "both ways are met"


def test_any_two_plants_of_a_planting_keep_its_spacing(
    the_demo: Years, months: dict[str, BedMonth], pages: dict[str, BeautifulSoup]
):
    views = {year.season.name: year for year in the_demo.all}
    pairs = 0
    for path, month in months.items():
        by_planting: dict[str, list[tuple[float, float]]] = {}
        for planting, _square, x, y in drawn_on(pages[path], "bedmap-flat"):
            by_planting.setdefault(planting, []).append((x, y))
        for key, spots in by_planting.items():
            spacing = spacing_of(the_demo.garden, views[month.season].holding.planting(key))
            assert spacing is not None, key
            apart = float(spacing.within(INCH))
            for (x, y), (other_x, other_y) in combinations(spots, 2):
                pairs += 1
                # A hundredth of an inch for the rounding of the drawing.
                assert hypot(x - other_x, y - other_y) >= apart - 0.02, (path, key)
    assert pairs > 10_000


def test_the_table_beside_a_map_counts_the_same_plants(
    months: dict[str, BedMonth], pages: dict[str, BeautifulSoup]
):
    compared = 0
    for path, month in months.items():
        table = pages[path].find("table", class_="holders")
        assert isinstance(table, Tag), path
        standing = {one.tag for one in month.drawn if one.standing and one.tag}
        told: Counter[str] = Counter()
        for row in table.find_all("tr"):
            cell = row.find("td", class_="number")
            tag = re.search(r"\((\w+)\)", row.get_text())
            if cell is None or tag is None or tag[1] not in standing:
                continue
            if re.search(r" (over|lost)\b", row.get_text(" ", strip=True)):
                continue
            number = re.match(r"\d+", cell.get_text(strip=True))
            told[tag[1]] += int(number[0]) if number else 0
        shown = Counter(
            planting for planting, _s, _x, _y in drawn_on(pages[path], "bedmap-flat") if planting in standing
        )
        for tag_text in standing:
            if told[tag_text]:
                assert told[tag_text] == shown[tag_text], (path, tag_text)
                compared += 1
    assert compared > 300
