"""What stands over winter, held against the season it came from."""

from datetime import date
from pathlib import Path

import pytest

from tallybed.checks.registry import every_finding
from tallybed.garden.findings import worded
from tallybed.reading.folder.garden_folder import read
from tallybed.reckoning.year import Years
from tests.small_garden import written

GARDEN = """\
name: Turns
season: {start: Mar 1, end: Nov 30}
freeze dates: {last spring: Apr 25, first fall: Oct 10}
beds:
  - {name: b, length: 2 squares, width: 1 square}
"""
WENT_IN = "- {crop: garlic, tag: GA1, squares: A1, set out: Oct 5}\n"
CARRIED = "- {crop: garlic, tag: GA1, squares: A1, carried from: YEAR, until: Jul 10}\n"


def told(folder: Path, plans: dict[int, str], code: str = "same-family") -> list[str]:
    """Return what the last of some seasons is told under a code."""
    plan = {f"{year}/plan.yaml": text.replace("YEAR", str(year - 1)) for year, text in plans.items()}
    garden = read(written(folder, {"garden.yaml": GARDEN, **plan})).garden
    assert garden is not None
    year = Years(garden=garden, today=date(max(plans), 3, 1)).all[-1]
    return [worded(one) for one in every_finding(year, {code})]


@pytest.mark.parametrize(("again", "too_soon"), [("Oct 5", False), ("Aug 5", False), ("Aug 4", True)])
def test_garlic_comes_back_three_years_after_it_went_in(again: str, too_soon: bool, tmp_path: Path):
    back = f"- {{crop: garlic, tag: GA2, squares: A1, set out: {again}}}\n"
    assert bool(told(tmp_path, {2024: WENT_IN, 2025: CARRIED, 2027: back})) is too_soon


def test_what_stood_over_several_winters_counts_from_its_last_spring(tmp_path: Path):
    back = "- {crop: garlic, tag: GA2, squares: A1, set out: Oct 5}\n"
    assert told(tmp_path, {2023: WENT_IN, 2024: CARRIED, 2025: CARRIED, 2027: back})


def test_what_was_carried_from_a_season_that_has_no_folder_counts_from_its_spring(tmp_path: Path):
    back = "- {crop: garlic, tag: GA2, squares: A1, set out: Oct 5}\n"
    assert told(tmp_path, {2025: CARRIED, 2027: back})


@pytest.mark.parametrize(
    ("before", "said"),
    [
        (WENT_IN, ""),
        # Cleared on the last day of its season, as a plan may say that has it stand to the end.
        (WENT_IN.replace("Oct 5", "Oct 5, until: Nov 30"), ""),
        (WENT_IN.replace("A1", "A1:B1"), ""),
        (WENT_IN.replace("A1", "B1"), "do not have it as that season ends; expected squares of b/B1"),
        (WENT_IN.replace("garlic", "leek"), "do not have it as that season ends (mend"),
        # Of that spring, and out of the ground in summer.
        (
            WENT_IN.replace("Oct 5", "Apr 5, until: Jul 20"),
            "GA1 (garlic) is carried from 2024 in b/A1, where plan",
        ),
        # Nobody planned or logged that season.
        ("[]\n", ""),
    ],
)
def test_what_is_carried_over_stood_there_as_its_season_ended(before: str, said: str, tmp_path: Path):
    found = told(tmp_path, {2024: before, 2025: CARRIED}, "not-there-before")
    assert len(found) == bool(said)
    assert said in "".join(found)


TWO_BEDS = GARDEN + "  - {name: c, title: The far bed, length: 2 squares, width: 1 squareSEASONS}\n"
IN_B = WENT_IN.replace("squares: A1", "squares: b/A1")


@pytest.mark.parametrize(
    ("seasons", "plan", "day", "said"),
    [
        ("", IN_B, date(2025, 2, 1), True),
        # Still under way.
        ("", IN_B, date(2024, 11, 1), False),
        # When it is there is told, idle or not.
        (", since: 2024", IN_B, date(2025, 2, 1), False),
        (", since: 2025", IN_B, date(2025, 2, 1), False),
        # It has a record.
        (
            "",
            IN_B + IN_B.replace("GA1", "GA2").replace("b/A1", "c/A1"),
            None,
            False,
        ),
        # No record names a place.
        ("", "[]\n", None, False),
    ],
)
def test_a_bed_that_no_record_of_a_season_names_is_told_at_its_place(
    seasons: str, plan: str, day: date | None, said: bool, tmp_path: Path
):
    """Fails where a bed built since makes an earlier season look poor, and the gardener is not told."""
    files = {
        "garden.yaml": TWO_BEDS.replace("SEASONS", seasons),
        "2024/plan.yaml": plan,
        "2025/plan.yaml": "[]\n",
    }
    garden = read(written(tmp_path, files)).garden
    assert garden is not None
    year = Years(garden=garden, today=day or date(2025, 2, 1)).all[0]
    found = every_finding(year, {"bed-without-record"})
    assert [(one.place.file, one.place.line) for one in found] == [("content/garden.yaml", 6)] * said
    assert all("no record of 2024 names the far bed" in one.found for one in found)
