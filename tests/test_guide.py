"""The contributor guide speaks of what is there: packages, functions, files, dependencies."""

from __future__ import annotations

import re
import tomllib
from itertools import chain

from tests.documents import PAGES, blocks, sections
from tests.tools import ROOT

GUIDE = PAGES["DEVELOPERS.md"]
SOURCE = ROOT / "src" / "tallybed"


def packages() -> dict[str, str]:
    """The sentence of each package below the first, by its folder."""
    found = {}
    for path in sorted(SOURCE.rglob("*/__init__.py")):
        first = path.read_text(encoding="utf-8").partition("\n")[0]
        found[path.parent.relative_to(SOURCE).as_posix()] = first.strip('"')
    return found


def test_the_guide_has_every_package_with_its_own_sentence() -> None:
    told: dict[str, str] = {}
    above: list[str] = []
    for line in blocks(sections("DEVELOPERS.md")["The house"])[0].splitlines():
        match = re.fullmatch(r"( *)(\w+)/ +(\S.*)", line)
        assert match, line
        above = [*above[: len(match[1]) // 2], match[2]]
        told["/".join(above)] = match[3]
    assert told == packages()


def test_the_layers_are_those_of_the_contract() -> None:
    contract = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["tool"]["importlinter"]
    told = blocks(sections("DEVELOPERS.md")["The house"])[1].splitlines()
    assert told == contract["contracts"][0]["layers"]


def test_the_functions_of_its_tables_are_there() -> None:
    """Rows that begin with a module, then the names in it; and those of the glossary, the other way round."""
    steps = re.findall(r"^\| `([\w/]+\.py)` \| (.*?) \|", GUIDE, flags=re.MULTILINE)
    nouns = re.findall(r"^\| (`.*?) \| `([\w/]+\.py)` \|", GUIDE, flags=re.MULTILINE)
    assert len(steps) > 30
    assert len(nouns) > 15
    for module, names in [*steps, *((module, names) for names, module in nouns)]:
        text = (SOURCE / module).read_text(encoding="utf-8")
        for name in re.findall(r"`(\w+)`", names):
            there = re.search(rf"^\s*(def|class) {name}\b|^{name}\b.* = ", text, flags=re.MULTILINE)
            assert there, f"{module} has no {name}"


def test_the_files_it_names_are_there() -> None:
    homes = (ROOT, SOURCE, SOURCE / "garden")
    named = re.findall(r"`((?:[\w.-]+/)+(?:[\w.-]+\.(?:py|html|css|yaml|md))?)`", GUIDE)
    assert len(named) > 60
    for name in sorted(set(named)):
        if "X" not in name:  # which stands for a name of one's own
            assert any((home / name).exists() for home in homes), f"there is no {name}"


def test_it_says_why_each_dependency_is_there() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    needed = chain(project["dependencies"], *project["optional-dependencies"].values())
    names = {re.split(r"[^\w-]", one)[0] for one in needed}
    table = sections("DEVELOPERS.md")["Dependencies, and why each is there"]
    rows = re.findall(r"^\| (.*?) \|", table, flags=re.MULTILINE)
    told = {name.partition(" ")[0] for row in rows for name in row.split(", ")}
    wanted = {name for name in names if not name.startswith("types-")}
    assert wanted - told == set()
