"""``tallybed take-in`` on a garden of two beds: what it shows, takes, refuses, and never takes twice."""

from __future__ import annotations

import csv
import io
import re
import shutil
from datetime import date
from pathlib import Path

import openpyxl
import pytest
import yaml
from click.testing import CliRunner, Result

from tallybed.cli import main
from tallybed.garden.units import GRAM, WEIGHT_UNITS
from tallybed.reading.folder.garden_folder import read
from tallybed.tasks.take_in import books
from tallybed.tasks.weighing.settled import keep_settings
from tests.small_garden import written

GARDEN = """\
name: Two beds
beds:
  - {name: long, title: The long bed, length: 4 squares, width: 2 squares}
  - {name: short, length: 3 squares, width: 2 squares}
season: {start: Mar 1, end: Nov 30}
"""
PLAN = """\
- {crop: tomato-indeterminate, tag: TO1, variety: Red, squares: long/A1:B1, set out: May 10, until: Oct 1}
- {crop: tomato-determinate, tag: TO2, squares: short/B1, set out: May 10, until: Oct 1}
- {crop: kale, tag: KA1, squares: long/C1, sow: Apr 1}
- {crop: bean-bush, tag: BB1, squares: short/C1, sow: May 1, until: Sep 1}
"""
OPENING = "# By hand.\n- {date: 2026-06-01, crop: kale, weight: 2 oz}\n"


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    files = {
        "garden.yaml": GARDEN,
        "2025/names.yaml": "onions: onion-bulb\n",
        "2026/plan.yaml": PLAN,
        "2026/names.yaml": "beans: bean-bush\n",
        "2026/harvest.yaml": OPENING,
    }
    root = written(tmp_path / "garden", files)
    assert read(root).findings == ()
    return root


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    return tmp_path / "kitchen.csv"


def take(garden: Path, file: Path, *words: str, answers: str | None = None) -> Result:
    arguments = ["take-in", str(file), "--folder", str(garden), "--every-row", *words]
    return CliRunner().invoke(main, arguments, input=answers, catch_exceptions=False)


def fill(sheet: Path, *rows: str, head: str = "Date,Crop,Squares,Weight (oz)") -> None:
    sheet.write_text("\n".join([head, *rows]) + "\n", encoding="utf-8")


def ledger(garden: Path, season: str = "2026") -> list[str]:
    """The rows that were added to a season's ledger."""
    text = (garden / f"content/{season}/harvest.yaml").read_text(encoding="utf-8")
    if season == "2026":
        assert text.startswith(OPENING), "what stood in the ledger was touched"
        text = text.removeprefix(OPENING)
    return [line.removeprefix("- ") for line in text.splitlines()]


def becomes(result: Result) -> dict[int, str]:
    """What the table says becomes of each row."""
    lines = result.stdout.replace("Enter for none] ", "Enter for none]\n").splitlines()
    (head,) = (number for number, line in enumerate(lines) if line.startswith("row "))
    at = lines[head].index("becomes")
    rows = [line for line in lines[head + 1 :] if line[:1].isdigit() and line[at - 2 : at] == "  "]
    return {int(row.split()[0]): row[at:] for row in rows}


def test_every_row_is_shown_with_its_fate_and_written_when_agreed(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,kale,long/C1,4", "Jul 2 2026,tomatoes,A1,12.5", "7/30/2026,beans,,1 lb 2 oz")
    result = take(garden, sheet, answers="y\n")
    assert result.exit_code == 0, result.output
    assert becomes(result) == {2: "new", 3: "new", 4: "new"}
    assert "Write 3 rows? [y/n]" in result.stdout
    assert ledger(garden) == [
        "{date: 2026-07-01, crop: kale, squares: long/C1, weight: 4 oz}",
        "{date: 2026-07-02, crop: tomato-indeterminate, squares: long/A1, weight: 12.5 oz}",
        "{date: 2026-07-30, crop: bean-bush, weight: 1 lb 2 oz}",
    ]
    assert read(garden).findings == ()


def test_rows_of_one_cause_are_told_together_and_their_number_is_bounded(garden: Path, sheet: Path) -> None:
    """Else what is new and what may be wrong scrolls out of the window."""
    many = [f"2026-07-01,kale,long/C1,about {number} handfuls" for number in range(500)]
    strange = [f"2026-07-01,snarkroot {letter},long/C1,4" for letter in "abcdefghijklmnopqrst"]
    fill(sheet, *many, *strange)
    words = ["take-in", str(sheet), "--folder", str(garden), "--yes"]
    result = CliRunner().invoke(main, words)
    assert result.exit_code == 1
    lines = result.stdout.splitlines()
    assert len(lines) < 50, result.stdout
    assert set(becomes(result)) == {2, 3, 4, 502, 503, 504}, "the first of each cause, in the file's order"
    weights, names, more = (line for line in lines if line.startswith("And "))
    assert weights.startswith("And 497 rows more are not placed: the weight “…” cannot be read")
    assert weights.endswith(" (5 to 501)")
    assert names == "And 17 rows more are not placed: no crop is called “…” (505 to 521)"
    assert more == "And 8 more names that are not settled. Use --every-row to see each row."
    assert "Use --every-row to see each row." in lines
    assert len(becomes(take(garden, sheet, "--yes"))) == 520, "all of them, where they are asked for"


@pytest.mark.parametrize(("answers", "code"), [("n\n", 0), ("", 2)])
def test_nothing_is_written_unless_somebody_says_yes(
    garden: Path, sheet: Path, answers: str, code: int
) -> None:
    fill(sheet, "2026-07-01,kale,long/C1,4")
    result = take(garden, sheet, answers=answers)
    assert result.exit_code == code
    assert ledger(garden) == []
    assert not (garden / "content/2026/taken-in.yaml").exists()


def test_taking_the_same_file_again_adds_nothing_and_a_longer_one_what_is_new(
    garden: Path, sheet: Path
) -> None:
    rows = ["2026-07-01,kale,long/C1,4", "2026-07-01,kale,long/C1,4", "2026-07-02,kale,,3"]
    fill(sheet, *rows)
    assert take(garden, sheet, "--yes").exit_code == 0
    assert len(ledger(garden)) == 3, "two equal rows of one file are two weighings"
    again = take(garden, sheet, "--yes")
    assert (again.exit_code, set(becomes(again).values())) == (0, {"taken before"})
    assert "Nothing to write." in again.stdout
    fill(sheet, "2026-06-30,kale,,9", *rows, "2026-07-01,kale,long/C1,4")
    longer = take(garden, sheet, "--yes")
    assert [fate == "new" for fate in becomes(longer).values()] == [True, False, False, False, True]
    assert len(ledger(garden)) == 5
    assert take(garden, sheet, "--yes").stdout.endswith("Nothing to write.\n")


def test_a_row_corrected_since_is_told_and_never_added(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,kale,long/C1,4", "2026-07-02,kale,,3")
    take(garden, sheet, "--yes")
    fill(sheet, "2026-07-01,kale,long/C1,14", "2026-07-02,kale,,3", "2026-07-03,kale,,5")
    result = take(garden, sheet, "--yes")
    assert result.exit_code == 0
    found = becomes(result)
    assert found[2].startswith("changed since: weight was 4 oz, is 14 oz")
    assert (found[3], found[4]) == ("taken before", "new")
    assert len(ledger(garden)) == 3
    assert "14 oz" not in "".join(ledger(garden))
    assert becomes(take(garden, sheet, "--yes"))[2].startswith("changed since")


TAKEN = ["2026-07-01,kale,long/C1,4", "2026-07-02,kale,,3", "2026-07-03,beans,,5", "2026-07-03,kale,,6"]
MOVED = [*TAKEN[1:], "2026-07-04,kale,,9"]
"""The first row corrected in most it says and moved to the end; or it was taken out, and one is new."""


def test_what_may_be_a_correction_is_never_added_unless_somebody_says_so(garden: Path, sheet: Path) -> None:
    fill(sheet, *TAKEN)
    take(garden, sheet, "--yes")
    fill(sheet, *MOVED)
    for words in ((), ("--yes",)):
        result = take(garden, sheet, *words)
        assert result.exit_code == 1
        assert becomes(result)[5] == (
            "new or corrected: row 2 taken before is gone, and this may be it: date was 2026-07-01, "
            "is 2026-07-04; squares was long/c1, is empty; weight was 4 oz, is 9 oz"
        )
        assert (
            "Row 2 taken before is no longer in the file: 2026-07-01, kale, long/c1, 4 oz." in result.stdout
        )
        assert "Nothing was written: 1 row new or corrected, and nobody said which." in result.stderr
    assert len(ledger(garden)) == 4


@pytest.mark.parametrize(
    ("words", "answers", "fate", "rows"),
    [
        ((), "1\ny\n", "new", 5),
        ((), "2\n", "changed since: date was 2026-07-01, is 2026-07-04", 4),
        ((), "\n", "new or corrected", 4),
        (("--others", "--yes"), None, "new", 5),
        (("--skip-unplaced", "--yes"), None, "new or corrected", 4),
    ],
)
def test_an_answer_settles_what_may_be_a_correction(
    garden: Path, sheet: Path, words: tuple[str, ...], answers: str | None, fate: str, rows: int
) -> None:
    fill(sheet, *TAKEN)
    take(garden, sheet, "--yes")
    fill(sheet, *MOVED)
    result = take(garden, sheet, *words, answers=answers)
    assert becomes(result)[5].startswith(fate)
    assert len(ledger(garden)) == rows
    assert not sheet.with_name("kitchen.csv.skipped.csv").exists(), "taken from there it would be new"
    if rows == 5:
        assert becomes(take(garden, sheet, "--yes"))[5] == "taken before"


def test_a_file_begun_again_under_its_name_is_taken_and_that_is_said(garden: Path, sheet: Path) -> None:
    fill(sheet, *TAKEN[:2])
    take(garden, sheet, "--yes")
    fill(sheet, "2026-07-08,kale,,1", "2026-07-09,kale,,2")
    result = take(garden, sheet, "--yes")
    assert result.exit_code == 0, result.output
    assert "None of the 2 rows taken before is in the file: it counts as a new file." in result.stdout
    assert len(ledger(garden)) == 4


def test_a_copy_under_another_name_is_not_taken_twice(garden: Path, sheet: Path, tmp_path: Path) -> None:
    fill(sheet, "2026-07-01,kale,long/C1,4", "2026-07-02,kale,,3")
    take(garden, sheet, "--yes")
    copy = tmp_path / "kitchen (2).csv"
    fill(copy, "2026-07-01,kale,long/C1,4", "2026-07-02,kale,,3", "2026-07-03,kale,,5")
    stopped = take(garden, copy, "--yes")
    assert stopped.exit_code == 2
    assert '--as "kitchen.csv"' in stopped.stderr
    assert len(ledger(garden)) == 2
    assert take(garden, copy, "--yes", "--as", "kitchen.csv").exit_code == 0
    assert len(ledger(garden)) == 3
    assert take(garden, copy, "--yes", "--as", "kitchen (2).csv").exit_code == 0
    assert len(ledger(garden)) == 6, "somebody said that these are other pickings"


def test_nothing_is_written_while_a_row_has_no_place(garden: Path, sheet: Path) -> None:
    fill(
        sheet,
        "2026-07-01,kale,,4",
        "2026-07-01,tomatines,,5",
        "2026-07-01,Tomatines,,6",
        "2026-07-02,kale,,",
        ",kale,,3",
    )
    result = take(garden, sheet, "--yes")
    assert result.exit_code == 1
    assert "Nothing was written: 4 rows not placed." in result.stderr
    assert ledger(garden) == []
    assert result.stdout.count("“tomatines”") == 2, (
        "told in its rows' fates once each, and once more to be settled"
    )
    assert "“tomatines” in 1 row" in result.stdout
    assert "content/take-in.yaml, as in   names: {tomatines: tomato-determinate}" in result.stdout
    assert "“not weighed” where nobody weighed it" in becomes(result)[5]
    assert "no date" in becomes(result)[6]


def test_skipped_rows_are_saved_with_reasons_and_taken_once_corrected(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,kale,,4", "2026-07-01,tomatines,,5", '2026-07-01,"=kale",,')
    result = take(garden, sheet, "--yes", "--skip-unplaced")
    assert result.exit_code == 0
    assert len(ledger(garden)) == 1
    beside = sheet.with_name("kitchen.csv.skipped.csv")
    lines = beside.read_text(encoding="utf-8-sig").splitlines()
    assert lines[0] == "Date,Crop,Squares,Weight (oz),why it was skipped"
    assert lines[1].startswith("2026-07-01,tomatines,,5 oz,no crop is called “tomatines”")
    assert lines[2].startswith("2026-07-01,'=kale,,,")
    beside.write_text("\n".join([lines[0], lines[1].replace("tomatines", "TO1 Red").replace("TO1 ", "")]))
    corrected = take(garden, beside, "--yes")
    assert corrected.exit_code == 0, corrected.output
    assert ledger(garden)[1] == "{date: 2026-07-01, crop: tomato-indeterminate, variety: Red, weight: 5 oz}"
    assert take(garden, beside, "--yes").stdout.endswith("Nothing to write.\n")


def test_names_are_settled_in_the_gardens_files(garden: Path, sheet: Path) -> None:
    (garden / "content/take-in.yaml").write_text(
        "names: {2026: {Tomatines: tomato-determinate}}\n", encoding="utf-8"
    )
    fill(
        sheet,
        "2026-07-01,tomatines,,5",
        "2025-07-01,tomatines,,5",
        "2025-07-01,onions,,5",
        "2026-07-01,onions,,5",
    )
    result = take(garden, sheet, "--yes")
    found = becomes(result)
    assert found[2] == "new"
    assert "no crop is called “tomatines”" in found[3], "an answer counts for its season alone"
    assert found[4] == "new"
    assert "“onions” may be bulb onion or bunching onion" in found[5]
    assert "content/2026/names.yaml, as in   onions: onion-bulb" in result.stdout


def test_a_general_name_goes_to_what_stood_there_else_to_the_answer_else_nowhere(
    garden: Path, sheet: Path
) -> None:
    fill(
        sheet,
        "2026-07-01,tomato,B1,1",
        "2026-07-01,tomato,short/B1,1",
        "2026-07-01,tomato,,1",
        "2026-07-01,beans,long/D2,1",
        "2026-07-01,tomato,long,1",
        "2026-10-20,tomato,long/A1,1",
    )
    found = becomes(take(garden, sheet, "--yes"))
    assert "can be any of these" in found[2]
    assert found[3] == "new"
    assert "may be determinate tomato or indeterminate tomato" in found[4]
    assert found[5].startswith("new: nothing says that beans stood in long/D2")
    assert found[6] == "new"
    assert "nothing says that tomato stood in long/A1" in found[7]
    take(garden, sheet, "--yes", "--skip-unplaced")
    assert [row.partition("crop: ")[2] for row in ledger(garden)] == [
        "tomato-determinate, squares: short/B1, weight: 1 oz}",
        "bean-bush, squares: long/D2, weight: 1 oz}",
        "tomato-indeterminate, tag: TO1, weight: 1 oz}",
    ]


def test_a_date_that_may_be_read_two_ways_is_asked_once_and_remembered_for_the_file(
    garden: Path, sheet: Path
) -> None:
    fill(sheet, "4/5/2026,kale,,4", "5/4/2026,kale,,3")
    alone = take(garden, sheet, "--yes")
    assert alone.exit_code == 1
    assert "may be in April or in May" in becomes(alone)[2]
    assert ledger(garden) == []
    asked = take(garden, sheet, answers="2\ny\n")
    assert asked.exit_code == 0, asked.output
    assert asked.stdout.count("may be read two ways") == 1
    assert [row[7:17] for row in ledger(garden)] == ["2026-05-04", "2026-04-05"]
    assert set(becomes(take(garden, sheet, "--yes")).values()) == {"taken before"}


@pytest.mark.parametrize("how", ["command", "file"])
def test_the_order_of_dates_is_told_on_the_command_line_or_settled(
    garden: Path, sheet: Path, how: str
) -> None:
    fill(sheet, "4/5/2026,kale,,4")
    words = ["--dates", "month-first"] if how == "command" else []
    if how == "file":
        (garden / "content/take-in.yaml").write_text("dates: month-first\n", encoding="utf-8")
    assert take(garden, sheet, "--yes", *words).exit_code == 0
    assert ledger(garden) == ["{date: 2026-04-05, crop: kale, weight: 4 oz}"]


@pytest.mark.parametrize("how", ["command", "file"])
def test_columns_are_mapped_on_the_command_line_or_settled(garden: Path, sheet: Path, how: str) -> None:
    fill(sheet, "2026-07-01,kale,4,9", head="Tag des Pflückens,Gemüse,Menge,Who")
    assert take(garden, sheet, "--yes").exit_code == 2
    mapped = {"Tag des Pflückens": "date", "Gemüse": "crop", "Menge": "weight (oz)"}
    words = [word for column, meaning in mapped.items() for word in ("--map", f"{column}={meaning}")]
    if how == "file":
        lines = "".join(f"  {column}: {meaning}\n" for column, meaning in mapped.items())
        (garden / "content/take-in.yaml").write_text(f"columns:\n{lines}", encoding="utf-8")
        words = []
    result = take(garden, sheet, "--yes", *words)
    assert result.exit_code == 0, result.output
    assert "Left alone: the column Who." in result.stdout
    assert ledger(garden) == ["{date: 2026-07-01, crop: kale, weight: 4 oz}"]


def test_a_unit_that_nothing_names_is_asked_for_or_settled(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,kale,4", head="Date,Crop,Weight")
    assert "has no unit" in becomes(take(garden, sheet, "--yes"))[2]
    (garden / "content/take-in.yaml").write_text("unit: oz\n", encoding="utf-8")
    assert take(garden, sheet, "--yes").exit_code == 0


@pytest.mark.parametrize(("units", "first"), [("pounds", "oz"), ("kilograms", "g")])
def test_the_units_that_a_garden_weighs_in_are_offered_first(
    garden: Path, sheet: Path, units: str, first: str
) -> None:
    told = garden / "content/garden.yaml"
    told.write_text(f"units: {units}\n{told.read_text(encoding='utf-8')}", encoding="utf-8")
    fill(sheet, "2026-07-01,kale,4", head="Date,Crop,Weight")
    result = take(garden, sheet, answers="1\ny\n")
    assert ledger(garden) == [f"{{date: 2026-07-01, crop: kale, weight: 4 {first}}}"], result.output


def test_all_that_a_row_can_tell_is_taken(garden: Path, sheet: Path) -> None:
    head = "Date,Veg,Variety,Tag,Bed,Square,lb,oz,How many,Given to,As,State,Weighed on,Notes,Remarks"
    row = "2026-07-01,tomato,red,to1,Long bed,A1,1,6,3,the pantry,whole,cured,2026-07-09,first,wet"
    fill(sheet, row, head=head)
    result = take(garden, sheet, "--yes")
    assert result.exit_code == 0, result.output
    assert ledger(garden) == [
        "{date: 2026-07-01, crop: tomato-indeterminate, tag: TO1, variety: Red, squares: long/A1, count: 3, "
        "weight: 1 lb 6 oz, to: the pantry, as: whole, state: cured, weighed: 2026-07-09, "
        'note: "first; wet"}'
    ]
    assert read(garden).findings == ()


def test_rows_go_to_the_seasons_of_their_days_or_to_the_one_named(garden: Path, sheet: Path) -> None:
    fill(sheet, "2025-07-01,kale,,4", "2026-07-01,kale,,5", "2024-07-01,kale,,6", "Jul 1,kale,,7")
    found = becomes(take(garden, sheet, "--yes"))
    assert (found[2], found[3]) == ("new", "new")
    assert "no season of the garden holds 1 July 2024" in found[4]
    assert "has no year" in found[5]
    one = becomes(take(garden, sheet, "--yes", "--season", "2025"))
    assert [fate.partition(":")[0] for fate in one.values()] == ["new", "not placed", "not placed", "new"]
    take(garden, sheet, "--yes", "--season", "2025", "--skip-unplaced")
    assert ledger(garden, "2025") == [
        "{date: 2025-07-01, crop: kale, weight: 4 oz}",
        "{date: 2025-07-01, crop: kale, weight: 7 oz}",
    ]
    assert ledger(garden) == []
    assert take(garden, sheet, "--season", "1999").exit_code == 2


def test_a_workbook_is_taken_in_from_its_one_sheet_of_weighings(garden: Path, tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    cover = book.active
    assert cover is not None
    cover.append(["Our garden"])
    page = book.create_sheet("2026")
    page.append(["The harvest", None, None])
    page.append([])
    page.append(["Date", "Crop", "Weight (lb)"])
    page.append([date(2026, 7, 1), "kale", 0.3])
    page.append([date(2026, 7, 2), "kale", "=1+1"])
    out = io.BytesIO()
    book.save(out)
    file = tmp_path / "harvest.xlsx"
    file.write_bytes(out.getvalue())
    result = take(garden, file, "--yes", "--skip-unplaced")
    assert result.exit_code == 0, result.output
    assert becomes(result)[4] == "new"
    assert "formula whose result the file does not keep" in becomes(result)[5]
    assert ledger(garden) == ["{date: 2026-07-01, crop: kale, weight: 0.3 lb}"]
    beside = tmp_path / "harvest.xlsx.skipped.csv"
    beside.write_text("Date,Crop,Weight (lb)\n2026-07-02,kale,2\n")
    assert take(garden, beside, "--yes").exit_code == 0
    page["C5"] = 2
    book.save(file)
    assert set(becomes(take(garden, file, "--yes")).values()) == {"taken before"}
    second = book.create_sheet("more")
    second.append(["Date", "Crop", "Weight (lb)"])
    second.append([date(2026, 8, 1), "kale", 2])
    book.save(file)
    both = take(garden, file, "--yes")
    assert both.exit_code == 2
    assert "several sheets of weighings: 2026, more" in both.stderr
    assert becomes(take(garden, file, "--yes", "--sheet", "more"))[2] == "new"


def test_a_mixed_bowl_stays_one_row_of_several_crops(garden: Path, sheet: Path) -> None:
    fill(
        sheet,
        "2026-07-01,kale + Beans,long/C1,4",
        "2026-07-02,kale+tomato,,5",
        "2026-07-03,kale + tomatines,,6",
        "2026-07-04,kale + kale,,7",
        "2026-07-05,beans +,,7",
    )
    result = take(garden, sheet, "--skip-unplaced", "--yes")
    assert becomes(result) == {
        2: "new",
        3: "not placed: “tomato” may be several crops (determinate tomato or indeterminate tomato); name one",
        4: "not placed: no crop is called “tomatines”",
        5: "not placed: a mixed bowl of “kale” alone",
        6: "not placed: no crop is called “beans +”",
    }
    assert ledger(garden) == ["{date: 2026-07-01, mixed: [kale, bean-bush], squares: long/C1, weight: 4 oz}"]
    assert read(garden).findings == ()
    assert becomes(take(garden, sheet))[2] == "taken before"


def test_how_a_name_is_settled_is_shown_as_it_can_be_written(garden: Path, sheet: Path) -> None:
    fill(sheet, '2026-07-01,"Kale, curly: big",,4', "2026-07-01,Spinach Wonderful,,4")
    said = take(garden, sheet).stdout
    meanings = {"Kale, curly: big": "kale", "Spinach Wonderful": "spinach"}
    lines = [line.split("as in", 1)[1].strip() for line in said.splitlines() if "as in" in line]
    assert lines == [
        'names: {"Kale, curly: big": kale}',
        "names: {Spinach Wonderful: spinach}",
    ]
    both = [yaml.load(line, Loader=yaml.BaseLoader)["names"] for line in lines]
    assert both[0] | both[1] == meanings


def test_a_row_like_one_written_by_hand_is_pointed_out(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-06-01,kale,,2")
    assert (
        becomes(take(garden, sheet, answers="n\n"))[2]
        == "new: the like stands in content/2026/harvest.yaml:2"
    )


@pytest.mark.parametrize(
    ("hand", "row", "like"),
    [
        ("tag: BB1, weight: 5 oz", "2026-07-01,beans,short/C1,5", True),
        ("crop: tomato, weight: 5 oz", "2026-07-01,tomato,long/A1,5", True),
        ("tag: KA1, weight: 5 oz", "2026-07-01,beans,short/C1,5", False),
        ("mixed: [kale, bean-bush], weight: 5 oz", "2026-07-01,kale,,5", True),
        ("tag: BB1, weight: 5 oz", "2026-07-02,beans,short/C1,5", False),
        ("tag: BB1, weight: 6 oz", "2026-07-01,beans,short/C1,5", False),
    ],
)
def test_the_like_of_a_row_is_found_by_its_crop_however_that_is_told(
    garden: Path, sheet: Path, hand: str, row: str, like: bool
) -> None:
    """Else what was said at the scale and stands in the kitchen's sheet too is counted twice unnoticed."""
    with (garden / "content/2026/harvest.yaml").open("a", encoding="utf-8") as file:
        file.write(f"- {{date: 2026-07-01, {hand}}}\n")
    fill(sheet, row)
    assert ("the like stands in content/2026/harvest.yaml:3" in becomes(take(garden, sheet))[2]) is like


@pytest.mark.parametrize(
    ("name", "data", "said"),
    [
        ("a.csv", b"", "nothing stands in it"),
        ("a.csv", b"\xff\xfe\x00", "UTF-8"),
        ("a.csv", b"x,y\n1,2\n", "no column is known to be the date, the weight and the crop"),
        ("a.xlsx", b"PK\x03\x04", "damaged"),
        ("a.csv", b'Date,Crop,Weight\n"', "quotation mark"),
        (None, b"", "is not a file"),
    ],
)
def test_a_file_that_cannot_be_read_ends_with_2(
    garden: Path, tmp_path: Path, name: str | None, data: bytes, said: str
) -> None:
    file = tmp_path / (name or "nowhere")
    if name:
        file.write_bytes(data)
    result = take(garden, file, "--yes")
    assert result.exit_code == 2, result.output
    assert said in result.stderr


def test_a_record_or_settings_that_cannot_be_read_are_said_at_their_place(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,kale,,4")
    (garden / "content/2026/taken-in.yaml").write_text("- {from: a, row: 3}\n", encoding="utf-8")
    result = take(garden, sheet, "--yes")
    assert result.exit_code == 2
    assert "content/2026/taken-in.yaml:1:" in result.stderr
    (garden / "content/2026/taken-in.yaml").unlink()
    (garden / "content/take-in.yaml").write_text("dates: american\n", encoding="utf-8")
    result = take(garden, sheet, "--yes")
    assert result.exit_code == 2
    assert "content/take-in.yaml:1:8" in result.stderr


@pytest.mark.parametrize("words", [["--map", "x"], ["--map", "x=y"], ["--map", "=date"], ["--dates", "x"]])
def test_wrong_words_end_with_2(garden: Path, sheet: Path, words: list[str]) -> None:
    fill(sheet, "2026-07-01,kale,,4")
    assert take(garden, sheet, *words).exit_code == 2
    assert ledger(garden) == []


def test_a_spreadsheet_is_taken_back_whole_and_can_be_taken_again(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,kale,long/C1,4", "2026-07-02,kale,,3")
    take(garden, sheet, "--yes")
    undo = ["weigh", "--undo", "--folder", str(garden)]
    shown = CliRunner().invoke(main, undo, input="n\n")
    assert "What was last taken into content/2026/harvest.yaml: 2 rows of kitchen.csv" in shown.stdout
    assert "{date: 2026-07-02, crop: kale, weight: 3 oz}" in shown.stdout
    assert len(ledger(garden)) == 2
    done = CliRunner().invoke(main, [*undo, "--yes"])
    assert (done.exit_code, ledger(garden)) == (0, []), done.output
    assert "Your answers stay" not in done.stdout, "there are none"
    assert set(becomes(take(garden, sheet, "--yes")).values()) == {"new"}
    assert len(ledger(garden)) == 2


def test_answers_stay_when_a_spreadsheet_is_taken_back_and_that_is_told(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,kale,long/C1,4")
    take(garden, sheet, "--yes")
    (garden / "content/take-in.yaml").write_text("dates: month-first\n", encoding="utf-8")
    done = CliRunner().invoke(main, ["weigh", "--undo", "--folder", str(garden), "--yes"])
    assert (
        "Your answers stay in content/take-in.yaml; delete there what you want to be asked again.\n"
        in done.stdout
    )
    assert (garden / "content/take-in.yaml").read_text(encoding="utf-8") == "dates: month-first\n"


def test_a_correction_is_shown_with_its_line_and_written_into_ledger_and_record(
    garden: Path, sheet: Path
) -> None:
    fill(sheet, "2026-07-01,kale,long/C1,4", "2026-07-02,kale,,3")
    take(garden, sheet, "--yes")
    fill(sheet, "2026-07-01,kale,long/C1,14", "2026-07-02,kale,,3")
    shown = take(garden, sheet)
    assert (
        "content/2026/harvest.yaml:3: {date: 2026-07-01, crop: kale, squares: long/C1, weight: 4 oz}\n"
        "  would be: {date: 2026-07-01, crop: kale, squares: long/C1, weight: 14 oz}\n"
    ) in shown.stdout
    assert "Use --correct to write it so." in shown.stdout
    done = take(garden, sheet, "--correct", "--yes")
    assert done.exit_code == 0, done.output
    assert "Corrected: 1 row.\n" in done.stdout, "nothing is new, and so nothing is left to take in"
    assert ledger(garden) == [
        "{date: 2026-07-01, crop: kale, squares: long/C1, weight: 14 oz}",
        "{date: 2026-07-02, crop: kale, weight: 3 oz}",
    ]
    assert set(becomes(take(garden, sheet, "--yes")).values()) == {"taken before"}


def test_what_a_sheet_has_no_column_for_any_more_stays_as_it_was_taken(garden: Path, sheet: Path) -> None:
    """Fails where --correct empties what was told by a column that is gone, or named by nobody."""
    sheet.write_text("date,crop,weight oz,Shelf\n2026-07-01,kale,4,pantry\n2026-07-02,kale,3,kitchen\n")
    take(garden, sheet, "--map", "Shelf=to", "--yes")
    told = "No column is read as “to” any more: what was taken before stays.\n"
    again = take(garden, sheet, "--correct", "--yes")
    assert told in again.stdout
    assert set(becomes(again).values()) == {"taken before"}
    sheet.write_text("date,crop,weight oz\n2026-07-01,kale,14\n2026-07-02,kale,3\n")
    done = take(garden, sheet, "--correct", "--yes")
    assert (done.exit_code, told in done.stdout) == (0, True), done.output
    assert ledger(garden) == [
        "{date: 2026-07-01, crop: kale, weight: 14 oz, to: pantry}",
        "{date: 2026-07-02, crop: kale, weight: 3 oz, to: kitchen}",
    ]
    assert set(becomes(take(garden, sheet, "--yes")).values()) == {"taken before"}
    # A column that is there and empty says that it went nowhere that is known.
    sheet.write_text("date,crop,weight oz,to\n2026-07-01,kale,14,\n2026-07-02,kale,3,kitchen\n")
    take(garden, sheet, "--correct", "--yes")
    assert ledger(garden)[0] == "{date: 2026-07-01, crop: kale, weight: 14 oz}"


def test_corrections_beside_rows_without_a_place_are_written_and_the_command_says_what_is_left(
    garden: Path, sheet: Path
) -> None:
    fill(sheet, "2026-07-01,kale,long/C1,4")
    take(garden, sheet, "--yes")
    fill(sheet, "2026-07-01,kale,long/C1,14", "2026-07-02,kale,long/Z9,3")
    done = take(garden, sheet, "--correct", "--yes")
    assert "Corrected: 1 row." in done.stdout
    assert "Not taken: 1 row not placed." in done.stderr
    assert done.exit_code == 1
    assert ledger(garden) == ["{date: 2026-07-01, crop: kale, squares: long/C1, weight: 14 oz}"]
    assert take(garden, sheet, "--correct", "--yes", "--skip-unplaced").exit_code == 0


def test_a_column_whose_meaning_was_told_before_is_asked_for_once(garden: Path, sheet: Path) -> None:
    """Fails where each row is to be corrected by hand, though the file says what it said."""
    rows = ["2026-07-01,kale,KA1,4", "2026-07-02,kale,KA1,3"]
    fill(sheet, *rows, head="Date,Crop,Where,Weight (oz)")
    first = take(garden, sheet, "--yes")
    assert "“KA1” is the tag of a planting, in a column of squares" in first.stdout
    assert "or --map COLUMN=tag for that column" in first.stdout
    assert take(garden, sheet, "--yes", "--map", "Where=tag").exit_code == 0
    again = take(garden, sheet, "--yes")
    assert "by hand" not in again.stdout
    told = "2 rows were taken with the column Where read as tag, and it is read as squares now: say "
    assert again.stdout.count(f'{told}--map "Where=tag" again') == 1
    good = take(garden, sheet, "--yes", "--map", "Where=tag")
    assert set(becomes(good).values()) == {"taken before"}


def test_corrections_of_one_season_are_told_where_those_of_the_next_cannot_be_written(
    garden: Path, sheet: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    days = ("2025-07-01", "2026-07-01", "2026-07-02")
    fill(sheet, *(f"{day},kale,,4" for day in days), "2025-07-03,kale,,5", "2026-07-03,kale,,5")
    take(garden, sheet, "--yes")
    fill(sheet, *(f"{day},kale,,6" for day in days), "2025-07-03,kale,,5", "2026-07-03,kale,,5")
    monkeypatch.setattr(
        "tallybed.tasks.taking_in.corrections.changed_otherwise",
        lambda _old, _new, _meant, file, _context: "it is not to be" if "2026" in file else "",
    )
    result = take(garden, sheet, "--correct", "--yes")
    assert result.exit_code != 0
    assert "1 of 3 rows corrected, the others not: it is not to be" in result.stderr
    assert "{date: 2025-07-01, crop: kale, weight: 6 oz}" in (garden / "content/2025/harvest.yaml").read_text(
        encoding="utf-8"
    )


def test_a_correction_leaves_a_row_alone_that_was_made_a_comment(garden: Path, sheet: Path) -> None:
    path = garden / "content/2026/harvest.yaml"
    row = "{date: 2026-07-01, crop: kale, weight: 4 oz}"
    old = f"{OPENING}# {row} twice?\n"
    path.write_text(old, encoding="utf-8")
    fill(sheet, "2026-07-01,kale,,4", "2026-07-02,kale,,3")
    take(garden, sheet, "--yes")
    fill(sheet, "2026-07-01,kale,,6", "2026-07-02,kale,,3")
    result = take(garden, sheet, "--yes", "--correct")
    assert "content/2026/harvest.yaml:4: {date: 2026-07-01, crop: kale, weight: 4 oz}" in result.stdout
    kept = path.read_text(encoding="utf-8")
    assert kept == f"{old}- {row.replace('4 oz', '6 oz')}\n- {{date: 2026-07-02, crop: kale, weight: 3 oz}}\n"


def test_a_correction_finds_its_row_whatever_its_place_is_called_now(garden: Path, sheet: Path) -> None:
    head = "Date,Crop,Weight (oz),To"
    fill(sheet, "2026-07-01,kale,4,food bank", "2026-07-02,kale,3,gulls", head=head)
    take(garden, sheet, "--yes")
    with (garden / "content/2026/harvest.yaml").open("a", encoding="utf-8") as written:
        written.write("- {date: 2026-07-05, crop: kale, weight: 2 oz, to: Food Bank}\n")
    fill(sheet, "2026-07-01,kale,14,food bank", "2026-07-02,kale,-3,gulls", head=head)
    done = take(garden, sheet, "--correct", "--yes")
    assert "Corrected: 1 row." in done.stdout
    assert "Row 3 changed since" in done.stdout
    assert ledger(garden)[:2] == [
        "{date: 2026-07-01, crop: kale, weight: 14 oz, to: Food Bank}",
        "{date: 2026-07-02, crop: kale, weight: 3 oz, to: gulls}",
    ]


def test_values_are_compared_and_not_their_spelling(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,kale,long/C1,4", "2026-07-02,kale,,16")
    take(garden, sheet, "--yes")
    fill(sheet, "1 Jul 2026,Kale,long/c1,4.0 oz", "2026-07-02,kale,,1 lb", head="Date,Crop,Squares,Weight")
    assert set(becomes(take(garden, sheet, "--yes")).values()) == {"taken before"}
    assert len(ledger(garden)) == 2


def test_a_season_that_rows_lack_is_offered_and_made(garden: Path, sheet: Path) -> None:
    fill(sheet, "2024-07-01,kale,,4", "2024-07-02,kale,,3", "2152-07-02,kale,,3")
    declined = take(garden, sheet, answers="n\n")
    assert "Rows are of 2024; to have that season, make a folder content/2024." in declined.stderr
    assert "2152;" not in declined.stderr, "a slip of the pen is no season"
    assert not (garden / "content/2024").exists()
    result = take(garden, sheet, "--skip-unplaced", answers="y\ny\n")
    assert result.exit_code == 0, result.output
    assert len(ledger(garden, "2024")) == 2


def test_what_is_open_is_asked_once_and_kept_for_all_seasons(garden: Path, sheet: Path) -> None:
    head = "Date,Crop,Weight"
    fill(sheet, "4/5/2026,kale,1.250", ",zorpels,2.500", "5/6/2026,zorpels,1.100", head=head)
    # Month first, grams, rows of the day above, the name; then, with the unit known, the decimal comma.
    answers = ["1", str(WEIGHT_UNITS.index(GRAM) + 1), "1", "kale", "1", "y"]
    result = take(garden, sheet, answers="\n".join(answers) + "\n")
    assert result.exit_code == 0, result.output
    assert "a comma stands before decimals: the column adds up to 4,850 g" in result.stdout
    assert ledger(garden) == [
        "{date: 2026-04-05, crop: kale, weight: 1250 g}",
        "{date: 2026-04-05, crop: kale, weight: 2500 g}",
        "{date: 2026-05-06, crop: kale, weight: 1100 g}",
    ]
    kept = (garden / "content/take-in.yaml").read_text(encoding="utf-8")
    assert (
        kept
        == "blank dates: as above\ndates: month-first\ndecimal: comma\nunit: g\nnames:\n  zorpels: kale\n"
    )
    other = sheet.with_name("another.csv")
    fill(other, "6/5/2025,zorpels,1.300", head=head)
    assert becomes(take(garden, other, "--yes"))[2] == "new", "settled for all seasons"


def test_a_name_is_asked_once_for_all_its_capitals_and_seasons_and_may_mean_another_crop(
    garden: Path, sheet: Path
) -> None:
    """Asked again, the second answer was taken for the first; and only what the name is like was offered."""
    fill(sheet, "2025-06-02,Brasicca,,8", "2026-06-02,brasicca,,9", "2026-06-03,BRASICCA,,7")
    result = take(garden, sheet, answers="3\ncollards\ny\n")
    assert "“BRASICCA”, in 3 rows, means:\n  1  broccoli\n  2  basil\n  3  another crop\n" in result.output
    assert "“BRASICCA”, in 3 rows, means which crop? [its name, Enter for none]" in result.output
    assert result.exit_code == 0, result.output
    assert ledger(garden, "2025") == ["{date: 2025-06-02, crop: collards, weight: 8 oz}"]
    assert len(ledger(garden)) == 2


def test_a_spelling_that_is_not_understood_is_asked_once_for_all_its_rows(garden: Path, sheet: Path) -> None:
    rows = ["2026-07-01,kale,By the Gate,a bagful", "2026-07-02,kale,by the gate,4 oz"]
    rows += ["2026-07-03,kale,C1,A Bagful", "2026-07-04,kale,by the  gate,a bagful"]
    head = "Date,Crop,Squares,Weight"
    fill(sheet, *rows, head=head)
    # The squares, then the weight; first with answers that mean nothing, then with good ones.
    refused = take(garden, sheet, answers="zz99\nplenty\n")
    assert refused.exit_code == 1
    assert "“zz99” is not understood." in refused.stdout
    result = take(garden, sheet, answers="long/C1\nabout 8 oz\ny\n")
    assert result.exit_code == 0, result.output
    assert result.stdout.count("“by the gate”, in 3 rows, is not understood as squares; it means") == 1
    assert result.stdout.count("“a bagful”, in 3 rows, is not understood as a weight; it means") == 1
    assert ledger(garden) == [
        "{date: 2026-07-01, crop: kale, squares: long/C1, weight: about 8 oz}",
        "{date: 2026-07-02, crop: kale, squares: long/C1, weight: 4 oz}",
        "{date: 2026-07-03, crop: kale, squares: long/C1, weight: about 8 oz}",
        "{date: 2026-07-04, crop: kale, squares: long/C1, weight: about 8 oz}",
    ]
    kept = (garden / "content/take-in.yaml").read_text(encoding="utf-8")
    assert kept == "squares:\n  by the gate: long/C1\nweights:\n  a bagful: about 8 oz\n"
    assert set(becomes(take(garden, sheet, "--yes")).values()) == {"taken before"}
    fill(sheet, *rows, "2026-07-05,kale,by the gate,a bagful", head=head)
    assert becomes(take(garden, sheet, "--yes"))[6] == "new", "the answers are kept"


def test_a_needed_column_that_nothing_names_is_asked_for_and_kept(garden: Path, sheet: Path) -> None:
    head = "Date,Crop,Basket,Who"
    fill(sheet, "2026-07-01,kale,4 oz,Ann", head=head)
    for words, answers in ((("--yes",), None), ((), ""), ((), "\n")):
        refused = take(garden, sheet, *words, answers=answers)
        assert refused.exit_code == 2
        assert '--map "Basket=weight"' in refused.stderr
    result = take(garden, sheet, answers="1\ny\n")
    assert result.exit_code == 0, result.output
    assert "No column is known to hold the weight; it is:\n  1  Basket\n  2  Who\n" in result.stdout
    assert ledger(garden) == ["{date: 2026-07-01, crop: kale, weight: 4 oz}"]
    kept = (garden / "content/take-in.yaml").read_text(encoding="utf-8")
    assert kept == "columns:\n  Basket: weight\n"
    fill(sheet, "2026-07-01,kale,4 oz,Ann", "2026-07-02,kale,5 oz,Ann", head=head)
    assert list(becomes(take(garden, sheet, "--yes")).values()) == ["taken before", "new"]


def test_an_order_of_dates_that_the_column_shows_is_told(garden: Path, sheet: Path) -> None:
    told = "Dates are read with the month first, as others in the column show."
    fill(sheet, *(f"7/{day}/2026,kale,,4" for day in (4, 14, 15, 16)))
    assert told not in take(garden, sheet, "--dates", "month-first").stdout
    assert told in take(garden, sheet, "--yes").stdout


def test_a_file_name_that_no_record_can_hold_is_written_without_its_odd_signs(
    garden: Path, tmp_path: Path
) -> None:
    odd = tmp_path / "kit\u202echen\n.csv"
    fill(odd, "2026-07-01,kale,,4")
    assert take(garden, odd, "--yes").exit_code == 0
    assert set(becomes(take(garden, odd, "--yes")).values()) == {"taken before"}


def test_open_numbers_are_summed_in_the_unit_beside_them(garden: Path, sheet: Path) -> None:
    rows = ("2026-07-01,kale,1.250,kg", "2026-07-02,kale,600,g")
    fill(sheet, *rows, head="Date,Crop,Weight,Unit")
    result = take(garden, sheet, answers="\n")
    assert "a comma stands before decimals: the column adds up to 1,250.6 kg" in result.stdout
    assert "a point stands before decimals: the column adds up to 1.85 kg" in result.stdout
    assert "The weights of the file add up to" not in result.stdout, "nobody knows which"
    settled = take(garden, sheet, "--decimal", "comma", answers="n\n")
    assert "The weights of the file add up to" in settled.stdout


def test_a_day_below_a_month_keeps_what_it_says_itself(garden: Path, sheet: Path) -> None:
    fill(sheet, "Jun 2026,,,", "Wed 10,kale,,4", "Jul 1,kale,,2", "Thu 10,kale,,3", "11,kale,,1")
    found = becomes(take(garden, sheet, "--yes", "--skip-unplaced"))
    days = [row.split(",")[0] for row in ledger(garden)]
    assert days == ["{date: 2026-06-10", "{date: 2026-07-01", "{date: 2026-07-11"]
    assert "10 July 2026 is not the day of the week in “Thu July 10, 2026”" in found[5]


def test_days_below_the_title_of_another_year_are_of_no_season_there_is(garden: Path, sheet: Path) -> None:
    shutil.rmtree(garden / "content/2025")
    sheet.write_text("Harvest of 2025\nDate,Crop,Weight (oz)\nJun 20,kale,3\n", encoding="utf-8")
    result = take(garden, sheet, "--yes")
    assert becomes(result)[3] == (
        "not placed: the date “Jun 20” has no year; expected its year, or --season YEAR"
    )
    assert take(garden, sheet, "--yes", "--season", "2026").exit_code == 0
    assert ledger(garden) == ["{date: 2026-06-20, crop: kale, weight: 3 oz}"]


def workbook(file: Path, **sheets: list[list[object]]) -> Path:
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(row)
    book.save(file)
    return file


def skipped_rows(file: Path) -> list[str]:
    """The rows of a file of skipped rows, without the reasons."""
    text = file.read_text(encoding="utf-8-sig")
    return [",".join(row[:-1]) for row in csv.reader(io.StringIO(text))][1:]


def test_of_several_pickings_of_one_row_the_skipped_one_is_saved(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,3,4 crates", head="Date,Kale (oz),Beans (oz)")
    assert take(garden, sheet, "--yes", "--skip-unplaced").exit_code == 0
    assert ledger(garden) == ["{date: 2026-07-01, crop: kale, weight: 3 oz}"]
    assert skipped_rows(sheet.with_name("kitchen.csv.skipped.csv")) == ["2026-07-01,beans,4 crates,oz"]


def test_skipped_rows_of_each_sheet_keep_its_headings_and_are_known_as_its_own(
    garden: Path, tmp_path: Path
) -> None:
    file = workbook(
        tmp_path / "kitchen.xlsx",
        May=[["Date", "Crop", "Weight (oz)"], ["2026-05-20", "kale", 3], ["2026-05-21", "tomatines", 3]],
        June=[["Crop", "Date", "Weight (g)"], ["kale", "2026-06-20", 30], ["zorpels", "2026-06-21", 40]],
    )
    assert take(garden, file, "--yes", "--skip-unplaced").exit_code == 0
    june = tmp_path / "kitchen.xlsx [June].skipped.csv"
    assert skipped_rows(tmp_path / "kitchen.xlsx [May].skipped.csv") == ["2026-05-21,tomatines,3 oz"]
    assert skipped_rows(june) == ["zorpels,2026-06-21,40 g"]
    (garden / "content/take-in.yaml").write_text("names: {zorpels: kale}\n", encoding="utf-8")
    assert take(garden, june, "--yes").exit_code == 0
    assert ledger(garden)[-1] == "{date: 2026-06-21, crop: kale, weight: 40 g}"
    take(garden, file, "--yes", "--skip-unplaced")
    assert len(ledger(garden)) == 3, "the sheet's own row was taken from the skipped ones"


def test_skipped_rows_read_as_they_did_in_their_sheet(garden: Path, tmp_path: Path) -> None:
    (garden / "content/take-in.yaml").write_text("decimal: comma\nunit: g\n", encoding="utf-8")
    file = workbook(
        tmp_path / "kitchen.xlsx",
        Harvest=[
            ["Weights in oz"],
            ["Date", "Crop", "Weight"],
            ["4/5/2026", "kale", 1.125],
            ["4/6/2026", "tomatines", 1.125],
        ],
    )
    assert take(garden, file, "--yes", "--skip-unplaced", "--dates", "day-first").exit_code == 0
    beside = tmp_path / "kitchen.xlsx [Harvest].skipped.csv"
    assert skipped_rows(beside) == ["2026-06-04,tomatines,1.1250 oz"]
    (garden / "content/take-in.yaml").write_text("decimal: comma\nunit: g\nnames: {tomatines: kale}\n")
    assert take(garden, beside, "--yes").exit_code == 0
    assert ledger(garden)[1] == "{date: 2026-06-04, crop: kale, weight: 1.1250 oz}"


def test_a_skipped_row_without_a_date_does_not_take_that_of_another(garden: Path, sheet: Path) -> None:
    (garden / "content/take-in.yaml").write_text("blank dates: as above\n", encoding="utf-8")
    beside = sheet.with_name("kitchen.csv.skipped.csv")
    fill(beside, "2026-07-01,kale,,4", ",kale,,5")
    assert becomes(take(garden, beside, "--yes"))[3] == "not placed: the row has no date"


def test_corrections_of_skipped_rows_are_not_written_over(garden: Path, sheet: Path) -> None:
    rows = ["2026-07-01,tomatines,,5", "2026-07-02,zorpels,,5"]
    fill(sheet, *rows)
    words = ["--yes", "--skip-unplaced", "--map", "Basket=weight (oz)"]
    sheet.write_text(sheet.read_text(encoding="utf-8").replace("Weight (oz)", "Basket"), encoding="utf-8")
    take(garden, sheet, *words)
    assert take(garden, sheet, *words).exit_code == 0, "nobody wrote in it"
    beside = sheet.with_name("kitchen.csv.skipped.csv")
    plain = beside.read_text(encoding="utf-8")
    for more in (plain.replace("Date,", "My own,Date,").replace("2026", "ask Ann,2026"), f"{plain}ask Ann\n"):
        beside.write_text(more, encoding="utf-8")
        assert take(garden, sheet, *words).exit_code == 2
    beside.write_text(plain, encoding="utf-8")
    corrected = beside.read_text(encoding="utf-8").replace("zorpels", "kale")
    beside.write_text(corrected, encoding="utf-8")
    stopped = take(garden, sheet, *words)
    assert stopped.exit_code == 2
    assert "nothing was written: kitchen.csv.skipped.csv is there" in stopped.stderr
    assert beside.read_text(encoding="utf-8") == corrected
    take(garden, beside, *words)
    assert ledger(garden) == ["{date: 2026-07-02, crop: kale, weight: 5 oz}"]
    assert skipped_rows(sheet.with_name("kitchen.csv.skipped.csv.skipped.csv")) == [
        "2026-07-01,tomatines,,5 oz"
    ]
    fill(sheet, rows[0], head="Date,Crop,Squares,Basket")
    assert take(garden, sheet, *words).exit_code == 0, "all that was corrected is in the ledger"


def month_sheets() -> dict[str, list[list[object]]]:
    head: list[object] = ["Date", "Crop", "Weight (oz)"]
    return {
        name: [head, [f"{month}-20", "kale", 3], [f"{month}-21", "kale", 3], [f"{month}-22", "beans", 3]]
        for name, month in (("May", "2026-05"), ("June", "2026-06"))
    }


def test_each_sheet_has_answers_of_its_own(garden: Path, tmp_path: Path) -> None:
    months = month_sheets()
    take(garden, workbook(tmp_path / "kitchen.xlsx", **months), "--yes")
    for rows in months.values():
        del rows[2]
        rows.append([f"{str(rows[1][0])[:8]}24", "kale", 4])
    shown = take(garden, workbook(tmp_path / "kitchen.xlsx", **months), answers="1\n2\nn\n").stdout
    fates = re.findall(r"2026-0(.)-24 +kale +4 oz +(new|changed)", shown)
    assert fates == [("5", "new"), ("6", "changed")]


@pytest.mark.parametrize("called", ["kitchen.xlsx", "kitchen.xlsx [May]", "kitchen.xlsx [June]"])
def test_the_sheets_of_a_workbook_under_another_name_are_known_each_for_itself(
    garden: Path, tmp_path: Path, called: str
) -> None:
    months = month_sheets()
    take(garden, workbook(tmp_path / "kitchen.xlsx", **months), "--yes")
    months["July"] = [months["May"][0], ["2026-07-20", "kale", 3]]
    other = workbook(tmp_path / "scale.xlsx", **months)
    assert take(garden, other, "--yes").exit_code == 2
    result = take(garden, other, "--yes", "--as", called)
    assert "7 rows of kitchen.xlsx: 1 new, 6 taken before." in result.stdout
    assert len(ledger(garden)) == 7


def test_the_name_of_a_workbook_does_for_its_one_sheet(garden: Path, tmp_path: Path) -> None:
    sheets = {"Harvest": month_sheets()["May"]}
    take(garden, workbook(tmp_path / "kitchen.xlsx", **sheets), "--yes")
    result = take(garden, workbook(tmp_path / "scale.xlsx", **sheets), "--yes", "--as", "kitchen.xlsx")
    assert result.stdout.endswith("Nothing to write.\n")


def test_a_name_of_nothing_taken_in_is_refused(garden: Path, sheet: Path, tmp_path: Path) -> None:
    fill(sheet, "2026-07-01,kale,,4")
    take(garden, sheet, "--yes")
    copy = tmp_path / "scale.csv"
    copy.write_bytes(sheet.read_bytes())
    result = take(garden, copy, "--yes", "--as", "kitchn.csv")
    assert result.exit_code == 2
    assert "nothing was taken in from kitchn.csv; files that were: kitchen.csv" in result.stderr
    assert len(ledger(garden)) == 1


def test_a_number_with_decimals_is_no_day(garden: Path, tmp_path: Path) -> None:
    """Typed as the tenth of June, it may be kept as 6.1."""
    rows: list[list[object]] = [["Date", "Crop", "Weight (oz)"], [6.1, "kale", 4], ["6.10", "kale", 3]]
    file = workbook(tmp_path / "kitchen.xlsx", Harvest=rows)
    words = ["--season", "2026", "--dates", "month-first", "--skip-unplaced"]
    found = becomes(take(garden, file, "--yes", *words))
    assert found[2] == "not placed: “6.1” is a bare number; expected a date; format the column as dates"
    beside = tmp_path / "kitchen.xlsx [Harvest].skipped.csv"
    assert becomes(take(garden, beside, "--yes", *words))[2].startswith("not placed")
    assert ledger(garden) == ["{date: 2026-06-10, crop: kale, weight: 3 oz}"]


def test_a_count_with_a_point_before_three_noughts_is_not_guessed(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,kale,3,5.0", "2026-07-02,kale,3,5.000", head="Date,Crop,Weight (oz),Pieces")
    found = becomes(take(garden, sheet, "--yes", "--skip-unplaced"))
    assert found[3].startswith("not placed: “5.000” is not a whole number")
    assert ledger(garden) == ["{date: 2026-07-01, crop: kale, count: 5, weight: 3 oz}"]


def test_comments_in_the_record_stay(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,kale,,3", "2026-07-02,kale,,4")
    take(garden, sheet, "--yes")
    record = garden / "content/2026/taken-in.yaml"
    record.write_text(record.read_text(encoding="utf-8") + "    # weighed by Ann\n", encoding="utf-8")
    fill(sheet, "2026-07-01,kale,,3", "2026-07-02,kale,,5", "2026-07-03,kale,,2")
    take(garden, sheet, "--yes", "--correct")
    take(garden, sheet, "--yes")
    lines = record.read_text(encoding="utf-8").splitlines()
    assert [line for line in lines if line.startswith("#")][2:] == ["# weighed by Ann"]
    assert len(ledger(garden)) == 3


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("unit: oz\r\n", "unit: oz\r\ndates: month-first\r\nnames:\r\n  zorpels: kale\r\n"),
        (
            "unit: oz\r\nnames:  # Ours.\r\n    toms: kale",
            "unit: oz\r\nnames:  # Ours.\r\n    zorpels: kale\r\n    toms: kale\r\ndates: month-first\r\n",
        ),
    ],
)
def test_answers_are_kept_in_lines_that_end_as_the_others_do(
    garden: Path, sheet: Path, before: str, after: str
) -> None:
    settings = garden / "content/take-in.yaml"
    settings.write_bytes(before.encode())
    fill(sheet, "4/5/2026,zorpels,,3", head="Date,Crop,Squares,Weight")
    assert take(garden, sheet, answers="1\nkale\ny\n").exit_code == 0
    assert settings.read_bytes().decode() == after


@pytest.mark.parametrize(
    "before", ["'names': {toms: kale}\n", "dates: &here day-first\n", "? names\n: {toms: kale}\n"]
)
def test_settings_that_cannot_be_added_to_are_never_written_over(
    garden: Path, monkeypatch: pytest.MonkeyPatch, before: str
) -> None:
    context = books(garden).scales["2026"].vocabulary.context
    settings = garden / "content/take-in.yaml"
    settings.write_text(before, encoding="utf-8")
    written: list[bytes] = []
    monkeypatch.setattr(
        "tallybed.tasks.weighing.settled.write_over", lambda _path, data: written.append(data)
    )
    said = keep_settings(garden, context, {"dates": "month-first"}, {"names": {"zorpels": "kale"}})
    assert "cannot be added to; write there dates: month-first, names: {zorpels: kale}" in said
    assert written == []


def test_what_a_correction_keeps_from_being_taken_back_says_what_to_do(garden: Path, sheet: Path) -> None:
    undo = ["weigh", "--undo", "--folder", str(garden), "--yes"]
    for corrected in ("1", "2"):
        fill(sheet, "2026-07-01,kale,long/C1,4", "2026-07-02,kale,,3")
        take(garden, sheet, "--yes")
        days = {"1": ("14", "3"), "2": ("4", "13")}[corrected]
        fill(sheet, f"2026-07-01,kale,long/C1,{days[0]}", f"2026-07-02,kale,,{days[1]}")
        assert take(garden, sheet, "--correct", "--yes").exit_code == 0
        refused = CliRunner().invoke(main, undo)
        assert refused.exit_code == 2
        assert "corrected" in refused.stderr
        assert (
            "delete by hand what does not belong there, in content/2026/harvest.yaml and "
            "content/2026/taken-in.yaml"
        ) in refused.stderr
        (garden / "content/2026/taken-in.yaml").unlink()
        (garden / "content/2026/harvest.yaml").write_text(OPENING, encoding="utf-8")


def test_the_question_what_a_weight_means_tells_why_it_is_asked(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,kale,,5oz x2", "2026-07-02,kale,,1 stone", head="Date,Crop,Squares,Weight")
    result = take(garden, sheet, answers="10 oz\n14 lb\nn\n")
    assert (
        "“5oz x2”, in 1 row, is not understood as a weight (“5oz x2” may be read two ways; " in result.stdout
    )
    assert "1 stone is 14 lb (write 14 lb)); it means" in result.stdout


def test_what_a_space_sets_apart_is_asked_once_for_a_file_and_kept(garden: Path, sheet: Path) -> None:
    rows = [f"2026-07-{day:02},kale,,1 {day}50 g" for day in range(1, 10)]
    fill(sheet, *rows, "2026-07-10,kale,,2#3", head="Date,Crop,Squares,Weight")
    told = becomes(take(garden, sheet, "--yes"))
    assert [number for number, words in told.items() if "`spaces: thousands`" in words] == list(range(2, 11))
    result = take(garden, sheet, answers="1\ny\n")
    assert result.exit_code == 0, result.output
    asked = "1 150 g may be read two ways; in this file a space sets apart:\n  1  thousands, as in 1,250 g\n"
    assert result.stdout.count("may be read two ways") == result.stdout.count(asked) == 1
    assert ledger(garden)[0] == "{date: 2026-07-01, crop: kale, weight: 1150 g}"
    assert (garden / "content/take-in.yaml").read_text(encoding="utf-8") == "spaces: thousands\n"
    more = sheet.with_name("july.csv")
    fill(more, "2026-07-11,kale,,2 400 g", head="Date,Crop,Squares,Weight")
    assert take(garden, more, "--yes").exit_code == 0
    assert ledger(garden)[-1] == "{date: 2026-07-11, crop: kale, weight: 2400 g}", "the answer is kept"


def test_a_count_before_a_weight_is_asked_for_by_itself(garden: Path, sheet: Path) -> None:
    fill(sheet, "2026-07-01,kale,,3 150g", "2026-07-02,kale,,2 400g", head="Date,Crop,Squares,Weight")
    result = take(garden, sheet, answers="2\n450 g\n400 g\ny\n")
    assert result.exit_code == 0, result.output
    assert "“3 150g”, in 1 row, is not understood as a weight" in result.stdout
    assert [row.partition("weight: ")[2] for row in ledger(garden)] == ["450 g}", "400 g}"]
