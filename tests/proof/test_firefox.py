"""Sheets and pages printed by Firefox, straight from its print command: nothing is chosen but the paper."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests import tools
from tests.proof import sheets
from tests.proof.bidi import Firefox, started

CENTIMETRES = {"na_letter": (21.59, 27.94), "iso_a4": (21.0, 29.7)}


@pytest.fixture(scope="module")
def firefox(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Firefox]:
    """The machine's own browser of that family, without a window."""
    with started(tools.firefox(), tmp_path_factory.mktemp("profile")) as browser:
        yield browser


@pytest.mark.parametrize("size", sheets.SIZES)
@pytest.mark.parametrize("name", sheets.NAMES)
def test_each_sheet_fills_its_paper(
    firefox: Firefox, demo: Path, tmp_path: Path, name: str, size: str
) -> None:
    paper = tmp_path / "paper.pdf"
    paper.write_bytes(firefox.printed(demo / name / "index.html", *CENTIMETRES[size]))
    sheets.held_to_it(demo, name, size, paper, lying=sheets.NAMES[name])


def test_the_first_page_begins_on_the_first_sheet(firefox: Firefox, demo: Path) -> None:
    first = sheets.sheets_of(firefox.printed(demo / "index.html", *CENTIMETRES["iso_a4"]))
    assert "The beds on" in first[0].text
    assert 1 <= len(first) <= 20
    assert first[0].height > first[0].width


def test_paper_has_the_plan_that_the_page_folds_away(firefox: Firefox, demo: Path) -> None:
    printed = sheets.sheets_of(firefox.printed(demo / "2026/plants/index.html", *CENTIMETRES["iso_a4"]))
    assert "What the plan has" in "".join(sheet.text for sheet in printed)


def test_a_sheet_on_other_paper_would_be_seen(firefox: Firefox, demo: Path, tmp_path: Path) -> None:
    paper = tmp_path / "paper.pdf"
    paper.write_bytes(firefox.printed(demo / "sheets/sign/elbow/index.html", 14.8, 21.0))
    with pytest.raises(AssertionError, match="does not lie as it should"):
        sheets.held_to_it(demo, "sheets/sign/elbow", "iso_a4", paper, lying=True)
