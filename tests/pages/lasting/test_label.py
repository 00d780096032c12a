"""What the first page says is new, held against the records it is made from."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from tallybed.garden.days import without_year
from tallybed.pages.lasting.label import label
from tallybed.reckoning.calendar.ahead import HARVEST, ahead
from tallybed.reckoning.year import Year, Years
from tests.pages.gardens import folder, site_of, written


@pytest.fixture
def year(tmp_path: Path) -> Year:
    return site_of(folder(tmp_path)).all[-1]


def test_it_tells_the_last_picking_the_last_sowing_and_the_next_first_harvest(year: Year) -> None:
    # The ledger ends on 20 May with radishes; the log's last sowing is of carrots, on 21 April.
    said = label(year)
    assert said.startswith("Picked on 20 May: radishes. Planted on 21 April: carrots. Perhaps ready from ")
    (harvest,) = {
        one.day
        for one in ahead(year.garden, year.season, year.holding, year.today, date(2026, 10, 31))
        if one.verb == HARVEST
    }
    assert said.endswith(f"from {without_year(harvest)} on: the first carrots.")


def test_what_was_picked_before_is_not_expected_for_the_first_time(tmp_path: Path) -> None:
    plan = "".join(
        f"- {{crop: radish, tag: {tag}, squares: back/{square}, sow: {sow}, until: Jul 20, plants: 16}}\n"
        for tag, square, sow in (("RA1", "A2", "Apr 1"), ("RA2", "A1", "May 5"))
    )
    done = "\n".join(
        f"  - {{sow: radish, tag: {tag}, squares: back/{square}}}"
        for tag, square in (("RA1", "A2"), ("RA2", "A1"))
    )
    log = f"---\ntitle: Sown\ndate: 2026-05-05\ndone:\n{done}\n---\n"
    ledger = "- {date: 2026-05-20, tag: RA1, weight: 1 lb}\n"
    content = {"2026/plan.yaml": plan, "2026/log/2026-05-05-sown.md": log, "2026/harvest.yaml": ledger}
    (year,) = site_of(written(folder(tmp_path, log=False), content)).all
    assert label(year).endswith(" on: more radishes.")


def test_the_gardeners_note_comes_first(year: Year) -> None:
    noted = replace(year.season, note="A cold spring.")
    garden = replace(year.garden, seasons=(noted,))
    (told,) = Years(garden=garden, today=year.today).all
    assert label(told).startswith("A cold spring. Picked on 20 May: radishes.")


def test_a_season_that_is_over_tells_what_was_picked_last(year: Year) -> None:
    (over,) = Years(garden=year.garden, today=date(2027, 1, 5)).all
    assert label(over) == "Picked last, on 20 May 2026: radishes."


def test_what_nobody_was_to_eat_is_not_told_as_picked(tmp_path: Path) -> None:
    ledger = (
        "- {date: 2026-05-20, crop: carrot, weight: 1 lb}\n"
        "- {date: 2026-05-25, crop: spinach, weight: 4 oz, to: The Discarded}\n"
    )
    (year,) = site_of(written(folder(tmp_path), {"2026/harvest.yaml": ledger})).all
    assert "Picked on 20 May: carrots." in label(year)


def test_a_name_that_may_mean_several_crops_stands_bare(tmp_path: Path) -> None:
    """That nobody told the kind is for the tally to say; one that was planted stands in its plural."""
    files = {
        "2026/harvest.yaml": "- {date: 2026-05-20, crop: Tomato, weight: 1 lb}\n",
        "2026/log/2026-05-20-in.md": (
            "---\ntitle: In\ndate: 2026-05-20\ndone:\n  - {set out: tomato, squares: back/A2}\n---\nIn.\n"
        ),
    }
    (year,) = site_of(written(folder(tmp_path), files)).all
    assert label(year).startswith("Picked on 20 May: tomatoes. Planted on 20 May: tomatoes.")


def test_without_any_record_it_says_what_the_plan_has_next(tmp_path: Path) -> None:
    root = folder(tmp_path, log=False, ledger=False)
    (year,) = Years(garden=site_of(root).garden, today=date(2026, 3, 20)).all
    assert label(year) == "To be planted on 5 April: spinach."


def test_without_plan_log_and_ledger_there_is_no_sentence(tmp_path: Path) -> None:
    (year,) = site_of(folder(tmp_path, plan=False, log=False, ledger=False)).all
    assert label(year) == ""


def test_many_crops_of_a_day_are_counted(tmp_path: Path) -> None:
    rows = "".join(
        f"- {{date: 2026-06-01, crop: {crop}, weight: 1 oz}}\n"
        for crop in ("kale", "chard", "okra", "radish")
    )
    (year,) = site_of(written(folder(tmp_path), {"2026/harvest.yaml": rows})).all
    assert label(year).startswith("Picked on 1 June: four crops.")
