"""A command is a row of the guide, a module, a task and a section of the docs; it loads what it needs."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from tallybed.cli import COMMANDS, loaded, main
from tests.documents import sections
from tests.pages.gardens import folder
from tests.tools import ROOT

SOURCE = ROOT / "src" / "tallybed"
ROOMS = ("commands", "tasks")
NAMES = list(COMMANDS)


def module(name: str) -> str:
    return name.replace("-", "_")


@pytest.mark.parametrize("name", NAMES)
def test_a_command_has_a_module_and_a_task(name: str) -> None:
    for room in ROOMS:
        assert (SOURCE / room / f"{module(name)}.py").is_file(), f"{room}/{module(name)}.py is missing"
    assert isinstance(loaded(name), click.Command)


@pytest.mark.parametrize("room", ROOMS)
def test_a_module_has_a_row_in_the_guide(room: str) -> None:
    found = {path.stem for path in (SOURCE / room).glob("*.py")} - {"__init__"}
    assert found == set(map(module, NAMES))


@pytest.mark.parametrize("name", NAMES)
def test_a_command_has_a_section_in_the_docs(name: str) -> None:
    assert f"tallybed {name}" in sections("docs/commands.md"), f"no heading: tallybed {name}"


@pytest.mark.parametrize("name", NAMES)
def test_a_command_explains_itself(name: str) -> None:
    done = CliRunner().invoke(main, [name, "--help"])
    assert done.exit_code == 0
    assert f"main {name} " in done.stdout


def test_the_list_of_commands_is_the_guide() -> None:
    lines = CliRunner().invoke(main, ["--help"], terminal_width=200).stdout.splitlines()
    rows = [line.strip().partition(" ") for line in lines[lines.index("Commands:") + 1 :]]
    listed = [(name, words.strip()) for name, _gap, words in rows]
    assert dict(listed) == COMMANDS
    assert [name for name, _words in listed] == NAMES, "they are not in the guide's order"


LIBRARIES = {
    *("PIL", "ephem", "feedgenerator", "icalendar", "jinja2", "markdown", "nh3", "openpyxl", "segno"),
    *("svgwrite", "watchfiles", "werkzeug", "yaml"),
    *("http", "logging", "multiprocessing", "sqlite3", "zipfile"),
}
"""What takes its time to load: most libraries the project depends on, and what of Python's own is large."""
_LOADED = """
import json, sys
from tallybed.cli import main
try:
    main(sys.argv[1:], standalone_mode=False)
except SystemExit:
    pass
print()
print(json.dumps(sorted(sys.modules)))
"""


def modules_of(*words: str | Path) -> tuple[set[str], set[str]]:
    """The libraries and the packages of Tallybed that a command loads."""
    done = subprocess.run(
        [sys.executable, "-c", _LOADED, *map(str, words)],
        capture_output=True,
        text=True,
        check=True,
        timeout=120,
    )
    modules = json.loads(done.stdout.splitlines()[-1])
    rooms = {
        ".".join(one.split(".")[:2]) for one in modules if one.startswith("tallybed.") and one not in SHELVES
    }
    return LIBRARIES & {one.split(".")[0] for one in modules}, {one.partition(".")[2] for one in rooms}


SHELVES = {"tallybed.pictures", "tallybed.pictures.rooms"}
"""Where what is kept lies; no picture is made there."""


@pytest.mark.parametrize("words", [["--help"], ["--version"], ["start", "--help"]], ids=" ".join)
def test_help_loads_no_library(words: list[str]) -> None:
    libraries, rooms = modules_of(*words)
    assert libraries <= {"zipfile"}, "Python's own way to tell a version brings that one along, and no other"
    assert not rooms & {"reading", "reckoning", "checks", "drawing", "pages", "pictures", "server"}


def test_weighing_loads_what_reads_papers_and_no_page(tmp_path: Path) -> None:
    garden = folder(tmp_path)
    libraries, rooms = modules_of("weigh", "SP1 1 lb", "--folder", garden, "--date", "2026-05-20", "--yes")
    assert "SP1" in (garden / "content/2026/harvest.yaml").read_text(encoding="utf-8").splitlines()[-1]
    assert libraries == {"yaml"}
    assert not rooms & {"checks", "drawing", "pages", "pictures", "server"}


def test_checking_fills_no_template_in_and_makes_no_file(tmp_path: Path) -> None:
    libraries, rooms = modules_of("check", folder(tmp_path))
    assert {"yaml", "PIL"} <= libraries, "it looks at records and photographs"
    unneeded = {"feedgenerator", "icalendar", "jinja2", "openpyxl", "watchfiles", "werkzeug"}
    assert not libraries & {*unneeded, "http", "multiprocessing", "zipfile"}
    assert not rooms & {"server", "writing"}


def test_checking_fills_in_the_templates_of_a_garden_that_has_its_own(tmp_path: Path) -> None:
    garden = folder(tmp_path)
    (garden / "layouts").mkdir()
    (garden / "layouts" / "home.html").write_text("<h1>\n{{ page.titel }}\n")
    done = CliRunner().invoke(main, ["check", str(garden)])
    assert done.exit_code == 1
    assert "layouts/home.html:2:1: error: the page index.html cannot be made" in done.stderr


@pytest.mark.parametrize("name", sorted(LIBRARIES))
def test_a_library_that_is_watched_for_is_there(name: str) -> None:
    """Else a name written wrong would never be met, and the tests above could not fail."""
    assert subprocess.run([sys.executable, "-c", f"import {name}"], check=False).returncode == 0
