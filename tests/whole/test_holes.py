"""Logs have holes: with a third or half of their lines gone the site claims nothing unseen."""

import random
import shutil
from datetime import date
from functools import cache
from pathlib import Path

import pytest
import yaml

from tallybed.garden.garden import Garden
from tallybed.garden.squares import Square
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.squares.occupancy import Grade, Holding, hold
from tallybed.tasks.base.garden import day_of
from tallybed.tasks.build import build
from tests.reckoning.growing import days_between
from tests.tools import ROOT

LOADER = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
DUMPER = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
Seen = set[tuple[Square, date, str]]


def with_holes(target: Path, share: float, seed: int) -> int:
    """Copy the demonstration garden, with that share of its log lines gone; return how many went."""
    chance = random.Random(seed)
    shutil.copytree(ROOT / "content", target / "content")
    gone = 0
    for path in sorted((target / "content").glob("*/log/*.md")):
        _empty, header, prose = path.read_text(encoding="utf-8").split("---\n", 2)
        visit = yaml.load(header, Loader=LOADER)
        lines = visit.get("done") or []
        kept = [line for line in lines if chance.random() >= share]
        gone += len(lines) - len(kept)
        visit["done"] = kept
        text = yaml.dump(visit, Dumper=DUMPER, sort_keys=False, allow_unicode=True)
        path.write_text(f"---\n{text}---\n{prose}", encoding="utf-8")
    return gone


@cache
def garden_at(root: Path) -> Garden:
    found = read(root).garden
    assert found is not None
    return found


def crop(holding: Holding, key: str) -> str:
    name = holding.planting(key).crop
    return name.slug or name.typed


def seen(holding: Holding) -> Seen:
    return {
        (one.square, day, crop(holding, one.planting))
        for one in holding.holds
        if one.grade is Grade.SEEN
        for day in days_between(one.first, one.last)
    }


def named(holding: Holding) -> Seen:
    return {(square, day, crop(holding, key)) for square, day, key in holding.sightings}


def held(holding: Holding, today: date) -> dict[tuple[Square, date], frozenset[str]]:
    found: dict[tuple[Square, date], set[str]] = {}
    for one in holding.holds:
        for day in days_between(one.first, min(one.last, today)):
            found.setdefault((one.square, day), set()).add(crop(holding, one.planting))
    return {key: frozenset(crops) for key, crops in found.items()}


@pytest.mark.parametrize("share", [0.3, 0.5])
@pytest.mark.parametrize("seed", range(3))
def test_no_square_is_called_seen_that_was_not(
    share: float, seed: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]
):
    gone = with_holes(tmp_path, share, seed)
    assert gone > 50
    full, holed = garden_at(ROOT), garden_at(tmp_path)
    today = day_of(full)
    wrong = square_days = 0
    for whole, left in zip(full.seasons, holed.seasons, strict=True):
        truth, told = hold(whole, today), hold(left, today)
        assert seen(told) - named(truth) == set(), whole.name
        right, found = held(truth, today), held(told, today)
        days = (min(today, whole.span.last) - whole.span.first).days + 1
        square_days += days * sum(len(bed.squares) for bed in full.beds)
        wrong += sum(right.get(key) != found.get(key) for key in set(right) | set(found))
    with capsys.disabled():
        off = wrong / square_days
        print(f"\n{share:.0%} of log lines gone, seed {seed}: {off:.1%} of square-days told otherwise")
    assert wrong / square_days < 0.25


def test_the_site_is_built_all_the_same(tmp_path: Path):
    with_holes(tmp_path, 0.5, 7)
    built = build(tmp_path, tmp_path / "site")
    assert built.good
    assert built.pages > 200
