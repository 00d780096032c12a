"""The desk's scales: what the form says and writes is what ``tallybed weigh`` would."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner

from tallybed.cli import main
from tallybed.server.weigh_form import DAY_FIELD, Asked, FormHeard, Typed, Wrong
from tallybed.tasks.weighing.form import GardenScales
from tests.pages.gardens import LEDGER, folder, written

DAY = "2026-05-20"


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return folder(tmp_path / "garden")


@pytest.fixture
def scales(garden: Path) -> GardenScales:
    return GardenScales(garden, lambda: date(2026, 5, 20))


def ledger(garden: Path) -> str:
    return (garden / "content/2026/harvest.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("typed", "line"),
    [
        (
            Typed(day=DAY, what="spinach", weight="1 lb 2 oz", squares="front/A1"),
            "spinach 1 lb 2 oz front/A1",
        ),
        (Typed(day=DAY, what="SP1", weight="not weighed"), "SP1 not weighed"),
        (
            Typed(day=DAY, what="radishes", weight="9 oz", count="16", to="food pantry", note="hot: very"),
            "radishes count 16 9 oz to food pantry note hot: very",
        ),
        (Typed(day=DAY, what="spinach + radish", weight="about 8 oz"), "spinach + radish about 8 oz"),
        (Typed(day=DAY, what="spinach 1 lb front/A1"), "spinach 1 lb front/A1"),
    ],
    ids=["squares", "tag", "all fields", "bowl", "all in one field"],
)
def test_the_form_writes_what_the_command_writes(
    garden: Path, tmp_path: Path, scales: GardenScales, typed: Typed, line: str
) -> None:
    other = folder(tmp_path / "other")
    heard = scales.hear(typed)
    assert isinstance(heard, FormHeard), heard
    assert ledger(garden) == LEDGER, "hearing wrote something"
    assert scales.write(typed, heard.row) == heard
    done = CliRunner().invoke(main, ["weigh", line, "--folder", str(other), "--date", DAY, "--yes"])
    assert done.exit_code == 0, done.output
    assert ledger(garden) == ledger(other) != LEDGER
    assert heard.words in done.output
    for of, before, after in heard.running:
        assert f"{of}: {before}, with this {after}" in done.output
    assert heard.ledger == "content/2026/harvest.yaml"


def test_the_total_shown_is_that_of_the_ledger_with_the_row(scales: GardenScales) -> None:
    # By hand: 1 lb 8 oz, about 8 oz and 6 oz are 2 lb 6 oz; with 10 oz more 3 lb. One was not weighed.
    heard = scales.hear(Typed(day=DAY, what="radish", weight="10 oz"))
    assert isinstance(heard, FormHeard)
    assert heard.running == (
        ("radish", "6 oz", "1.0 lb"),
        ("All of 2026", "at least 2.4 lb", "at least 3.0 lb"),
    )


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        (Typed(day=DAY, weight="1 lb"), "what", "Say what was picked."),
        (Typed(day=DAY, what="spinach"), "weight", "not weighed"),
        (Typed(day=DAY, what="spinach", weight="heavy"), "weight", "heavy"),
        (Typed(day=DAY, what="spinach", weight="1 lb", squares="front/Z9"), "squares", "Z9"),
        (Typed(day=DAY, what="spinach", weight="1 lb", count="many"), "count", "many"),
        (Typed(day="soon", what="spinach", weight="1 lb"), "day", "soon"),
        (Typed(day=DAY, what="spinach", weight="2 stone"), "weight", "(write 28 lb)"),
        (Typed(day=DAY, what="spinach", weight="12..5 kg"), "weight", "its signs make no one figure"),
        (Typed(day="", what="spinach", weight="1 lb"), "day", "Say on which day."),
        (Typed(day="2019-07-01", what="spinach", weight="1 lb"), "day", "2026 runs from "),
        (Typed(day="2026-12-24", what="spinach", weight="1 lb"), "day", "2026 runs from "),
    ],
)
def test_what_is_wrong_is_told_of_its_field(
    garden: Path, scales: GardenScales, typed: Typed, field: str, says: str
) -> None:
    wrong = scales.hear(typed)
    assert isinstance(wrong, Wrong), wrong
    assert list(wrong.by_field) == [field], wrong
    assert says in wrong.by_field[field]
    assert isinstance(scales.write(typed, "{}"), Wrong)
    assert ledger(garden) == LEDGER


def test_what_no_field_is_to_blame_for_is_told_of_the_whole(scales: GardenScales) -> None:
    wrong = scales.hear(Typed(day=DAY, what="spinach", weight="1 lb", to="market to pantry"))
    assert isinstance(wrong, Wrong)
    assert not wrong.by_field
    assert "without saying how much went where" in wrong.whole


def test_a_weight_as_the_scale_takes_it_is_never_to_blame(scales: GardenScales) -> None:
    """Fails where “2#3” is said not to be read as soon as something else is wrong."""
    wrong = scales.hear(Typed(day=DAY, what="spinach", weight="2#3", squares="front/Z9"))
    assert isinstance(wrong, Wrong)
    assert list(wrong.by_field) == ["squares"]


def test_a_count_beside_grams_is_no_number_of_thousands(scales: GardenScales) -> None:
    heard = scales.hear(Typed(day=DAY, what="spinach", weight="150 g", count="3"))
    assert isinstance(heard, FormHeard)
    assert "3 counted, 150 g" in heard.words


def test_a_day_that_has_not_come_is_pointed_out(scales: GardenScales) -> None:
    heard = scales.hear(Typed(day="2026-05-21", what="spinach", weight="1 lb"))
    assert isinstance(heard, FormHeard)
    assert heard.doubt == "21 May 2026 has not come yet"


def test_a_weight_without_its_unit_is_that_of_the_scale_or_asked(garden: Path, scales: GardenScales) -> None:
    """It was refused as “not a weight alone”, also where the garden says what its scale shows."""
    typed = Typed(day=DAY, what="spinach", weight="250", count="3")
    asked = scales.hear(typed)
    assert isinstance(asked, Asked), asked
    assert "250 g" in asked.choices
    written(garden, {"take-in.yaml": "unit: g\n"})
    heard = scales.hear(typed)
    assert isinstance(heard, FormHeard), heard
    assert "count: 3, weight: 250 g" in heard.row


def test_an_open_question_is_asked_and_its_answer_taken(garden: Path, scales: GardenScales) -> None:
    more = (
        "- {crop: lettuce-leaf, tag: LL1, squares: back/A2, sow: Apr 5}\n"
        "- {crop: lettuce-head, tag: LH1, squares: back/B2, sow: Apr 5}\n"
    )
    plan = (garden / "content/2026/plan.yaml").read_text(encoding="utf-8")
    written(garden, {"2026/plan.yaml": plan + more})
    typed = Typed(day=DAY, what="lettuce", weight="1 lb")
    asked = scales.hear(typed)
    assert isinstance(asked, Asked), asked
    assert len(asked.choices) == 2
    for choice in asked.choices:
        heard = scales.hear(Typed(day=DAY, what="lettuce", weight="1 lb", choices=(choice,)))
        assert isinstance(heard, FormHeard)
        assert choice.split()[0] in heard.row
    assert isinstance(scales.hear(Typed(day=DAY, what="lettuce", weight="1 lb", choices=("neither",))), Asked)


def test_each_of_several_questions_keeps_its_answer(garden: Path, scales: GardenScales) -> None:
    """The answer to the one was forgotten over the other, and both were asked in turn without an end."""
    more = (
        "- {crop: lettuce-leaf, tag: LL1, squares: back/A2, sow: Apr 5}\n"
        "- {crop: lettuce-head, tag: LH1, squares: back/B2, sow: Apr 5}\n"
    )
    plan = (garden / "content/2026/plan.yaml").read_text(encoding="utf-8")
    written(garden, {"2026/plan.yaml": plan + more})
    typed = Typed(day=DAY, what="lettuce", weight="12")
    first = scales.hear(typed)
    assert isinstance(first, Asked)
    assert "12 oz" in first.choices
    second = scales.hear(replace(typed, choices=("12 oz",)))
    assert isinstance(second, Asked)
    (head,) = (one for one in second.choices if one.startswith("LH1"))
    heard = scales.hear(replace(typed, choices=("12 oz", head)))
    assert isinstance(heard, FormHeard)
    assert heard.row == "{date: 2026-05-20, crop: lettuce-head, tag: LH1, weight: 12 oz}"


@pytest.mark.parametrize(
    ("typed", "choice", "whole"),
    [
        ({"weight": "12", "count": "30"}, "12 counted, not weighed", "a weight with its unit"),
        ({"weight": "300 lb"}, "no", "300.0 lb at once is beyond belief"),
    ],
)
def test_an_answer_that_settles_nothing_is_told_and_not_asked_again(
    scales: GardenScales, typed: dict[str, str], choice: str, whole: str
) -> None:
    """The same question came back, with not a word about what was wrong with the answer."""
    given = Typed(day=DAY, what="spinach", **typed)
    asked = scales.hear(given)
    assert isinstance(asked, Asked)
    assert choice in asked.choices
    wrong = scales.hear(replace(given, choices=(choice,)))
    assert isinstance(wrong, Wrong), wrong
    assert whole in " ".join((wrong.whole, *wrong.by_field.values()))


def test_a_day_beside_what_was_picked_is_not_said_to_be_no_crop(scales: GardenScales) -> None:
    wrong = scales.hear(Typed(day=DAY, what="spinach 2024-05-20", weight="1 lb"))
    assert isinstance(wrong, Wrong)
    assert not wrong.by_field
    assert wrong.whole.startswith("The date “2024-05-20” lies outside the season; expected a day from ")
    # --date is an option of the command, and no field.
    assert wrong.whole.endswith("(for a day of another season fill in “Day picked and weighed”)")
    assert "“Day picked and weighed”"[1:-1] == DAY_FIELD


def test_the_form_tells_what_its_totals_leave_out(garden: Path, scales: GardenScales) -> None:
    """A row that could not be read was missing in the totals without a word, which the terminal has."""
    typed = Typed(day=DAY, what="spinach", weight="1 lb", squares="front/A1")
    heard = scales.hear(typed)
    assert isinstance(heard, FormHeard)
    assert not heard.doubt
    ledger = (garden / "content/2026/harvest.yaml").read_text(encoding="utf-8")
    written(garden, {"2026/harvest.yaml": f"{ledger}- {{date: 2026-05-19, crop: spinach, weight: heavy}}\n"})
    heard = scales.hear(typed)
    assert isinstance(heard, FormHeard)
    assert heard.doubt == "the garden’s files have 1 error: what cannot be understood is not counted"


def test_a_row_that_means_something_else_by_now_is_not_written(garden: Path, scales: GardenScales) -> None:
    wrong = scales.write(Typed(day=DAY, what="spinach", weight="1 lb"), "{date: 2026-05-20, crop: kale}")
    assert isinstance(wrong, Wrong)
    assert "changed" in wrong.whole
    assert ledger(garden) == LEDGER


def test_broken_papers_are_said_and_nothing_is_written(garden: Path, scales: GardenScales) -> None:
    written(garden, {"2026/harvest.yaml": LEDGER + "- {crop: \n"})
    typed = Typed(day=DAY, what="radish", weight="1 lb")
    heard = scales.hear(typed)
    assert isinstance(heard, FormHeard)
    refused = scales.write(typed, heard.row)
    assert isinstance(refused, Wrong)
    assert "left as it was" in refused.whole
    assert ledger(garden) == LEDGER + "- {crop: \n"
    written(garden, {"garden.yaml": "name: [\n"})
    wrong = scales.hear(Typed(day=DAY, what="radish", weight="1 lb"))
    assert isinstance(wrong, Wrong)
    assert "garden.yaml" in wrong.whole
    assert scales.ripe() == ()


def test_what_can_be_ripe_is_offered_by_what_can_be_said(scales: GardenScales) -> None:
    assert ("SP1", "spinach Broad SP1 in front/A1:B2") in scales.ripe()
