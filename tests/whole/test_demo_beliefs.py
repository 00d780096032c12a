"""What a grower would not believe of the demonstration garden, and what nobody should be told there.

Levels of lead: University of Maryland Extension, "Lead in Garden Soils" (background below 50 ppm).
"""

from __future__ import annotations

import re
from collections import defaultdict
from pathlib import Path
from typing import Any

import pytest
import yaml

from tests.tools import ROOT
from tests.whole.reckoner import grams

YEARS = ("2024", "2025", "2026")


def ledger(year: str) -> list[dict[str, Any]]:
    text = (ROOT / "content" / year / "harvest.yaml").read_text(encoding="utf-8")
    return yaml.load(text, Loader=yaml.CBaseLoader)


def entries(year: str) -> list[Path]:
    return sorted((ROOT / "content" / year / "log").glob("*.md"))


def test_no_crop_gives_the_same_every_year():
    sums: dict[str, list[object]] = defaultdict(list)
    for year in YEARS:
        found: dict[str, Any] = defaultdict(int)
        for row in ledger(year):
            if "crop" in row and grams(row["weight"]):
                found[row["crop"]] += grams(row["weight"])
        for crop, weight in found.items():
            sums[crop].append(weight)
    alike = [crop for crop, own in sums.items() if len(own) == len(YEARS) and len(set(own)) == 1]
    assert not alike


@pytest.mark.parametrize("year", YEARS)
def test_one_fruit_does_not_weigh_what_another_does(year: str):
    each = [
        float(grams(row["weight"]) or 0) / int(row["count"])
        for row in ledger(year)
        if row.get("crop") == "tomato-indeterminate" and "count" in row and "as" not in row
    ]
    assert max(each) > 2 * min(each)


@pytest.mark.parametrize("year", YEARS)
def test_where_most_pickings_went_is_told(year: str):
    rows = ledger(year)
    assert sum("to" in row for row in rows) > len(rows) / 2


@pytest.mark.parametrize("year", YEARS)
def test_not_every_onion_that_was_planted_was_weighed(year: str):
    plan = yaml.load(
        (ROOT / "content" / year / "plan.yaml").read_text(encoding="utf-8"), Loader=yaml.CBaseLoader
    )
    planned = next(row for row in plan if row.get("tag") == "ON1")
    assert planned["per square"] == "9"
    weighed = sum(int(row.get("count", 0)) for row in ledger(year) if row.get("crop") == "onion-bulb")
    assert weighed <= 9 * 4 - 3


def test_some_waterings_tell_how_much():
    lines = [line for year in YEARS for path in entries(year) for line in path.read_text("utf-8").split("\n")]
    assert sum("{water: " in line and "amount: " in line for line in lines) >= 3


def test_what_is_said_of_lead_has_its_figure_its_laboratory_and_its_day():
    told = [
        path.read_text(encoding="utf-8")
        for path in sorted((ROOT / "content").rglob("*.md"))
        if re.search(r"\blead in (the|garden) soil|\blead to get into", path.read_text(encoding="utf-8"))
    ]
    assert len(told) >= 2
    for text in told:
        assert "31 parts" in text
        assert "Laboratory" in text
        assert re.search(r"\b(19|the 19th)\b", text)
        assert "extension office" in text
        assert "nothing to worry about" not in text


def test_nobody_is_told_that_washing_makes_untested_soil_safe():
    text = (ROOT / "content" / "questions" / "is-the-wood-safe.md").read_text(encoding="utf-8")
    assert "does not make soil that nobody has tested safe" in text
    assert "never wrong" not in text


def test_taking_what_is_ripe_has_its_caution():
    text = (ROOT / "content" / "questions" / "can-i-pick-some.md").read_text(encoding="utf-8")
    for word in ("can name for certain", "Wash it", "sprayed", "gnawed"):
        assert word in text
