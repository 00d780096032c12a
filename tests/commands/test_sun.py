"""``tallybed sun``, as it is typed."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from tallybed.cli import main
from tests.pages.gardens import written

GARDEN = """\
name: Tiny
latitude: 45
season: {start: Mar 1, end: Oct 31}
beds:
  - {name: b, title: The bed, length: 2 squares, width: 3 squares, bearing: 90}
"""
PLAN = """\
- {crop: sweet-corn, tag: SC1, squares: A3:B3, sow: May 1, until: Sep 30}
- {crop: pepper-sweet, tag: PP1, squares: A1:B1, set out: May 10, until: Sep 30}
- {crop: carrot, tag: CA1, squares: A2:B2, sow: May 10, until: Sep 30}
"""


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    return written(tmp_path, {"garden.yaml": GARDEN, "2026/plan.yaml": PLAN})


def run(root: Path, *words: str) -> Result:
    return CliRunner().invoke(main, ["sun", *words, "--folder", str(root)], catch_exceptions=False)


def rows(result: Result) -> list[list[str]]:
    assert (result.exit_code, result.stderr) == (0, "")
    return list(csv.reader(io.StringIO(result.stdout)))


def test_a_month_is_told_square_by_square_with_the_seasons_sum(garden: Path) -> None:
    result = run(garden, "b", "--month", "2026-08")
    assert (result.exit_code, result.stderr) == (0, "")
    assert "Hours of direct sun a day over the bed in August 2026" in result.stdout
    assert "corn, sweet (SC1)" in result.stdout
    assert "square-hours of sun from each other." in result.stdout.splitlines()[-1]


def test_a_row_a_square_for_spreadsheets(garden: Path) -> None:
    heads, *squares = rows(run(garden, "b", "--on", "2026-08-20", "--csv"))
    assert heads == ["square", "hours", "lost", "to"]
    assert [row[0] for row in squares] == ["b/A1", "b/B1", "b/A2", "b/B2", "b/A3", "b/B3"]
    by_square = {row[0]: row for row in squares}
    assert by_square["b/A3"][2:] == ["0.00", ""]
    assert float(by_square["b/A2"][2]) > 3
    assert by_square["b/A2"][3].startswith("SC1 ")
    assert all(0 <= float(row[1]) <= 14 for row in squares)


def test_a_better_place_is_told_and_nothing_is_moved(garden: Path) -> None:
    result = run(garden, "b", "--better")
    before, tried, least, best, *_more = result.stdout.splitlines()
    assert before.startswith("As it lies, the plan of 2026 for the bed costs its own crops ")
    assert tried == "Three pairs of plantings could change places with nothing else moved."
    assert least.startswith("The least that an exchange reaches is ")
    assert "square-hours gained: " in best
    assert "sweet corn (SC1) in A3:B3" in best
    assert (garden / "content" / "2026" / "plan.yaml").read_text(encoding="utf-8") == PLAN


@pytest.mark.parametrize("words", [("--month", "2026-06"), ("--better",)])
def test_a_bed_of_which_nobody_told_how_it_lies_is_said_to_be_taken_so(
    tmp_path: Path, garden: Path, words: tuple[str, ...]
) -> None:
    """Fails where hours are told to a tenth of a bed that may lie any other way."""
    taken = "The garden does not say which way the bed lies: its letters are taken to run east"
    assert taken not in run(garden, "b", *words).stdout
    untold = GARDEN.replace(", bearing: 90", "")
    assert (
        taken
        in run(
            written(tmp_path / "other", {"garden.yaml": untold, "2026/plan.yaml": PLAN}), "b", *words
        ).stdout
    )


def test_where_no_two_could_change_places_it_says_that_alone(tmp_path: Path) -> None:
    """Fails where it says "0 pairs", and that no exchange of them would cost less."""
    told = {"garden.yaml": GARDEN, "2026/plan.yaml": PLAN.splitlines(keepends=True)[0]}
    _before, *after = run(written(tmp_path, told), "b", "--better").stdout.splitlines()
    assert after == ["No two plantings could change places with nothing else moved."]


def test_an_exchange_looks_at_one_bed_and_says_so_where_there_are_more(tmp_path: Path) -> None:
    more = f"{GARDEN}  - {{name: c, length: 2 squares, width: 3 squares, bearing: 90}}\n"
    plan = PLAN.replace("squares: ", "squares: b/")
    result = run(written(tmp_path, {"garden.yaml": more, "2026/plan.yaml": plan}), "b", "--better")
    assert result.stdout.splitlines()[1].endswith("nothing else moved. The other beds are not looked at.")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("c",), "there is no bed c; the garden has: b"),
        (("b", "--month", "June"), "'June' is not a month such as 2026-06"),
        (("b", "--month", "2025-06"), "no season has days in June 2025"),
        (("b", "--month", "2026-06", "--on", "2026-06-01"), "cannot be used together"),
        (("b", "--better", "--csv"), "--better and --csv cannot be used together"),
        (("b", "--on", "2026-12-01"), "name another day with --on, or correct the season"),
    ],
)
def test_what_cannot_be_meant_is_told(garden: Path, words: tuple[str, ...], told: str) -> None:
    result = run(garden, *words)
    assert result.exit_code == 2
    assert told in result.stderr


def test_without_a_latitude_nothing_is_told(tmp_path: Path) -> None:
    root = written(tmp_path, {"garden.yaml": GARDEN.replace("latitude: 45\n", ""), "2026/plan.yaml": PLAN})
    result = run(root, "b")
    assert result.exit_code == 2
    assert "need the garden's latitude" in result.stderr


def test_crops_whose_height_nobody_knows_are_named(garden: Path) -> None:
    """Else "take 0 square-hours from each other" reads as if it were known."""
    keys = "new: yardlong, family: Fabaceae, habit: climbing, start: sown, letters: Yl, spacing: 6 in"
    (garden / "content" / "crops.yaml").write_text(f"- {{{keys}}}\n", encoding="utf-8")
    with (garden / "content" / "2026" / "plan.yaml").open("a", encoding="utf-8") as plan:
        plan.write("- {crop: yardlong, tag: YL1, squares: b/A1, sow: 2026-06-01, until: 2026-06-02}\n")
    result = run(garden, "b", "--month", "2026-08")
    assert result.stdout.splitlines()[-1].startswith("No height is known of yardlong (YL1): ")
