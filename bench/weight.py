"""What a page of the demonstration site weighs for its reader: HTML and its styles, gzipped, no photographs.

Run from the repository after a build:

    .venv/bin/python bench/weight.py
"""

from __future__ import annotations

import gzip
import re
from pathlib import Path
from statistics import median

SITE = Path(__file__).parent.parent / "site"

LEADS_ON = b'<meta http-equiv="refresh"'
"""In the small pages of addresses that lead on, which are no pages of the site."""
SHEET = re.compile(rb'<link rel="stylesheet" href="([^"]+)">')
KIND = re.compile(rb'<body class="([^"]+)">')
"""The kind of a page, which the frame writes on its body."""


def kind(page: Path) -> str:
    """Return a page's kind."""
    found = KIND.search(page.read_bytes())
    if found is None:
        raise SystemExit(f"{page} does not say its kind on its body")
    return found[1].decode()


def zipped(file: Path) -> int:
    """Return a file's bytes once it is gzipped."""
    return len(gzip.compress(file.read_bytes(), mtime=0))


def weighed(site: Path) -> dict[str, float]:
    """Return what each page weighs with every style sheet that it links, gzipped, in KB of 1,000 bytes."""
    sheets = {sheet: zipped(sheet) for sheet in site.resolve().glob("*.css")}
    found = {}
    for page in sorted(site.rglob("*.html")):
        text = page.read_bytes()
        if LEADS_ON not in text:
            linked = [sheets[_sheet(site, page, name.decode())] for name in SHEET.findall(text)]
            found[page.relative_to(site).as_posix()] = (zipped(page) + sum(linked)) / 1000
    return found


def _sheet(site: Path, page: Path, name: str) -> Path:
    """Return where a style sheet lies; the page for addresses where nothing lies names it from the top."""
    return ((site / name.lstrip("/")) if name.startswith("/") else page.parent / name).resolve()


def main() -> None:
    """Print the median and the heaviest page of each kind, and of all, in KB."""
    weights: dict[str, list[tuple[float, str]]] = {}
    for path, weight in weighed(SITE).items():
        weights.setdefault(kind(SITE / path), []).append((weight, path))
    print(f"{'kind':<32}{'pages':>6}{'median KB':>11}{'heaviest KB':>13}")
    for name, found in sorted(weights.items()):
        print(f"{name:<32}{len(found):>6}{median(one for one, _ in found):>11.1f}{max(found)[0]:>13.1f}")
    every = [one for found in weights.values() for one in found]
    heaviest, where = max(every)
    print(f"{'all':<32}{len(every):>6}{median(one for one, _ in every):>11.1f}{heaviest:>13.1f}  {where}")


if __name__ == "__main__":
    main()
