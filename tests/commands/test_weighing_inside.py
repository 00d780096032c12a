"""A picking that may come from inside a wait is asked about, by every way in; --yes never answers."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tallybed.cli import main
from tallybed.server.weigh_form import FormHeard, Typed, Wrong
from tallybed.tasks.weighing.form import GardenScales
from tests.small_garden import written

GARDEN = """\
name: One bed
season: {start: Mar 1, end: Nov 30}
beds: [{name: long, length: 4 squares, width: 2 squares}]
"""
PLAN = """\
- {crop: kale, tag: KA1, squares: A1:B1, set out: Apr 1}
- {crop: spinach, tag: SP1, squares: C1, sow: Apr 1}
"""
ENTRY = """\
---
title: Aphids
done:
  - {treat: soap, squares: A1, wait: 7 days, re-entry: until dry}
---
"""
CODE = 4
"""By docs/commands.md: a picking may come from inside a wait, and nobody answered for it."""


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    files = {
        "garden.yaml": GARDEN,
        "2026/plan.yaml": PLAN,
        "2026/log/2026-06-10-aphids.md": ENTRY,
        "2026/harvest.yaml": "",
    }
    return written(tmp_path / "garden", files)


def ledger(garden: Path) -> str:
    return (garden / "content" / "2026" / "harvest.yaml").read_text(encoding="utf-8")


def weigh(garden: Path, *words: str, day: str = "2026-06-16", answers: str | None = None) -> Result:
    arguments = ["weigh", "--folder", str(garden), "--date", day, *words]
    return CliRunner().invoke(main, arguments, input=answers, catch_exceptions=False)


def take(garden: Path, row: str, *words: str, answers: str | None = None) -> Result:
    sheet = garden.parent / "kitchen.csv"
    sheet.write_text(f"Date,Crop,Squares,Weight (oz),To\n{row}\n", encoding="utf-8")
    arguments = ["take-in", str(sheet), "--folder", str(garden), *words]
    return CliRunner().invoke(main, arguments, input=answers, catch_exceptions=False)


def test_the_line_and_the_first_safe_day_are_named(garden: Path) -> None:
    said = weigh(garden, "kale 6 oz A1", answers="n\n")
    assert "content/2026/log/2026-06-10-aphids.md:4" in said.output
    assert "nothing to be picked there before 17 June 2026" in said.output
    assert (said.exit_code, ledger(garden)) == (CODE, "")


def test_yes_never_answers(garden: Path) -> None:
    said = weigh(garden, "--yes", "kale 6 oz A1")
    assert "--yes does not answer that" in said.output
    assert (said.exit_code, ledger(garden)) == (CODE, "")


def test_one_line_inside_keeps_all_lines_from_being_written(garden: Path) -> None:
    assert weigh(garden, "--yes", "spinach 2 oz", "kale 6 oz").exit_code == CODE
    assert ledger(garden) == ""


def test_a_person_may_answer_for_it(garden: Path) -> None:
    assert weigh(garden, "kale 6 oz A1", answers="y\ny\n").exit_code == 0
    assert "kale" in ledger(garden)


def test_one_after_the_other_it_is_asked_too(garden: Path) -> None:
    said = weigh(garden, answers="kale 6 oz A1\nn\nspinach 2 oz\ny\n\n")
    assert said.exit_code == 0
    assert "spinach" in ledger(garden)
    assert "kale" not in ledger(garden)


@pytest.mark.parametrize("to", ["discarded", "Discarded"])
def test_what_is_discarded_is_taken_with_the_wait_shown(garden: Path, to: str) -> None:
    said = weigh(garden, "--yes", f"kale 6 oz A1 to {to}")
    assert "17 June 2026" in said.output
    assert said.exit_code == 0
    assert to in ledger(garden)


@pytest.mark.parametrize(
    ("words", "day"),
    [("kale 6 oz A1", "2026-06-17"), ("kale 6 oz B1", "2026-06-16"), ("spinach 6 oz", "2026-06-16")],
)
def test_what_does_not_wait_is_written_as_ever(garden: Path, words: str, day: str) -> None:
    said = weigh(garden, "--yes", words, day=day)
    assert "WAIT" not in said.output
    assert said.exit_code == 0
    assert ledger(garden)


def test_a_spreadsheet_is_asked_about(garden: Path) -> None:
    row = "2026-06-16,kale,A1,6,pantry"
    said = take(garden, row, "--yes")
    assert "17 June 2026" in said.output
    assert (said.exit_code, ledger(garden)) == (CODE, "")
    assert take(garden, row, answers="n\n").exit_code == CODE
    assert ledger(garden) == ""
    assert take(garden, row, answers="y\ny\n").exit_code == 0
    assert "pantry" in ledger(garden)


def test_a_spreadsheet_of_what_was_discarded_is_taken(garden: Path) -> None:
    said = take(garden, "2026-06-16,kale,A1,6,discarded", "--yes")
    assert "WAIT" in said.output
    assert said.exit_code == 0
    assert "discarded" in ledger(garden)


def test_the_form_asks_and_writes_nothing_without_an_answer(garden: Path) -> None:
    scales = GardenScales(garden, lambda: date(2026, 6, 16))
    typed = Typed(day="2026-06-16", what="kale", weight="6 oz", squares="A1")
    heard = scales.hear(typed)
    assert isinstance(heard, FormHeard)
    assert heard.asks
    assert "17 June 2026" in heard.waits
    assert isinstance(scales.write(typed, heard.row), Wrong)
    assert ledger(garden) == ""
    assert isinstance(scales.write(typed, heard.row, inside=True), FormHeard)
    assert "kale" in ledger(garden)


@pytest.mark.parametrize(
    ("told", "words"),
    [
        (", wait: 7 days", "(WAIT: not before 17 June 2026)"),
        ("", "(WAIT: until when is not known; read the label)"),
    ],
)
def test_the_form_offers_what_waits_with_its_first_safe_day(garden: Path, told: str, words: str) -> None:
    entry = garden / "content" / "2026" / "log" / "2026-06-10-aphids.md"
    entry.write_text(ENTRY.replace(", wait: 7 days", told), encoding="utf-8")
    offered = dict(GardenScales(garden, lambda: date(2026, 6, 16)).ripe())
    assert offered["KA1"].endswith(words)


UNREAD = {
    "a key misspelt": ("wait: 7 days", "wiat: 7 days"),
    "a crop that nobody knows": ("squares: A1", "crop: kael"),
    "no YAML at all": ("until dry}", "until dry"),
    "manure fed": ("treat: soap, squares: A1, wait: 7 days", "feed: hen muck, squares: A1, wiat: 7 days"),
    "manure tea": ("treat: soap, squares: A1, wait: 7 days", "water: manure tea, squares: A1, wiat: 7 days"),
}


@pytest.mark.parametrize("slip", UNREAD.values(), ids=UNREAD)
def test_a_treatment_that_cannot_be_understood_is_a_wait_that_nobody_knows(
    garden: Path, slip: tuple[str, str]
) -> None:
    entry = garden / "content" / "2026" / "log" / "2026-06-10-aphids.md"
    entry.write_text(ENTRY.replace(*slip), encoding="utf-8")
    unasked = weigh(garden, "kale 3 oz A1", "--yes")
    assert unasked.exit_code == CODE
    assert "2026-06-10-aphids.md:4" in unasked.stdout
    assert take(garden, "2026-06-16,kale,A1,3,", "--yes", "--dates", "month-first").exit_code == CODE
    scales = GardenScales(garden, lambda: date(2026, 6, 16))
    heard = scales.hear(Typed(day="2026-06-16", what="kale", weight="3 oz", squares="A1"))
    assert isinstance(heard, FormHeard)
    assert heard.asks
    assert ledger(garden) == ""
    assert weigh(garden, "kale 3 oz A1", "--yes", day="2026-06-09").exit_code == 0, "picked before it"


def test_such_a_treatment_of_an_unknown_day_may_concern_every_picking(garden: Path) -> None:
    log = garden / "content" / "2026" / "log"
    (log / "2026-06-10-aphids.md").unlink()
    (log / "aphids.md").write_text(ENTRY.replace("wait:", "wiat:"), encoding="utf-8")
    assert weigh(garden, "kale 3 oz A1", "--yes", day="2026-06-09").exit_code == CODE
    assert ledger(garden) == ""


def test_another_error_in_the_log_asks_nothing(garden: Path) -> None:
    log = garden / "content" / "2026" / "log"
    (log / "2026-06-10-aphids.md").unlink()
    other = ENTRY.replace("treat: soap", "water: bed, by: us")
    (log / "2026-06-10-water.md").write_text(other, encoding="utf-8")
    result = weigh(garden, "kale 3 oz A1", "--yes")
    assert "2026-06-10-water.md:4" in result.stderr
    assert result.exit_code == 0
