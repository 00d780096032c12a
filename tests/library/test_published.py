"""The library's figures held against the published tables, typed again here row by row."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tallybed.garden.crops import Figure
from tallybed.garden.units import INCH
from tallybed.reading.folder.library import load_library

LIBRARY = load_library()

# 7 CFR 201.31, Germination standards for vegetable seeds in interstate commerce (59 FR 64491, 1994):
# least share of seed, in percent, as printed. Crops the table does not list are left out.
FEDERAL = {
    "bean-bush": 70,
    "bean-pole": 70,
    "beet": 65,
    "broccoli": 75,
    "brussels-sprouts": 70,
    "cabbage": 75,
    "cantaloupe": 75,
    "carrot": 55,
    "cauliflower": 75,
    "celery": 55,
    "chard": 65,
    "chinese-cabbage": 75,
    "collards": 80,
    "cucumber": 80,
    "dill": 60,
    "eggplant": 60,
    "kale": 75,
    "kohlrabi": 75,
    "leek": 60,
    "lettuce-head": 80,
    "lettuce-leaf": 80,
    "mustard-greens": 75,
    "okra": 50,
    "onion-bulb": 70,
    "onion-bunching": 70,
    "parsley": 60,
    "parsnip": 60,
    "pea-garden": 80,
    "pea-snap": 80,
    "pea-snow": 80,
    "pepper-sweet": 55,
    "pumpkin": 75,
    "radish": 75,
    "rutabaga": 75,
    "spinach": 60,
    "squash-summer": 75,
    "squash-winter": 75,
    "sweet-corn": 75,
    "tomato-determinate": 75,
    "tomato-indeterminate": 75,
    "turnip": 80,
    "watermelon": 70,
}
NOT_FEDERAL = {
    *("arugula", "basil", "garlic", "potato", "strawberry", "sweet-potato"),
    # Not looked up in the standard yet: nothing is claimed for them.
    *("bean-broad", "chives", "cilantro", "mint", "oregano", "rosemary", "sage", "shallot", "thyme"),
    *("amaranth", "bean-lima", "bean-runner", "bok-choy", "calendula", "celeriac"),
    *("corn-salad", "cowpea", "daikon", "edamame", "endive", "fennel", "marjoram", "mizuna"),
    *("new-zealand-spinach", "pepper-hot", "radicchio", "rapini", "savory", "sunflower"),
    *("tarragon", "tomatillo", "ground-cherry", "marigold", "nasturtium", "peanut", "zinnia"),
}

# Close spacing in inches: University of Arizona Cooperative Extension, Master Gardener Manual, chapter 10,
# Vegetable Garden: Intensive Gardening Methods (Virginia Cooperative Extension prints the same table).
CLOSE = {
    "bean-bush": (4, 6),
    "bean-lima": (4, 6),
    "bean-pole": (6, 12),
    "beet": (2, 4),
    "broccoli": (12, 18),
    "brussels-sprouts": (15, 18),
    "cabbage": (15, 18),
    "cantaloupe": (18, 24),
    "carrot": (2, 3),
    "cauliflower": (15, 18),
    "chard": (6, 9),
    "chinese-cabbage": (10, 12),
    "collards": (12, 15),
    "cowpea": (3, 4),
    "cucumber": (12, 18),
    "eggplant": (18, 24),
    "endive": (15, 18),
    "kale": (15, 18),
    "kohlrabi": (6, 9),
    "leek": (3, 6),
    "lettuce-head": (10, 12),
    "lettuce-leaf": (4, 6),
    "mustard-greens": (6, 9),
    "okra": (12, 18),
    "onion-bulb": (2, 4),
    "pea-garden": (2, 4),
    "pepper-hot": (12, 15),
    "pepper-sweet": (12, 15),
    "potato": (10, 12),
    "pumpkin": (24, 36),
    "radish": (2, 3),
    "rutabaga": (4, 6),
    "spinach": (4, 6),
    "squash-summer": (18, 24),
    "squash-winter": (24, 36),
    "sweet-corn": (15, 18),
    "tomato-determinate": (18, 24),
    "tomato-indeterminate": (18, 24),
    "turnip": (4, 6),
}

# Best soil temperature for germination, °F: J. F. Harrington's table, as printed by Oregon State
# University Extension, Soil temperature conditions for vegetable seed germination.
HARRINGTON = {
    "bean-bush": 80,
    "beet": 85,
    "cabbage": 85,
    "cantaloupe": 90,
    "carrot": 80,
    "cauliflower": 80,
    "chard": 85,
    "cucumber": 95,
    "eggplant": 85,
    "lettuce-leaf": 75,
    "onion-bulb": 75,
    "parsley": 75,
    "parsnip": 65,
    "pea-garden": 75,
    "pepper-sweet": 85,
    "pumpkin": 95,
    "radish": 85,
    "spinach": 70,
    "squash-summer": 95,
    "sweet-corn": 95,
    "tomato-determinate": 85,
    "turnip": 85,
    "watermelon": 95,
}

G6201 = "mu-g6201"  # Vegetable Planting Calendar, University of Missouri Extension, G6201
H912 = "ndsu-h912"  # Vegetable Maturity Dates, Yields and Storage, NDSU Extension Service, H-912
HLA6004 = "osu-hla6004"  # Oklahoma Garden Planning Guide, Oklahoma Cooperative Extension, HLA-6004
SP103 = "uf-sp103"  # Florida Vegetable Gardening Guide, University of Florida IFAS Extension, SP 103
MAINE = (
    "umaine-chart"  # Planting Chart for the Home Vegetable Garden, University of Maine Cooperative Extension
)
HO203 = "purdue-ho203"  # Vegetables: Frost Resistance, Purdue University, HO-203
TABLE16 = "nevmg-t16"  # New England Vegetable Management Guide, table 16, Storage conditions
PRINTED = [
    ("carrot", "days to maturity", G6201, 70, 85, "days"),
    ("carrot", "row spacing between", G6201, 18, 18, "in"),
    ("carrot", "row spacing in row", G6201, 3, 3, "in"),
    ("carrot", "planting depth", G6201, "1/4", "1/4", "in"),
    ("beet", "days to maturity", G6201, 55, 65, "days"),
    ("spinach", "days to maturity", G6201, 40, 50, "days"),
    ("kohlrabi", "row spacing in row", G6201, 4, 4, "in"),
    ("sweet-corn", "days to maturity", H912, 70, 100, "days"),
    ("radish", "days to maturity", H912, 22, 40, "days"),
    ("squash-summer", "days to maturity", H912, 50, 68, "days"),
    ("squash-winter", "days to maturity", H912, 80, 120, "days"),
    ("bean-bush", "days to maturity", HLA6004, 50, 60, "days"),
    ("okra", "days to maturity", HLA6004, 60, 70, "days"),
    ("pumpkin", "days to maturity", HLA6004, 90, 120, "days"),
    ("carrot", "yield", SP103, 10, 10, "lb/10ft"),
    ("carrot", "row spacing between", SP103, 10, 10, "in"),
    ("beet", "row spacing in row", SP103, 2, 4, "in"),
    ("cabbage", "row spacing in row", SP103, 9, 16, "in"),
    ("beet", "yield", MAINE, 10, 10, "lb/10ft"),
    ("beet", "row spacing between", MAINE, 12, 18, "in"),
    ("parsnip", "yield", MAINE, 15, 15, "lb/10ft"),
    ("potato", "planting depth", MAINE, 4, 6, "in"),
    ("tomato-indeterminate", "yield", MAINE, 8, 8, "lb/plant"),
    ("spinach", "spring planting offset", HO203, -6, -4, "weeks"),
    ("carrot", "spring planting offset", HO203, -3, -2, "weeks"),
    ("bean-bush", "spring planting offset", HO203, 0, 0, "weeks"),
    ("pepper-sweet", "spring planting offset", HO203, 1, 2, "weeks"),
    ("onion-bulb", "storage rh", TABLE16, 65, 70, "%"),
    ("bean-bush", "storage temp", TABLE16, 40, 45, "degF"),
    ("eggplant", "storage life", TABLE16, 1, 1, "weeks"),
]


def _of(slug: str, fact: str, source: str) -> list[Figure]:
    return [figure for figure in LIBRARY.crops[slug].all_of(fact) if figure.source == source]


@pytest.mark.parametrize(("slug", "percent"), FEDERAL.items())
def test_the_federal_germination_standard_is_carried_and_used(slug: str, percent: int) -> None:
    (figure,) = _of(slug, "seed germination min", "cfr7-201-31")
    assert figure.low == figure.high == Fraction(percent)
    used = LIBRARY.crops[slug].used("seed germination min")
    assert used is not None
    assert (used.low, used.source) == (Fraction(percent), "cfr7-201-31")


def test_no_federal_standard_is_claimed_for_crops_that_have_none() -> None:
    told = FEDERAL.keys() | NOT_FEDERAL
    assert told == LIBRARY.crops.keys(), "each crop stands in FEDERAL, with its percentage, or in NOT_FEDERAL"
    for slug in NOT_FEDERAL:
        assert all(figure.low is None for figure in _of(slug, "seed germination min", "cfr7-201-31"))


@pytest.mark.parametrize(("slug", "inches"), CLOSE.items())
def test_close_spacings_are_as_printed(slug: str, inches: tuple[int, int]) -> None:
    (figure,) = _of(slug, "intensive spacing", "az-mg-intensive")
    assert (figure.low, figure.high, figure.unit) == (Fraction(inches[0]), Fraction(inches[1]), "in")


def test_every_row_of_the_close_spacing_table_is_checked() -> None:
    carried = {slug for slug in LIBRARY.crops if _of(slug, "intensive spacing", "az-mg-intensive")}
    unchecked, gone = sorted(carried - CLOSE.keys()), sorted(CLOSE.keys() - carried)
    assert not unchecked, f"write in CLOSE what the table prints of {', '.join(unchecked)}"
    assert not gone, (
        f"the library has lost the table's figure of {', '.join(gone)}, or it stands under another source"
    )


@pytest.mark.parametrize(("slug", "degrees"), HARRINGTON.items())
def test_the_best_soil_temperature_is_harringtons(slug: str, degrees: int) -> None:
    used = LIBRARY.crops[slug].used("soil temp germ opt")
    assert used is not None
    assert (used.low, used.high, used.source) == (Fraction(degrees), Fraction(degrees), "osu-harrington")


@pytest.mark.parametrize(("slug", "fact", "source", "low", "high", "unit"), PRINTED)
def test_figures_are_as_printed(
    slug: str, fact: str, source: str, low: int | str, high: int | str, unit: str
) -> None:
    printed = {(figure.low, figure.high, figure.unit) for figure in _of(slug, fact, source)}
    assert (Fraction(low), Fraction(high), unit) in printed


# Common practice, no source: nine bulb-onion sets, or nine garden peas, to a one-foot square are three
# across, so four inches apart or less; bunching onions stand two inches apart.
@pytest.mark.parametrize(("slug", "inches"), [("onion-bulb", 4), ("pea-garden", 4), ("onion-bunching", 2)])
def test_common_practice_in_one_foot_squares_stays_possible(slug: str, inches: int) -> None:
    assert LIBRARY.crops[slug].spacing.within(INCH) <= inches
