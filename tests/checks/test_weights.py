"""Weights of the ledger held against what a crop can give: what is told, and what is not."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tallybed.checks.weights.believed import implausible_weight, piece_weight
from tallybed.reckoning.year import Years
from tests.small_garden import read_garden, written

GARDEN = "name: Tiny\nbeds: [{name: b, length: 4 squares, width: 3 squares}]\n"


def told(folder: Path, row: str) -> list[str]:
    """What is said of the pieces of one picking."""
    garden = read_garden(
        written(folder, {"garden.yaml": GARDEN, "2026/harvest.yaml": f"- {{date: 2026-07-20, {row}}}\n"})
    )
    year = Years(garden=garden, today=date(2026, 7, 21)).all[-1]
    return [finding.found for _row, finding in piece_weight(year)]


@pytest.mark.parametrize("form", ["blossoms", "blossom", "seeds", "tips", "top"])
def test_a_light_part_of_a_crop_is_not_held_against_its_fruit(form: str, tmp_path: Path) -> None:
    """A dozen squash blossoms weigh two ounces, and are no slip of the pen."""
    assert told(tmp_path, f"crop: squash-summer, count: 12, weight: 2 oz, as: {form}") == []


def test_a_fruit_too_light_or_too_heavy_is_told(tmp_path: Path) -> None:
    (light,) = told(tmp_path / "light", "crop: squash-summer, count: 12, weight: 2 oz, as: slices")
    assert "too light for pieces" in light
    (heavy,) = told(tmp_path / "heavy", "crop: squash-summer, count: 1, weight: 12 lb")
    assert "too heavy for pieces" in heavy


@pytest.mark.parametrize("units", ["pounds", "kilograms"])
def test_what_is_told_of_light_pieces_shows_the_difference(units: str, tmp_path: Path) -> None:
    """A radish too light to show in tenths of an ounce was told to weigh less than just as little."""
    garden = read_garden(
        written(
            tmp_path,
            {
                "garden.yaml": f"{GARDEN}units: {units}\n",
                "2026/harvest.yaml": "- {date: 2026-07-20, crop: radish, count: 1400, weight: 7 oz}\n",
            },
        )
    )
    year = Years(garden=garden, today=date(2026, 7, 21)).all[-1]
    ((_row, finding),) = piece_weight(year)
    told = {"pounds": "1400 pieces come to 7 oz in all", "kilograms": "1400 pieces come to 198 g in all"}
    assert finding.found == f"{told[units]}: too light for pieces of radish"
    assert finding.expected.endswith(" in all at the very least")
    assert "under" not in finding.expected


@pytest.mark.parametrize(("weight", "doubted"), [("18 lb", False), ("180 lb", True)])
def test_a_vine_gives_more_than_its_squares_and_no_more_than_its_plants(
    weight: str, doubted: bool, tmp_path: Path
) -> None:
    """Fails where a good harvest of squash is taken for a slip, by rows that stand seven feet apart."""
    plan = "- {crop: squash-winter, tag: WS1, squares: A1:B2, set out: May 25, until: Oct 1, plants: 2}\n"
    ledger = f"- {{date: 2026-09-20, tag: WS1, weight: {weight}}}\n"
    papers = {"garden.yaml": GARDEN, "2026/plan.yaml": plan, "2026/harvest.yaml": ledger}
    garden = read_garden(written(tmp_path, papers))
    (year,) = Years(garden=garden, today=date(2026, 10, 2)).all
    assert bool(list(implausible_weight(year))) is doubted
