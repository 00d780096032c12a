"""Gardens invented by chance, read, checked and built, and their totals added up from the text itself.

The tests try some; to try others by hand: ``python -m tests.whole.any_garden FIRST LAST``.
"""

from __future__ import annotations

import sys
import traceback
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import yaml

from tallybed.garden.findings import has_errors, worded
from tallybed.garden.garden import Garden
from tallybed.pages import catalogue
from tallybed.pages.frame.page import Page
from tallybed.publishing.assets import layouts
from tallybed.publishing.rendering import Rendering
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.year import Year, Years
from tallybed.tasks.build import make
from tallybed.tasks.site.reckoned import own_doubts, reckoned
from tests.generated import CROPS, Generated, garden
from tests.whole.reckoner import grams

NANOGRAMS = 10**9
SLOW = {
    "bed": 12,
    "bed month": 12,
    "sun": 12,
    "crop": 6,
    "bed sign": 4,
    "poster": 4,
    "season": 3,
    "seasons": 3,
    "home": 2,
}
"""Kinds of page that cost the most; each is made of every twelfth garden alone, or of every sixth …"""


def total(files: dict[str, str], year: str) -> tuple[Decimal, int]:
    """Return grams of a season's ledger, and pickings nobody weighed, by the text alone.

    One picking is what is picked of one crop on one day, by its tag or else its squares; all the
    squares of a planting are as good as its tag. Where it was weighed fresh and cured, the fresh
    weight counts.
    """
    rows = yaml.load(files.get(f"{year}/harvest.yaml") or "[]", Loader=yaml.CBaseLoader) or []
    plan = yaml.load(files.get(f"{year}/plan.yaml") or "[]", Loader=yaml.CBaseLoader) or []
    tags = {(one["crop"], frozenset(one["squares"])): one["tag"] for one in plan if "tag" in one}

    def tag(row: dict[str, Any]) -> str:
        return row.get("tag") or tags.get((row.get("crop"), frozenset(row.get("squares", ()))), "")

    weighed: dict[tuple[str, str], set[str]] = {}
    for row in rows:
        if tag(row) and grams(row["weight"]) is not None:
            weighed.setdefault((row["date"], tag(row)), set()).add(row.get("state", "fresh"))
    whole, unweighed = Decimal(0), 0
    for row in rows:
        states = weighed.get((row["date"], tag(row)), set())
        state = row.get("state", "fresh")
        if len(states | {state}) > 1 and state != ("fresh" if "fresh" in states else "cured"):
            continue  # the same picking counts in its other state
        weight = grams(row["weight"])
        if weight is None:
            unweighed += 1
        else:
            whole += weight
    return whole, unweighed


def tried(one: Generated, root: Path, rendering: Rendering | None = None) -> list[str]:
    """Return what is wrong with a garden: errors where there are none, totals that are not the text's.

    With ``rendering`` its pages are made with a small library and the slow kinds now and then; without
    it the whole site is. Raises whatever the program raises.
    """
    one.write(root)
    found = read(root)
    if found.garden is None or has_errors(found.findings):
        return [worded(finding) for finding in found.findings]
    if rendering is None:
        made = make(root)
        if not made.files or made.years is None:
            return [worded(finding) for finding in made.findings]
        return [said for year in made.years.all for said in wrong_total(one, year)]
    years = reckoned(smaller(found.garden))
    for part in filter(None, (years.closed, years)):
        own_doubts(part)
    for page in pages(years, one.seed):
        rendering.page(page)
    for year in years.all:
        assert all(file.path for file in catalogue.tables_of(year))
    return [said for year in years.all for said in wrong_total(one, year)]


def smaller(whole: Garden) -> Garden:
    """Return a garden that knows the crops of these gardens alone: a page for each crop costs the most."""
    known = (*CROPS, "kale")
    return replace(whole, crops=tuple(crop for crop in whole.crops if crop.slug in known))


def pages(years: Years, number: int) -> Iterator[Page]:
    """Yield a garden's pages, those of the slow kinds for some numbers alone."""
    for kind in catalogue.KINDS:
        if number % SLOW.get(kind.name, 1) == 0:
            yield from (catalogue.framed(years, page) for page in kind.every(years))


def wrong_total(one: Generated, year: Year) -> Iterator[str]:
    """Yield how a season's total differs from the text's own."""
    grams_told, unweighed = total(one.files, year.name)
    ours = year.total.weight.nanograms / NANOGRAMS
    if ours != Fraction(grams_told):
        yield f"garden {one.seed}, {year.name}: {float(ours)} g and not {grams_told} g"
    if year.total.unweighed != unweighed:
        yield f"garden {one.seed}, {year.name}: {year.total.unweighed} not weighed, and not {unweighed}"


def _by_hand(first: int, last: int) -> int:
    rendering, failed = None, 0
    for number in range(first, last):
        with TemporaryDirectory() as folder:
            rendering = rendering or Rendering(layouts(Path(folder)))
            try:
                said = tried(garden(number), Path(folder), rendering)
            except Exception:
                said = [traceback.format_exc()]
        failed += bool(said)
        for words in said:
            print(f"{number}: {words}")
    print(f"gardens {first} to {last - 1}: {failed} of {last - first} failed")
    return failed


if __name__ == "__main__":
    sys.exit(min(_by_hand(int(sys.argv[1]), int(sys.argv[2])), 1))
