"""A garden that keeps one paper alone is not told of what the others would have said."""

from datetime import date
from pathlib import Path

import pytest

from tallybed.checks.registry import every_finding
from tallybed.reckoning.year import Years
from tests.small_garden import read_garden, written

GARDEN = """\
name: One paper
season: {start: Mar 1, end: Nov 30}
beds:
  - {name: b, length: 2 squares, width: 1 square}
"""
PLAN = "- {crop: carrot, tag: CA1, squares: A1:B1, sow: Mar 1}\n"
LOG = """\
---
title: Cleared
date: 2026-07-01
done:
  - {clear: spinach, squares: A1}
---
Of last fall.
"""
LEDGER = "- {date: 2026-07-01, crop: carrot, weight: 1 lb}\n"


@pytest.mark.parametrize(
    ("paper", "text"), [("plan.yaml", PLAN), ("log/2026-07-01-x.md", LOG), ("harvest.yaml", LEDGER)]
)
def test_what_is_not_kept_is_not_missed(paper: str, text: str, tmp_path: Path):
    garden = read_garden(written(tmp_path, {"garden.yaml": GARDEN, f"2026/{paper}": text}))
    assert every_finding(Years(garden=garden, today=date(2026, 9, 1)).all[-1]) == ()
