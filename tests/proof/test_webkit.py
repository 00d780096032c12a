"""Sheets and pages printed by WebKit, as its print dialog does; there it is a person who turns the paper."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest

from tests import tools
from tests.proof import sheets

JOBS = [
    *(
        (name, size, "landscape" if lying else "portrait")
        for name, lying in sheets.NAMES.items()
        for size in sheets.SIZES
    ),
    ("sheets/sign/elbow", "iso_a4", "portrait"),
    ("", "iso_a4", "portrait"),
]
"""Page, paper, and how it lies. The last but one is a sign on paper that nobody turned."""


@pytest.fixture(scope="module")
def webkit(demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that everything is printed to, by one process."""
    folder = tmp_path_factory.mktemp("webkit")
    lines = (
        "\t".join(((demo / name / "index.html").as_uri(), size, lie, str(printed(folder, name, size, lie))))
        for name, size, lie in JOBS
    )
    script = Path(__file__).parent / "webkit_prints.py"
    done = subprocess.run(
        [*tools.webkit(), str(script)], input="\n".join(lines), capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr[-500:]
    return folder


def printed(folder: Path, name: str, size: str, lie: str) -> Path:
    """Return the file that a job prints to."""
    return folder / f"{name.replace('/', '-') or 'first'}-{size}-{lie}.pdf"


@pytest.mark.parametrize(("name", "size", "lie"), JOBS[:-1])
def test_each_sheet_is_whole(webkit: Path, demo: Path, name: str, size: str, lie: str) -> None:
    sheets.held_to_it(demo, name, size, printed(webkit, name, size, lie), lying=lie == "landscape")


def test_the_first_page_begins_on_the_first_sheet(webkit: Path) -> None:
    first = sheets.sheets_of(printed(webkit, *JOBS[-1]))
    assert "The beds on" in first[0].text
    assert 1 <= len(first) <= 20
