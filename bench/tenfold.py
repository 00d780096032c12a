"""Makes a garden ten times the size of the demonstration garden, from a seed.

Every bed, planting, visit and weighing of the demonstration garden is there ten
times, in ten sets of beds, with weights drawn anew; so its shape stays that of a
real garden and its files stay valid.
"""

from __future__ import annotations

import random
import re
import shutil
from fractions import Fraction
from pathlib import Path

import yaml

TIMES = 10
SEED = 20260914


def tenfold(source: Path, target: Path) -> None:
    """Write the larger garden folder ``target`` from the garden folder ``source``."""
    chance = random.Random(SEED)  # noqa: S311 - sizes for a benchmark, not secrets
    content = target / "content"
    shutil.copytree(source / "content", content)
    garden = _load(content / "garden.yaml")
    beds = [bed["name"] for bed in garden["beds"]]
    garden["beds"] = [
        bed | {"name": f"{bed['name']}{copy}", "title": f"{bed.get('title', bed['name'])} {copy}"}
        for copy in range(TIMES)
        for bed in garden["beds"]
    ]
    _dump(content / "garden.yaml", garden)
    for season in sorted(path for path in content.iterdir() if re.fullmatch(r"\d{4}", path.name)):
        for name in ("plan.yaml", "harvest.yaml"):
            path = season / name
            if path.exists():
                rows = _load(path) or []
                _dump(path, [_row(row, copy, beds, chance) for copy in range(TIMES) for row in rows])
        for path in sorted((season / "log").glob("*.md")):
            _visits(path, beds, chance)


def _visits(path: Path, beds: list[str], chance: random.Random) -> None:
    _empty, header, prose = path.read_text(encoding="utf-8").split("---\n", 2)
    read = yaml.load(header, Loader=yaml.BaseLoader)  # noqa: S506 - everything stays text
    for copy in range(TIMES):
        visit = dict(read)
        visit["done"] = [_row(row, copy, beds, chance) for row in read.get("done") or []]
        text = _text(visit)
        target = path.with_name(f"{path.stem}-{copy}.md")
        target.write_text(f"---\n{text}---\n{prose}", encoding="utf-8")
    path.unlink()


def _row(row: dict[str, object], copy: int, beds: list[str], chance: random.Random) -> dict[str, object]:
    """Return one row of a file as it stands in one set of beds."""
    made: dict[str, object] = {}
    for key, value in row.items():
        if key == "squares" or (key == "to" and "move" in row):
            made[key] = _squares(value, copy, beds)
        elif key in ("tag", "among") and isinstance(value, str) and re.fullmatch(r"[A-Z]{1,3}\d+", value):
            made[key] = f"{value}x{copy}"
        elif (
            key == "weight"
            and "to" not in row
            and isinstance(value, str)
            and (found := re.fullmatch(r"(\d+) ?oz", value))
        ):
            made[key] = f"{max(1, round(int(found[1]) * Fraction(chance.randint(60, 140), 100)))} oz"
        else:
            made[key] = value
    return made


def _squares(value: object, copy: int, beds: list[str]) -> object:
    if isinstance(value, list):
        return [_squares(one, copy, beds) for one in value]
    text = str(value)
    for bed in beds:
        text = re.sub(rf"\b{re.escape(bed)}(?=/|$|,)", f"{bed}{copy}", text)
    return text


def _load(path: Path) -> object:
    return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)  # noqa: S506


class _Plain(yaml.SafeDumper):
    """Writes a value in full wherever it stands again."""

    def ignore_aliases(self, data: object) -> bool:
        del data
        return True


def _text(value: object) -> str:
    return yaml.dump(value, Dumper=_Plain, sort_keys=False, allow_unicode=True)


def _dump(path: Path, value: object) -> None:
    path.write_text(_text(value), encoding="utf-8")
