"""What pages and the scale ask of a season's waits, day by day, in a garden of two beds."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

import pytest

from tallybed.garden.squares import in_words
from tallybed.reckoning.waits.of_season import SeasonWaits
from tallybed.reckoning.year import Years
from tests.small_garden import read_garden, written

GARDEN = """\
name: Test
season: {start: Mar 1, end: Nov 30}
seasons: {2024: {}, 2025: {}}
beds:
  - {name: b, length: 4 squares, width: 1 square}
  - {name: c, length: 4 squares, width: 1 square}
"""
PLAN = """\
- {crop: spinach, tag: SP1, squares: b/A1:B1, sow: Apr 1, until: Oct 1}
- {crop: kale, tag: KA1, squares: c/A1:B1, set out: Apr 1, until: Oct 1}
"""
LOG = {
    "2024-06-10": "- {treat: soap, squares: 'b/A1:B1', wait: 7 days, re-entry: 4 hours, at: 7 am}",
    "2024-06-20": "- {treat: oil, squares: 'c/A1:B1', wait: 9 days, re-entry: 48 hours, at: 7 am}",
    "2024-11-29": "- {treat: oil, squares: 'c/D1', wait: 9 days}",
}


LONG_OVER = {
    "2024-06-10": "- {treat: soap, squares: 'b/A1:B1', wait: 7 days}",
    "2024-07-12": "- {treat: hand-picking, kind: by hand, squares: b, because: slugs}",
}


def seen(folder: Path, today: date, season: str = "2024") -> SeasonWaits:
    """The waits of a season as known on a day."""
    year = years(folder, today, LOG).named(season)
    assert year is not None
    return year.waiting


def years(folder: Path, today: date, log: Mapping[str, str]) -> Years:
    """Both seasons as known on a day, the first with a log."""
    (folder / "content" / "2025").mkdir(parents=True)
    files = {f"2024/log/{on}-visit.md": f"---\ntitle: T\ndone:\n  {line}\n---\n" for on, line in log.items()}
    written(folder, {"garden.yaml": GARDEN, "2024/plan.yaml": PLAN, **files})
    return Years(garden=read_garden(folder), today=today)


@pytest.mark.parametrize(
    ("bed", "on", "waiting", "kept_off"),
    [
        ("b", "2024-06-09", "", ""),
        ("b", "2024-06-10", "b/A1, b/B1", "b/A1, b/B1"),
        ("b", "2024-06-11", "b/A1, b/B1", ""),
        ("b", "2024-06-17", "", ""),
        ("c", "2024-06-10", "", ""),
        ("c", "2024-06-20", "c/A1, c/B1", "c/A1, c/B1"),
    ],
)
def test_a_map_marks_the_squares_of_its_own_bed_and_day(
    bed: str, on: str, waiting: str, kept_off: str, tmp_path: Path
) -> None:
    marked = seen(tmp_path, date(2024, 11, 30)).marked(bed, date.fromisoformat(on))
    assert [", ".join(in_words([one]) for one in squares) for squares in marked] == [waiting, kept_off]


def test_a_planting_is_asked_for_its_own_waits_that_are_open(tmp_path: Path) -> None:
    waits = seen(tmp_path, date(2024, 11, 30))
    assert [one.event.subject for one in waits.of_planting("KA1", date(2024, 6, 20))] == ["oil", "oil"]
    assert waits.of_planting("SP1", date(2024, 6, 20)) == ()


@pytest.mark.parametrize(("today", "told"), [("2024-06-19", {"soap"}), ("2024-06-20", {"soap", "oil"})])
def test_a_treatment_counts_from_its_very_day(today: str, told: set[str], tmp_path: Path) -> None:
    waits = seen(tmp_path, date.fromisoformat(today)).waits
    assert {one.event.subject for one in waits} == told


def test_who_keeps_off_without_an_end_told_does_so_in_the_next_season(tmp_path: Path) -> None:
    """Nobody wrote how long to keep off, nor that the plants are gone."""
    found = seen(tmp_path, date(2025, 11, 30), "2025").keep_offs
    assert [(in_words([one.square]), one.event.day) for one in found] == [("c/D1", date(2024, 11, 29))]
    assert all(one.is_open(date(2025, 11, 30)) for one in found)


def test_nobody_asks_who_stood_where_in_a_season_whose_waits_are_over(tmp_path: Path) -> None:
    """To work out who did takes longest of all that is done at the scale; what was done by hand waits not."""
    before, year = years(tmp_path, date(2025, 11, 30), LONG_OVER).all
    assert year.waiting.waits == ()
    assert "holding" not in vars(before)
