"""A season's weather, read back from its chart."""

from __future__ import annotations

import re
from datetime import date
from fractions import Fraction

import pytest

from tallybed.drawing.charts.sky import DayBar, RainBar, weather_chart
from tallybed.garden.days import Span, Week
from tests.drawing.markup import of_class, parsed, words

SPAN = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))


def day(number: int, low: int, high: int) -> DayBar:
    return DayBar(day=date(2026, 4, number), low=Fraction(low), high=Fraction(high))


def rain(week: int, amount: str) -> RainBar:
    return RainBar(week=Week(2026, week), amount=Fraction(amount), said=f"{amount} in")


def chart(*days: DayBar, rain: tuple[RainBar, ...] = (), unit: str = "°F", narrow: bool = False) -> str:
    return weather_chart(
        days,
        rain,
        span=SPAN,
        unit=unit,
        rain_words="inches of rain a week",
        ident="w",
        title="Weather",
        told="What it was.",
        narrow=narrow,
    )


def test_a_gap_between_days_is_a_gap_in_the_drawing() -> None:
    """Else days that nobody measured look as if somebody had."""
    assert len(of_class(parsed(chart(day(1, 30, 50), day(2, 35, 55), day(4, 40, 60))), "d-warmth")) == 2


@pytest.mark.parametrize(("unit", "low", "dots"), [("°F", 32, 1), ("°F", 33, 0), ("°C", 0, 1), ("°C", 1, 0)])
def test_a_dot_stands_below_each_freeze(unit: str, low: int, dots: int) -> None:
    assert len(of_class(parsed(chart(day(1, low, low + 9), unit=unit)), "d-froze")) == dots


def test_warmer_is_higher_and_every_day_lies_on_the_axis() -> None:
    root = parsed(chart(day(1, -11, 20), day(3, 60, 104)))
    heights = [
        [float(one) for one in re.findall(r"[MLV][\d.]+ ([\d.]+)", each.get("d", ""))]
        for each in of_class(root, "d-warmth")
    ]
    assert min(heights[1]) < min(heights[0])
    figures = {int(one.replace("−", "-")) for one in words(root) if re.fullmatch("−?[0-9]+", one)}
    assert (min(figures), max(figures)) == (-20, 120)


def test_rain_is_as_high_as_it_fell_and_the_wettest_week_says_how_much() -> None:
    root = parsed(chart(rain=(rain(18, "0.5"), rain(19, "0"), rain(20, "2"))))
    heights = [float(one.get("height", "")) for one in of_class(root, "d-rain")]
    assert heights[1] == pytest.approx(4 * heights[0], abs=0.05)
    assert "2 in" in words(root)


@pytest.mark.parametrize("narrow", [False, True])
def test_all_of_it_lies_on_the_sheet(narrow: bool) -> None:
    both = (rain(9, "1"), rain(48, "1"))
    root = parsed(chart(day(1, 10, 90), rain=both, narrow=narrow))
    _x, _y, width, height = map(float, root.get("viewBox", "").split())
    for one in of_class(root, "d-rain"):
        assert 0 <= float(one.get("x", "")) <= width
        assert 0 <= float(one.get("y", "")) + float(one.get("height", "")) <= height


@pytest.mark.parametrize("with_rain", [False, True])
def test_one_of_the_two_alone(with_rain: bool) -> None:
    """A garden with a gauge and no thermometer has a chart, and the other way round."""
    root = parsed(chart(rain=(rain(18, "0.5"),)) if with_rain else chart(day(1, 30, 50)))
    assert bool(of_class(root, "d-warmth")) is not with_rain
    assert bool(of_class(root, "d-rain")) is with_rain
    assert "Apr" in words(root)
