"""Totals say what they are, what they leave out and what ground they are told over."""

from fractions import Fraction

import pytest

from tallybed.garden.units import GRAM, KILOGRAM, OUNCE, POUND, Showing, Weight
from tallybed.pages.tables.tables import Cell
from tallybed.pages.tables.tally_tables import weight
from tallybed.pages.wording import sums
from tallybed.reckoning.harvest.areas import Ground
from tallybed.reckoning.harvest.tally import Total

POUNDS, KILOGRAMS = Showing(), Showing(metric=True)


def test_a_whole_total_makes_no_reservation() -> None:
    whole = Total(weight=Weight.of(42, POUND), pickings=9)
    assert sums.summed(POUNDS, whole) == sums.Sum(before="", number="42.0", unit="lb", caveats=())
    assert sums.in_words(POUNDS, whole) == "42.0 lb"


def test_a_picking_that_was_not_weighed_makes_a_total_at_least() -> None:
    part = Total(weight=Weight.of(1, KILOGRAM), pickings=9, unweighed=1)
    shown = sums.summed(KILOGRAMS, part)
    assert (shown.before, shown.number, shown.unit) == ("at least", "1.0", "kg")
    assert shown.caveats == ("One picking was not weighed, so the true total is more.",)
    assert sums.in_words(KILOGRAMS, part) == "at least 1.0 kg"


def test_an_estimate_is_said_beside_the_total() -> None:
    total = Total(weight=Weight.of(5, POUND), estimated=Weight.of(8, OUNCE), pickings=3, unweighed=2)
    assert sums.caveats(POUNDS, total) == (
        "Two pickings were not weighed, so the true total is more.",
        "0.5 lb of it was estimated, not weighed.",
    )


@pytest.mark.parametrize(
    ("total", "words", "note"),
    [
        (Total(weight=Weight.of(22, OUNCE), pickings=1), "1.38", ""),
        (Total(weight=Weight.of(22, OUNCE), pickings=2, unweighed=1), "1.38", "at least"),
        (Total(pickings=2, unweighed=2), "", "not weighed"),
        (Total(weight=Weight.of(Fraction(1, 100), OUNCE), pickings=1), "under 0.01", ""),
        (Total(), "0.00", ""),
    ],
)
def test_table_figures(total: Total, words: str, note: str) -> None:
    assert weight(POUNDS, total) == Cell(text=words, number=True, note=note)


def test_a_total_over_ground_says_of_what() -> None:
    ground = Ground(of="the squares", square_feet=Fraction(30))
    over = sums.per_ground(POUNDS, Total(weight=Weight.of(42, POUND), pickings=1, unweighed=0), ground)
    # 42 lb ÷ 30 sq ft = 1.4
    assert over == sums.PerGround(before="", words="1.40 lb per sq ft", of="the squares", area="30 sq ft")
    metric = sums.per_ground(KILOGRAMS, Total(weight=Weight.of(2_787, GRAM), pickings=1), ground)
    # 30 sq ft = 30 × 0.3048² m² = 2.787 091 2 m² (NIST SP 811, appendix B.8): 2.787 kg is 1.00 kg a m²
    assert (metric.words, metric.area) == ("1.00 kg per m²", "2.8 m²")


@pytest.mark.parametrize(
    ("count", "words"),
    [(Fraction(0), ""), (Fraction(12), "12"), (Fraction(7, 2), "3.5"), (Fraction(1, 3), "0.3")],
)
def test_pieces(count: Fraction, words: str) -> None:
    assert sums.pieces(count) == words
