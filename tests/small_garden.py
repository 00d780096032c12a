"""A small garden with every paper, as texts: for tests that read it, and for those of its pages."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from tallybed.garden.garden import Garden
from tallybed.reading.folder.garden_folder import read

GARDEN = """\
name: Two Plank Garden
place: Harrowgate Lane
latitude: 41
longitude: -80
time zone: America/New_York
units: pounds
about: Two small beds behind a hall.
season: {start: Mar 1, end: Oct 31}
freeze dates: {last spring: May 1, first fall: Oct 10}
beds:
  - {name: front, title: The front bed, length: 4 squares, width: 2 squares}
  - {name: back, title: The back bed, length: 3 squares, width: 3 squares, omitted: [C3]}
"""
PLAN = """\
- {crop: spinach, tag: SP1, variety: Broad, squares: front/A1:B2, sow: Apr 5, until: Jun 1, per square: 9}
- {crop: carrot, tag: CA1, squares: back/A1:B1, sow: Apr 20, until: Aug 1}
- {crop: bean-bush, tag: BB1, squares: front/A1:B2, sow: Jun 5, until: Sep 20, per square: 9}
- {crop: okra, tag: OK1, squares: back/C1, sow: May 20, until: Sep 1, dropped: May 22, because: rotted}
"""
LOG = {
    "2026-04-06-spinach-in.md": """\
---
title: Spinach in
date: 2026-04-06
by: the Monday pair
done:
  - {sow: spinach, tag: SP1, squares: front/A1:B2}
  - {weed: bed, squares: back, minutes: 10, people: 2}
---
Cold hands, [carrots](crop:carrot) next.

## What we found

A penny.
""",
    "2026-04-21-carrots-in.md": """\
---
title: Carrots in
date: 2026-04-21
done:
  - {sow: carrot, tag: CA1, squares: back/A1:B1}
  - {treat: soap spray, squares: front, wait: 0 days, re-entry: until dry, note: for aphids}
---
See [the last visit](entry:2026-04-06-spinach-in).
""",
}
LEDGER = """\
- {date: 2026-05-10, crop: spinach, squares: front/A1:A2, weight: 1 lb 8 oz, to: food pantry}
- {date: 2026-05-16, crop: spinach, tag: SP1, weight: not weighed, note: a handful}
- {date: 2026-05-16, mixed: [spinach, radish], weight: about 8 oz}
- {date: 2026-05-20, crop: radish, count: 12, weight: 6 oz}
"""
QUESTION = """\
---
question: Why so few carrots?
asked: 2026-05-18
by: a visitor
about: [carrot]
---
They were slow.
"""
ABOUT = "---\ntitle: About the hall\norder: 1\n---\nWe meet on Mondays.\n"


def folder(root: Path, *, plan: bool = True, log: bool = True, ledger: bool = True) -> Path:
    """Write the garden with the papers asked for, and return its folder."""
    files = {"garden.yaml": GARDEN, "questions/why-so-few.md": QUESTION, "about.md": ABOUT}
    if plan:
        files["2026/plan.yaml"] = PLAN
    if log:
        files |= {f"2026/log/{name}": text for name, text in LOG.items()}
    if ledger:
        files["2026/harvest.yaml"] = LEDGER
    written(root, files)
    (root / "content" / "2026").mkdir(exist_ok=True)
    return root


def written(root: Path, files: Mapping[str, str]) -> Path:
    """Write files below the garden's ``content`` and return its folder."""
    for name, text in files.items():
        path = root / "content" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return root


def read_garden(root: Path) -> Garden:
    """Return the garden of a folder; fail where it cannot be read."""
    garden = read(root).garden
    assert garden is not None
    return garden
