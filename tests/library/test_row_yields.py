"""Printed row yields held line by line against what their sources print, by other code.

A source prints a yield for a length of row (or a plant) and the distance between the rows;
the library keeps both, and beside them the yield per square foot that follows. Here that is
worked out again from the plain text of the files: pounds, over feet of row times feet
between the rows, from the widest rows to the narrowest, to two decimals.
"""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal
from statistics import median
from typing import Any

import pytest
import yaml

from tallybed.reading.folder.library import load_library
from tallybed.reckoning.rows.printed import printed
from tests.tools import ROOT

FOLDER = ROOT / "src" / "tallybed" / "library" / "crops"
FILES = {
    path.stem: yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    for path in sorted(FOLDER.glob("*.yaml"))
}
CENT = Decimal("0.01")
FOOT = Decimal(12)
ROWS = re.compile(r"rows ([\d.]+)(?: to ([\d.]+))? in apart")
PLANTS = re.compile(r"plants ([\d.]+)(?: to ([\d.]+))? in")
NOTED = re.compile(r"([\d.]+)(?: to ([\d.]+))? lb from (10 ft of row|a plant)")
WITH_ROWS = {
    slug: [one for one in file["facts"].get("yield per sqft", []) if one.get("of") == "row garden"]
    for slug, file in FILES.items()
}
COVERED = {slug: rows for slug, rows in WITH_ROWS.items() if rows}


def _two(low: str, high: str | None) -> tuple[Decimal, Decimal]:
    return Decimal(low), Decimal(high or low)


def _value(text: str) -> tuple[Decimal, Decimal, str]:
    low, high, unit = re.fullmatch(r"([\d.]+)(?: to ([\d.]+))? (\S+)", text).groups()  # type: ignore[union-attr]
    return (*_two(low, high), unit)


def _cents(value: Decimal) -> Decimal:
    return value.quantize(CENT, ROUND_HALF_UP)


def _from_note(note: str) -> tuple[Decimal, Decimal]:
    amount, rows = NOTED.search(note), ROWS.search(note)
    assert amount, note
    assert rows, note
    low, high = _two(amount[1], amount[2])
    narrow, wide = _two(rows[1], rows[2])
    if amount[3] == "a plant":
        plants = PLANTS.search(note)
        assert plants, note
        close, far = _two(plants[1], plants[2])
        return low / (far / FOOT * wide / FOOT), high / (close / FOOT * narrow / FOOT)
    return low / (10 * wide / FOOT), high / (10 * narrow / FOOT)


@pytest.mark.parametrize("slug", sorted(COVERED))
def test_each_figure_follows_from_the_length_of_row_and_the_distance_between(slug: str):
    for row in COVERED[slug]:
        low, high, unit = _value(row["value"])
        assert unit == "lb/sqft"
        reckoned = _from_note(row["note"])
        assert (low, high) == tuple(_cents(one) for one in reckoned), row


@pytest.mark.parametrize("slug", sorted(COVERED))
def test_each_figure_says_what_its_source_prints(slug: str):
    """The note's pounds and distances are those of the source's own line, in the source's own unit."""
    lines = {row["source"]: row for row in FILES[slug]["facts"].get("yield", []) if "source" in row}
    for row in COVERED[slug]:
        note, line = row["note"], lines[row["source"]]
        low, high, unit = _value(line["value"])
        if unit == "lb/lb":  # potatoes: pounds for each pound planted, and pounds planted in ten feet
            planted = Decimal(re.search(r"([\d.]+) lb of seed potatoes plants 10 ft", line["note"])[1])  # type: ignore[index]
            low, high, unit = low * planted, high * planted, "lb/10ft"
            (between,) = [
                one["value"]
                for one in FILES[slug]["facts"]["row spacing between"]
                if one["source"] == row["source"]
            ]
            rows = re.fullmatch(r"([\d.]+)(?: to ([\d.]+))? in", between)
        else:
            rows = ROWS.search(line["of"])
        assert rows, line
        told, apart = NOTED.search(note), ROWS.search(note)
        assert told, note
        assert apart, note
        assert _two(told[1], told[2]) == (low, high), row
        assert {"10 ft of row": "lb/10ft", "a plant": "lb/plant"}[told[3]] == unit, row
        assert _two(apart[1], apart[2]) == _two(rows[1], rows[2]), row


@pytest.mark.parametrize("slug", sorted(COVERED))
def test_low_middle_and_high_as_the_product_takes_them(slug: str):
    figures = [_value(row["value"]) for row in COVERED[slug]]
    middles = [(low + high) / 2 for low, high, _unit in figures]
    found = printed(load_library().crops[slug])
    assert found is not None
    assert found.low == min(low for low, _high, _unit in figures)
    assert found.high == max(high for _low, high, _unit in figures)
    # The middle: the median of the sources' middles, before the figures were rounded or after.
    exact = [sum(_from_note(row["note"])) / 2 for row in COVERED[slug]]
    allowed = {_cents(Decimal(median(middles))), _cents(Decimal(median(exact)))}
    assert Decimal(str(float(found.middle))) in allowed, (slug, allowed)
    assert found.sources == tuple(dict.fromkeys(row["source"] for row in COVERED[slug]))


def test_a_home_bed_is_no_row_garden():
    strawberry = load_library().crops["strawberry"]
    assert strawberry.used("yield per sqft") is not None
    assert printed(strawberry) is None


def test_crops_of_the_demonstration_have_a_printed_row_yield():
    grown: set[str] = set()
    for path in sorted((ROOT / "content").glob("*/plan.yaml")):
        rows: list[dict[str, Any]] = yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
        grown |= {row["crop"] for row in rows}
    assert len(grown & set(COVERED)) >= 15
