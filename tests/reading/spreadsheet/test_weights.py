"""Weights of spreadsheets: the unit in the cell, beside it, above it, or in two columns."""

from __future__ import annotations

import pytest

from tallybed.garden.units import GRAM, KILOGRAM, OUNCE, POUND, Unit
from tallybed.reading.base.problems import Misread
from tallybed.reading.spreadsheet.weights import weight_words
from tallybed.reading.text import measures

Parts = list[tuple[str, Unit | None]]


@pytest.mark.parametrize(
    ("cells", "unit", "usual", "expected"),
    [
        ([("1 lb 6 oz", None)], "", None, "1 lb 6 oz"),
        ([("22oz", None)], "", None, "22oz"),
        ([("12", OUNCE)], "", None, "12 oz"),
        ([("1.375", POUND)], "", None, "1.375 lb"),
        ([("½", POUND)], "", None, "1/2 lb"),
        ([("1 1/2", None)], "lbs", None, "1 1/2 lb"),
        ([("0.62", None)], "Kg", None, "0.62 kg"),
        ([("3", None)], "", OUNCE, "3 oz"),
        ([("~3", OUNCE)], "", None, "~3 oz"),
        ([("about 3", OUNCE)], "", None, "about 3 oz"),
        # The cell's own unit counts before the heading's; the cell beside it before both.
        ([("2 lb", OUNCE)], "", None, "2 lb"),
        ([("2", OUNCE)], "lb", None, "2 lb"),
        ([("2 oz", None)], "oz", None, "2 oz"),
        # Pounds and ounces in two columns, in either order; a nothing is left out.
        ([("1", POUND), ("6", OUNCE)], "", None, "1 lb 6 oz"),
        ([("6.5", OUNCE), ("1", POUND)], "", None, "1 lb 6.5 oz"),
        ([("0", POUND), ("6", OUNCE)], "", None, "6 oz"),
        ([("2", POUND), ("0.0", OUNCE)], "", None, "2 lb"),
        # A result such as 1/3 has more decimals than anybody weighs.
        ([("0.333333333333333", POUND)], "", None, "0.333333333 lb"),
        # A comma that can stand before decimals alone does; thousands may be set apart; as at the scale.
        ([("1,5", KILOGRAM)], "", None, "1.5 kg"),
        ([("1\u202f409", GRAM)], "", None, "1409 g"),
        # A number that fills its cell is one; before a unit only what stands between no two numbers parts it.
        ([("3 150", GRAM)], "", None, "3150 g"),
        ([("1\u202f409 g", None)], "", None, "1409 g"),
        ([("1'409 g", None)], "", None, "1409 g"),
        ([("1 012 g", None)], "", None, "1012 g"),
        ([("1.234.567", GRAM)], "", None, "1234567 g"),
        ([("1 lb 6", OUNCE)], "", None, "1 lb 6 oz"),
        ([("2#3", None)], "", None, "2 lb 3 oz"),
        ([("a handful", None)], "", None, "not weighed"),
        ([("Not Weighed", OUNCE)], "", None, "not weighed"),
        ([("unweighed", None)], "", None, "not weighed"),
    ],
)
def test_a_weight_is_read(cells: Parts, unit: str, usual: Unit | None, expected: str) -> None:
    assert weight_words(cells, unit, usual) == expected
    measures.weighing(expected)


@pytest.mark.parametrize(
    ("cells", "decimal", "expected"),
    [
        ([("1.125 oz", None)], "comma", "1125 oz"),
        ([("1.125 oz", None)], "point", "1.125 oz"),
        ([("1.250", GRAM)], "comma", "1250 g"),
        ([("0", KILOGRAM), ("1.250", GRAM)], "comma", "1250 g"),
        ([("1", KILOGRAM), ("2,5", GRAM)], "comma", "1 kg 2.5 g"),
    ],
)
def test_the_sign_before_decimals_counts_wherever_the_unit_stands(
    cells: Parts, decimal: str, expected: str
) -> None:
    assert weight_words(cells, "", None, decimal) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1 250 g", "1250 g"),
        ("40 345 g", "40345 g"),
        ("about 1 250 g", "about 1250 g"),
        ("2 lb 3", "2 lb 3 oz"),
    ],
)
def test_a_space_between_thousands_is_read_where_that_is_settled(text: str, expected: str) -> None:
    assert weight_words([(text, None)], "", None, spaces="thousands") == expected


def test_a_space_behind_a_count_leaves_a_weight_to_be_spelt() -> None:
    with pytest.raises(Misread) as misread:
        weight_words([("3 150g", None)], "", None, spaces="counts")
    assert (misread.value.code, misread.value.remedy) == ("weight", "")


@pytest.mark.parametrize(
    ("cells", "unit", "said"),
    [
        ([], "", "no weight"),
        ([("12", None)], "", "no unit"),
        (
            [("12", None)],
            "stone",
            "“stone” is not a unit of weight; expected oz, lb, g or kg (1 stone is 14",
        ),
        ([("2 stone 3 lb", None)], "", "1 stone is 14 lb (write 31 lb)"),
        # As at the scale, where a count may stand before the weight.
        ([("3 150g", None)], "", "“3 150g” may be read two ways; expected 3150 g or 3 counted, 150 g"),
        ([("12 345 g", GRAM)], "", "may be read two ways"),
        ([("40 345 g", GRAM)], "", "cannot be read"),
        ([("5oz x2", None)], "", "“5oz x2” may be read two ways"),
        ([("2x 5 oz", None)], "", "“2x 5 oz” may be read two ways"),
        ([("2 @ 150g", None)], "", "cannot be read"),
        ([("12..5 kg", None)], "", "its signs make no one figure"),
        ([("12", None)], "lv", "did you mean lb?"),
        ([("2 lb", None)], "oz", "beside the unit oz"),
        ([("1.250", GRAM)], "", "read two ways"),
        ([("1,250 g", None)], "", "read two ways"),
        ([("0", KILOGRAM), ("1.250", GRAM)], "", "read two ways"),
        ([("-3", OUNCE)], "", "cannot be read"),
        ([("0", OUNCE)], "", "zero"),
        ([("a lot", OUNCE)], "", "cannot be read"),
        ([("1.5", POUND), ("6", OUNCE)], "", "does not add up"),
        ([("1", POUND), ("20", OUNCE)], "", "does not add up"),
        ([("1", POUND), ("a bit", OUNCE)], "", "not one weight"),
        ([("about 1", POUND), ("6", OUNCE)], "", "not one weight"),
        # As at the scale it is read whole or not at all.
        ([("2#3, 2#5", None)], "", "cannot be read"),
        ([("2#3 with stems", None)], "", "cannot be read"),
        ([("5 of 2#3 each", None)], "", "cannot be read"),
        ([("5 heads 2#3", None)], "", "cannot be read"),
        ([("0", POUND), ("0", OUNCE)], "", "zero"),
        ([("#REF!", OUNCE)], "", "cannot be read"),
        ([("1e5", OUNCE)], "", "cannot be read"),
    ],
)
def test_what_is_no_weight_is_said(cells: Parts, unit: str, said: str) -> None:
    with pytest.raises(Misread) as caught:
        weight_words(cells, unit, None)
    assert said in caught.value.sentence


@pytest.mark.parametrize("unit", ["gm", "gms", "gr.", "Grs"])
def test_a_unit_goes_by_the_names_of_the_scale(unit: str) -> None:
    """Fails where a column of units in Indian habit is refused, while the scale takes the same words."""
    assert weight_words([("250", None)], unit, None) == "250 g"
