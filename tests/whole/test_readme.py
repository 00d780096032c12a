"""What the README shows is what the program reads."""

import re
from pathlib import Path

import pytest
from PIL import Image

from tallybed.garden.findings import worded
from tallybed.reading.folder.garden_folder import read
from tallybed.tasks.build import build
from tests.tools import ROOT

README = (ROOT / "README.md").read_text(encoding="utf-8")


def examples() -> dict[str, str]:
    """The reference's examples by the file they belong to: the first block under each heading with a path."""
    found: dict[str, str] = {}
    for part in re.split(r"^### ", README, flags=re.MULTILINE)[1:]:
        path = re.match(r"(content/[\w./-]+)", part)
        block = re.search(r"^```\w+\n(.*?)^```$", part, flags=re.MULTILINE | re.DOTALL)
        if path and block:
            found[path[1]] = block[1]
    return found


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    for name, text in examples().items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    photos = tmp_path / "content" / "2026" / "photos"
    photos.mkdir()
    for name in ("peas.jpg", "crew.jpg"):
        Image.new("RGB", (8, 8), "green").save(photos / name)
    return tmp_path


def test_there_is_an_example_of_every_kind_of_file():
    assert sorted(examples()) == [
        "content/2026/harvest.yaml",
        "content/2026/log/2026-04-19-peas-are-up.md",
        "content/2026/names.yaml",
        "content/2026/plan.yaml",
        "content/about.md",
        "content/crops.yaml",
        "content/garden.yaml",
        "content/questions/one-tomato.md",
        "content/take-in.yaml",
        "content/withdrawn.yaml",
    ]


def test_the_examples_are_read_without_a_word(garden: Path):
    assert [worded(one) for one in read(garden).findings] == []


def test_the_examples_build(garden: Path):
    built = build(garden, garden / "site")
    assert built.good
    assert (garden / "site" / "index.html").is_file()


def test_every_command_is_in_the_readme():
    from tallybed.cli import main

    for name in sorted(main.commands):  # type: ignore[attr-defined]
        assert f"tallybed {name}" in README, f"the README does not speak of `tallybed {name}`"
