"""What each week gave, read back from the chart."""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from tallybed.drawing.charts.weeks import WeekBar, weekly
from tallybed.garden.days import Span, Week
from tests.drawing.markup import of_class, parsed, words

SPAN = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))


def bar(number: int, amount: int | str, *, at_least: bool = False) -> WeekBar:
    return WeekBar(week=Week(2026, number), amount=Fraction(amount), at_least=at_least)


def chart(*bars: WeekBar, narrow: bool = False) -> str:
    return weekly(bars, span=SPAN, unit="lb", ident="w", title="Weeks", narrow=narrow)


def test_bars_are_as_high_as_their_weights() -> None:
    root = parsed(chart(bar(20, 2), bar(21, 4)))
    heights = [float(each.get("height", "")) for each in of_class(root, "d-bar")]
    assert heights[1] == pytest.approx(2 * heights[0], abs=0.05)


def test_a_week_that_gave_nothing_has_no_bar() -> None:
    assert len(of_class(parsed(chart(bar(20, 2), bar(21, 0))), "d-bar")) == 1


def test_an_unweighed_week_is_told_even_at_nothing() -> None:
    root = parsed(chart(bar(20, 0, at_least=True)))
    assert len(of_class(root, "d-at-least")) == 1
    assert "not weighed" in (root[1].text or "")


def test_the_best_week_carries_its_figure() -> None:
    assert "9.3 lb" in words(parsed(chart(bar(20, 2), bar(30, "93/10"))))


def test_weeks_are_told_by_their_days() -> None:
    """ISO 8601: week 20 of 2026 runs from Monday 11 May to Sunday 17 May."""
    assert "11 May to 17 May: 2.0 lb" in (parsed(chart(bar(20, 2)))[1].text or "")


@pytest.mark.parametrize("narrow", [False, True])
def test_weeks_at_the_ends_of_the_season_stay_on_the_chart(narrow: bool) -> None:
    root = parsed(chart(bar(9, 2), bar(49, 3), narrow=narrow))
    width = float(root.get("viewBox", "").split()[2])
    for each in of_class(root, "d-bar"):
        assert 0 <= float(each.get("x", "")) <= width
        assert float(each.get("width", "")) > 0


def test_no_weeks() -> None:
    assert "Nothing weighed yet" in words(parsed(chart()))


def test_the_same_bytes_in_any_order() -> None:
    assert chart(bar(20, 2), bar(21, 4)) == chart(bar(21, 4), bar(20, 2))
