"""What a crop gave beside what is printed for rows, read back from its markup."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.drawing.crops.gave import GaveDot, PrintedRange, gave_chart
from tests.drawing.markup import of_class, parsed, words

PRINTED = PrintedRange(low=Fraction(1, 2), middle=Fraction(1), high=Fraction(2))


def dot(value: str, *, open_: bool = False) -> GaveDot:
    return GaveDot(value=Fraction(value), open=open_)


@pytest.mark.parametrize("narrow", [True, False])
def test_dots_and_band_share_one_scale(narrow: bool) -> None:
    seasons = (("2026", (dot("0.5"), dot("2"))), ("2025", (dot("3", open_=True),)))
    drawn = gave_chart(
        seasons, PRINTED, unit="lb per sq ft", ident="g", title="Gave", told="told.", narrow=narrow
    )
    root = parsed(drawn)
    band = of_class(root, "d-printed")[0]
    start = float(band.get("x", ""))
    xs = [float(each.get("cx", "")) for each in of_class(root, "d-dot")]
    assert xs[0] == pytest.approx(start, abs=0.02)
    assert xs[1] == pytest.approx(start + float(band.get("width", "")), abs=0.02)
    assert xs[2] > xs[1]
    assert ["d-open" in (each.get("class") or "") for each in of_class(root, "d-dot")] == [False, False, True]
    assert {"2026", "2025", "printed for rows", "lb per sq ft"} <= set(words(root))


def test_what_gave_nothing_is_a_cross_at_nothing() -> None:
    drawn = gave_chart((("2026", (dot("0"),)),), PRINTED, unit="lb", ident="g", title="Gave", told="told.")
    assert not of_class(parsed(drawn), "d-dot")
