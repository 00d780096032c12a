"""The ledger added up by other code: raw YAML, decimal arithmetic, nothing of Tallybed.

It knows the demonstration garden's forms and no more, and raises where it meets
another, so that it can never agree by passing something over.
"""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

import yaml

LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
"""It leaves every value the text that was typed."""
GRAMS = {"lb": Decimal("453.59237"), "oz": Decimal("28.349523125"), "g": Decimal(1), "kg": Decimal(1000)}
"""NIST Handbook 44, appendix C."""
VULGAR = {"½": Decimal("0.5"), "¼": Decimal("0.25"), "¾": Decimal("0.75")}


@dataclass
class Cell:
    """Grams, and pickings nobody weighed."""

    grams: Decimal = Decimal(0)
    unweighed: int = 0


def grams(text: str) -> Decimal | None:
    """Return a typed weight in grams, None for one not weighed."""
    text = text.strip().lower()
    if text == "not weighed":
        return None
    text = text.removeprefix("about ")
    whole = Decimal(0)
    spent = 0
    for found in re.finditer(
        r"\s*(?:(\d+) )?(?:(\d+)/(\d+)|([\d.]*)\s?([½¼¾])|([\d.]+))\s?(lb|oz|kg|g)s?\b", text
    ):
        lead, over, under, before, vulgar, plain, unit = found.groups()
        amount = Decimal(lead or 0)
        if over:
            amount += Decimal(over) / Decimal(under)
        elif vulgar:
            amount += Decimal(before or 0) + VULGAR[vulgar]
        else:
            amount += Decimal(plain)
        whole += amount * GRAMS[unit]
        spent += len(found[0])
    if spent != len(text):
        raise ValueError(f"a weight in a form unknown here: {text!r}")
    return whole


def squares(text: str | list[str]) -> set[tuple[str, str, int]]:
    """Return the squares of a range, or of several: (bed, letter, number)."""
    found: set[tuple[str, str, int]] = set()
    if isinstance(text, list):
        return found.union(*(squares(one) for one in text))
    bed, _slash, rest = text.partition("/")
    for part in filter(None, rest.split(", ")):
        first, _colon, last = part.partition(":")
        last = last or first
        for letter in range(ord(first[0]), ord(last[0]) + 1):
            found |= {(bed, chr(letter), number) for number in range(int(first[1:]), int(last[1:]) + 1)}
    return found


@cache
def names(root: Path) -> dict[str, str]:
    """Return what each crop can be called, from the library's own files and the garden's crops."""
    known: dict[str, str] = {}
    files = sorted((root / "src" / "tallybed" / "library" / "crops").glob("*.yaml"))
    crops = [yaml.load(path.read_text(encoding="utf-8"), Loader=LOADER) for path in files]
    own = yaml.load((root / "content" / "crops.yaml").read_text(encoding="utf-8"), Loader=LOADER) or []
    crops += [{"slug": crop["new"], "name": crop["new"], **crop} for crop in own if "new" in crop]
    for crop in crops:
        for name in [crop["slug"], crop["name"], crop.get("plural", ""), *crop.get("also", [])]:
            known.setdefault(str(name).lower(), crop["slug"])
    return known


@cache
def season(root: Path, year: str) -> dict[tuple[str, str], Cell]:
    """Return the season's cells: (crop or mixed bowl, month) to what was picked."""
    folder = root / "content" / year

    def load(name: str) -> Any:
        path = folder / name
        return yaml.load(path.read_text(encoding="utf-8"), Loader=LOADER) if path.exists() else None

    known = names(root)
    general = {name.lower(): meaning for name, meaning in (load("names.yaml") or {}).items()}
    plan = load("plan.yaml")

    def crop(name: str, where: str = "") -> str:
        told = known.get(name.lower()) or known.get(general.get(name.lower(), "").lower())
        if told:
            return told
        stood = {known[row["crop"].lower()] for row in plan if squares(row["squares"]) & squares(where)}
        (kin,) = {slug for slug in stood if slug.split("-")[0] == name.lower().rstrip("s").removesuffix("e")}
        return kin

    tags = {row["tag"]: crop(row["crop"]) for row in plan if "tag" in row}
    rows = load("harvest.yaml")
    fresh = {
        (row["date"], row["tag"])
        for row in rows
        if "tag" in row and row.get("state", "fresh") == "fresh" and grams(row["weight"]) is not None
    }
    cells: dict[tuple[str, str], Cell] = defaultdict(Cell)
    for row in rows:
        if row.get("state", "fresh") != "fresh" and (row["date"], row.get("tag")) in fresh:
            continue  # the fresh weight of the same picking is there and counts
        if "mixed" in row:
            what = "mixed: " + " + ".join(sorted(crop(name) for name in row["mixed"]))
        else:
            what = tags[row["tag"]] if "tag" in row else crop(row["crop"], row.get("squares", ""))
        cell = cells[what, row["date"][:7]]
        weight = grams(row["weight"]) if "weight" in row else None
        if weight is None:
            cell.unweighed += 1
        else:
            cell.grams += weight
    return dict(cells)
