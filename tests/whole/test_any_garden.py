"""Any garden builds: gardens invented by chance, and what is special about them."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tallybed.garden.findings import has_errors
from tallybed.publishing.rendering import Rendering
from tallybed.tasks.build import make
from tallybed.tasks.check import check
from tests.generated import garden
from tests.pages.gardens import written
from tests.whole.any_garden import tried

NUMBERS = range(0, 120, 1 if os.environ.get("EVERY") else 2)
"""Sixty gardens; twice as many with ``EVERY=1``."""
WHOLE = (3, 60)
"""Gardens whose whole site is made, with every kind of page and the whole library."""
EVERY = {
    "sparse months",
    "across the new year",
    "metric",
    "southern",
    "one square",
    "strip",
    "L-shaped",
    "no plan",
    "no log",
    "no ledger",
    "empty ledger",
    "carried",
    "mixed bowl",
    "nothing weighed",
    "nothing planted",
    "two beds",
    "several seasons",
    "closed",
    "rotation alone",
    "dropped",
    "cured alone",
    "both",
    "a crop that nobody planted",
}
SPARSE = {
    "garden.yaml": """\
name: Gap Garden
latitude: 45.5
longitude: -123.2
beds: [{name: a, length: 4 squares, width: 1 squares}]
""",
    "2026/plan.yaml": "- {crop: chard, tag: CH1, squares: a/A1, sow: 2026-04-12, until: 2026-10-15}\n",
    "2026/harvest.yaml": """\
- {date: 2026-05-10, tag: CH1, weight: 6 oz}
- {date: 2026-07-10, tag: CH1, weight: 6 oz}
""",
}


def test_the_gardens_tried_have_everything_that_can_go_wrong():
    found = [trait for number in NUMBERS for trait in garden(number).traits]
    assert min((found.count(trait), trait) for trait in EVERY) >= (3, "")


def test_the_same_number_is_always_the_same_garden():
    assert garden(7) == garden(7) != garden(8)


@pytest.mark.parametrize("tens", range(0, len(NUMBERS), 10))
def test_each_is_read_checked_and_built_and_its_totals_are_those_of_its_text(
    tens: int, tmp_path: Path, rendering: Rendering
):
    said = [
        words for n in NUMBERS[tens : tens + 10] for words in tried(garden(n), tmp_path / str(n), rendering)
    ]
    assert not said


@pytest.mark.parametrize("number", WHOLE)
def test_the_whole_site_of_some(number: int, tmp_path: Path):
    assert not tried(garden(number), tmp_path)


def test_a_month_without_a_weighing_between_two_with(tmp_path: Path):
    root = written(tmp_path, SPARSE)
    made = make(root)
    assert not has_errors(made.findings)
    assert not has_errors(check(root))
    page = made.files["2026/tally/index.html"].decode("utf-8")
    assert page.count('<th scope="col" class="number">Jun</th>') == 1
