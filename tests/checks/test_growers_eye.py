"""A hundred planted cases in three invented gardens: the faults are told, the near misses are not."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest
import yaml

from tallybed.checks.registry import every_finding
from tallybed.garden.findings import Severity, worded
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.year import Years
from tests.checks.test_registry import IN_GARDENS

DATA = Path(__file__).parents[1] / "data" / "grower"
GARDENS = ("cold", "mild", "southern")
TODAY = {"cold": date(2026, 11, 10), "mild": date(2026, 12, 31), "southern": date(2030, 6, 30)}
ASIDE = {"idle", "never-planted", "too-little-sun", "shades-neighbours"}
"""Codes that speak of a row's company or of the sun, not of the fault planted in it."""
CASES: list[dict[str, Any]] = yaml.load(
    (DATA / "faults.yaml").read_text(encoding="utf-8"), Loader=yaml.CSafeLoader
)


@pytest.fixture(scope="module", params=GARDENS)
def told(request: pytest.FixtureRequest) -> tuple[str, dict[tuple[str, int], list[str]]]:
    """A garden, and what `check` says on each line of its files."""
    garden = str(request.param)
    got = read(DATA / garden)
    assert got.garden is not None
    assert not [worded(one) for one in got.findings if one.severity is Severity.ERROR]
    found: dict[tuple[str, int], list[str]] = {}
    for year in Years(garden=got.garden, today=TODAY[garden]).all:
        for one in every_finding(year):
            if one.code not in ASIDE:
                found.setdefault((one.place.file, one.place.line), []).append(worded(one))
    return garden, found


def test_there_are_sixty_faults_and_forty_near_misses() -> None:
    kinds = [case["kind"] for case in CASES]
    assert (kinds.count("fault"), kinds.count("near miss")) == (60, 40)


def test_the_new_codes_are_all_told_somewhere() -> None:
    """Else a check could be taken out, and the stories would not miss it."""
    said: set[str] = set()
    for garden in GARDENS:
        got = read(DATA / garden)
        assert got.garden is not None
        for year in Years(garden=got.garden, today=TODAY[garden]).all:
            every = every_finding(year)
            said |= {one.code for one in every}
            for code in {one.code for one in every}:
                assert [one for one in every if one.code == code] == list(every_finding(year, {code}))
    assert said >= IN_GARDENS


def test_each_case_is_told_or_not(told: tuple[str, dict[tuple[str, int], list[str]]]) -> None:
    """A case that is `open` must be wrong still: else its word is taken out."""
    garden, found = told
    wrong = []
    for case in (one for one in CASES if one["garden"] == garden):
        where = case["where"]
        line = (DATA / garden / where["file"]).read_text(encoding="utf-8").splitlines()[where["line"] - 1]
        assert where["text"] in line, f"{case['id']} has moved"
        said = found.get((where["file"], where["line"]), [])
        right = bool(said) is (case["kind"] == "fault")
        if right is bool(case.get("open")):
            wrong.append(f"{case['id']} {case['kind']}: {case['what']} — {said or 'silent'}")
    assert wrong == []
