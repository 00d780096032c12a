"""``tallybed weigh`` on a copy of the demonstration garden: what it shows, asks, writes and refuses."""

from __future__ import annotations

import shutil
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tallybed.cli import main
from tallybed.commands.screen import terminal
from tallybed.reading.folder.garden_folder import read
from tests.small_garden import written
from tests.tools import ROOT

LEDGER = "content/2026/harvest.yaml"
NAMES = "content/2026/names.yaml"


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    """The demonstration garden's latest season."""
    left = shutil.ignore_patterns("photos", "questions", "2024", "2025")
    shutil.copytree(ROOT / "content", tmp_path / "garden" / "content", ignore=left)
    return tmp_path / "garden"


def weigh(garden: Path, *words: str, answers: str | None = None, day: str = "2026-08-20") -> Result:
    arguments = ["weigh", "--folder", str(garden), "--date", day, *words]
    return CliRunner().invoke(main, arguments, input=answers, catch_exceptions=False)


def rows(garden: Path) -> list[str]:
    """The ledger's lines behind those of the demonstration garden."""
    old = (ROOT / LEDGER).read_bytes()
    new = (garden / LEDGER).read_bytes()
    assert new.startswith(old), "what stood in the ledger was touched"
    return new[len(old) :].decode().splitlines()


def test_lines_are_shown_and_written_when_agreed(garden: Path) -> None:
    known = read(garden).findings
    lines = ("tomato 2 lb 3 oz A1:A2", "radish 16 9oz to food pantry", "basil not weighed")
    result = weigh(garden, *lines, answers="y\n")
    assert result.exit_code == 0, result.output
    assert "indeterminate tomato, from long/A1:A2, 2 lb 3 oz" in result.stdout
    assert "radish, square not told, 16 counted, 9oz, to food pantry" in result.stdout
    assert "Write this? [y/n]" in result.stdout
    assert rows(garden) == [
        "- {date: 2026-08-20, crop: tomato-indeterminate, squares: long/A1:A2, weight: 2 lb 3 oz}",
        "- {date: 2026-08-20, crop: radish, count: 16, weight: 9oz, to: food pantry}",
        "- {date: 2026-08-20, crop: basil, weight: not weighed}",
    ]
    assert read(garden).findings == known


def test_the_running_total_is_shown_before_anything_is_written(garden: Path) -> None:
    """Tomatoes of TO1 in the demonstration ledger up to its end, and one pound more."""
    before = weigh(garden, "Library Red 1 lb", answers="n\n").stdout
    found = [line for line in before.splitlines() if line.startswith("  indeterminate tomato: ")]
    (told,) = found
    old, new = (float(part.split()[-2]) for part in told.split(", with this "))
    assert round(new - old, 1) == 1.0
    assert "All of 2026: at least" in before
    assert rows(garden) == []


@pytest.mark.parametrize(("answers", "code"), [("n\n", 0), ("maybe\nNO\n", 0), ("", 2), (None, 2)])
def test_nothing_is_written_unless_somebody_says_yes(garden: Path, answers: str | None, code: int) -> None:
    result = weigh(garden, "TO1 2 lb", answers=answers)
    assert result.exit_code == code
    assert "Nothing was written." in result.stderr
    assert rows(garden) == []


def test_what_the_ledger_says_already_is_pointed_out_before_it_is_written_again(garden: Path) -> None:
    """With several hands at one scale a picking is soon in twice; `check` told it only afterwards."""
    line = len((ROOT / LEDGER).read_text(encoding="utf-8").splitlines()) + 1
    said = f"but line {line} of the ledger says the same, of the same day"
    assert said not in weigh(garden, "TO1 2 lb 3 oz", "--yes").stdout
    assert said in weigh(garden, "tomato 35 oz A1", answers="n\n").stdout, (
        "its tag and its unit set it not apart"
    )
    for other in ("TO1 2 lb 4 oz", "TO1 6 counted 2 lb 3 oz", "TO1 2 lb 3 oz to kitchen", "kale 2 lb 3 oz"):
        assert said not in weigh(garden, other, answers="n\n").stdout
    assert said not in weigh(garden, "TO1 2 lb 3 oz", day="2026-08-21", answers="n\n").stdout


def test_equal_pickings_of_two_plantings_are_two_pickings(garden: Path) -> None:
    """BB2 stands in the long bed and BB3 in the elbow; one row tells its tag alone, the other its squares."""
    said = "of the ledger says the same, of the same day"
    assert said not in weigh(garden, "BB3 1 lb 3 oz", "--yes").stdout
    assert said not in weigh(garden, "bush bean 19 oz long/G1", answers="n\n").stdout
    assert said in weigh(garden, "bush bean 19 oz elbow/A3", answers="n\n").stdout
    assert said in weigh(garden, "bush bean 19 oz", answers="n\n").stdout, "it may be of either"


def test_yes_writes_without_asking(garden: Path) -> None:
    result = weigh(garden, "TO1 2 lb", "--yes")
    assert result.exit_code == 0
    assert "[y/n]" not in result.output
    assert rows(garden) == ["- {date: 2026-08-20, crop: tomato-indeterminate, tag: TO1, weight: 2 lb}"]


@pytest.mark.parametrize("more", [["--yes"], []])
def test_an_ambiguous_name_that_nobody_answers_is_an_error_with_its_candidates(
    garden: Path, more: list[str]
) -> None:
    (garden / NAMES).unlink()
    result = weigh(garden, "basil 1 oz", "tomato 2 lb", *more)
    assert result.exit_code == 1
    assert "TO1 indeterminate tomato in long/A1:B2" in result.stderr
    assert "TO2 determinate tomato in elbow/D1:E2" in result.stderr
    assert "Nothing was written." in result.stderr
    assert rows(garden) == [], "a line was written although another could not be"


def test_an_ambiguous_name_is_asked_and_goes_where_the_answer_says(garden: Path) -> None:
    (garden / NAMES).unlink()
    result = weigh(garden, "tomato 2 lb", answers="7\n2\ny\n")
    assert result.exit_code == 0
    assert rows(garden) == ["- {date: 2026-08-20, crop: tomato-determinate, tag: TO2, weight: 2 lb}"]


def test_what_the_season_settled_of_a_name_is_not_asked_again(garden: Path) -> None:
    result = weigh(garden, "toms 2 lb", answers="y\n")
    assert "indeterminate tomato, square not told, 2 lb" in result.stdout
    assert "if it came from the one in long/A1:B2, say TO1 with it" in result.stdout
    assert rows(garden) == ["- {date: 2026-08-20, crop: tomato-indeterminate, weight: 2 lb}"]


def test_what_was_given_away_went_to_no_place(garden: Path) -> None:
    said = weigh(garden, "kale 2 lb given away", "kale 3 lb, half given away, rest pantry", "--yes").stdout
    assert ", 2 lb, given away" in said
    assert "1 lb 8 oz given away, the rest to pantry" in said


def test_little_words_need_no_telling_and_others_that_tell_nothing_do(garden: Path) -> None:
    said = weigh(garden, "we picked 2 lb of kale from the row", "kale 3 oz from C2", answers="n\n").stdout
    assert [line.strip() for line in said.splitlines() if "passed over" in line] == ["passed over: row"]


def test_squares_settle_an_ambiguous_name_and_the_bed(garden: Path) -> None:
    weigh(garden, "tomato 2 lb D1", "--yes")
    assert rows(garden) == ["- {date: 2026-08-20, crop: tomato-determinate, squares: elbow/D1, weight: 2 lb}"]


def test_all_that_is_wrong_is_told_at_once(garden: Path) -> None:
    result = weigh(garden, "tomatoe 2 lb A1", "basil", "kale 3 oz", "--yes")
    assert result.exit_code == 1
    assert "nothing is called “tomatoe”; is it tomatoes?" in result.stderr
    assert "“basil”: the line “basil” has no weight; say it, or: not weighed\n" in result.stderr
    assert rows(garden) == []


def test_without_lines_it_proposes_and_takes_one_after_the_other(garden: Path) -> None:
    typed = "TO1 2 lb\ny\ntomatoe 1 lb\n\n12 oz C2\n2\ny\nkale 3 oz\nn\nEG1 not weighed\ny\n\nnever read\n"
    result = weigh(garden, answers=typed)
    assert result.exit_code == 0, result.output
    said = result.stdout
    assert "20 August 2026. This can be ripe:" in said
    assert "long/A1:B2   TO1  indeterminate tomato Library Red    picked 18 August" in said
    assert "nothing is called “tomatoe”; is it tomatoes?" in result.stderr
    assert [row.partition("crop: ")[2].partition(",")[0] for row in rows(garden)] == [
        "tomato-indeterminate",
        "kale",
        "eggplant",
    ]


def test_a_mixed_bowl_is_written_whatever_its_crops_were_called(garden: Path) -> None:
    result = weigh(garden, "leaf lettuce + Kale + beans 6 oz", "--yes")
    assert result.exit_code == 0, result.output
    assert "mixed: bush bean + kale + leaf lettuce: nothing yet, with this 6 oz" in result.stdout
    assert rows(garden) == ["- {date: 2026-08-20, mixed: [lettuce-leaf, kale, bean-bush], weight: 6 oz}"]


def test_a_general_name_in_a_bowl_goes_to_the_only_crop_that_stood_there(garden: Path) -> None:
    """On 20 August leaf lettuce is in the beds, head lettuce is not; tomatoes of both kinds are."""
    said = weigh(garden, "lettuce + kale 6 oz", "--yes").stdout
    assert "  leaf lettuce + kale, square not told, 6 oz" in said
    assert rows(garden) == ["- {date: 2026-08-20, mixed: [lettuce-leaf, kale], weight: 6 oz}"]
    assert "need their bed" in weigh(garden, "tomato + basil A1 6 oz", "--yes").stderr
    # Of both kinds of tomato the season's answer is the tall one, and in the elbow stands the other.
    weigh(garden, "tomato + kale 6 oz", "--yes")
    assert "mixed: [tomato-indeterminate, kale]" in rows(garden)[-1]
    weigh(garden, "tomato + basil elbow/D2:E2 6 oz", "--yes")
    assert rows(garden)[-1] == (
        "- {date: 2026-08-20, mixed: [tomato-determinate, basil], squares: elbow/D2:E2, weight: 6 oz}"
    )
    (garden / NAMES).unlink()
    wrong = weigh(garden, "tomato + kale 6 oz", "--yes").stderr
    assert "“tomato” may be several crops (determinate tomato or indeterminate tomato); name one" in wrong
    assert (
        "all of the bowl would be leaf lettuce"
        in weigh(garden, "lettuce + leaf lettuce 6 oz", "--yes").stderr
    )


def test_undo_while_weighing_takes_back_the_row_before(garden: Path) -> None:
    result = weigh(garden, answers="TO1 2 lb\ny\nTO1 3 lb\ny\nundo\ny\nUndo\ny\nundo\nkale 1 oz\ny\n\n")
    assert result.exit_code == 0, result.output
    assert result.stdout.count("Taken back from content/2026/harvest.yaml") == 2
    assert "There is no row to take back." in result.stderr
    assert rows(garden) == ["- {date: 2026-08-20, crop: kale, weight: 1 oz}"]
    shown = [line for line in result.stdout.splitlines() if line.startswith("  kale: ")]
    assert len(shown) == 1


def test_undo_takes_no_line(garden: Path) -> None:
    result = weigh(garden, "--undo", "TO1 2 lb")
    assert result.exit_code == 2
    assert "without a LINE" in result.stderr


def test_each_row_is_written_before_the_next_is_asked_for(garden: Path) -> None:
    result = weigh(garden, answers="TO1 2 lb\ny\nTO2 1 lb\n")
    assert result.exit_code == 2
    assert len(rows(garden)) == 1


def test_undo_takes_back_one_row_after_the_other_and_nothing_else(garden: Path) -> None:
    weigh(garden, "TO1 2 lb", "TO2 1 lb", "--yes")
    kept = weigh(garden, "--undo", answers="n\n")
    assert "The last row of content/2026/harvest.yaml: {date: 2026-08-20, crop: tomato-det" in kept.stdout
    assert len(rows(garden)) == 2
    first = weigh(garden, "--undo", answers="y\n")
    assert first.exit_code == 0
    assert "tag: TO2" in first.stdout
    assert len(rows(garden)) == 1
    assert weigh(garden, "--undo", "--yes").exit_code == 0
    assert rows(garden) == []
    none = weigh(garden, "--undo")
    assert (none.exit_code, none.stderr) == (1, "There is no row to take back.\n")


def test_undo_leaves_what_was_written_since(garden: Path) -> None:
    weigh(garden, "TO1 2 lb", "--yes")
    with (garden / LEDGER).open("ab") as ledger:
        ledger.write(b"- {date: 2026-08-20, crop: kale, weight: 1 oz}\n")
    for result in (weigh(garden, "--undo", "--yes"), weigh(garden, "--undo", answers="y\n")):
        assert result.exit_code == 2
        assert "no longer ends with what is remembered" in result.stderr
        assert result.stdout == "", "nothing is offered that cannot be taken back"
    assert len(rows(garden)) == 2


def test_the_day_is_the_clocks_where_none_is_said(garden: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(terminal, "today", lambda: date(2026, 8, 21))
    result = CliRunner().invoke(main, ["weigh", "--folder", str(garden), "--yes", "TO1 2 lb"])
    assert result.exit_code == 0
    assert rows(garden)[0].startswith("- {date: 2026-08-21,")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--date", "2026-01-24", "TO1 2 lb"], "no season"),
        (["--date", "2030-06-01", "TO1 2 lb"], "2026 runs from 1 March 2026 to 30 November 2026"),
        (["--date", "31 June", "TO1 2 lb"], "the calendar has no day"),
        (["--folder", "{garden}/content", "TO1 2 lb"], "not a garden folder"),
        (["--folder", "{garden}/nowhere", "--undo"], "not a garden folder"),
    ],
)
def test_wrong_usage_ends_with_2(garden: Path, words: list[str], said: str) -> None:
    result = weigh(garden, *(word.format(garden=garden) for word in words))
    assert result.exit_code == 2
    assert said in result.stderr
    assert rows(garden) == []


def test_a_weighing_goes_into_the_season_of_its_day(garden: Path) -> None:
    shutil.copytree(ROOT / "content/2024", garden / "content/2024", ignore=shutil.ignore_patterns("photos"))
    result = weigh(garden, "chard 5 oz", "--yes", day="2024-10-05")
    assert result.exit_code == 0, result.output
    assert "content/2024/harvest.yaml" in result.stdout
    assert rows(garden) == []
    last = (garden / "content/2024/harvest.yaml").read_text(encoding="utf-8").splitlines()[-1]
    assert last == "- {date: 2024-10-05, crop: chard, weight: 5 oz}"
    assert "All of 2024, which is closed: " in result.stdout


def test_a_day_of_another_season_is_refused_with_the_way_to_it(garden: Path) -> None:
    result = weigh(garden, "--yes", "kale 2 lb 2025-10-10")
    assert result.exit_code == 1
    assert "for a day of another season say --date 2025-10-10" in result.output


def test_after_the_season_a_line_names_the_day_of_its_picking(garden: Path) -> None:
    result = weigh(garden, "--yes", "kale 2 lb 10 Oct", day="2026-12-24")
    assert result.exit_code == 0, result.output
    assert rows(garden) == ["- {date: 2026-10-10, crop: kale, weight: 2 lb}"]
    result = weigh(garden, "--yes", "kale 2 lb", day="2026-12-24")
    assert result.exit_code == 1
    assert "24 December 2026 lies in no season; expected the day it was picked" in result.output
    assert "or the season’s bounds in content/garden.yaml" in result.output, (
        "what lasts the winter is picked then"
    )


@pytest.mark.parametrize(
    ("line", "asks"),
    [("kale 5 oz", True), ("kale 5 oz long/A1", True), ("kale 5 oz long/A2", False), ("carrot 5 oz", False)],
)
def test_what_was_left_standing_untold_still_waits_in_the_next_season(
    line: str, asks: bool, garden: Path
) -> None:
    """Fails where a wait ends because the next season's plan and log say nothing of the plants."""
    (garden / "content/2026/log/2026-10-20-oil.md").write_text(
        "---\ntitle: Oil\ndate: 2026-10-20\ndone:\n"
        "  - {set out: kale, tag: KL1, squares: long/A1}\n"
        "  - {treat: oil, product: mineral oil, tag: KL1, wait: 300 days, re-entry: 4 hours}\n---\n",
        encoding="utf-8",
    )
    (garden / "content/2027").mkdir()
    result = weigh(garden, "--yes", line, day="2027-05-03")
    assert ("what was left of the season before" in result.output) is asks, result.output
    assert result.exit_code == (4 if asks else 0), result.output


def test_a_day_of_a_season_without_a_folder_says_how_to_begin_it(garden: Path) -> None:
    """Fails where the first weighing of a new year ends at a season's bounds, which are right."""
    result = weigh(garden, "--yes", "kale 2 lb", day="2027-05-03")
    assert result.exit_code == 1
    assert "to begin season 2027, make the folder content/2027" in result.output
    winter = weigh(garden, "--yes", "kale 2 lb", day="2027-01-03")
    assert winter.exit_code == 1
    assert "to begin season" not in winter.output, "it would not hold that day"
    (garden / "content/2027").mkdir()
    assert weigh(garden, "--yes", "kale 2 lb", day="2027-05-03").exit_code == 0
    assert (
        (garden / "content/2027/harvest.yaml")
        .read_text(encoding="utf-8")
        .endswith("- {date: 2027-05-03, crop: kale, weight: 2 lb}\n")
    )


def test_a_ledger_that_cannot_be_read_is_left_as_it_is(garden: Path) -> None:
    for data in (b"- {date: 2026-05-01, crop: [\n", b"crop: kale\n", b"\xff\xfe"):
        (garden / LEDGER).write_bytes(data)
        result = weigh(garden, "TO1 2 lb", "--yes")
        assert result.exit_code == 1, result.output
        assert "left as it was" in result.stderr
        assert (garden / LEDGER).read_bytes() == data


def test_a_broken_garden_file_is_told_with_every_other_error_as_check_does(garden: Path) -> None:
    (garden / "content/garden.yaml").write_text("name: [\n", encoding="utf-8")
    with (garden / LEDGER).open("a", encoding="utf-8") as file:
        file.write("- {date: 2026-09-46, crop: radsh, weight: 7 ozz}\n")
    checked = CliRunner().invoke(main, ["check", str(garden)])
    told = checked.stderr.splitlines()
    errors = [line for line in told if ": error: " in line]
    assert any(line.startswith("content/garden.yaml:") for line in errors)
    assert any(line.startswith(LEDGER) for line in errors)
    before = (garden / LEDGER).read_bytes()
    for words in (
        ["weigh", "TO1 2 lb", "--folder", str(garden), "--date", "2026-08-20", "--yes"],
        ["take-in", str(garden / LEDGER), "--folder", str(garden)],
        ["writeup", "Peas", "--folder", str(garden), "--no-editor", "--date", "2026-08-20"],
    ):
        result = CliRunner().invoke(main, words)
        assert result.exit_code == 1
        assert [line for line in result.stderr.splitlines() if ": error: " in line] == errors
        assert "content/garden.yaml cannot be understood; nothing can be done" in result.stderr
    assert (garden / LEDGER).read_bytes() == before


def test_records_that_cannot_be_understood_are_told_and_hinder_no_weighing(garden: Path) -> None:
    with (garden / LEDGER).open("a", encoding="utf-8") as file:
        file.write("- {date: 2026-08-19, crop: radsh, weight: 7 oz}\n")
    result = weigh(garden, "radish 9 oz", "--yes")
    assert result.exit_code == 0, result.output
    assert "did you mean radish?" in result.stderr
    assert "1 error: what cannot be understood is not counted here." in result.stderr
    assert rows(garden)[-1] == "- {date: 2026-08-20, crop: radish, weight: 9 oz}"


def test_a_crop_that_was_never_weighed_has_no_weight_yet(garden: Path) -> None:
    (garden / LEDGER).write_text("", encoding="utf-8")
    shown = weigh(garden, "basil not weighed", "kale 3 oz", answers="n\n").stdout
    assert "  basil: nothing yet, with this not weighed\n" in shown
    assert "  kale: nothing yet, with this 3 oz\n" in shown
    assert "  All of 2026: nothing yet, with this at least 3 oz\n" in shown
    (garden / LEDGER).write_text("- {date: 2026-06-01, crop: basil, weight: not weighed}\n", encoding="utf-8")
    shown = weigh(garden, "basil not weighed", answers="n\n").stdout
    assert "  basil: not weighed, with this 2 pickings, none weighed\n" in shown


def test_nothing_said_at_the_scale_steers_the_terminal(garden: Path) -> None:
    result = weigh(garden, "kale 3 oz to \x1b[2Jx", "kale \u202e 3 oz", "--yes")
    assert result.exit_code == 1
    assert "\x1b" not in result.output
    assert "\u202e" not in result.output


def test_a_bed_is_named_only_where_there_are_several(tmp_path: Path) -> None:
    """Else the rows of the smallest gardens name a bed that their gardener never types."""
    content = tmp_path / "content"
    (content / "2026").mkdir(parents=True)
    (content / "garden.yaml").write_text(
        "name: One\nseason: {start: Mar 1, end: Oct 31}\n"
        "beds: [{name: long, length: 4 squares, width: 2 squares}]\n"
    )
    (content / "2026/plan.yaml").write_text("- {crop: carrot, squares: A1:B1, sow: Apr 20, until: Aug 30}\n")
    result = weigh(tmp_path, "carrot 1 lb A1", "--yes")
    assert result.exit_code == 0, result.output
    assert (content / "2026/harvest.yaml").read_text().splitlines()[-1] == (
        "- {date: 2026-08-20, crop: carrot, squares: A1, weight: 1 lb}"
    )


def test_a_tired_hand_is_understood_without_a_question(garden: Path) -> None:
    typed = "Thu 8/13: toms A1 2lb3 pantry; beans elbow A3-C3 4oz; 2 eggplants 1#4oz to school fair"
    result = weigh(garden, typed, "--yes")
    assert result.exit_code == 0, result.output
    assert rows(garden) == [
        "- {date: 2026-08-13, crop: tomato-indeterminate, squares: long/A1, weight: 2 lb 3 oz, to: pantry}",
        "- {date: 2026-08-13, crop: bean-bush, squares: elbow/A3:C3, weight: 4oz}",
        "- {date: 2026-08-13, crop: eggplant, count: 2, weight: 1 lb 4 oz, to: school fair}",
    ]


def test_shares_are_written_as_the_ledger_has_them(garden: Path) -> None:
    weigh(garden, "cukes 2 lb, 1 lb 4 oz pantry, rest kitchen", "--yes")
    assert rows(garden) == [
        "- {date: 2026-08-20, crop: cucumber, weight: 2 lb, to: {pantry: 1 lb 4 oz, kitchen: the rest}}"
    ]
    assert not [one for one in read(garden).findings if one.place.file == LEDGER and "share" in one.code]


def test_the_order_of_dates_is_asked_once_and_kept(garden: Path) -> None:
    first = weigh(garden, "cukes 7/8 12 oz", answers="1\ny\n")
    assert first.exit_code == 0, first.output
    assert "Your answer is kept in content/take-in.yaml: dates: month-first" in first.stdout
    assert (garden / "content/take-in.yaml").read_text() == "dates: month-first\n"
    assert weigh(garden, "cukes 7/9 12 oz", "--yes").exit_code == 0
    assert [row[9:19] for row in rows(garden)] == ["2026-07-08", "2026-07-09"]


@pytest.mark.parametrize("text", ["{unit: oz}\n", "unit: oz\n...\n"])
def test_an_answer_that_cannot_be_added_is_told_to_be_written(text: str, garden: Path) -> None:
    file = garden / "content/take-in.yaml"
    file.write_text(text)
    said = weigh(garden, "cukes 7/8 12 oz", answers="1\ny\n").stdout
    assert "Your answer is not kept, as content/take-in.yaml cannot be added to" in said
    assert said.endswith("write there dates: month-first.\n")
    assert file.read_text() == text


def test_what_is_open_is_not_written_with_yes(garden: Path) -> None:
    for line in ("cukes 7/8 12 oz", "2 lb 6 cukes", "kale 1.250 g", "spinich 3 oz", "kale 5"):
        assert weigh(garden, line, "--yes").exit_code == 1
    assert rows(garden) == []


def test_a_refusal_shows_what_was_understood_and_a_line_that_would_do(garden: Path) -> None:
    said = weigh(garden, "kale 12 oz M14 8/13 frobnicated", "--yes").stderr
    assert "no bed has the squares “M14”" in said
    assert "understood: kale | 12 oz" in said
    assert "not understood: frobnicated" in said
    offered = said.partition("this would do: ")[2].splitlines()[0]
    assert weigh(garden, offered, "--yes").exit_code == 0
    assert rows(garden) == ["- {date: 2026-08-13, crop: kale, weight: 12 oz}"]


@pytest.mark.parametrize("day", ["8/20", "20 August", "Aug 20", "20.8.", "2026-08-20"])
def test_the_day_of_weighing_takes_every_form(
    garden: Path, day: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(terminal, "today", lambda: date(2026, 8, 22))
    assert weigh(garden, "TO1 2 lb", "--yes", day=day).exit_code == 0
    assert rows(garden)[0].startswith("- {date: 2026-08-20,")


def test_how_a_picking_counts_for_the_one_planting_it_may_be_of_is_said_once(garden: Path) -> None:
    hint = "it counts for no planting; if it came from the one in long/A1:B2, say TO1 with it"
    alone = weigh(garden, "Library Red 1 lb", answers="n\n")
    assert hint in alone.stdout
    assert hint not in weigh(garden, "Library Red 1 lb TO1", answers="n\n").stdout
    assert "counts for no planting" not in weigh(garden, "basil 1 oz", answers="n\n").stdout, "two stand"
    by_hand = weigh(garden, answers="Library Red 1 lb\ny\nLibrary Red 3 lb\ny\n\n")
    assert by_hand.stdout.count(hint) == 1
    assert len(rows(garden)) == 2


def test_a_tag_that_last_season_left_standing_is_told_how_it_is_weighed(tmp_path: Path) -> None:
    """It was taken for squares: “no bed has the squares “LK1””."""
    papers = {
        "garden.yaml": "name: G\nseason: {start: Mar 1, end: Nov 30}\n"
        "beds: [{name: b, length: 3 squares, width: 1 square}]\n",
        "2025/plan.yaml": "- {crop: bean-broad, tag: LK1, squares: A1, set out: Jul 1}\n"
        "- {crop: leek, tag: LK2, squares: B1, set out: May 1, until: Sep 1}\n",
        "2026/plan.yaml": "- {crop: carrot, tag: CA1, squares: C1, sow: Apr 1}\n",
        "2026/harvest.yaml": "- {date: 2026-03-01, crop: bean-broad, tag: LK1, weight: 1 lb}\n",
    }
    folder = written(tmp_path, papers)
    said = "LK1 is the broad bean that still stood as 2025 ended: give it a row in the plan of 2026"
    assert said in weigh(folder, "lk1, 1 lb", day="2026-03-02").stderr
    assert "still stood" not in weigh(folder, "LK2 1 lb", day="2026-03-02").stderr, "its plan ended it"
    plan = folder / "content" / "2026" / "plan.yaml"
    plan.write_text("- {crop: bean-broad, tag: LK1, squares: A1, carried from: 2025}\n", encoding="utf-8")
    assert "still stood" not in weigh(folder, "LK1 1 lb zzz9", day="2026-03-02").stderr


def test_what_went_in_too_late_to_bear_is_doubted_at_the_scale(tmp_path: Path) -> None:
    """Nothing was said of cobs a month after the corn was sown, with its tag or without."""
    papers = {
        "garden.yaml": "name: G\nseason: {start: Mar 1, end: Nov 30}\n"
        "beds: [{name: b, length: 2 squares, width: 2 squares}]\n",
        "2026/plan.yaml": "- {crop: sweet corn, tag: SC1, squares: A1:B2, sow: May 20}\n",
    }
    folder = written(tmp_path, papers)
    said = "but SC1 went in 33 days before 22 June, and takes 45 days to a first harvest at the very least"
    for line in ("SC1, 12 cobs, 6 lb", "12 cobs of sweet corn, 6 lb"):
        assert said in weigh(folder, line, day="2026-06-22", answers="n\n").stdout
        assert "went in" not in weigh(folder, line, day="2026-07-04", answers="n\n").stdout


@pytest.mark.parametrize(
    ("words", "answers", "code", "written_down"),
    [(["--yes"], None, 1, False), ([], "2\n", 1, False), ([], "1\ny\n", 0, True)],
    ids=["yes alone", "no", "it weighed so much"],
)
def test_a_weight_beyond_belief_is_written_only_where_somebody_says_so(
    garden: Path, words: list[str], answers: str | None, code: int, written_down: bool
) -> None:
    result = weigh(garden, "basil 4000 lb", *words, answers=answers)
    assert result.exit_code == code, result.output
    assert rows(garden) == ["- {date: 2026-08-20, crop: basil, weight: 4000 lb}"] * written_down
