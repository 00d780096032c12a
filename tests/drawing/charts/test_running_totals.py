"""Running totals, read back from the chart: steps, names, extremes."""

from __future__ import annotations

import random
import re
from datetime import date, timedelta
from fractions import Fraction
from itertools import pairwise
from xml.etree import ElementTree as Tree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.drawing.base import look
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.charts.running_totals import Series, apart, cumulative
from tallybed.garden.days import Span
from tests.drawing.markup import SVG, of_class, parsed, words

SPAN = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
WINTER = Span(first=date(2026, 9, 1), last=date(2027, 5, 31))
WIDTHS = pytest.mark.parametrize("narrow", [False, True], ids=["wide", "narrow"])


def series(name: str, *steps: tuple[int, int | str]) -> Series:
    start = date(2026, 5, 1)
    return Series(
        name=name, points=tuple((start + timedelta(days=days), Fraction(total)) for days, total in steps)
    )


def drawn(every: tuple[Series, ...], *, span: Span = SPAN, narrow: bool = False) -> Tree.Element:
    return parsed(cumulative(every, span=span, unit="lb", ident="c", title="Totals", narrow=narrow))


def step(root: Tree.Element, name: str) -> str:
    line = next(each for each in of_class(root, "d-line") if each.get("data-name") == name)
    return of_class(line, "d-step")[0].get("d", "")


FEW = (series("pea", (0, 1), (10, 3)), series("tomato", (60, 4), (70, "22/3"), (90, 20)))
MANY = tuple(series(f"crop {n:02d}", (n, n + 1), (n + 30, 2 * n + 2)) for n in range(40))
LONG_NAMES = tuple(
    series("a crop with a name that goes on and on and on " + "x" * n, (n, 5 + n)) for n in range(6)
)
EQUAL = tuple(series(f"same {n}", (5, 7)) for n in range(8))
EXTREMES = {
    "nothing": (),
    "no points": (Series(name="basil", points=()),),
    "one point": (series("pea", (20, 1)),),
    "all nothing": (series("pea", (20, 0)),),
    "few": FEW,
    "forty": MANY,
    "long names": LONG_NAMES,
    "all equal": EQUAL,
    "tiny": (series("thyme", (3, "1/1000")),),
    "huge": (series("squash", (3, 123456)),),
}
EVERY = pytest.mark.parametrize("every", EXTREMES.values(), ids=EXTREMES)


def test_a_line_steps_up_on_the_day_of_a_picking_and_stays_level_between() -> None:
    data = step(drawn(FEW), "pea")
    assert re.fullmatch(r"M\S+ \S+(?:H[\d.]+V[\d.]+){2}H[\d.]+", data)
    heights = [float(each) for each in re.findall(r"V([\d.]+)", data)]
    assert heights[1] < heights[0], "more is higher"


def test_heights_are_in_proportion_to_weights() -> None:
    root = drawn((series("a", (0, 5)), series("b", (0, 10))))
    ground = float(step(root, "a").split("H")[0].split()[-1])
    tops = {name: float(re.findall(r"V([\d.]+)", step(root, name))[0]) for name in "ab"}
    assert ground - tops["b"] == pytest.approx(2 * (ground - tops["a"]), abs=0.05)


def test_all_lines_run_to_the_same_day() -> None:
    root = drawn(FEW)
    ends = {float(re.findall(r"H([\d.]+)", step(root, name))[-1]) for name in ("pea", "tomato")}
    assert len(ends) == 1


def test_beyond_eight_crops_the_heaviest_are_drawn_by_name() -> None:
    root = drawn(MANY)
    names = [each.get("data-name") for each in of_class(root, "d-line")]
    heaviest = sorted(MANY, key=lambda each: -each.total)[: look.CHART_LINES]
    assert names == [each.name for each in heaviest]
    assert not [each for each in words(root) if "other" in each]


def test_the_description_holds_every_crop_that_is_drawn() -> None:
    root = drawn(MANY)
    told = root[1].text or ""
    assert all((each.get("data-name") or "?") in told for each in of_class(root, "d-line"))


@WIDTHS
@EVERY
def test_names_at_the_ends_never_touch_and_stay_on_the_chart(every: tuple[Series, ...], narrow: bool) -> None:
    root = drawn(every, narrow=narrow)
    lines = [line for name in of_class(root, "d-line-name") for line in name.iter(f"{SVG}text")]
    places = sorted(float(each.get("y", "")) for each in lines)
    assert all(after - before >= look.CHART_TEXT[narrow] * 1.2 for before, after in pairwise(places))
    _left, _top, width, height = map(float, root.get("viewBox", "").split())
    assert all(0 < place < height for place in places)
    for each in lines:
        end = float(each.get("x", "")) + width_of(each.text or "", float(each.get("font-size", "")))
        assert end <= width, f"{each.text} runs off the chart"


def test_a_name_that_has_no_room_goes_on_below_with_its_total() -> None:
    root = drawn((series("indeterminate tomatoes", (200, 10)), series("peas", (200, 50))), narrow=True)
    names = [[line.text for line in name.iter(f"{SVG}text")] for name in of_class(root, "d-line-name")]
    assert names == [["peas 50.0"], ["indeterminate", "tomatoes 10.0"]]


@WIDTHS
@EVERY
def test_lines_are_told_apart_without_colour(every: tuple[Series, ...], narrow: bool) -> None:
    root = drawn(every, narrow=narrow)
    steps = of_class(root, "d-step")
    assert len({each.get("stroke-dasharray") for each in steps}) == len(steps)
    assert len(of_class(root, "d-line-name")) == len(steps)


@WIDTHS
@EVERY
def test_markup_is_sound(every: tuple[Series, ...], narrow: bool) -> None:
    root = drawn(every, narrow=narrow)
    assert [each.tag.removeprefix(SVG) for each in root[:2]] == ["title", "desc"]
    width = float(root.get("viewBox", "").split()[2])
    for each in root.iter():
        assert all(float(each.get(name, "0")) >= 0 for name in ("width", "height", "r"))
        assert "nan" not in "".join(each.attrib.values())
    for each in root.iter(f"{SVG}text"):
        assert float(each.get("font-size", "")) >= 11
        assert 0 <= float(each.get("x", "")) <= width


def test_nothing_weighed_is_said() -> None:
    for every in ((), (Series(name="basil", points=()),)):
        root = drawn(every)
        assert "Nothing weighed yet" in words(root)
        assert root[1].text == "Nothing weighed yet."


def test_a_total_with_unweighed_pickings_says_at_least() -> None:
    basil = Series(name="basil", points=((date(2026, 7, 1), Fraction(1, 2)),), at_least=True)
    root = drawn((basil,))
    assert "basil ≥ 0.50" in words(root)
    assert "basil at least 0.50 lb" in (root[1].text or "")


def test_months_across_the_new_year() -> None:
    every = (Series(name="garlic", points=((date(2027, 1, 15), Fraction(2)),)),)
    assert {"Sep", "Jan", "May"} <= set(words(drawn(every, span=WINTER)))


def test_the_same_bytes_in_any_order() -> None:
    mixed = list(MANY)
    random.Random(7).shuffle(mixed)
    plain = cumulative(MANY, span=SPAN, unit="lb", ident="c", title="Totals")
    assert cumulative(tuple(mixed), span=SPAN, unit="lb", ident="c", title="Totals") == plain


@given(st.lists(st.tuples(st.floats(0, 100), st.sampled_from([6, 12])), max_size=8).map(sorted))
def test_names_moved_apart_keep_order_gap_and_bounds(wanted: list[tuple[float, int]]) -> None:
    middles, heights = [place for place, _high in wanted], [float(high) for _place, high in wanted]
    gaps = [(one + other) / 2 for one, other in pairwise(heights)]
    places = apart(middles, heights, 0, 100)
    assert all(
        after - before >= gap - 1e-9 for (before, after), gap in zip(pairwise(places), gaps, strict=True)
    )
    assert all(
        high / 2 - 1e-9 <= place <= 100 - high / 2 + 1e-9 for place, high in zip(places, heights, strict=True)
    )
    inside = all(high / 2 <= place <= 100 - high / 2 for place, high in zip(middles, heights, strict=True))
    if inside and all(b - a >= gap for (a, b), gap in zip(pairwise(middles), gaps, strict=True)):
        assert places == pytest.approx(middles), "names that have room are not moved"
