"""Lengths as a tape reads them, volumes and weights; more of both are in ``tests/reading/text``."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tallybed.garden.units import (
    CENTIMETRE,
    FOOT,
    GRAM,
    INCH,
    KILOGRAM,
    OUNCE,
    POUND,
    WEIGHT_UNITS,
    Length,
    Showing,
    Weight,
    rounded,
    total,
    weight_units,
)
from tallybed.reading.text.measures import length, litres, volume

FEET, METRES = Showing(), Showing(metric=True)


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


@pytest.mark.parametrize(
    ("weight", "pounds", "kilograms"),
    [
        (Weight.of(22, OUNCE), "1 lb 6 oz", "624 g"),
        (Weight.of(1, GRAM), "under 0.1 oz", "1 g"),
        (Weight.of("0.4", GRAM), "under 0.1 oz", "under 1 g"),
        (Weight.of("999.4", GRAM), "2 lb 3.3 oz", "999 g"),
        (Weight.of("999.6", GRAM), "2 lb 3.3 oz", "1.00 kg"),
        (Weight(), "0 oz", "0 g"),
    ],
)
def test_a_picking_has_the_small_unit_up_to_the_large_one_and_is_never_shown_as_nothing(
    weight: Weight, pounds: str, kilograms: str
) -> None:
    assert Showing().picked(weight) == pounds
    assert Showing(metric=True).picked(weight) == kilograms


def test_the_units_of_weight_that_a_garden_weighs_in_come_first() -> None:
    assert weight_units(metric=False)[:2] == (OUNCE, POUND)
    assert weight_units(metric=True)[:2] == (GRAM, KILOGRAM)
    assert set(weight_units(metric=True)) == set(WEIGHT_UNITS), "none is left out"


def test_a_gallon_is_231_cubic_inches() -> None:
    """NIST Handbook 44, appendix C: 1 gallon (United States) is 3.785 411 784 L."""
    assert litres("10 gal") == Fraction("37.85411784")


@pytest.mark.parametrize(
    ("value", "places", "shown"),
    [
        ("1.25", 1, "1.3"),
        ("-1.25", 1, "-1.3"),
        ("0.5", 0, "1"),
        ("-0.5", 0, "-1"),
        ("-0.04", 1, "0.0"),
        ("2", 2, "2.00"),
    ],
)
def test_halves_are_rounded_away_from_zero_and_nothing_has_no_sign(
    value: str, places: int, shown: str
) -> None:
    assert rounded(Fraction(value), places) == shown


def test_a_sum_is_exact_whatever_the_parts() -> None:
    third = Weight.of(Fraction(1, 3), OUNCE)
    assert total([third, third, third, Weight.of(1, OUNCE), Weight.of(Fraction(1, 2), OUNCE)]) == Weight.of(
        Fraction(5, 2), OUNCE
    )
    assert total([]) == Weight()


@pytest.mark.parametrize(
    ("showing", "weight", "places", "shown"),
    [
        (FEET, Weight.of("1.04", POUND), 1, "1.0"),
        (FEET, Weight.of("0.04", POUND), 1, "0.04"),
        (FEET, Weight.of("0.004", POUND), 1, "under 0.01"),
        (FEET, Weight.of("0.04", POUND), 2, "0.04"),
        (FEET, Weight(), 1, "0.0"),
        (METRES, Weight.of(40, GRAM), 1, "0.040"),
        (METRES, Weight.of("0.4", GRAM), 1, "under 0.001"),
        (METRES, Weight.of(60, GRAM), 1, "0.1"),
        (METRES, Weight.of(60, GRAM), 2, "0.060"),
        (METRES, Weight.of(100, GRAM), 2, "0.10"),
    ],
)
def test_a_total_is_never_shown_as_nothing(showing: Showing, weight: Weight, places: int, shown: str) -> None:
    assert showing.kept_number(weight, places) == shown


@pytest.mark.parametrize(
    ("size", "feet", "metres"),
    [
        (Length.of(6, INCH), "6 in", "15.2 cm"),
        (Length.of(1, FOOT), "1 ft", "30.5 cm"),
        (Length.of(54, INCH), "4 ft 6 in", "1.37 m"),
        (Length.of("11.96", INCH), "1 ft", "30.4 cm"),
        (Length.of("99.9", CENTIMETRE), "3 ft 3.3 in", "99.9 cm"),
        (Length.of("99.97", CENTIMETRE), "3 ft 3.4 in", "1 m"),
        (Length.of(100, CENTIMETRE), "3 ft 3.4 in", "1 m"),
    ],
)
def test_a_length_in_either_measure(size: Length, feet: str, metres: str) -> None:
    """An inch is 25.4 mm exactly (NIST Special Publication 811, appendix B.8)."""
    assert (FEET.length(size), METRES.length(size)) == (feet, metres)


def test_a_weight_over_an_area_in_either_measure() -> None:
    """5 lb are 2.267 961 85 kg, 4 sq ft are 0.371 612 16 m²: 6.103 kg to the square metre."""
    weight, area = Weight.of(5, POUND), Fraction(4)
    assert FEET.per_area(weight, area) == "1.25 lb per sq ft"
    assert METRES.per_area(weight, area) == "6.10 kg per m²"
    assert (FEET.area(area), METRES.area(area)) == ("4 sq ft", "0.37 m²")
    assert (FEET.area_number(area), METRES.area_number(area)) == ("4.0", "0.37")
