"""The titles of a log on a running total: read back from the drawing, clear of the line."""

from __future__ import annotations

import re
from datetime import date, timedelta
from fractions import Fraction
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.base import look
from tallybed.drawing.base.flags import Flag
from tallybed.drawing.base.lettering import width_of
from tallybed.drawing.charts.running_totals import Series, cumulative
from tallybed.garden.days import Span
from tests.drawing.markup import SVG, of_class, parsed, words

SPAN = Span(first=date(2026, 3, 1), last=date(2026, 11, 30))
RISING = Series(
    name="all crops",
    points=tuple((date(2026, 5, 1) + timedelta(days=8 * n), Fraction(n * n, 4)) for n in range(1, 20)),
)
VISITS = tuple(
    Flag(day=date(2026, 3, 7) + timedelta(days=21 * n), words=f"What came of visit {n}", to=f"log/{n}.html")
    for n in range(12)
)


def drawn(flags: tuple[Flag, ...], *, narrow: bool = False) -> Tree.Element:
    return parsed(
        cumulative((RISING,), span=SPAN, unit="lb", ident="c", title="Totals", flags=flags, narrow=narrow)
    )


def heights(root: Tree.Element) -> list[tuple[float, float]]:
    """Return the corners of the stepped line."""
    data = of_class(root, "d-step")[0].get("d", "")
    place, y = 0.0, 0.0
    found = []
    for name, numbers in re.findall(r"([MHV])([^MHV]+)", data):
        values = [float(one) for one in numbers.split()]
        place, y = (
            (values[0], values[1]) if name == "M" else (values[0], y) if name == "H" else (place, values[0])
        )
        found.append((place, y))
    return found


@pytest.mark.parametrize("narrow", [False, True], ids=["wide", "narrow"])
def test_titles_keep_clear_of_the_line(narrow: bool) -> None:
    root = drawn(VISITS, narrow=narrow)
    line = heights(root)
    told = of_class(root, "d-flag")
    assert len(told) >= (1 if narrow else 3)
    for one in told:
        left, foot, size = (float(one.get(name, "")) for name in ("x", "y", "font-size"))
        right = left + width_of("".join(one.itertext()), size)
        crossed = [
            (x, y) for x, y in line if left <= x <= right and foot - size * look.CAPITAL_WIDTH <= y <= foot
        ]
        assert not crossed, ("".join(one.itertext()), crossed)


def test_each_title_leads_to_its_visit_and_each_day_has_its_knot() -> None:
    root = drawn(VISITS)
    assert root.get("role") == "group"
    leads = {one.get("aria-label"): one.get("href") for one in root.iter(f"{SVG}a")}
    assert leads["What came of visit 0, 7 March 2026"] == "log/0.html"
    assert len(of_class(root, "d-knot")) == len(VISITS)


def test_without_titles_it_is_a_picture() -> None:
    root = drawn(())
    assert root.get("role") == "img"
    assert not of_class(root, "d-knots")
    assert not [one for one in words(root) if one.startswith("What")]
