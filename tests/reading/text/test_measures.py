"""Numbers, weights and lengths as people type them."""

from __future__ import annotations

import re
from collections.abc import Callable
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
    METRE,
    OUNCE,
    POUND,
    WEIGHT_UNIT_OF,
    WEIGHT_UNITS,
    YARD,
    Length,
    Showing,
    Unit,
    Weight,
)
from tallybed.reading.base.problems import Misread
from tallybed.reading.text import measures
from tallybed.reading.text.other_units import OTHER_UNITS
from tests.reading.refusals import refusal

LB = 453_592_370_000
"""Nanograms: 1 lb = 453.592 37 g exactly (NIST SP 811, 2008, B.8; NIST Handbook 44, appendix C)."""
OZ = Fraction(LB, 16)
"""1 avoirdupois ounce = 1/16 lb = 28.349 523 125 g exactly (NIST Handbook 44, appendix C)."""

WEIGHTS = {
    "1 lb 6 oz": 22 * OZ,
    "１ lb ６．０ oz": 22 * OZ,
    "22oz": 22 * OZ,
    "1.375 lb": 22 * OZ,
    "620 g": 620 * 10**9,
    "0.62 kg": 620 * 10**9,
    "1 1/2 lb": Fraction(3, 2) * LB,
    "1½ lb": Fraction(3, 2) * LB,
    "1 ½ lb": Fraction(3, 2) * LB,
    "½ lb": Fraction(1, 2) * LB,
    "⅜ oz": Fraction(3, 8) * OZ,
    "3/8 oz": Fraction(3, 8) * OZ,
    ".5 oz": OZ / 2,
    "1lb6oz": 22 * OZ,
    "1 LB 6 OZ": 22 * OZ,
    "1 lb, 6 oz": 22 * OZ,
    "1 lb. 6 oz.": 22 * OZ,
    "1 pound and 6 ounces": 22 * OZ,
    "2 lbs 1/2 oz": 2 * LB + OZ / 2,
    "  3   kilos ": 3 * 10**12,
    "1 kg 250 g": 1250 * 10**9,
    "750grammes": 750 * 10**9,  # as Britain also writes them
    "2 kilogrammes": 2 * 10**12,
    "12\u00a0oz": 12 * OZ,
    "100 lb": 100 * LB,
}


@pytest.mark.parametrize(("typed", "nanograms"), WEIGHTS.items(), ids=str)
def test_a_weight_is_read_exactly(typed: str, nanograms: Fraction) -> None:
    assert measures.weighing(typed) == measures.Measured(Weight(Fraction(nanograms)))
    assert measures.weight(typed) == Weight(Fraction(nanograms))


@pytest.mark.parametrize("unit", WEIGHT_UNITS, ids=lambda unit: unit.symbol)
def test_every_unit_of_weight_is_held_to_its_size_in_a_case(unit: Unit) -> None:
    """Else a row with a wrong size, and without a source, would be read."""
    words = {word for typed in WEIGHTS for word in re.findall(r"[a-z]+", typed.lower())}
    assert words & set(unit.names), f"no weight in WEIGHTS is told in {unit.symbol}"


def test_no_unit_of_weight_is_both_taken_and_refused() -> None:
    """Else a row there is never asked for again, and what fails is a dozen cases that do not say why."""
    both = set(WEIGHT_UNIT_OF) & {name for one in OTHER_UNITS for name in one.names}
    assert both == set(), "take its row out of reading/text/other_units.py, and the cases that refuse it"


@pytest.mark.parametrize(
    "typed", ["about 2 lb", "About 2 lb", "ca. 2 lb", "~2 lb", "roughly 2 lb", "approx. 2 lb"]
)
def test_about_is_an_estimate(typed: str) -> None:
    assert measures.weighing(typed) == measures.Measured(Weight(Fraction(2 * LB)), estimated=True)


@pytest.mark.parametrize("typed", ["not weighed", "Not weighed", " not  weighed "])
def test_not_weighed_is_no_weight(typed: str) -> None:
    assert measures.weighing(typed) == measures.Measured(None)


BAD_WEIGHTS = [
    *("", "12", "lb", "lb 2", "1.5", "heavy", "1 stone", "1 l b", "one lb", "1 lb 6", "6 oz 1 lb"),
    *("1 lb 20 oz", "1 lb 16 oz", "1.5 lb 6 oz", "1/2 lb 6 oz", "1 lb 200 g", "1 lb 1 lb", "1 oz 1 oz"),
    *(
        "0 lb",
        "0 oz",
        "-1 lb",
        "1/0 lb",
        "1//2 lb",
        "1e3 g",
        "1 lb or so",
        "1-2 lb",
        "2 lb?",
        "about",
        "1 lb about",
    ),
    *("1 kg 1000 g", "٣ lb", "x" * 10_000, "1" * 10_000 + " lb", "not weighed 2 lb", "1 g; 2 g"),
]


@pytest.mark.parametrize("typed", BAD_WEIGHTS, ids=lambda typed: typed[:20])
def test_what_is_no_weight_is_refused(typed: str) -> None:
    with pytest.raises(Misread) as refused:
        measures.weighing(typed)
    assert refused.value.code == "weight"
    assert refused.value.expected


@pytest.mark.parametrize(
    ("typed", "nearest"), {"1,5 lb": "1.5 lb", "0,62 kg": "0.62 kg", "1,200 g": "", "1,000,000 g": ""}.items()
)
def test_a_decimal_comma_is_named_and_never_guessed(typed: str, nearest: str) -> None:
    for scan in (measures.weighing, measures.weight, measures.length):
        with pytest.raises(Misread) as refused:
            scan(typed)
        assert (refused.value.code, refused.value.nearest) == ("decimal-comma", nearest)


MM = 10**6
LENGTHS = {
    # 1 in = 25.4 mm, 1 ft = 304.8 mm, 1 yd = 914.4 mm, all exactly (NIST SP 811, B.8; Handbook 44, app. C).
    "4 ft": 4 * Fraction("304.8") * MM,
    "4'": 4 * Fraction("304.8") * MM,
    "4′": 4 * Fraction("304.8") * MM,
    "4’": 4 * Fraction("304.8") * MM,
    "10 in": 254 * MM,
    '10"': 254 * MM,
    "10″": 254 * MM,
    "10”": 254 * MM,
    "4 ft 6 in": 54 * Fraction("25.4") * MM,
    "4'6\"": 54 * Fraction("25.4") * MM,
    "4' 6 1/2\"": Fraction("54.5") * Fraction("25.4") * MM,
    "5 feet": 5 * Fraction("304.8") * MM,
    "1 yd": Fraction("914.4") * MM,
    "1.2 m": 1200 * MM,
    "1 m 20 cm": 1200 * MM,
    "30 cm": 300 * MM,
    "400 mm": 400 * MM,
    "2½ in": Fraction("63.5") * MM,
}


@pytest.mark.parametrize(("typed", "nanometres"), LENGTHS.items(), ids=str)
def test_a_length_is_read_exactly(typed: str, nanometres: Fraction) -> None:
    assert measures.length(typed) == Length(Fraction(nanometres))


@pytest.mark.parametrize(
    ("scan", "typed", "near"),
    [
        (measures.length, "30 cn", "cm"),
        (measures.length, "30 Cn", "cm"),
        (measures.length, "3 fr", "ft"),
        (measures.length, "3 foots", "foot"),
        (measures.length, "3 mn", "mm"),
        (measures.weight, "3 kb", "kg"),
        (measures.weight, "3 xb", "lb"),
        (measures.weight, "3 gx", "g"),
        (measures.weighing, "3 bunch", ""),
        (measures.weighing, "3 stone", ""),
        (measures.weighing, "3 st", ""),
        (measures.volume, "40 litrs", "litres"),
        (measures.litres, "10 gl", "gal"),
    ],
)
def test_of_a_misspelt_unit_the_one_it_is_like_is_named(
    scan: Callable[[str], object], typed: str, near: str
) -> None:
    """Fails where one wrong letter of two leaves nothing to suggest, or a stone is taken for an ounce."""
    refused = refusal(scan, typed)
    assert refused
    assert refused.nearest == near


BAD_LENGTHS = [
    *(
        "",
        "10",
        "ft",
        "4 ft 12 in",
        "4 ft 18 in",
        "6 in 4 ft",
        "4.5 ft 6 in",
        "1 m 3 in",
        "1 foots",
        "1 furlong",
    ),
    *("0 in", "-3 in", "12 in x 12 in", "4'x4'", "10 squares", "about 4 ft", "1 m 100 cm", "ten in"),
]


@pytest.mark.parametrize("typed", BAD_LENGTHS)
def test_what_is_no_length_is_refused(typed: str) -> None:
    with pytest.raises(Misread) as refused:
        measures.length(typed)
    assert refused.value.code == "length"


AMOUNTS = st.fractions(min_value=Fraction(1, 1000), max_value=1000, max_denominator=1000)


@given(st.integers(1, 200_000))
def test_a_shown_picking_in_pounds_reads_back_the_same(tenths: int) -> None:
    weight = Weight.of(Fraction(tenths, 10), OUNCE)
    assert measures.weight(Showing(metric=False).picked(weight)) == weight


@given(st.integers(1, 999), st.integers(100, 100_000))
def test_a_shown_picking_in_kilograms_reads_back_the_same(grams: int, hundredths: int) -> None:
    for weight in (Weight.of(grams, GRAM), Weight.of(Fraction(hundredths, 100), KILOGRAM)):
        assert measures.weight(Showing(metric=True).picked(weight)) == weight


@given(st.integers(1, 100_000))
def test_a_shown_length_in_feet_reads_back_the_same(tenths: int) -> None:
    length = Length.of(Fraction(tenths, 10), INCH)
    assert measures.length(Showing(metric=False).length(length)) == length


@given(st.integers(1, 999), st.integers(100, 100_000))
def test_a_shown_length_in_metres_reads_back_the_same(millimetres: int, centimetres: int) -> None:
    for length in (Length.of(Fraction(millimetres, 10), CENTIMETRE), Length.of(centimetres, CENTIMETRE)):
        assert measures.length(Showing(metric=True).length(length)) == length


@given(AMOUNTS, st.sampled_from([OUNCE, POUND, GRAM, KILOGRAM]), st.data())
def test_a_fraction_of_any_unit_is_exact_under_every_name(
    amount: Fraction, unit: object, data: st.DataObject
) -> None:
    assert unit in (OUNCE, POUND, GRAM, KILOGRAM)
    chosen = next(each for each in (OUNCE, POUND, GRAM, KILOGRAM) if each is unit)
    name = data.draw(st.sampled_from(chosen.names))
    whole, rest = divmod(amount, 1)
    typed = f"{int(whole)} {rest.numerator}/{rest.denominator} {name}" if whole else f"{rest} {name}"
    assert measures.weight(typed) == Weight.of(amount, chosen)


@given(st.integers(1, 1000), st.sampled_from([FOOT, INCH, YARD, METRE]))
def test_an_integer_stays_an_integer(count: int, unit: object) -> None:
    chosen = next(each for each in (FOOT, INCH, YARD, METRE) if each is unit)
    assert measures.length(f"{count}{chosen.symbol}").within(chosen) == count


@given(st.text(max_size=80))
def test_any_text_is_read_or_refused_in_words(typed: str) -> None:
    scanners = (
        measures.weighing,
        measures.length,
        measures.share,
        measures.yes_no,
        measures.percentage,
        measures.whole(),
    )
    for scan in scanners:
        refused = refusal(scan, typed)
        assert refused is None or (refused.found and refused.expected)


@pytest.mark.parametrize(
    ("typed", "share"),
    {
        "1/3": Fraction(1, 3),
        "½": Fraction(1, 2),
        "0.25": Fraction(1, 4),
        "25%": Fraction(1, 4),
        "1": 1,
        "100 %": 1,
    }.items(),
)
def test_a_share_is_read_exactly(typed: str, share: Fraction) -> None:
    assert measures.share(typed) == share


@pytest.mark.parametrize("typed", ["0", "4/3", "-1/2", "half", "150%", "1/0", "", "%"])
def test_a_share_lies_above_nothing_and_up_to_all(typed: str) -> None:
    with pytest.raises(Misread):
        measures.share(typed)


@pytest.mark.parametrize(
    ("typed", "number"), {"1": 1, " 16 ": 16, "010": 10, "100000": 100_000, "１６": 16}.items()
)
def test_a_whole_number_is_decimal_whatever_leads_it(typed: str, number: int) -> None:
    assert measures.whole()(typed) == number


@pytest.mark.parametrize("typed", ["0", "-1", "1.0", "1e3", "0x10", "1_000", "100001", "٩", "", "9" * 5000])
def test_what_is_no_whole_number_is_refused(typed: str) -> None:
    with pytest.raises(Misread):
        measures.whole()(typed)


@pytest.mark.parametrize(
    ("typed", "angle"),
    {
        "39.6": Fraction("39.6"),
        "-83.1": Fraction("-83.1"),
        "−83.1": Fraction("-83.1"),
        "+12°": 12,
        "90": 90,
    }.items(),
)
def test_degrees_are_exact(typed: str, angle: Fraction) -> None:
    assert measures.degrees("latitude", -90, 90)(typed) == angle


@pytest.mark.parametrize(
    ("what", "lowest", "highest", "typed", "meant"),
    [
        ("latitude", -90, 90, "34.2 S", "-34.2"),
        ("latitude", -90, 90, "57,2° N", "57.2"),
        ("longitude", -180, 180, "3.1W", "-3.1"),
        ("longitude", -180, 180, "14.4 east", "14.4"),
        ("latitude", -90, 90, "14.4 E", ""),
        ("bearing", 0, 360, "south", "180"),
        ("bearing", 0, 360, "NE", "45"),
        ("bearing", 0, 360, "north west", "315"),
        ("bearing", 0, 360, "S-E", "135"),
        ("bearing", 0, 360, "uphill", ""),
        ("latitude", -90, 90, "34.2 something", ""),
        ("latitude", -90, 90, "95 S", ""),
    ],
)
def test_a_side_of_the_world_leads_to_its_degrees(
    what: str, lowest: int, highest: int, typed: str, meant: str
) -> None:
    with pytest.raises(Misread) as misread:
        measures.degrees(what, lowest, highest)(typed)
    assert misread.value.nearest == meant


@pytest.mark.parametrize("typed", ["91", "-90.0001", "39.6 N", "39° 36'", "", "nan", "inf", "1e1"])
def test_degrees_out_of_bounds_or_form_are_refused(typed: str) -> None:
    with pytest.raises(Misread):
        measures.degrees("latitude", -90, 90)(typed)


@pytest.mark.parametrize(
    ("typed", "value"), {"yes": True, "No": False, "true": True, " false ": False}.items()
)
def test_yes_and_no(typed: str, value: bool) -> None:
    assert measures.yes_no(typed) is value


@pytest.mark.parametrize("typed", ["10%", "50 %", "99%"])
def test_a_percentage(typed: str) -> None:
    assert measures.percentage(typed) == int(typed.rstrip(" %"))


@pytest.mark.parametrize("typed", ["0%", "100%", "50", "5.5%", "%"])
def test_what_is_no_percentage(typed: str) -> None:
    with pytest.raises(Misread):
        measures.percentage(typed)


def test_a_unit_that_no_file_takes_is_told_with_what_it_is() -> None:
    with pytest.raises(Misread) as refused:
        measures.weighing("3 stone")
    assert refused.value.remedy == "1 stone is 14 lb"
