"""What is kept of a build never shows: with it and without it, the same bytes, whatever was edited.

EDITS=300 .venv/bin/python -m pytest -n0 tests/tasks/test_kept.py
"""

from __future__ import annotations

import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from tallybed.pictures.rooms import FOLDER
from tallybed.publishing.paths import MARKER
from tallybed.tasks.build import build, make
from tallybed.tasks.site import beside, divided
from tallybed.tasks.site.making import Made
from tallybed.tasks.site.unchanged import Unchanged, made_of, note, unchanged
from tests.pages.gardens import LEDGER, LOG, QUESTION, written

EDITS = int(os.environ.get("EDITS", "30"))
GARDEN = """\
name: Three Plank Garden
address: https://planks.example/
units: pounds
licence: CC BY 4.0
season: {start: Apr 1, end: Jun 30}
freeze dates: {last spring: May 1, first fall: Oct 10}
supporters:
  - {words: Supported by the seed shop., address: "https://seeds.example/", from: 2025-01-01}
beds:
  - {name: front, title: The front bed, length: 2 squares, width: 2 squares}
  - {name: back, title: The back bed, length: 3 squares, width: 3 squares, omitted: [C3]}
seasons:
  2025: {closed: yes, note: A wet one.}
"""
PLAN = """\
- {crop: spinach, tag: SP1, squares: front/A1:B2, sow: Apr 5, until: Jun 1, per square: 9}
- {crop: carrot, tag: CA1, squares: back/A1:B1, sow: Apr 20, until: Jun 25}
- {crop: bean-bush, tag: BB1, squares: front/A1:B2, sow: Jun 5, per square: 9}
- {crop: okra, tag: OK1, squares: back/C1, sow: May 20, dropped: May 22, because: rotted}
"""
CARRIED = "- {crop: carrot, tag: CA2, squares: back/A1, carried from: 2025, until: Apr 15}\n"
YEARS = ("2025", "2026")
PLACES = ("/crops/carrot/", "/2026/", "/2026/tally/", "entry:2026-04-06-spinach-in", "/about/", "/2025/plan/")
KNOWN_CROPS = ("spinach", "carrot", "bean-bush", "okra", "radish")
pytestmark = pytest.mark.usefixtures("few_crops")


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return garden_in(tmp_path / "garden")


@pytest.fixture(scope="module")
def known(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path]:
    """A garden whose site is known as it lies, and a copy of both to put back what a test changes."""
    root = garden_in(tmp_path_factory.mktemp("known") / "garden")
    noted(root)
    copy = root.parent.parent / "copy"
    shutil.copytree(root.parent, copy)
    return root, copy


def garden_in(folder: Path) -> Path:
    """Write the garden that is edited here into a folder; return its own."""
    files = {"garden.yaml": GARDEN, "questions/why-so-few.md": QUESTION}
    files["about.md"] = "---\ntitle: About\n---\nUs.\n"
    told = {"plan.yaml": PLAN, "harvest.yaml": LEDGER, **{f"log/{name}": text for name, text in LOG.items()}}
    for year in YEARS:
        own = {f"{year}/{name}": text for name, text in told.items()}
        files |= {name.replace("2026", year): text.replace("2026", year) for name, text in own.items()}
    return written(folder, files)


def in_site(site: Path) -> dict[str, bytes]:
    """Every file of a site but its marker."""
    found = {path.relative_to(site).as_posix(): path for path in site.rglob("*") if path.is_file()}
    return {name: path.read_bytes() for name, path in found.items() if name != MARKER}


def differing(root: Path, site: Path) -> list[str]:
    """The paths that a site has otherwise than one made elsewhere, where nothing is kept."""
    with tempfile.TemporaryDirectory() as folder:
        apart = Path(folder) / "garden"
        shutil.copytree(root, apart, ignore=shutil.ignore_patterns(FOLDER, "site*", "good"))
        fresh, there = make(apart).files, in_site(site)
    return sorted(path for path in {*fresh, *there} if fresh.get(path) != there.get(path))


# --- edits -------------------------------------------------------------------------------------------


def _any_year(chance: random.Random, root: Path) -> Path:
    return root / "content" / chance.choice((*YEARS, "2026", "2026"))  # most is written in the open season


def _changed(path: Path, change: Callable[[str], str]) -> None:
    path.write_text(change(path.read_text(encoding="utf-8")), encoding="utf-8")


def weigh_more(chance: random.Random, root: Path) -> None:
    ledger = _any_year(chance, root) / "harvest.yaml"
    day = f"{ledger.parent.name}-06-{chance.randint(1, 28):02}"
    row = f"- {{date: {day}, crop: carrot, weight: {chance.randint(1, 30)} oz}}\n"
    _changed(ledger, lambda text: text + row)


def weigh_otherwise(chance: random.Random, root: Path) -> None:
    ledger = _any_year(chance, root) / "harvest.yaml"
    _changed(ledger, lambda text: text.replace("6 oz", f"{chance.randint(1, 15)} oz", 1))


def unweigh(chance: random.Random, root: Path) -> None:
    ledger = _any_year(chance, root) / "harvest.yaml"
    _changed(ledger, lambda text: "".join(text.splitlines(keepends=True)[: chance.randint(1, 6)]))


def plan_otherwise(chance: random.Random, root: Path) -> None:
    plan = _any_year(chance, root) / "plan.yaml"
    _changed(plan, lambda text: re.sub(r"until: Jun 2\d", f"until: Jun 2{chance.randint(0, 9)}", text))


def carry_over_or_not(_chance: random.Random, root: Path) -> None:
    plan = root / "content/2026/plan.yaml"
    _changed(plan, lambda text: text.replace(CARRIED, "") if CARRIED in text else text + CARRIED)


def visit(chance: random.Random, root: Path) -> None:
    folder = _any_year(chance, root) / "log"
    day = f"{folder.parent.name}-05-{chance.randint(1, 28):02}"
    held = f"hold until: 2026-06-{chance.randint(1, 28):02}\n" if chance.random() < 0.3 else ""
    head = f"title: Visit {chance.randint(1, 99)}\ndate: {day}\n{held}"
    prose = f"See [there]({chance.choice(PLACES)}).\n"
    text = f"---\n{head}done:\n  - {{water: bed, squares: back}}\n---\n{prose}"
    (folder / f"{day}-visit.md").write_text(text, encoding="utf-8")


def forget_a_visit(chance: random.Random, root: Path) -> None:
    found = sorted((root / "content").glob("*/log/*.md"))
    if len(found) > 4:
        chance.choice(found).unlink()


def rename_a_visit(chance: random.Random, root: Path) -> None:
    path = chance.choice(sorted((root / "content").glob("*/log/*.md")))
    path.rename(path.with_name(f"{path.name[:10]}-named-{chance.randint(1, 99)}.md"))


def treat(chance: random.Random, root: Path) -> None:
    path = chance.choice(sorted((root / "content").glob("*/log/*.md")))
    wait = f"wait: {chance.randint(0, 60)} days, re-entry: 4 hours"
    line = f"  - {{treat: oil, crop: carrot, squares: back/A1, {wait}}}\n"
    _changed(path, lambda text: text.replace("done:\n", f"done:\n{line}", 1))


def measure(chance: random.Random, root: Path) -> None:
    path = _any_year(chance, root) / "weather.csv"
    if path.exists() and chance.random() < 0.3:
        path.unlink()
        return
    days = "".join(
        f"{path.parent.name}-05-{day:02},{chance.randint(25, 60)},0.{chance.randint(0, 9)}\n"
        for day in range(1, chance.randint(3, 29))
    )
    path.write_text(f"date,low F,rain in\n{days}", encoding="utf-8")


def rename_the_garden(chance: random.Random, root: Path) -> None:
    name = f"name: Garden {chance.randint(1, 9)}"
    _changed(root / "content/garden.yaml", lambda text: re.sub(r"^name: .*", name, text))


def support_otherwise(chance: random.Random, root: Path) -> None:
    day = f"from: 202{chance.randint(5, 6)}-0{chance.randint(1, 9)}-01"
    _changed(root / "content/garden.yaml", lambda text: re.sub(r"from: [\d-]+", day, text))


def close_or_open(chance: random.Random, root: Path) -> None:
    year = chance.choice(YEARS)
    answer = chance.choice(["yes", "no"])

    def change(text: str) -> str:
        if f"  {year}: " not in text:
            return f"{text}  {year}: {{closed: {answer}}}\n"
        return re.sub(rf"(  {year}: {{closed: )\w+", rf"\g<1>{answer}", text)

    _changed(root / "content/garden.yaml", change)


def bed_there(chance: random.Random, root: Path) -> None:
    """Add a bed that no record names, or say otherwise when it is there."""
    when = chance.choice(["", *(f", {key}: {year}" for key in ("since", "until") for year in YEARS)])
    line = f"  - {{name: side, length: 1 squares, width: 2 squares{when}}}\n"

    def change(text: str) -> str:
        bare = re.sub(r"  - {name: side, .*\n", "", text)
        return bare.replace("seasons:\n", f"{line}seasons:\n")

    _changed(root / "content/garden.yaml", change)


def ask(chance: random.Random, root: Path) -> None:
    name = f"questions/asked-{chance.randint(1, 5)}.md"
    held = "hold until: 2026-06-20\n" if chance.random() < 0.3 else ""
    written(root, {name: f"---\nquestion: Why {chance.randint(1, 99)}?\n{held}about: [spinach]\n---\nSo.\n"})


def own_page(chance: random.Random, root: Path) -> None:
    path = root / "content" / f"leaf-{chance.randint(1, 3)}.md"
    if path.exists():
        path.unlink()
    else:
        path.write_text(f"---\ntitle: Leaf {chance.randint(1, 9)}\norder: 2\n---\nWords.\n", encoding="utf-8")


def own_layout(chance: random.Random, root: Path) -> None:
    layouts = root / "layouts"
    if layouts.exists() and chance.random() < 0.5:
        shutil.rmtree(layouts)
        return
    layouts.mkdir(exist_ok=True)
    (layouts / "leaf.html").write_text(
        "{% extends 'tallybed/leaf.html' %}{# " + str(chance.randint(1, 99)) + " #}", encoding="utf-8"
    )


def spoil(chance: random.Random, root: Path) -> None:
    """Make a mistake for which nothing is built."""
    ledger = _any_year(chance, root) / "harvest.yaml"
    _changed(ledger, lambda text: text + "- {date: 2026-05-05, crop: carrot, weight: ten}\n")


def lose_a_page(chance: random.Random, root: Path) -> None:
    path = chance.choice(sorted((root / "site").rglob("*.html")))
    path.unlink()


EVERY = (
    *(weigh_more, weigh_more, weigh_otherwise, unweigh, plan_otherwise, visit, visit, forget_a_visit),
    *(
        rename_a_visit,
        treat,
        measure,
        measure,
        rename_the_garden,
        support_otherwise,
        close_or_open,
        ask,
        own_page,
        own_layout,
    ),
    *(spoil, lose_a_page, bed_there, bed_there, carry_over_or_not),
)


ADDED = re.compile(rb"<!-- notices added later -->.*?<!-- end of notices added later -->\n", re.DOTALL)
"""What a build with errors may add to the last good site: notices that protect people."""


def test_after_any_edit_the_site_is_what_it_would_be_without_anything_kept(root: Path) -> None:
    chance = random.Random(EDITS)
    assert build(root).good
    kept_often = built = 0
    for number in range(EDITS):
        edit = chance.choice(EVERY)
        shutil.copytree(root / "content", root.parent / "good", dirs_exist_ok=True)
        edit(chance, root)
        before = in_site(root / "site")
        found = build(root)
        if not found.good:
            after = in_site(root / "site")
            now, then = (
                {path: ADDED.sub(b"", data) for path, data in one.items()} for one in (after, before)
            )
            assert now == then, f"{number}: {edit.__name__} touched the last good site"
            assert (after == before) == (found.warned == 0), f"{number}: {edit.__name__}"
            shutil.rmtree(root / "content")
            (root.parent / "good").rename(root / "content")
            continue
        shutil.rmtree(root.parent / "good")
        built += 1
        kept_often += found.kept
        assert differing(root, root / "site") == [], f"{number}: {edit.__name__}"
    assert built > EDITS / 2, "too few edits left a garden that can be built"
    assert kept_often > built / 20, "what closed seasons had was hardly ever kept, so nothing was tried"


def test_one_weighing_changes_no_page_of_a_closed_season(root: Path) -> None:
    assert build(root).good
    before = in_site(root / "site")
    _changed(
        root / "content/2026/harvest.yaml",
        lambda text: text + "- {date: 2026-06-29, crop: carrot, weight: 3 oz}\n",
    )
    found = build(root)
    assert found.kept
    after = in_site(root / "site")
    changed = {path for path in {*before, *after} if before.get(path) != after.get(path)}
    assert "2026/tally/index.html" in changed
    assert not {path for path in changed if path.startswith("2025/")}
    assert not {path for path in changed if "poster/202" in path and "2026" not in path}


@pytest.mark.parametrize(("when", "as_it_was"), [(", since: 2026", True), ("", False)])
def test_a_bed_that_is_there_since_the_running_season_changes_no_file_of_a_closed_one(
    root: Path, when: str, as_it_was: bool
) -> None:
    assert build(root).good
    before = in_site(root / "site")
    line = f"  - {{name: side, title: The side bed, length: 2 squares, width: 2 squares{when}}}\n"
    _changed(root / "content/garden.yaml", lambda text: text.replace("seasons:\n", f"{line}seasons:\n"))
    assert build(root).good
    after = in_site(root / "site")
    assert differing(root, root / "site") == []
    changed = {path for path in {*before, *after} if before.get(path) != after.get(path)}
    assert {"index.html", "2026/index.html", "2026/beds/side/index.html"} <= changed
    # What leads on from where the bed may have been published is new, and changes nothing that was there.
    closed = {path for path in changed & set(before) if path.startswith("2025/") or "poster/2025" in path}
    assert (closed == set()) is as_it_was, sorted(closed)


def test_a_closed_season_leads_on_to_what_the_open_one_carried_over(root: Path) -> None:
    """Fails where what was kept of the closed season is left as it was."""
    assert build(root).good
    _changed(root / "content/2026/plan.yaml", lambda text: text + CARRIED)
    assert build(root).good
    assert b"2026/plants/CA2/" in (root / "site/2025/plants/CA1/index.html").read_bytes()
    assert differing(root, root / "site") == []


@pytest.mark.parametrize("more", [0, 1, 3])
def test_one_process_and_several_make_the_same_bytes(
    root: Path, monkeypatch: pytest.MonkeyPatch, more: int
) -> None:
    if more and not hasattr(os, "fork"):
        pytest.skip("this system cannot divide a process")
    monkeypatch.setattr(divided, "processes_beside", lambda: more)
    assert build(root, root.parent / "site").good
    assert differing(root, root.parent / "site") == []


def test_another_process_that_fails_ends_the_build_and_leaves_the_site(
    root: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not hasattr(os, "fork"):
        pytest.skip("this system cannot divide a process")
    assert build(root).good
    before = in_site(root / "site")
    rename_the_garden(random.Random(2), root)

    first, make_closed = os.getpid(), divided.make_closed

    def failing(*given: Any) -> Made:
        if os.getpid() != first:
            raise RuntimeError("out of luck")
        return make_closed(*given)

    monkeypatch.setattr(divided, "processes_beside", lambda: 1)
    monkeypatch.setattr(divided, "make_closed", failing)
    with pytest.raises(beside.BesideError, match="RuntimeError: out of luck"):
        build(root)
    assert in_site(root / "site") == before
    assert not list(root.glob(".site.tallybed-*"))


# --- nothing changed ---------------------------------------------------------------------------------


def noted(root: Path, site: str = "site") -> str:
    """Build a garden as the command does; return the hash of what its site is made of."""
    source = made_of(root, as_of=None)
    found = build(root, root / site)
    assert found.today is not None
    told = Unchanged(findings=found.findings, pages=found.pages, today=found.today)
    note(root, root / site, source, found.marker, told)
    return source


def test_a_site_that_is_as_it_would_be_made_is_known_with_all_that_was_told(root: Path) -> None:
    weigh_otherwise(random.Random(3), root)
    source = noted(root)
    found = unchanged(root, root / "site", source)
    again = build(root)
    assert found is not None
    assert found.findings == again.findings
    assert found.findings, "the garden itself has nothing that could be told"
    assert (found.pages, found.today) == (again.pages, again.today)


@pytest.mark.parametrize(
    "change",
    [
        lambda root: (root / "content/about.md").write_text("---\ntitle: About\n---\nThem.\n"),
        lambda root: (root / "content/2026/log/2026-04-06-spinach-in.md").unlink(),
        lambda root: (root / "content/2026/note.txt").write_text("x"),
        lambda root: written(root, {"../layouts/leaf.html": "x"}),
        lambda root: (root / "site/index.html").write_text("by hand"),
        lambda root: (root / "site/2025/index.html").unlink(),
        lambda root: (root / "site/more.html").write_text("by hand"),
        lambda root: (root / "site" / MARKER).write_text("{}"),
        lambda root: (root / ".site.tallybed-new").mkdir(),
        lambda root: [path.write_text("{") for path in (root / ".tallybed-cache/built").iterdir()],
        lambda root: [path.write_text("[]") for path in (root / ".tallybed-cache/built").iterdir()],
    ],
)
def test_whatever_changed_it_is_built_again(
    known: tuple[Path, Path], change: Callable[[Path], object]
) -> None:
    root, copy = known
    shutil.rmtree(root.parent)
    shutil.copytree(copy, root.parent)
    source = made_of(root, as_of=None)
    assert unchanged(root, root / "site", source) is not None, "as it was put back, nothing has changed"
    change(root)
    assert unchanged(root, root / "site", made_of(root, as_of=None)) is None


def test_a_hand_over_left_halfway_is_seen_whatever_the_folder_is_called(root: Path) -> None:
    source = noted(root, "site [1]")
    assert unchanged(root, root / "site [1]", source) is not None
    (root / ".site [1].tallybed-new").mkdir()
    assert unchanged(root, root / "site [1]", source) is None


def test_another_question_is_another_site(root: Path) -> None:
    source = noted(root)
    assert unchanged(root, root / "public", source) is None
    assert made_of(root, as_of=build(root).today) != source


def test_where_nothing_changed_no_library_is_loaded(root: Path) -> None:
    """That it loads nothing is what makes it quick."""
    noted(root)
    code = (
        "import sys; from tallybed.cli import main; "
        "sys.argv[1:] = ['build', '--quiet', sys.argv[1]]; main(standalone_mode=False); "
        "print(sorted(sys.modules))"
    )
    asked = [sys.executable, "-c", code, str(root)]
    told = subprocess.run(asked, capture_output=True, text=True, check=True).stdout
    for library in (
        "jinja2",
        "yaml",
        "markdown",
        "svgwrite",
        "PIL",
        "ephem",
        "segno",
        "tallybed.garden.garden",
    ):
        assert f"'{library}'" not in told
