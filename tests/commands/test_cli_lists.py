"""The lists a command prints: seeds, marking out, and what the library rests on."""

import csv
import io
import re
from pathlib import Path

import pytest

from tallybed.commands import seeds
from tallybed.garden.crops import Footing
from tallybed.reading.folder.library import kinds, load_library
from tallybed.tasks.base.garden import Answer
from tests.commands.running import run
from tests.pages.gardens import folder, written


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return folder(tmp_path)


def cells(line: str) -> list[str]:
    return re.split(r" {2,}", line)


def test_seeds_are_listed_by_planting_and_by_crop(garden: Path) -> None:
    result = run("seeds", garden)
    assert (result.exit_code, result.stderr) == (0, "")
    lines = result.stdout.splitlines()
    assert cells(lines[1]) == ["Planting", "To get", "Plants", "In the bed", "Squares"]
    # spinach: 36 plants ÷ 60 % × 1.1 = 66; bush bean: 36 ÷ 70 % × 1.1 = 56.6, so 57
    # carrot: no count told, so 16 to a square: 32 ÷ 55 % × 1.1 = 64; okra was dropped
    assert [cells(line) for line in lines[3:6]] == [
        ["spinach ‘Broad’ (SP1)", "66 seeds (60%)", "36", "5 Apr", "A1:B2 of the front bed"],
        ["carrot (CA1)", "64 seeds (55%)", "32 (by spacing)", "20 Apr", "A1:B1 of the back bed"],
        ["bean, bush (BB1)", "57 seeds (70%)", "36", "5 Jun", "A1:B2 of the front bed"],
    ]
    assert "okra" not in result.stdout
    assert "10% more" in result.stdout, "the allowance is not stated"
    assert "7 CFR 201.31" in result.stdout


def test_seeds_come_as_comma_separated_values_too(garden: Path) -> None:
    result = run("seeds", garden, "--csv")
    assert result.exit_code == 0
    text = result.stdout_bytes.decode()
    assert text.count("\r\n") == text.count("\n") == 4
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    assert [(row["tag"], row["seeds"], row["in the bed"]) for row in rows] == [
        ("SP1", "66", "2026-04-05"),
        ("CA1", "64", "2026-04-20"),
        ("BB1", "57", "2026-06-05"),
    ]


def test_a_season_is_chosen_by_its_year(garden: Path) -> None:
    written(garden, {"2027/plan.yaml": "- {crop: beet, tag: BE7, squares: back/A3, sow: Apr 24}\n"})
    assert "SP1" in run("seeds", garden).stdout, "without a word it is the season under way"
    later = run("seeds", garden, "--season", "2027").stdout
    assert "BE7" in later
    assert "SP1" not in later


def test_a_bed_is_meant_whatever_its_capitals(garden: Path) -> None:
    shown = run("marks", "front", "--folder", str(garden))
    assert shown.exit_code == 0
    assert run("marks", "Front", "--folder", str(garden)).stdout == shown.stdout


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["seeds", "{garden}", "--season", "1999"], "there is no plan for 1999; seasons with a plan: 2026"),
        (["seeds", "{garden}/content"], "not a garden folder"),
        (["marks", "frnt", "--folder", "{garden}"], "there is no bed frnt; the garden has: front, back"),
        (["marks", "front", "--folder", "{garden}", "--depth", "deep"], "the length “deep” cannot be read"),
        (["marks", "front", "--folder", "{garden}", "--depth", "6"], "no unit follows 6"),
        (["marks", "front", "--folder", "{garden}", "--bag", "big"], "the volume “big” cannot be read"),
        (["marks", "front", "--folder", "{garden}", "--bag", "40 lb"], "not a unit of volume"),
        (["marks", "--folder", "{garden}"], "name a bed; the garden has: front, back"),
        (["sun", "--folder", "{garden}"], "name a bed; the garden has: front, back"),
        (["sun", "{garden}", "--folder", "{garden}"], "is a garden’s folder, and a bed is asked for here"),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, list) else "",
)
def test_what_cannot_be_meant_ends_with_2_and_a_sentence(garden: Path, words: list[str], said: str) -> None:
    result = run(*(word.format(garden=garden) for word in words))
    assert (result.exit_code, result.stdout) == (2, "")
    assert said in result.stderr
    assert "Traceback" not in result.output


def test_a_plan_with_errors_gives_them_and_no_list(garden: Path) -> None:
    written(garden, {"2026/plan.yaml": "- {crop: spinich, squares: front/A1, sow: Apr 5}\n"})
    result = run("seeds", garden)
    assert (result.exit_code, result.stdout) == (1, "")
    assert "unknown-crop" in result.stderr
    assert "1 error." in result.stderr


def test_a_plan_that_needs_nothing_says_so(garden: Path) -> None:
    written(garden, {"2026/plan.yaml": "[]\n"})
    assert run("seeds", garden).stdout == "Nothing in this plan needs seeds or plants.\n"


def test_marks_of_a_bed(garden: Path) -> None:
    result = run("marks", "back", "--folder", garden)
    assert (result.exit_code, result.stderr) == (0, "")
    lines = [line.rstrip() for line in result.stdout.splitlines()]
    # Three by three feet, the far corner square left out; counted on paper.
    assert lines[0] == "The back bed"
    assert [cells(line) for line in lines[5:11]] == [
        ["P to Q (side 1)", "3 ft", "1 ft, 2 ft"],
        ["Q to R", "2 ft", "1 ft"],
        ["S to R", "1 ft", "none"],
        ["S to T", "1 ft", "none"],
        ["U to T", "2 ft", "1 ft"],
        ["P to U (side A)", "3 ft", "1 ft, 2 ft"],
    ]
    needed = dict(
        cells(line)
        for line in lines
        if line.startswith(("Stakes", "Corner to", "Lines", "Staples", "Twine")) and "  " in line
    )
    assert needed == {
        "Stakes": "6 stakes",
        "Corner to corner": "Q to U, 4 ft 2 7/8 in",  # 3 × √2 = 4.2426 ft
        "Lines across": "1 of 2 ft, 1 of 3 ft",
        "Lines along": "1 of 2 ft, 1 of 3 ft",
        "Staples or nails": "8",
        "Twine in all": "14 ft, with 1 ft a line for its two knots",
    }
    # Eight squares, an inch deep: 8/12 of a cubic foot; half a foot: 4 cubic feet, 0.148 of a yard.
    assert cells(next(line for line in lines if line.startswith("Compost"))) == [
        *("Compost on top", "1 in", "0.7", "0.02", "1", "1", "1"),
    ]
    assert cells(next(line for line in lines if line.startswith("New soil"))) == [
        *("New soil", "6 in", "4", "0.15", "4", "3", "2"),
    ]


def test_depth_and_bags_are_the_gardeners_own(garden: Path) -> None:
    result = run(
        "marks", "front", "--folder", garden, "--depth", "9 in", "--bag", "1.5 cu ft", "--bag", "40 L"
    )
    head, _rule, fill = (cells(line) for line in result.stdout.splitlines()[-4:-1])
    assert head == ["Layer", "Depth", "Cubic feet", "Cubic yards", "Bags of 1.5 cu ft", "Bags of 40 L"]
    assert fill == ["Fill", "9 in", "6", "0.22", "4", "5"]  # 8 × 3/4 = 6 cubic feet; 169.9 litres


def test_a_metric_garden_is_marked_out_in_centimetres_and_filled_in_litres(tmp_path: Path) -> None:
    garden = "name: G\nunits: kilograms\nbeds:\n  - {name: a, length: 4 squares, width: 2 squares}\n"
    root = written(tmp_path, {"garden.yaml": garden})
    result = run("marks", "a", "--folder", root)
    assert "30 cm, 60 cm, 90 cm" in result.stdout
    assert run("marks", "--folder", root).stdout == result.stdout, "the only bed need not be named"
    assert "134.2 cm" in result.stdout  # √(120² + 60²) = 134.16
    # 1.2 × 0.6 × 0.15 m = 0.108 m³
    soil = next(line for line in result.stdout.splitlines() if line.startswith("New soil"))
    assert cells(soil) == ["New soil", "15 cm", "108", "0.11", "5", "3", "3"]


def test_a_bed_is_marked_out_though_a_plan_has_errors(garden: Path) -> None:
    written(garden, {"2026/plan.yaml": "- {crop: spinich}\n"})
    assert run("marks", "front", "--folder", garden).exit_code == 0


def test_the_ground_of_the_library_is_counted(tmp_path: Path) -> None:
    result = run("check", tmp_path, "--library")
    assert (result.exit_code, result.stderr) == (0, ""), "it needs no garden"
    rows = [cells(line) for line in result.stdout.splitlines()[3:]]
    counts = {row[0]: int(row[1].replace(",", "")) for row in rows}
    assert counts["from memory"] == kinds(load_library())[Footing.MEMORY]
    assert counts.pop("in all") == sum(counts.values()) > 2000
    shares = [float(row[2].rstrip("%")) for row in rows[:-1]]
    assert sum(shares) == pytest.approx(100, abs=0.25)


@pytest.mark.parametrize("more", [["--all"], ["--as-of", "2026-07-01"]])
def test_what_is_asked_of_a_garden_goes_not_with_the_library(tmp_path: Path, more: list[str]) -> None:
    result = run("check", tmp_path, "--library", *more)
    assert (result.exit_code, result.stdout) == (2, "")
    assert "use --library without --all and --as-of" in result.stderr


def test_nothing_typed_into_a_plan_steers_the_terminal(garden: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    answer = Answer(text="a\x1b[2Jb\r\nc\n")
    monkeypatch.setattr(seeds, "seed_list", lambda *_args, **_more: answer)
    assert run("seeds", garden).stdout_bytes == b"a\\x1b[2Jb\r\nc\n"
