"""Seasons beside each other: every line ends at its total, on one scale, whatever there is to draw."""

from __future__ import annotations

import re
from fractions import Fraction
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.charts.season_totals import SeasonLine, season_lines
from tests.drawing.markup import SVG, check_texts, of_class, parsed, words

WIDTHS = pytest.mark.parametrize("narrow", [False, True], ids=["wide", "narrow"])


def season(name: str, *points: tuple[int, int | str], until: int = 40, **told: bool) -> SeasonLine:
    return SeasonLine(
        name=name, points=tuple((week, Fraction(total)) for week, total in points), until=until, **told
    )


THREE = (
    season("2024", (10, 2), (20, 30), (38, 75)),
    season("2025", (9, 1), (30, 60), (40, 80), at_least=True),
    season("2026", (8, 3), (29, 71), until=29, running=True),
)
EXTREMES = {
    "no season": (),
    "nothing weighed": (season("2026"),),
    "one point": (season("2026", (1, 4), until=1),),
    "one of two": (season("2025"), season("2026", (3, 4))),
    "all nothing": (season("2026", (3, 0)),),
    "three": THREE,
    "twelve": tuple(season(str(2015 + n), (5 + n, n), (30, 3 * n + 1)) for n in range(12)),
    "long names": tuple(season(f"the season of {'x' * 60} {n}", (3, 4)) for n in range(5)),
    "tiny": (season("2026", (3, "1/1000")),),
    "huge": (season("2026", (3, 1234567), running=True, at_least=True),),
}
EVERY = pytest.mark.parametrize("seasons", EXTREMES.values(), ids=EXTREMES)


def drawn(seasons: tuple[SeasonLine, ...], *, narrow: bool = False, weeks: int = 40) -> Tree.Element:
    return parsed(season_lines(seasons, weeks=weeks, unit="lb", ident="c", title="Totals", narrow=narrow))


def end(panel: Tree.Element) -> tuple[float, float]:
    (dot,) = of_class(panel, "d-end")
    return float(dot.get("cx", "")), float(dot.get("cy", ""))


def steps(path: Tree.Element) -> list[tuple[str, float]]:
    return [
        (command, float(number)) for command, number in re.findall(r"([HV])(-?[\d.]+)", path.get("d", ""))
    ]


@WIDTHS
def test_all_seasons_are_on_one_scale(narrow: bool) -> None:
    """Heights above the bottom are as the totals are: 75, 80 and 71."""
    panels = of_class(drawn(THREE, narrow=narrow), "d-panel")
    heights = []
    for panel in panels:
        (line,) = of_class(panel, "d-step")
        bottom = float(line.get("d", "").split("H")[0].split()[1])
        heights.append(bottom - end(panel)[1])
    assert heights[1] / heights[0] == pytest.approx(80 / 75, abs=0.01)
    assert heights[2] / heights[0] == pytest.approx(71 / 75, abs=0.01)


@WIDTHS
def test_the_total_of_a_line_that_fills_the_scale_stands_after_it(narrow: bool) -> None:
    """Fails where the figure lies across the line: a young season's alone, nearly at the scale's top."""
    root = drawn((season("2026", (12, "1"), (16, "2.94"), until=16, running=True),), narrow=narrow)
    (said,) = of_class(root, "d-line-name")
    size = float(said.get("font-size", ""))
    left = float(said.get("x", "")) - width_of("".join(said.itertext()), size) / 2
    assert left > end(root)[0]
    figures = [one for one in of_class(root, "d-figure") if one.get("text-anchor") == "end"]
    top, unit = ([one for one in figures if one.text == words] for words in ("3", "lb"))
    assert float(top[0].get("y", "")) - float(unit[0].get("y", "")) > size * 1.2, "unit and figure overlap"


@WIDTHS
def test_a_line_ends_in_the_week_it_is_known_to(narrow: bool) -> None:
    for panel, one in zip(of_class(drawn(THREE, narrow=narrow), "d-panel"), THREE, strict=True):
        (line,) = of_class(panel, "d-step")
        start = float(line.get("d", "")[1:].split()[0])
        axis = next(each for each in panel.iter(f"{SVG}line"))
        width = float(axis.get("x2", "")) - float(axis.get("x1", ""))
        assert end(panel)[0] == pytest.approx(start + width * one.until / 40, abs=0.05), one.name


def test_totals_stand_at_the_ends_of_their_lines() -> None:
    panels = of_class(drawn(THREE), "d-panel")
    said = [words(panel)[-1] for panel in panels]
    assert said == ["75.0", "≥ 80.0", "71.0 so far"]
    for panel in panels:
        text = list(panel.iter(f"{SVG}text"))[-1]
        x, y = end(panel)
        assert abs(float(text.get("x", "")) - x) < 60
        assert abs(float(text.get("y", "")) - y) < 20


def test_each_panel_shows_its_own_line_strong_and_the_others_faint() -> None:
    for panel in of_class(drawn(THREE), "d-panel"):
        assert (len(of_class(panel, "d-step")), len(of_class(panel, "d-other"))) == (1, 2)
        order = [each.get("class") for each in panel if each.tag == f"{SVG}path"]
        assert order.index("d-step") > order.index("d-other"), "its own line lies before the others"


@EVERY
@WIDTHS
def test_lines_only_rise(seasons: tuple[SeasonLine, ...], narrow: bool) -> None:
    for line in of_class(drawn(seasons, narrow=narrow), "d-step"):
        across = [value for command, value in steps(line) if command == "H"]
        up = [value for command, value in steps(line) if command == "V"]
        assert across == sorted(across)
        assert up == sorted(up, reverse=True)


@EVERY
@WIDTHS
def test_text_is_readable_on_the_sheet_and_clear_of_other_text(
    seasons: tuple[SeasonLine, ...], narrow: bool
) -> None:
    root = drawn(seasons, narrow=narrow)
    assert float(root.get("viewBox", "").split()[2]) <= (328 if narrow else 764)
    check_texts(root)


@EVERY
def test_the_description_tells_every_total(seasons: tuple[SeasonLine, ...]) -> None:
    told = drawn(seasons)[1].text or ""
    assert all(one.name in told for one in seasons)
    assert told.count("nothing weighed") == sum(not one.points for one in seasons)


def test_totals_are_told_in_words() -> None:
    assert drawn(THREE)[1].text == (
        "2024: 75.0 lb by week 40; 2025: at least 80.0 lb by week 40; 2026: 71.0 lb so far by week 29."
    )


def test_a_season_of_a_week_and_one_of_two_years_have_their_weeks() -> None:
    for weeks in (1, 2, 7, 52, 104):
        root = drawn((season("2026", (1, 4), until=weeks),), weeks=weeks, narrow=True)
        assert any(word.startswith("week ") for word in words(root)), weeks


def test_the_same_seasons_are_the_same_drawing() -> None:
    once = season_lines(THREE, weeks=40, unit="lb", ident="c", title="t")
    assert once == season_lines(THREE, weeks=40, unit="lb", ident="c", title="t")
    assert [each.get("id") for each in parsed(once).iter() if each.get("id")] == ["c", "c-title", "c-desc"]
