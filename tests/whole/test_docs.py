"""What the pages of ``docs/`` show is what the program reads and takes."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import click
import pytest
from PIL import Image

from tallybed import cli
from tallybed.cli import loaded
from tallybed.garden.findings import worded
from tallybed.garden.garden import Garden
from tallybed.reading.base.problems import Problems
from tallybed.reading.folder.garden_folder import read
from tallybed.reading.scale.line import pickings
from tallybed.reading.scale.vocabulary import Vocabulary
from tallybed.reading.spreadsheet.record import taken_files
from tallybed.reading.text import measures
from tallybed.tasks.build import build
from tests.documents import PAGES, blocks, sections

COMMANDS = {name: loaded(name) for name in cli.COMMANDS}


# --- the files ----------------------------------------------------------------------------------------


def examples() -> dict[str, str]:
    """The examples of docs/files.md by the file they belong to: the first block under its heading."""
    found: dict[str, str] = {}
    for part in sections("docs/files.md").values():
        path = re.search(r"^File: `(content/[\w./-]+)`", part, flags=re.MULTILINE)
        if path:
            found[path[1]] = blocks(part)[0]
    return found


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The examples as one garden."""
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
        "content/2026/costs.yaml",
        "content/2026/harvest.yaml",
        "content/2026/log/2026-04-19-peas-are-up.md",
        "content/2026/names.yaml",
        "content/2026/plan.yaml",
        "content/2026/prices.yaml",
        "content/2026/taken-in.yaml",
        "content/2026/weather.csv",
        "content/about.md",
        "content/crops.yaml",
        "content/garden.yaml",
        "content/questions/one-tomato.md",
        "content/soil.yaml",
        "content/take-in.yaml",
        "content/withdrawn.yaml",
    ]


def test_the_examples_are_read_without_a_word(folder: Path):
    assert [worded(one) for one in read(folder).findings] == []


def test_the_record_of_what_was_taken_is_read_without_a_word():
    problems = Problems()
    (one,) = taken_files(examples()["content/2026/taken-in.yaml"], "taken-in.yaml", problems).values()
    assert (one.name, len(one.rows), problems.all()) == ("kitchen.xlsx", 1, ())


def test_the_examples_build(folder: Path):
    built = build(folder, folder / "site")
    assert built.good
    assert (folder / "site" / "index.html").is_file()


# --- the commands -------------------------------------------------------------------------------------


def section_of(command: str) -> str:
    return sections("docs/commands.md")[f"tallybed {command}"].lstrip()


def test_every_command_has_a_section_and_every_section_a_command():
    headings = [name for name in sections("docs/commands.md") if name.startswith("tallybed ")]
    assert sorted(headings) == sorted(f"tallybed {name}" for name in COMMANDS)


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_every_section_begins_with_how_the_command_is_typed(name: str):
    _options, *arguments = COMMANDS[name].collect_usage_pieces(click.Context(COMMANDS[name]))
    assert section_of(name).startswith(f"`{' '.join(['tallybed', name, *arguments])}`")


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_every_option_is_explained_and_every_one_explained_is_taken(name: str):
    told = re.findall(r"^\| `(--[\w-]+)` \|", section_of(name), flags=re.MULTILINE)
    options = (one for one in COMMANDS[name].params if isinstance(one, click.Option) and not one.hidden)
    assert sorted(told) == sorted(word for one in options for word in one.opts)


def typed() -> Iterator[tuple[str, str]]:
    """Every command that a block of a page shows, with the page."""
    for page, text in PAGES.items():
        indented = re.findall(r"^ {4}(.*)$", text, flags=re.MULTILINE)
        for line in [*"\n".join(blocks(text)).splitlines(), *indented]:
            for part in re.split(r" && |: (?=tallybed )", line.partition("    #")[0]):
                if re.match(r"tallybed \w", part):
                    yield page, part


def test_every_command_that_a_page_shows_is_one_that_the_program_takes():
    shown = list(typed())
    assert len(shown) >= 12
    for page, line in shown:
        name, *words = shlex.split(line)[1:]
        assert name in COMMANDS, f"{page}: {line}"
        try:
            COMMANDS[name].make_context(name, words)
        except click.ClickException as error:
            pytest.fail(f"{page}: {line}: {error.format_message()}")


# --- weighing -----------------------------------------------------------------------------------------


def test_every_line_for_the_scale_is_understood(folder: Path):
    garden = read(folder).garden
    assert isinstance(garden, Garden)
    vocabulary = Vocabulary.of(garden, garden.seasons[0])
    shown = re.findall(r"\| `([^`]+)` \|$", PAGES["docs/weighing.md"], flags=re.MULTILINE)
    assert len(shown) == 16
    told = {line: pickings(line, vocabulary, date(2026, 6, 2))[0] for line in shown}
    assert told["basil not weighed"].weight is None
    assert told["carrot about 2 lb"].estimated
    assert told["radish 16 9 oz"].count == 16
    assert told["carrot 3 lb 8"].weight_text == "3 lb 8 oz"
    assert told["beet 6 at 4 oz each"].weight == measures.weight("1 lb 8 oz")
    assert told["carrot 9 oz 5/14"].day == date(2026, 5, 14)
    assert [one.text for one in told["carrot 2 lb, 1 lb pantry, rest kitchen"].shares] == ["1 lb", "the rest"]
    assert told["radish 9 oz to food pantry"].to == "food pantry"
    assert told["carrot 12 oz as greens"].form == "greens"
    assert told["GA1 6 lb cured"].state == "cured"
    assert told["carrot 1 lb picked Jun 1"].day == date(2026, 6, 1)
    assert len(told["leaf lettuce + arugula + spinach 11 oz"].crops) == 3
    assert told["basil not weighed note a handful for the soup"].note == "a handful for the soup"
    assert [square.label for square in told["spinach 1 lb 6 oz long/A1-B1"].places[0]] == ["A1", "B1"]
