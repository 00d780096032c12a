"""Land equivalents against printed worked examples, and the rules of row ground.

Examples: FAO's definition as worked on an encyclopaedia's page (grain and fruit); a trial of
okra with maize, 2010 and 2011, whose table prints partial ratios, their sums, and the land
saved; sorghum with cowpea, means of four blocks (data set ``petersen`` of the R package
agridat), ratios recomputed. The tolerances are those of the printed figures: the okra table
adds parts that it has rounded.
"""

from __future__ import annotations

from datetime import date
from fractions import Fraction

import pytest

from tallybed.garden.crops import Figure
from tallybed.garden.units import POUND, Weight
from tallybed.reckoning.harvest.tally import TallyLine
from tallybed.reckoning.rows.land import crop_ground, land_equivalent, partial, row_ground
from tallybed.reckoning.rows.printed import Printed

DAY = date(2026, 7, 1)

EXAMPLES = [
    # what, (together, alone) of each crop, printed ratio, tolerance
    ("grain and fruit, FAO", [("4000", "5000"), ("9000", "15000")], "1.4", "0.0001"),
    ("okra and maize 2010, together", [("5.3", "6.0"), ("4.4", "4.9")], "1.78", "0.012"),
    ("okra and maize 2011, together", [("4.8", "5.7"), ("4.1", "4.5")], "1.75", "0.012"),
    ("okra and maize 2010, 2 weeks later", [("5.2", "6.0"), ("3.2", "4.9")], "1.52", "0.012"),
    ("okra and maize 2011, 2 weeks later", [("4.4", "5.7"), ("3.2", "4.5")], "1.48", "0.012"),
    ("okra and maize 2010, 4 weeks later", [("5.8", "6.0"), ("2.2", "4.9")], "1.42", "0.012"),
    ("okra and maize 2011, 4 weeks later", [("5.5", "5.7"), ("2.0", "4.5")], "1.40", "0.012"),
    ("sorghum 1 : cowpea 4", [("1287.25", "3585"), ("1400.5", "1740")], "1.1640", "0.0001"),
    ("sorghum 2 : cowpea 3", [("2310.25", "3585"), ("1422.75", "1740")], "1.4621", "0.0001"),
    ("sorghum 3 : cowpea 2", [("2967.0", "3585"), ("887.5", "1740")], "1.3377", "0.0001"),
    ("sorghum 4 : cowpea 1", [("3384.75", "3585"), ("356.75", "1740")], "1.1492", "0.0001"),
]


def ratio(pairs: list[tuple[str, str]]) -> Fraction:
    return land_equivalent(partial(Fraction(together), Fraction(alone)) for together, alone in pairs)


@pytest.mark.parametrize(("what", "pairs", "printed", "near"), EXAMPLES, ids=lambda one: str(one)[:30])
def test_worked_examples_of_land_equivalents(
    what: str, pairs: list[tuple[str, str]], printed: str, near: str
):
    assert abs(ratio(pairs) - Fraction(printed)) <= Fraction(near), what


def test_a_page_that_adds_wrongly_is_not_followed():
    # A page prints 1.25 for A 300 of 400 and B 200 of 250; 0.75 + 0.80 is 1.55.
    assert ratio([("300", "400"), ("200", "250")]) == Fraction("1.55")


@pytest.mark.parametrize(
    ("year", "pairs", "saved"),
    [
        ("2010 together", [("5.3", "6.0"), ("4.4", "4.9")], "43.8"),
        ("2011 together", [("4.8", "5.7"), ("4.1", "4.5")], "42.9"),
        ("2010 2 weeks", [("5.2", "6.0"), ("3.2", "4.9")], "34.2"),
        ("2011 2 weeks", [("4.4", "5.7"), ("3.2", "4.5")], "32.4"),
        ("2010 4 weeks", [("5.8", "6.0"), ("2.2", "4.9")], "29.6"),
        ("2011 4 weeks", [("5.5", "5.7"), ("2.0", "4.5")], "28.6"),
    ],
)
def test_land_saved_as_the_same_table_prints_it(year: str, pairs: list[tuple[str, str]], saved: str):
    # 100 - 100 / LER, where the table adds parts that it has rounded to two decimals.
    added = land_equivalent(
        round(partial(Fraction(together), Fraction(alone)), 2) for together, alone in pairs
    )
    assert abs(100 - 100 / added - Fraction(saved)) <= Fraction("0.1"), year


@pytest.mark.parametrize(
    ("rows", "together", "alone", "share", "printed"),
    [
        ("sorghum 1/5", "1287.25", "3585", "1/5", "1.7953"),
        ("cowpea 4/5", "1400.5", "1740", "4/5", "1.0061"),
        ("sorghum 2/5", "2310.25", "3585", "2/5", "1.6111"),
        ("cowpea 3/5", "1422.75", "1740", "3/5", "1.3628"),
        ("sorghum 3/5", "2967.0", "3585", "3/5", "1.3794"),
        ("cowpea 2/5", "887.5", "1740", "2/5", "1.2751"),
        ("sorghum 4/5", "3384.75", "3585", "4/5", "1.1802"),
        ("cowpea 1/5", "356.75", "1740", "1/5", "1.0251"),
    ],
)
def test_crop_performance_is_the_partial_of_a_crop_on_its_own_share(
    rows: str, together: str, alone: str, share: str, printed: str
):
    assert abs(
        partial(Fraction(together) / Fraction(share), Fraction(alone)) - Fraction(printed)
    ) <= Fraction("0.0001"), rows


def test_the_competitive_ratio_is_one_partial_over_the_other():
    assert abs(
        partial(Fraction("5.3"), Fraction("6.0")) / partial(Fraction("4.4"), Fraction("4.9"))
        - Fraction("0.98")
    ) <= Fraction("0.015")
    assert abs(
        partial(Fraction("5.5"), Fraction("5.7")) / partial(Fraction("2.0"), Fraction("4.5"))
        - Fraction("2.18")
    ) <= Fraction("0.035")


# --- row ground --------------------------------------------------------------------------------------


def printed(low: str, middle: str, high: str) -> Printed:
    figure = Figure(
        fact="yield per sqft", low=Fraction(low), high=Fraction(high), unit="lb/sqft", source="a-book"
    )
    return Printed(low=Fraction(low), middle=Fraction(middle), high=Fraction(high), figures=(figure,))


def pounds(amount: str) -> Weight:
    return Weight.of(Fraction(amount), POUND)


def line(crop: str, amount: str, number: int, **other: object) -> TallyLine:
    facts: dict[str, object] = {"weighed": True, "day": DAY, "counts": True}
    return TallyLine(
        weighing=number,
        season="2026",
        crop=crop,
        weight=pounds(amount),
        **(facts | other),  # type: ignore[arg-type]
    )


def test_the_high_yield_needs_the_low_ground():
    found = crop_ground("carrot", pounds("6"), printed("0.5", "1", "1.5"))
    assert (found.square_feet.low, found.square_feet.middle, found.square_feet.high) == (4, 6, 12)


def test_only_a_printed_crop_counts_and_the_share_says_so():
    lines = [
        line("carrot", "6", 0),
        line("mixed: carrot + kale", "2", 1),
        line("general: beans", "1", 2),
        line("kale", "3", 3),
        line("carrot", "50", 4, counts=False),
        line("carrot", "0", 5, weighed=False),
    ]
    found = row_ground(lines, {"carrot": printed("0.5", "1", "1.5")})
    assert [one.crop for one in found.crops] == ["carrot"]
    assert found.share == Fraction(6, 12)
    assert [key for key, _weight in found.uncovered] == ["general: beans", "kale", "mixed: carrot + kale"]
    assert found.crops[0].at_least
    assert found.at_least


def test_row_ground_over_ground_is_the_sum_of_partial_land_equivalents():
    known = {"carrot": printed("0.5", "1", "1.5"), "kale": printed("0.2", "0.25", "0.4")}
    found = row_ground([line("carrot", "6", 0), line("kale", "3", 1)], known)
    ratio = found.equivalents(Fraction(20))
    for name in ("low", "middle", "high"):
        assert getattr(ratio, name) == getattr(found.square_feet, name) / 20
    assert ratio.middle == Fraction(6, 20) + Fraction(12, 20)


def test_only_lines_up_to_a_day_count():
    later = date(2026, 8, 1)
    lines = [line("carrot", "6", 0), line("carrot", "6", 1, day=later)]
    known = {"carrot": printed("0.5", "1", "1.5")}
    assert row_ground(lines, known, DAY).square_feet.middle == 6
    assert row_ground(lines, known, later).square_feet.middle == 12
    assert row_ground([], known).share == 0
