"""The README is short, what it tells to type works, and its links and those of the docs lead somewhere."""

from __future__ import annotations

import re
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner

from tallybed.cli import main
from tests.documents import PAGES, anchors, blocks, sections
from tests.tools import ROOT

README = PAGES["README.md"]
MOST_LINES = 90
"""Two screens."""


def test_the_readme_is_two_screens():
    assert len(README.splitlines()) <= MOST_LINES


def test_the_two_commands_are_those_of_the_gate():
    first, second = re.findall(r"^    (.*\.venv.*)$", README, flags=re.MULTILINE)
    assert first == "python3 -m venv .venv && .venv/bin/pip install -e . && .venv/bin/tallybed build"
    assert second == '.venv/bin/pip install -e ".[tests]" && .venv/bin/python -m pytest'
    gate = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    for step in ("-m venv .venv", "-e '.[tests]'", ".venv/bin/python -m pytest"):
        assert step in gate


def run(line: str, answer: str = "") -> str:
    done = CliRunner().invoke(main, shlex.split(line)[1:], input=answer)
    assert done.exit_code == 0, done.output
    return done.output


def test_the_ten_minutes_go_as_they_are_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(tmp_path)
    told = sections("README.md")["Your own garden, in ten minutes"]
    start, weigh, check, make = re.findall(r"^    (tallybed .*)$", told, flags=re.MULTILINE)
    garden, plan, log = (Path(name) for name in re.findall(r"`(my-garden/content/[\w/.-]+)`", told))
    row, visit = blocks(told)
    length, longer = re.findall(r"`(length: \d+ squares)`", told)
    run(start)
    before = garden.read_text(encoding="utf-8")
    assert length in before
    assert "The Bed by the Gate" in before
    garden.write_text(before.replace(length, longer), encoding="utf-8")
    plan.write_text(plan.read_text(encoding="utf-8") + row, encoding="utf-8")
    log.write_text(visit, encoding="utf-8")
    assert "Write this? [y/n]" in run(weigh, "y\n")
    assert re.findall(r"\[([\w-]+)\]$", run(check), flags=re.MULTILINE) == ["no-address"]
    run(make)
    page = Path("my-garden/site/2027/plants/KA1/index.html").read_text(encoding="utf-8")
    assert "6 oz" in page
    assert "15 May" in page


@pytest.mark.parametrize("page", sorted(PAGES))
def test_every_link_leads_somewhere(page: str):
    for target in re.findall(r"\]\(([^)\s]+)\)", re.sub(r"(?<!\[)`[^`\n]*`", "", PAGES[page])):
        if target.startswith("https://"):
            continue
        file, _sign, anchor = target.partition("#")
        path = ((ROOT / page).parent / file).resolve() if file else ROOT / page
        assert path.exists(), f"{page} leads to {target}, which is not there"
        known = anchors(path.read_text(encoding="utf-8")) if anchor else set()
        assert not anchor or anchor in known, f"{page} leads to {target}, a heading that is not there"


def test_every_page_of_docs_is_in_the_readme():
    for page in sorted(PAGES):
        assert page == "README.md" or f"]({page})" in README, page
