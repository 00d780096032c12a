"""Makes gardens larger than the demonstration garden, from a seed.

Its beds, plantings, visits and weighings are there several times, in sets of beds, with weights drawn
anew; and its seasons, if asked, in many years. So the shape stays that of a real garden.
"""

from __future__ import annotations

import random
import re
import shutil
from fractions import Fraction
from pathlib import Path
from typing import Any

import yaml

from tallybed.pictures.rooms import FOLDER, NOTES

SEED = 20260914


def forget(garden: Path) -> None:
    """Take away all that was kept of a garden but its photographs and pictures of figures."""
    for kind in NOTES:
        shutil.rmtree(garden / FOLDER / kind, ignore_errors=True)


def grown(source: Path, target: Path, *, sets: int, seasons: int = 0, weighings: int = 0) -> None:
    """Write the larger garden folder ``target`` from the garden folder ``source``.

    ``sets`` of its beds; ``seasons`` in all, up to its newest (none: those it has); about so many
    ``weighings`` in all (none: as many as come of the sets).
    """
    chance = random.Random(SEED)  # noqa: S311 - sizes for a benchmark, not secrets
    content = target / "content"
    shutil.copytree(source / "content", content)
    names = sorted(path.name for path in content.iterdir() if re.fullmatch(r"\d{4}", path.name))
    if seasons:
        names = _seasons(content, names, seasons)
    garden = _load(content / "garden.yaml")
    beds = [bed["name"] for bed in garden["beds"]]
    garden["beds"] = [
        bed | {"name": f"{bed['name']}{copy}", "title": f"{bed.get('title', bed['name'])} {copy}"}
        for copy in range(sets)
        for bed in garden["beds"]
    ]
    for thing in garden.get("surroundings", ()):
        thing.pop("bed", None)
    _dump(content / "garden.yaml", garden)
    soil = content / "soil.yaml"
    if soil.exists():
        soil.unlink()
    for season in names:
        for name in ("plan.yaml", "harvest.yaml"):
            path = content / season / name
            if not path.exists():
                continue
            rows = _load(path) or []
            made = [_row(row, copy, beds, chance) for copy in range(sets) for row in rows]
            wanted = weighings // len(names) if name == "harvest.yaml" and weighings else len(made)
            made += [_again(made[at % len(made)], chance) for at in range(wanted - len(made))]
            _dump(path, made)
        for path in sorted((content / season / "log").glob("*.md")):
            _visits(path, sets, beds, chance)


def _seasons(content: Path, names: list[str], many: int) -> list[str]:
    """Lay out so many seasons up to the newest, each one of those there, its years told anew."""
    newest = int(names[-1])
    years = [str(newest - back) for back in range(many)][::-1]
    aside = content.parent / "seasons"
    aside.mkdir()
    for name in names:
        (content / name).rename(aside / name)
    for year in years:
        source = names[(int(year) - newest - 1) % len(names)]
        shutil.copytree(aside / source, content / year)
        for path in sorted((content / year).rglob("*")):
            if path.suffix in (".yaml", ".md"):
                text = path.read_text(encoding="utf-8")
                later = _later(text, int(year) - int(source))
                path.unlink()
                path.with_name(path.name.replace(source, year)).write_text(later, encoding="utf-8")
    shutil.rmtree(aside)
    garden = _load(content / "garden.yaml")
    garden["seasons"] = {year: {"closed": "yes"} for year in years[:-1]}
    _dump(content / "garden.yaml", garden)
    return years


def _later(text: str, years: int) -> str:
    """Return a text with each year of this century told so many later."""
    return re.sub(r"\b20\d\d\b", lambda told: str(int(told[0]) + years), text)


def _visits(path: Path, sets: int, beds: list[str], chance: random.Random) -> None:
    _empty, header, prose = path.read_text(encoding="utf-8").split("---\n", 2)
    read = yaml.load(header, Loader=yaml.BaseLoader)  # noqa: S506 - everything stays text
    for copy in range(sets):
        visit = {key: value for key, value in read.items() if key != "identity"}
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


def _again(row: dict[str, object], chance: random.Random) -> dict[str, object]:
    """Return a row of the ledger as another picking, a few days later in its month."""
    told = ("date", "crop", "tag", "squares", "mixed")
    made: dict[str, object] = {key: row[key] for key in told if key in row}
    day = str(made["date"])
    made["date"] = f"{day[:8]}{min(28, int(day[8:10]) + chance.randint(0, 6)):02}"
    made["weight"] = f"{chance.randint(1, 400) / 10} oz"
    return made


def _squares(value: object, copy: int, beds: list[str]) -> object:
    if isinstance(value, list):
        return [_squares(one, copy, beds) for one in value]
    text = str(value)
    for bed in beds:
        text = re.sub(rf"\b{re.escape(bed)}(?=/|$|,)", f"{bed}{copy}", text)
    return text


def _load(path: Path) -> Any:
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
