"""Lengths as a tape reads them, volumes and weights; more of both are in ``tests/reading/text``."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.units import CENTIMETRE, GRAM, INCH, OUNCE, POUND, Length, Showing, Weight
from tallybed.reading.text.measures import length, volume


@pytest.mark.parametrize(
    ("inches", "taped", "ticked"),
    [
        ("0", "0 in", "0″"),
        ("12", "1 ft", "1′"),
        ("30", "2 ft 6 in", "2′ 6″"),
        ("125.25", "10 ft 5 1/4 in", "10′ 5 1/4″"),
        ("11.81", "11 3/4 in", "11 3/4″"),  # 30 cm
        ("11.95", "1 ft", "1′"),  # to the nearest eighth that is a whole foot
        ("0.0625", "1/8 in", "1/8″"),  # halves go up
    ],
)
def test_feet_inches_and_eighths(inches: str, taped: str, ticked: str) -> None:
    size = Length.of(Fraction(inches), INCH)
    assert (Showing().taped(size), Showing().ticked(size)) == (taped, ticked)


def test_centimetres_for_a_metric_tape() -> None:
    size = Length.of(Fraction("317.54"), CENTIMETRE)
    assert (Showing(metric=True).taped(size), Showing(metric=True).ticked(size)) == ("317.5 cm", "317.5")


@given(st.integers(1, 5000))
def test_a_taped_length_reads_back_to_the_nearest_eighth(sixteenths: int) -> None:
    size = Length.of(Fraction(sixteenths, 16), INCH)
    back = length(Showing().taped(size))
    assert abs(back.within(INCH) - size.within(INCH)) <= Fraction(1, 16)


@pytest.mark.parametrize(
    ("typed", "cubic_feet"),
    [
        ("1.5 cu ft", "1.5"),
        ("1 1/2 cubic feet", "1.5"),
        ("2 cu. ft.", "2"),
        ("1 cubic foot", "1"),
        # NIST Special Publication 811, appendix B.8: 1 ft³ = 0.028 316 846 592 m³ exactly.
        ("28.316846592 L", "1"),
        ("56.633693184 litres", "2"),
    ],
)
def test_a_volume_is_read_exactly(typed: str, cubic_feet: str) -> None:
    assert volume(typed) == Fraction(cubic_feet)


@pytest.mark.parametrize(
    ("weight", "pounds", "kilograms"),
    [
        # One pound is 453.59237 g and 16 oz (NIST Handbook 44, appendix C).
        (Weight.of("71.06", POUND), "71.1 lb", "32.2 kg"),
        (Weight.of(1, POUND), "1.0 lb", "454 g"),
        (Weight.of("15.96", OUNCE), "1.0 lb", "452 g"),
        (Weight.of("15.94", OUNCE), "15.9 oz", "452 g"),
        (Weight.of(8, OUNCE), "8 oz", "227 g"),
        (Weight.of("999.6", GRAM), "2.2 lb", "1.0 kg"),
        (Weight.of("0.4", GRAM), "under 0.1 oz", "under 1 g"),
        (Weight.of(0, GRAM), "0.0 lb", "0.0 kg"),
    ],
)
def test_a_weight_in_a_sentence_has_tenths_or_the_small_unit(
    weight: Weight, pounds: str, kilograms: str
) -> None:
    assert Showing().summed(weight) == pounds
    assert Showing(metric=True).summed(weight) == kilograms
