"""What rests on there being no record is not told while a record could not be understood."""

from __future__ import annotations

from pathlib import Path

import pytest

from tallybed.tasks.check import check
from tallybed.tasks.start import start
from tests.small_garden import written


@pytest.fixture
def content(tmp_path: Path) -> Path:
    start(tmp_path / "g", 2026)
    return tmp_path / "g" / "content"


def codes(content: Path) -> set[str]:
    return {one.code for one in check(content.parent)}


def test_squares_of_a_row_that_cannot_be_read_are_not_told_to_be_idle(content: Path) -> None:
    plan = content / "2026" / "plan.yaml"
    text = plan.read_text(encoding="utf-8")
    plan.write_text(text.partition("- crop: carrot")[0], encoding="utf-8")
    assert "idle" in codes(content), "nothing is planned after the spinach"
    plan.write_text(text.replace("crop: carrot", "crop: carrrot"), encoding="utf-8")
    assert codes(content) >= {"unknown-crop"}
    assert "idle" not in codes(content)


def test_what_stands_in_a_visit_that_cannot_be_read_is_not_told_to_be_missing(content: Path) -> None:
    (visit,) = (content / "2026" / "log").glob("*.md")
    (content / "2026" / "harvest.yaml").write_text(
        "- {date: 2026-05-30, tag: LE1, weight: 7 oz}\n", encoding="utf-8"
    )
    text = visit.read_text(encoding="utf-8")
    visit.write_text(text.replace("  - {sow: spinach, tag: SP1, squares: C1:D3}\n", ""), encoding="utf-8")
    assert "never-planted" in codes(content)
    visit.write_text(text.replace("sow: spinach", "sew: spinach"), encoding="utf-8")
    assert "never-planted" not in codes(content)


def test_days_of_a_season_whose_bounds_cannot_be_read_are_held_against_nothing(tmp_path: Path) -> None:
    """Fails where a day without its year lands before the one it follows, and is told as too early by it."""
    beds = "beds:\n  - {name: a, length: 2 squares, width: 1 squares}\n"
    garden = f"name: G\n{beds}season: {{start: Jul 1, end: %s}}\n"
    plan = "- {crop: carrot, squares: A1, sow: Oct 1, until: Feb 10}\n"
    root = written(tmp_path, {"garden.yaml": garden % "Jun 30", "2025/plan.yaml": plan.replace("Feb", "Oct")})
    assert "not-ripe" in {one.code for one in check(root)}
    written(tmp_path, {"garden.yaml": garden % "2026-06-30", "2025/plan.yaml": plan})
    assert "not-ripe" not in {one.code for one in check(root)}


@pytest.mark.parametrize("letters", ["Sk", "Cu"], ids=["understood", "those of the cucumber"])
def test_squares_of_a_crop_that_cannot_be_read_are_not_told_to_be_idle(content: Path, letters: str) -> None:
    plan = content / "2026" / "plan.yaml"
    text = plan.read_text(encoding="utf-8").partition("- crop: carrot")[0]
    row = "- {crop: skirret, tag: SK1, squares: A1:B3, sow: Sep 1}\n"
    plan.write_text(text + row, encoding="utf-8")
    keys = "new: skirret, family: Apiaceae, habit: root, start: sown, spacing: 6 in"
    (content / "crops.yaml").write_text(f"- {{{keys}, letters: {letters}}}\n", encoding="utf-8")
    assert ("idle" in codes(content)) is (letters == "Sk")


def test_a_row_that_cannot_be_read_may_be_what_a_line_of_the_log_tends(content: Path) -> None:
    plan = content / "2026" / "plan.yaml"
    text = plan.read_text(encoding="utf-8")
    visit = content / "2026" / "log" / "2026-09-02-thinned.md"
    header = "title: Thinned\ndate: 2026-09-02\ndone:\n  - {thin: kale, squares: A1, leaving: 1}"
    visit.write_text(f"---\n{header}\n---\n", encoding="utf-8")
    assert "nothing-there" in codes(content)
    plan.write_text(f"{text}- {{crop: kale, squares: A1, sew: Aug 1}}\n", encoding="utf-8")
    assert "nothing-there" not in codes(content)


@pytest.mark.parametrize("code", ["bed-without-record", "not-carried-on", "not-there-before"])
def test_a_row_that_cannot_be_read_may_be_of_the_bed_or_planting_that_is_missed(
    code: str, tmp_path: Path
) -> None:
    beds = (
        "- {name: b, length: 2 squares, width: 1 square}",
        "- {name: c, length: 2 squares, width: 1 square}",
    )
    row = "- {crop: leek, squares: c/A1, set out: Jul 5}\n"
    papers = {
        "garden.yaml": "\n".join(("name: T", "season: {start: Mar 1, end: Nov 30}", "beds:", *beds, "")),
        "2025/plan.yaml": "- {crop: kale, squares: b/A1, sow: Apr 5}\n",
        "2026/plan.yaml": "- {crop: leek, squares: c/A1, carried from: 2025, until: Apr 10}\n",
        "2026/harvest.yaml": "- {date: 2026-04-01, crop: leek, squares: c/A1, weight: 1 lb}\n",
    }
    content = written(tmp_path, papers) / "content"
    assert code in codes(content)
    plan = content / "2025" / "plan.yaml"
    plan.write_text(papers["2025/plan.yaml"] + row.replace("leek", "leeek"), encoding="utf-8")
    assert "unknown-crop" in codes(content)
    assert code not in codes(content)
