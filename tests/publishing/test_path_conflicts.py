"""Names that gardeners choose and no site can have are told where they were chosen."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from tallybed.garden.findings import Severity
from tallybed.garden.garden import Garden
from tallybed.publishing.path_conflicts import unfit_paths
from tallybed.tasks.build import make
from tallybed.tasks.site.reckoned import reckoned


def write(file: Path, text: str) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")


LEAF = "---\ntitle: X\n---\nhello\n"
QUESTION = "---\nquestion: X?\n---\nhello\n"
CROP = """
- new: con
  plural: cons
  family: Apiaceae
  habit: root
  start: sown
  letters: Cn
  spacing: 4 in
  source: a leaflet
"""


def rename_bed(garden: Path) -> None:
    file = garden / "content" / "garden.yaml"
    write(file, file.read_text(encoding="utf-8").replace("name: gate", "name: aux"))


CASES: list[tuple[str, str, Callable[[Path], None]]] = [
    ("name-unfit", "content/con.md", lambda garden: write(garden / "content/con.md", LEAF)),
    (
        "name-unfit",
        "content/questions/nul.md",
        lambda garden: write(garden / "content/questions/nul.md", QUESTION),
    ),
    ("name-unfit", "content/garden.yaml", rename_bed),
    ("name-unfit", "content/crops.yaml", lambda garden: write(garden / "content/crops.yaml", CROP)),
    ("name-unfit", "layouts/lpt1.css", lambda garden: write(garden / "layouts/lpt1.css", "")),
    ("name-taken", "content/about.md", lambda garden: write(garden / "content/ABOUT.md", LEAF)),
    (
        "name-taken",
        "content/questions/how-big-is-the-bed.md",
        lambda garden: write(garden / "content/questions/How-Big-Is-The-Bed.md", QUESTION),
    ),
    ("name-taken", "layouts/style.css", lambda garden: write(garden / "layouts/Style.css", "")),
    (
        "name-taken",
        "layouts/index.html/x.svg",
        lambda garden: write(garden / "layouts/index.html/x.svg", "<svg/>"),
    ),
]


@pytest.mark.parametrize(
    ("code", "place", "spoil"), CASES, ids=[f"{code} {place}" for code, place, _ in CASES]
)
def test_such_a_name_is_an_error_at_its_place(
    garden: Path, code: str, place: str, spoil: Callable[[Path], None]
) -> None:
    spoil(garden)
    made = make(garden)
    errors = [one for one in made.findings if one.severity is Severity.ERROR]
    assert [(one.code, one.place.file) for one in errors] == [(code, place)]
    assert made.files == {}


def test_a_page_of_ours_in_a_wrong_place_is_never_blamed_on_the_garden() -> None:
    years = reckoned(Garden(name="G"))
    assert years.today < date(2000, 1, 1)
    with pytest.raises(ValueError, match="a page of our own"):
        unfit_paths(years, ["../index.html"], [])
    with pytest.raises(ValueError, match="a page of our own"):
        unfit_paths(years, ["index.html", "index.html"], [])
