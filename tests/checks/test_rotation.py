"""What stands over winter is counted from the day it went in, as the next one of its family is."""

from datetime import date
from pathlib import Path

import pytest

from tallybed.checks.registry import every_finding
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.year import Years
from tests.small_garden import written

GARDEN = """\
name: Turns
season: {start: Mar 1, end: Nov 30}
freeze dates: {last spring: Apr 25, first fall: Oct 10}
beds:
  - {name: b, length: 1 square, width: 1 square}
"""
WENT_IN = "- {crop: garlic, tag: GA1, squares: A1, set out: Oct 5}\n"
CARRIED = "- {crop: garlic, tag: GA1, squares: A1, carried from: YEAR, until: Jul 10}\n"


def told(folder: Path, plans: dict[int, str]) -> bool:
    """Return whether the last of some seasons is told of a family that comes back too soon."""
    plan = {f"{year}/plan.yaml": text.replace("YEAR", str(year - 1)) for year, text in plans.items()}
    garden = read(written(folder, {"garden.yaml": GARDEN, **plan})).garden
    assert garden is not None
    year = Years(garden=garden, today=date(max(plans), 3, 1)).all[-1]
    return bool(every_finding(year, {"same-family"}))


@pytest.mark.parametrize(("again", "too_soon"), [("Oct 5", False), ("Aug 5", False), ("Aug 4", True)])
def test_garlic_comes_back_three_years_after_it_went_in(again: str, too_soon: bool, tmp_path: Path):
    back = f"- {{crop: garlic, tag: GA2, squares: A1, set out: {again}}}\n"
    assert told(tmp_path, {2024: WENT_IN, 2025: CARRIED, 2027: back}) is too_soon


def test_what_stood_over_several_winters_counts_from_its_last_spring(tmp_path: Path):
    back = "- {crop: garlic, tag: GA2, squares: A1, set out: Oct 5}\n"
    assert told(tmp_path, {2023: WENT_IN, 2024: CARRIED, 2025: CARRIED, 2027: back})


def test_what_was_carried_from_a_season_that_has_no_folder_counts_from_its_spring(tmp_path: Path):
    back = "- {crop: garlic, tag: GA2, squares: A1, set out: Oct 5}\n"
    assert told(tmp_path, {2025: CARRIED, 2027: back})
