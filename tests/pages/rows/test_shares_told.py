"""What the page beside rows says of how much of the weight it rests on."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.pages.gardens import html_of, only, written

GARDEN = "name: g\nlatitude: 41\nbeds:\n  - {name: front, length: 2 squares, width: 1 squares}\n"
LEDGER = "- {date: 2026-07-25, crop: carrot, squares: A1, weight: 2 lb}\n"
BOWL = "- {date: 2026-07-26, mixed: [carrot, radish], weight: 2 lb}\n"
PRICES = "- {date: 2026-07-20, crop: carrot, price: 2.00, per: lb, seen at: the market}\n"

pytestmark = pytest.mark.usefixtures("few_crops")


@pytest.mark.parametrize("ledger", [LEDGER, LEDGER + BOWL])
def test_a_rest_is_spoken_of_where_there_is_one(tmp_path: Path, ledger: str) -> None:
    files = {
        "garden.yaml": GARDEN + "currency: USD\n",
        "2026/harvest.yaml": ledger,
        "2026/prices.yaml": PRICES,
    }
    page = html_of(written(tmp_path, files))["2026/rows/index.html"]
    words = only(page, "main").get_text(" ", strip=True)
    part = ledger != LEDGER
    assert ("A row yield is printed for 50% of the weight. The rest counts nothing here" in words) is part
    assert ("A row yield is printed for all of the weight." in words) is not part
    assert ("50% of the weight has a price; the rest counts nothing" in words) is part
    assert ("all of the weight has a price" in words) is not part
