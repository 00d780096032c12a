"""Crops across seasons: bars as long as their amounts, each with its words, whatever there is to draw."""

from __future__ import annotations

from fractions import Fraction
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.charts.crop_bars import CropPanel, SeasonBar, crop_bars
from tests.drawing.markup import SVG, check_texts, of_class, parsed, words

WIDTHS = pytest.mark.parametrize("narrow", [False, True], ids=["wide", "narrow"])


def bar(season: str, amount: int | str | None, said: str = "", **told: bool) -> SeasonBar:
    return SeasonBar(season=season, amount=None if amount is None else Fraction(amount), said=said, **told)


BEETS = CropPanel(
    name="beets", bars=(bar("2024", "3/2"), bar("2025", 4, at_least=True), bar("2026", 3, running=True))
)
OKRA = CropPanel(name="okra", bars=(bar("2024", "5/8"), bar("2025", None, "not grown"), bar("2026", 1)))
EXTREMES = {
    "none": (),
    "one": (BEETS,),
    "two": (BEETS, OKRA),
    "forty": tuple(CropPanel(name=f"crop {n:02d}", bars=BEETS.bars) for n in range(40)),
    "long names": tuple(CropPanel(name=f"a crop called {'so ' * 30}{n}", bars=OKRA.bars) for n in range(5)),
    "one season": (CropPanel(name="kale", bars=(bar("2026", 2),)),),
    "twelve seasons": (CropPanel(name="kale", bars=tuple(bar(str(2015 + n), n + 1) for n in range(12))),),
    "nothing at all": (CropPanel(name="kale", bars=(bar("2025", None, "not weighed"), bar("2026", 0))),),
    "huge": (CropPanel(name="squash", bars=(bar("2025", 1234567, at_least=True, running=True),)),),
}
EVERY = pytest.mark.parametrize("crops", EXTREMES.values(), ids=EXTREMES)


def drawn(crops: tuple[CropPanel, ...], *, narrow: bool = False) -> Tree.Element:
    return parsed(crop_bars(crops, unit="lb", ident="c", title="Crops", narrow=narrow))


def bars(panel: Tree.Element) -> dict[str, float]:
    """Return how long the bar of each season is."""
    return {
        season.get("data-season", ""): float(one.get("width", ""))
        for season in of_class(panel, "d-season")
        for one in of_class(season, "d-bar")
    }


@WIDTHS
def test_bars_are_as_long_as_their_amounts(narrow: bool) -> None:
    beets, okra = of_class(drawn((BEETS, OKRA), narrow=narrow), "d-panel")
    long = bars(beets)
    assert long["2024"] / long["2025"] == pytest.approx(1.5 / 4, abs=0.01)
    assert long["2026"] / long["2025"] == pytest.approx(3 / 4, abs=0.01)
    assert set(bars(okra)) == {"2024", "2026"}, "what was not grown has no bar"


def test_the_best_season_of_each_crop_takes_the_same_room() -> None:
    """Each crop has its own scale: the longest bar of each ends where its words still fit."""
    more = CropPanel(name="more", bars=(bar("2024", 3), bar("2025", 8, at_least=True), bar("2026", 6)))
    beets, double = of_class(drawn((BEETS, more)), "d-panel")
    assert max(bars(beets).values()) == pytest.approx(max(bars(double).values()), rel=0.25)


def test_every_bar_says_its_amount() -> None:
    beets, okra = of_class(drawn((BEETS, OKRA)), "d-panel")
    assert words(beets) == ["beets", "2024", "1.5 lb", "2025", "≥ 4.0 lb", "2026", "3.0 lb so far"]
    assert words(okra) == ["okra", "2024", "0.63 lb", "2025", "not grown", "2026", "1.0 lb"]


def test_an_open_amount_has_an_open_end() -> None:
    (panel,) = of_class(drawn((BEETS,)), "d-panel")
    open_ends = {
        season.get("data-season"): any(each.get("stroke-dasharray") for each in season.iter(f"{SVG}path"))
        for season in of_class(panel, "d-season")
    }
    assert open_ends == {"2024": False, "2025": True, "2026": True}


@EVERY
@WIDTHS
def test_text_is_readable_on_the_sheet_and_clear_of_other_text(
    crops: tuple[CropPanel, ...], narrow: bool
) -> None:
    root = drawn(crops, narrow=narrow)
    assert float(root.get("viewBox", "").split()[2]) <= (328 if narrow else 764)
    check_texts(root)


@EVERY
@WIDTHS
def test_bars_stay_on_the_sheet(crops: tuple[CropPanel, ...], narrow: bool) -> None:
    root = drawn(crops, narrow=narrow)
    width, height = (float(each) for each in root.get("viewBox", "").split()[2:])
    for each in of_class(root, "d-bar"):
        x, y, wide, high = (float(each.get(name, "")) for name in ("x", "y", "width", "height"))
        assert 0 <= x <= x + wide <= width
        assert 0 <= y <= y + high <= height


def test_the_description_tells_what_the_bars_say() -> None:
    assert drawn((BEETS, OKRA))[1].text == (
        "beets: 2024 1.5 lb, 2025 at least 4.0 lb, 2026 3.0 lb so far; "
        "okra: 2024 0.63 lb, 2025 not grown, 2026 1.0 lb."
    )


def test_the_same_crops_are_the_same_drawing() -> None:
    once = crop_bars((BEETS, OKRA), unit="lb", ident="c", title="t")
    assert once == crop_bars((BEETS, OKRA), unit="lb", ident="c", title="t")
