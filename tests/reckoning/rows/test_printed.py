"""What ordinary rows give, as printed: which figures count, and what they come to."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from tallybed.garden.crops import Figure
from tallybed.reckoning.rows.printed import printed
from tests.reckoning.byhand import CROPS

(CARROT,) = (crop for crop in CROPS if crop.slug == "carrot")


def figure(low: str | None, high: str | None, of: str = "row garden", source: str = "") -> Figure:
    low_, high_ = (None if one is None else Fraction(one) for one in (low, high))
    return Figure(fact="yield per sqft", low=low_, high=high_, of=of, source=source)


USED = figure("1", "1.5", source="b")
LOW, HIGH = figure("0.5", "0.8", source="a"), figure("1.2", "2", source="b")


def test_the_lowest_the_middle_of_the_one_used_and_the_highest() -> None:
    field = figure("9", "9", of="field", source="c")
    crop = replace(CARROT, figures=(LOW, USED, HIGH, field, figure("1", "1")), chosen=(USED,))
    found = printed(crop)
    assert found is not None
    assert (found.low, found.middle, found.high) == (Fraction(1, 2), Fraction(5, 4), Fraction(2))
    assert found.sources == ("a", "b"), "of a field is of another thing, and memory has no source"


@pytest.mark.parametrize(
    ("figures", "used"),
    [
        ((), ()),
        ((LOW,), ()),
        ((), (USED,)),
        ((LOW,), (figure("1", "1", of="field"),)),
        ((LOW,), (figure(None, None),)),
        ((LOW,), (figure("1", None),)),
        ((LOW,), (figure(None, "1"),)),
        ((figure("0", "1"),), (USED,)),  # nothing divides by nought
    ],
)
def test_a_crop_without_such_figures_has_no_row_yield(
    figures: tuple[Figure, ...], used: tuple[Figure, ...]
) -> None:
    assert printed(replace(CARROT, figures=figures, chosen=used)) is None
