"""Totals say what they are, what they leave out and what ground they are told over."""

import re
from fractions import Fraction
from html import unescape
from pathlib import Path

import pytest

from tallybed.garden.units import GRAM, KILOGRAM, OUNCE, POUND, Showing, Weight
from tallybed.pages.tables.tables import Cell
from tallybed.pages.tables.tally_tables import weight
from tallybed.pages.wording import spoken, sums
from tallybed.reckoning.harvest.areas import Ground
from tallybed.reckoning.harvest.tally import Total
from tallybed.tasks.build import make
from tests.small_garden import PLAN, folder, written

POUNDS, KILOGRAMS = Showing(), Showing(metric=True)


def test_a_whole_total_makes_no_reservation() -> None:
    whole = Total(weight=Weight.of(42, POUND), pickings=9)
    assert sums.summed(POUNDS, whole) == sums.Sum(before="", number="42.0", unit="lb", cured="", caveats=())
    assert sums.in_words(POUNDS, whole) == "42.0 lb"


def test_a_picking_that_was_not_weighed_makes_a_total_at_least() -> None:
    part = Total(weight=Weight.of(1, KILOGRAM), pickings=9, unweighed=1)
    shown = sums.summed(KILOGRAMS, part)
    assert (shown.before, shown.number, shown.unit) == ("at least", "1.0", "kg")
    assert shown.caveats == ("One picking was not weighed, so the true total is more.",)
    assert sums.in_words(KILOGRAMS, part) == "at least 1.0 kg"


def test_what_was_cured_is_said_beside_a_total_in_the_same_words() -> None:
    total = Total(weight=Weight.of(71, POUND), cured=Weight.of(83, OUNCE), pickings=3)
    assert sums.summed(POUNDS, total).cured == "5.2 lb of it cured"
    assert sums.summed(POUNDS, total).number == "71.0"
    assert sums.in_words(POUNDS, total) == "71.0 lb, 5.2 lb of it cured"
    assert weight(POUNDS, total) == Cell(text="71.00", number=True), "not in the cell of the figure"
    both = Total(weight=Weight.of(3, POUND), cured=Weight.of(1, POUND), dried=Weight.of(8, OUNCE), pickings=3)
    assert sums.cured(POUNDS, both, 2) == "1.00 lb of it cured and 0.50 lb dried"


@pytest.mark.parametrize(
    ("showing", "total", "number", "part"),
    [
        (KILOGRAMS, Weight.of(620, GRAM), "0.62", "0.62 kg of it cured"),
        (POUNDS, Weight.of(8, OUNCE), "0.50", "0.50 lb of it cured"),
    ],
)
def test_a_part_never_looks_larger_than_the_whole_beside_it(
    showing: Showing, total: Weight, number: str, part: str
) -> None:
    whole = total + Weight.of(1, GRAM)
    shown = sums.summed(showing, Total(weight=whole, cured=total, pickings=2))
    assert (shown.number, shown.cured) == (number, part)


def test_what_was_all_cured_is_not_told_twice() -> None:
    total = Total(weight=Weight.of(620, GRAM), cured=Weight.of(620, GRAM), pickings=1)
    assert sums.summed(KILOGRAMS, total).cured == "all of it cured"
    assert sums.in_words(KILOGRAMS, total) == "620 g, all of it cured"


def test_a_total_of_which_nothing_was_weighed_is_no_figure() -> None:
    two = Total(pickings=2, unweighed=2)
    assert sums.summed(POUNDS, two) == sums.Sum(
        before="", number="", unit="", cured="", caveats=("Two pickings, none of them weighed.",)
    )
    assert sums.in_words(POUNDS, two) == "not weighed"
    assert sums.caveats(POUNDS, Total(pickings=1, unweighed=1)) == ("One picking, not weighed.",)


def test_an_estimate_is_said_beside_the_total() -> None:
    total = Total(weight=Weight.of(5, POUND), estimated=Weight.of(8, OUNCE), pickings=3, unweighed=2)
    assert sums.caveats(POUNDS, total) == (
        "Two pickings were not weighed, so the true total is more.",
        "8 oz of it was estimated, not weighed.",
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


@pytest.mark.parametrize(
    ("grams", "words"),
    [(3, "0.003"), (Fraction(1, 3), "under 0.001"), (37, "0.037"), (99, "0.099"), (100, "0.10"), (0, "0.00")],
)
def test_a_few_grams_are_told_to_the_gram_in_tables_in_kilograms(grams: int | Fraction, words: str) -> None:
    total = Total(weight=Weight.of(grams, GRAM), pickings=1)
    assert weight(KILOGRAMS, total) == Cell(text=words, number=True)


def test_a_total_over_ground_says_of_what() -> None:
    ground = Ground(of="the squares", square_feet=Fraction(30))
    over = sums.per_ground(POUNDS, Total(weight=Weight.of(42, POUND), pickings=1, unweighed=0), ground)
    # 42 lb ÷ 30 sq ft = 1.4
    assert over == sums.PerGround(before="", words="1.40 lb per sq ft", of="the squares", area="30 sq ft")
    metric = sums.per_ground(KILOGRAMS, Total(weight=Weight.of(2_787, GRAM), pickings=1), ground)
    # 30 sq ft = 30 × 0.3048² m² = 2.787 091 2 m² (NIST SP 811, appendix B.8): 2.787 kg is 1.00 kg a m²
    assert (metric.words, metric.area) == ("1.00 kg per m²", "2.79 m²")


@pytest.mark.parametrize(
    ("count", "words"),
    [(0, ""), (12, "12"), (1234, "1,234")],
)
def test_pieces(count: int, words: str) -> None:
    assert sums.pieces(count) == words


@pytest.mark.usefixtures("few_crops")
def test_no_page_says_that_more_than_some_is_less(tmp_path: Path) -> None:
    """Fails where a page or a drawing has "≥ under 0.01", or its words "at least under" or "less than"."""
    rows = (
        "- {date: DAY, crop: spinach, squares: front/A1, weight: 0.05 oz, to: kitchen}\n"
        "- {date: DAY, crop: spinach, squares: front/A1, weight: not weighed, to: kitchen}\n"
    )
    ledgers = {f"{year}/harvest.yaml": rows.replace("DAY", f"{year}-05-10") for year in (2025, 2026)}
    plan = {"2025/plan.yaml": PLAN}
    made = make(written(folder(tmp_path, ledger=False), {**ledgers, **plan}))
    assert made.files, made.findings
    words = re.compile(r"(?:≥|at least)\s*(?:under|less than)")
    texts = {}
    for path, data in made.files.items():
        if path.endswith((".html", ".svg", ".xml", ".ics", ".json")):
            text = " ".join(re.sub(r"<[^>]*>", " ", unescape(data.decode("utf-8"))).split())
            texts[path] = text
    assert {path: found[0] for path, text in texts.items() if (found := words.search(text))} == {}
    assert any("> 0" in text for text in texts.values()), "no such weight is there, so nothing was tried"


def test_what_was_cured_and_what_was_dried_are_told_apart_in_a_sentence() -> None:
    both = Total(weight=Weight.of(9, POUND), cured=Weight.of(5, POUND), dried=Weight.of(2, POUND))
    assert spoken.cured(POUNDS, both) == ", 5 pounds of it cured and 2 pounds dried"
    assert spoken.cured(POUNDS, Total(weight=Weight.of(9, POUND))) == ""
