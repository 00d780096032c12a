"""Commands on seasons with a bed that is gone, and with one that was not there yet."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.bed_seasons import three_years
from tests.commands.running import run

pytestmark = pytest.mark.usefixtures("few_crops")


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return three_years(tmp_path)


@pytest.mark.parametrize(
    ("day", "line", "told"),
    [
        ("2024-05-12", "carrot 4 oz old/A1", "carrot, from old/A1, 4 oz"),
        ("2025-05-12", "carrot 4 oz old", "carrot, CA1, 4 oz"),
        ("2026-05-12", "carrot 4 oz new/A1", "carrot, from new/A1, 4 oz"),
        ("2024-05-12", "carrot 4 oz E1", "no bed has the squares “E1”"),
        ("2026-05-12", "carrot 4 oz E1", "from new/E1"),
        ("2026-05-12", "carrot 4 oz old/A1", "garden.yaml has the bed old until 2025; expected front or new"),
        ("2026-05-12", "carrot 4 oz old", "garden.yaml has the bed old until 2025; expected front or new"),
        (
            "2025-05-12",
            "carrot 4 oz from the new bed",
            "garden.yaml has the bed new from 2026 on; expected front or old",
        ),
    ],
)
def test_a_weighing_names_the_beds_of_its_season(garden: Path, day: str, line: str, told: str) -> None:
    ledger = garden / f"content/{day[:4]}/harvest.yaml"
    before = ledger.read_text()
    result = run("weigh", "--folder", garden, "--date", day, "--yes", line)
    assert told in result.output
    wrong = told.startswith(("garden.yaml has", "no bed"))
    assert (result.exit_code == 0, ledger.read_text() != before) == (not wrong, not wrong)


@pytest.mark.parametrize(
    ("bed", "month", "told"),
    [
        ("old", "2025-05", "over the old bed in May 2025"),
        ("new", "2026-05", "over the new bed in May 2026"),
        ("old", "2026-05", "garden.yaml has the bed old until 2025; in 2026 the garden has: front, new"),
        ("new", "2024-05", "garden.yaml has the bed new from 2026 on; in 2024 the garden has: old, front"),
    ],
)
def test_the_sun_is_told_over_a_bed_in_its_seasons(garden: Path, bed: str, month: str, told: str) -> None:
    result = run("sun", bed, "--month", month, "--folder", garden)
    assert told in result.output
    assert (result.exit_code == 0) is told.startswith("over")


@pytest.mark.parametrize("bed", ["old", "front", "new"])
def test_every_bed_can_be_marked_out_in_any_season(garden: Path, bed: str) -> None:
    result = run("marks", bed, "--folder", garden)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.startswith(f"The {bed} bed")


def test_the_check_looks_at_each_bed_in_its_seasons_alone(garden: Path) -> None:
    result = run("check", "--all", garden)
    assert result.exit_code == 0, result.output
    empty = re.findall(r"nothing is planned in (\w+)/\S+ .*? to 30 June (\d{4})", result.output)
    assert set(empty) == {("old", "2024"), ("old", "2025"), ("new", "2026")}


def test_a_spreadsheet_is_told_of_a_bed_that_was_not_there(garden: Path) -> None:
    sheet = garden / "picked.csv"
    sheet.write_text(
        "date,crop,weight oz,bed\n2025-05-12,carrot,4,The new bed\n2025-05-13,carrot,4,The old bed\n"
    )
    result = run("take-in", sheet, "--folder", garden, "--yes")
    assert "garden.yaml has the bed new from 2026 on; expected front or old" in result.output
