"""A garden of three seasons: one bed was taken away after the second, one was added for the third."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from tests.small_garden import LOG, QUESTION, written

OLD = "  - {name: old, title: The old bed, length: 3 squares, width: 2 squares, until: 2025}\n"
FRONT = "  - {name: front, title: The front bed, length: 4 squares, width: 2 squares}\n"
NEW = "  - {name: new, title: The new bed, length: 5 squares, width: 2 squares, since: 2026}\n"
HEAD = """\
name: Three Year Garden
address: https://three.example/
latitude: 41
units: pounds
season: {start: Apr 1, end: Jun 30}
freeze dates: {last spring: May 1, first fall: Oct 10}
seasons:
  2024: {closed: yes}
  2025: {closed: yes}
beds:
"""
PLAN = """\
- {crop: spinach, tag: SP1, squares: front/A1:D2, sow: Apr 5, until: Jun 25}
- {crop: carrot, tag: CA1, squares: other/A1:B1, sow: Apr 20, until: Jun 29}
"""
# 12 lb of spinach: by the library's row yields, 0.27 to 0.5 lb per square foot, 24 square feet of rows at
# least.
LEDGER = """\
- {date: 2026-05-20, crop: spinach, tag: SP1, weight: 6 lb, to: pantry}
- {date: 2026-06-20, crop: spinach, squares: front/A1:D2, weight: 6 lb}
"""
OTHER = {"2024": "old", "2025": "old", "2026": "new"}
"""The bed that each season has beside the front one."""


def garden_yaml(*beds: str) -> str:
    """``garden.yaml`` with these beds, by default all three."""
    return HEAD + "".join(beds or (OLD, FRONT, NEW))


def season_files(year: str, other: str = "") -> dict[str, str]:
    """A season's files, whose second planting stands in its other bed."""
    told = {"plan.yaml": PLAN, "harvest.yaml": LEDGER, **{f"log/{name}": text for name, text in LOG.items()}}
    bed = other or OTHER[year]
    texts = {
        name: text.replace("other/", f"{bed}/").replace("back", bed).replace("A1:B2", "A1:D2")
        for name, text in told.items()
    }
    return {
        f"{year}/{name}".replace("2026", year): text.replace("2026", year) for name, text in texts.items()
    }


def three_years(root: Path, files: Mapping[str, str] | None = None) -> Path:
    """Write the garden, some of its files otherwise, and return its folder."""
    every = {"garden.yaml": garden_yaml(), "questions/why-so-few.md": QUESTION}
    for year in OTHER:
        every |= season_files(year)
    return written(root, every | dict(files or {}))
