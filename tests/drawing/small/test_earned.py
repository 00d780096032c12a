"""A bed by what it gave: the fills measured back, and what is written in the squares."""

from __future__ import annotations

from fractions import Fraction
from xml.etree import ElementTree as Tree

import pytest

from tallybed.drawing.base import look
from tallybed.drawing.small.earned import UNKNOWN, Earned, earned_bed
from tallybed.garden.squares import Bed, Square
from tallybed.garden.units import FOOT, Length
from tests.drawing.markup import SVG, of_class, parsed, words

BED = Bed(name="plank", title="The plank", columns=3, rows=2, side=Length.of(1, FOOT))
A1, B1, C1, A2 = (Square("plank", column, row) for column, row in ((0, 0), (1, 0), (2, 0), (0, 1)))
GAVE = {
    A1: Earned(amount=Fraction(4), words="4.0"),
    B1: Earned(amount=Fraction(1), words="1.0", at_least=True),
    C1: Earned(amount=Fraction(0), words=UNKNOWN, at_least=True),
}


def drawn(*, narrow: bool = False, across: int = 3) -> Tree.Element:
    return parsed(
        earned_bed(BED, GAVE, Fraction(4), ident="e", title="The plank", across=across, narrow=narrow)
    )


@pytest.mark.parametrize("narrow", [False, True], ids=["wide", "narrow"])
def test_a_square_is_filled_as_high_as_its_weight(narrow: bool) -> None:
    fills = {one.get("data-square"): one for one in of_class(drawn(narrow=narrow), "d-earned")}
    assert set(fills) == {"A1", "B1"}, "nothing stands in a square without a figure"
    full, quarter = (float(fills[name].get("height", "")) for name in ("A1", "B1"))
    assert full == pytest.approx(float(fills["A1"].get("width", ""))), "the best one is full"
    assert quarter == pytest.approx(full / 4, abs=0.01)
    feet = {float(one.get("y", "")) + float(one.get("height", "")) for one in fills.values()}
    assert max(feet) - min(feet) < 0.02, "fills of one row stand on one string"


def test_a_title_without_room_is_written_in_short_and_told_in_full() -> None:
    long = "The plank along the fence of the yard, 2026: lb from each square"
    for narrow, seen in ((False, long), (True, "The plank, lb")):
        text = earned_bed(
            BED, GAVE, Fraction(4), ident="e", title=long, short="The plank, lb", across=3, narrow=narrow
        )
        root = parsed(text)
        assert of_class(root, "d-title")[0].text == seen
        assert root[0].text == long


def test_what_is_written_and_told() -> None:
    root = drawn()
    assert [one for one in words(root) if one not in "ABC12" and "plank" not in one] == [
        *("4.0", "≥1.0", "?", "–", "–", "–")
    ]
    sizes = {
        float(one.get("font-size", "")) for one in root.iter(f"{SVG}text") if one.text in ("A", "1", "4.0")
    }
    assert sizes == {look.CHART_TEXT[False]}, "a chart is made smaller on a page of 768 pixels, its names too"
    (desc,) = (one for one in root if one.tag.endswith("desc"))
    assert desc.text == "A1 4.0, B1 at least 1.0, C1 not weighed."
    broken = [one for one in of_class(root, "d-ink") if one.get("stroke-dasharray")]
    assert len(broken) == 1, "the top of B1's fill, where more was picked than weighed"


def test_squares_too_small_for_their_figures_have_none() -> None:
    root = drawn(narrow=True, across=60)
    assert not [one for one in words(root) if one in ("4.0", "≥1.0", "–", UNKNOWN)]
    assert [one for one in words(root) if one in "ABC"] == ["A", "C"], "names that would run into one another"
    (desc,) = (one for one in root if one.tag.endswith("desc"))
    assert desc.text == "A1 4.0, B1 at least 1.0, C1 not weighed."


def test_squares_are_as_large_as_those_of_a_longer_bed_beside_it() -> None:
    alone, beside = (of_class(drawn(across=across), "d-earned")[0].get("width") for across in (3, 30))
    assert float(beside or 0) < float(alone or 0)
