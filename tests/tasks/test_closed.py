"""Closed seasons stay quiet, and earlier years entered for rotation alone are over."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from tallybed.cli import main
from tallybed.pages.season.season import state_words
from tallybed.tasks.build import make
from tallybed.tasks.check import check
from tallybed.tasks.site.laid_out import laid_out
from tallybed.tasks.site.making import make_closed
from tests.pages.gardens import GARDEN, site_of, written

pytestmark = pytest.mark.usefixtures("few_crops")

IDLE = "- {crop: spinach, tag: SP1, squares: front/A1, sow: Apr 5, until: May 1}\n"
"""A square that stands empty from May to the season's end: advice."""
CLOSED = "seasons: {2024: {closed: yes}, 2025: {closed: yes}}\n"
LEDGER = "- {date: 2026-05-10, crop: chard, squares: front/B1, weight: 1 lb}\n"
MISTAKE = "- {date: 2025-05-10, crop: chard, weight: much}\n"


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    files = {"garden.yaml": GARDEN + CLOSED, "2025/plan.yaml": IDLE, "2026/plan.yaml": IDLE}
    return written(tmp_path, files | {"2026/harvest.yaml": LEDGER})


def told(root: Path, *words: str) -> tuple[str, str]:
    done = CliRunner().invoke(main, [*words, str(root)], catch_exceptions=False)
    return done.stderr, done.stdout


def test_advice_on_a_closed_season_is_not_repeated(garden: Path):
    found = [one.settled for one in check(garden) if one.code == "idle"]
    assert set(found) == {True, False}, "there is advice on both"
    shown, summary = told(garden, "check")
    assert shown.count("[idle]") == found.count(False)
    assert "more piece" in summary
    assert "tallybed check --all" in summary
    shown, _summary = told(garden, "build")
    assert shown.count("[idle]") == found.count(False)


def test_what_waits_in_a_closed_season_is_told_every_time(garden: Path):
    """Fails where an entry that was left unfinished is never heard of again, once the season is closed."""
    draft = "---\ntitle: Out\ndate: 2025-05-10\nunfinished: yes\n---\nThe spinach came out.\n"
    held = "---\ntitle: In\ndate: 2025-05-09\nhold until: 2030-01-01\n---\nThe spinach went in.\n"
    written(garden, {"2025/log/2025-05-10-out.md": draft, "2025/log/2025-05-09-in.md": held})
    for command in ("check", "build"):
        shown, _summary = told(garden, command)
        assert [shown.count(f"[{code}]") for code in ("unfinished", "held")] == [1, 1]
        assert "lines of `done` count" not in shown, "neither has any"
    sown = "date: 2025-05-10\ndone: [{sow: spinach, squares: front/A1}]\n"
    written(garden, {"2025/log/2025-05-10-out.md": draft.replace("date: 2025-05-10\n", sown)})
    shown, _summary = told(garden, "check")
    assert shown.count("lines of `done` count") == 1


def test_all_of_it_is_told_when_asked_for(garden: Path):
    shown, summary = told(garden, "check", "--all")
    assert shown.count("[idle]") == sum(one.code == "idle" for one in check(garden))
    assert "--all" not in summary


def test_a_mistake_in_a_closed_season_is_told_every_time(garden: Path):
    written(garden, {"2025/harvest.yaml": MISTAKE})
    shown, _summary = told(garden, "check")
    assert "content/2025/harvest.yaml:1" in shown


@pytest.mark.parametrize("seasons", ["", CLOSED])
def test_years_entered_for_rotation_alone_are_over(tmp_path: Path, seasons: str):
    plans = {f"{year}/plan.yaml": IDLE for year in (2024, 2025, 2026)}
    years = site_of(written(tmp_path, {"garden.yaml": GARDEN + seasons, **plans}))
    assert [state_words(year) == "still to come" for year in years.all] == [False, False, True]
    assert years.today == date(2026, 2, 28), "the day before the season that is to come"


def test_a_closed_year_without_a_record_after_one_with_is_over(tmp_path: Path):
    files = {"2024/harvest.yaml": LEDGER.replace("2026", "2024"), "2025/plan.yaml": IDLE}
    years = site_of(written(tmp_path, {"garden.yaml": GARDEN + CLOSED, **files}))
    assert [state_words(year) for year in years.all] == ["closed", "closed"]
    home = make(tmp_path).files["index.html"].decode("utf-8")
    assert "Season 2025 is still to come" not in home
    assert "The season to come" not in home


def test_a_closed_season_takes_no_room_once_its_pages_are_made(garden: Path):
    """Fails where the memory that a site takes grows with each season it shows."""
    laid = laid_out(garden)
    assert laid.years is not None
    closed = laid.years.closed
    assert closed is not None
    made: list[str] = []
    make_closed(laid, laid.years, lambda path, _data: made.append(path))
    assert any(path.startswith("2025/") for path in made)
    for year in closed.all:
        assert set(vars(year)) == {"years", "season", "_memory"}


def test_nothing_is_still_planned_in_a_season_that_is_closed(tmp_path: Path) -> None:
    """Its last record comes long before its last day, and what is past is not to come."""
    closed = GARDEN + "seasons: {2026: {closed: yes}}\n"
    plan = "- {crop: kale, tag: KA1, squares: front/A1, sow: Apr 20}\n"
    root = written(tmp_path, {"garden.yaml": closed, "2026/plan.yaml": plan, "2026/harvest.yaml": LEDGER})
    (year,) = site_of(root).all
    assert year.as_of == date(2026, 10, 31)
    assert {hold.grade.word for hold in year.holding.of_planting("KA1")} == {"supposed"}
    _found, bulletin = told(root, "bulletin")
    assert "Week 19 of 2026, 4 to 10 May" in bulletin, "that of the newest record"


def test_what_was_weighed_after_its_season_is_told_in_its_last_week(tmp_path: Path) -> None:
    ledger = "- {date: 2026-10-20, crop: chard, weight: 1 lb, weighed: 2026-11-20}\n"
    _found, bulletin = told(
        written(tmp_path, {"garden.yaml": GARDEN, "2026/harvest.yaml": ledger}), "bulletin"
    )
    assert "Week 44 of 2026, 26 to 31 October" in bulletin
