"""How the cost of checking and building grows with a garden.

Each series grows one thing, from one size to twice that: beds, seasons, weighings. Records are weighings,
lines of the log and rows of the plan. An exponent of 1 between a size and the one before says that the
CPU time grew as the records did; of a garden where pages grow less than records it lies below. Times are
CPU seconds of whole processes on one processor, nothing kept but photographs; run in full or in part:

    .venv/bin/python bench/growth.py
    .venv/bin/python bench/growth.py beds weighings
"""

from __future__ import annotations

import math
import shutil
import sys
import tempfile
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from build import GARDENS, ROOT, tallybed
from gardens import forget, grown

SERIES: dict[str, tuple[Mapping[str, int], ...]] = {
    "beds": ({"sets": 1}, {"sets": 2}, {"sets": 4}),
    "seasons": tuple({"sets": 1, "seasons": many} for many in (2, 4, 8)),
    "weighings": tuple({"sets": 1, "weighings": many} for many in (2000, 4000, 8000)),
    "large": tuple(GARDENS[name] for name in ("ten times", "six seasons", "largest")),
}
"""What a garden is grown to, series by series; ``large`` only where it is asked for by name."""
ONCE = ("beds", "seasons", "weighings")


@dataclass(frozen=True, kw_only=True)
class Size:
    """One garden: how large it is, and what it costs."""

    records: int
    pages: int
    check: float
    check_mb: float
    build: float
    build_mb: float


def records(garden: Path) -> int:
    """Return how many weighings, lines of the log and rows of the plan a grown garden has."""
    files = [*garden.glob("content/2*/plan.yaml"), *garden.glob("content/2*/harvest.yaml")]
    files += garden.glob("content/2*/log/*.md")
    return sum(_rows(path) for path in files)


def _rows(path: Path) -> int:
    """Return how many rows a file's list has: those of a visit's ``done`` stand in its header."""
    told = path.read_text(encoding="utf-8")
    text = told.split("---\n", 2)[1] if path.suffix == ".md" else told
    return sum(line.startswith("- ") for line in text.splitlines())


def size(kind: Mapping[str, int], folder: Path) -> Size:
    """Return what a garden of a kind costs; photographs are made ready before."""
    garden, site = folder / "garden", folder / "site"
    grown(ROOT, garden, **kind)
    checked = tallybed("check", garden, one=True)
    tallybed("build", "--quiet", "--to", site, garden, one=True)
    shutil.rmtree(site)
    forget(garden)
    built = tallybed("build", "--quiet", "--to", site, garden, one=True)
    return Size(
        records=records(garden),
        pages=sum(1 for _page in site.rglob("*.html")),
        check=checked.cpu,
        check_mb=checked.peak_mb,
        build=built.cpu,
        build_mb=built.peak_mb,
    )


def exponent(before: float, after: float, times: float) -> str:
    """Return by which power of ``times`` something grew; a dash where nothing did."""
    return f"{math.log(after / before) / math.log(times):6.2f}" if times > 1 else f"{'-':>6}"


def rows(sizes: Iterable[Size]) -> None:
    """Print a line for each size, with its growth since the one before."""
    before: Size | None = None
    for one in sizes:
        line = f"{one.records:8} {one.pages:6} {one.check:8.2f} {one.check_mb:5.0f} "
        line += f"{one.build:8.2f} {one.build_mb:5.0f} "
        if before:
            times = one.records / before.records
            line += f"{exponent(before.check, one.check, times)} {exponent(before.build, one.build, times)} "
            line += exponent(before.build, one.build, one.pages / before.pages)
        print(line, flush=True)
        before = one


def main(names: list[str]) -> None:
    """Print the table."""
    for name in names or ONCE:
        print(f"\n{name}\n records  pages  check s    MB  build s    MB  exponents: check, build; by pages")
        with tempfile.TemporaryDirectory() as folder:
            rows(size(kind, Path(folder) / str(place)) for place, kind in enumerate(SERIES[name]))


if __name__ == "__main__":
    main(sys.argv[1:])
