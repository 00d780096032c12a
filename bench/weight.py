"""What a page of the demonstration site weighs for its reader: HTML and styles, gzipped, without photographs.

Run from the repository after a build:

    .venv/bin/python bench/weight.py
"""

from __future__ import annotations

import gzip
import re
from pathlib import Path
from statistics import median

SITE = Path(__file__).parent.parent / "site"


FOLDERS = frozenset(
    ["beds", "bulletins", "data", "log", "marking-out", "plan", "plants", "poster", "seeds", "sign", "tally"]
)
"""Folders below a first one that are a kind of page, not one of a kind."""


def kind(path: str) -> str:
    """Return a page's kind: its path with what is particular left out."""
    parts = re.sub(r"^\d{4}\b", "YEAR", path.removesuffix("index.html")).split("/")
    kept = [part if place == 0 or not part or part in FOLDERS else "…" for place, part in enumerate(parts)]
    return "/".join(kept) or "/"


def main() -> None:
    """Print the median and the heaviest page of each kind, and of all, in KB."""
    styles = len(gzip.compress((SITE / "style.css").read_bytes(), mtime=0))
    weights: dict[str, list[tuple[float, str]]] = {}
    for page in sorted(SITE.rglob("*.html")):
        path = page.relative_to(SITE).as_posix()
        weight = (len(gzip.compress(page.read_bytes(), mtime=0)) + styles) / 1000
        weights.setdefault(kind(path), []).append((weight, path))
    print(f"{'kind':<32}{'pages':>6}{'median KB':>11}{'heaviest KB':>13}")
    for name, found in sorted(weights.items()):
        print(f"{name:<32}{len(found):>6}{median(one for one, _ in found):>11.1f}{max(found)[0]:>13.1f}")
    every = [one for found in weights.values() for one in found]
    heaviest, where = max(every)
    print(f"{'all':<32}{len(every):>6}{median(one for one, _ in every):>11.1f}{heaviest:>13.1f}  {where}")
    print(f"of which styles {styles / 1000:.1f} KB")


if __name__ == "__main__":
    main()
