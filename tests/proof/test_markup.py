"""Pages, drawings and style sheets are valid: the Nu Html Checker (vnu-jar, see package.json)."""

from __future__ import annotations

import json
import os
import subprocess
from collections.abc import Mapping
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit
from urllib.request import url2pathname

import pytest

from tests import tools
from tests.proof.conftest import KIND

EACH = 1 if os.environ.get("EVERY") else 4
"""Of the pages of a kind, by size, each fourth is looked at, and the largest; all with ``EVERY=1``."""
ALLOWED: Mapping[str, str] = {}
"""Warnings that stand, each with the reason why."""


QUICK = ("-XX:+IgnoreUnrecognizedVMOptions", "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xss4m")
"""For a run of half a minute, in which Java's best compiler costs more than it saves."""
WRONG = {
    "wrong.html": '<!DOCTYPE html><html lang="en"><title>x</title><p id="a"><ul><li id="a"></ul></p>'
    '<img src="x">',
    "wrong.css": "p { colr: red }",
    "wrong.svg": '<svg xmlns="http://www.w3.org/2000/svg"><circle r="1" radius="2"/></svg>',
}


@pytest.fixture(scope="module")
def wrong(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder of files that are wrong."""
    folder = tmp_path_factory.mktemp("wrong")
    for name, text in WRONG.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder


@pytest.fixture(scope="module")
def told(demo: Path, wrong: Path) -> list[dict[str, Any]]:
    """What the checker says of the site, and in the same run of files that are wrong."""
    return messages(*looked_at(demo), wrong)


def looked_at(demo: Path) -> list[Path]:
    """The files of the site that are looked at: some pages of every kind, all that are no pages."""
    kinds: dict[str, list[Path]] = {}
    others = [path for ending in ("css", "svg") for path in sorted(demo.rglob(f"*.{ending}"))]
    for path in sorted(demo.rglob("*.html")):
        kind = KIND.search(path.read_text(encoding="utf-8"))
        kinds.setdefault(kind[1] if kind else "", []).append(path)
    for pages in kinds.values():
        pages.sort(key=lambda path: (path.stat().st_size, path))
        others += [*pages[:-1:EACH], pages[-1]]
    return others


def messages(*places: Path) -> list[dict[str, Any]]:
    """Return what the checker says of some files, and of all HTML, SVG and CSS in some folders."""
    jar = tools.packaged("vnu-jar", "build", "dist", "vnu.jar")
    done = subprocess.run(
        [
            tools.java(),
            *(*QUICK, "-jar", str(jar), "--skip-non-html", "--also-check-svg", "--also-check-css"),
            *("--format", "json", *map(str, places)),
        ],
        capture_output=True,
        text=True,
        check=False,
    )
    found: list[dict[str, Any]] = json.loads(done.stderr)["messages"]
    return found


def file_of(message: Mapping[str, Any]) -> Path:
    """Return the file that a message is about: its address begins ``file:/`` or ``file:///``."""
    return Path(url2pathname(urlsplit(message["url"]).path))


def test_pages_are_valid(wrong: Path, told: list[dict[str, Any]]) -> None:
    """Whatever is said of anything but the files that are wrong on purpose is said of the site."""
    found = {
        f"{message['url']}:{message.get('lastLine')}: {message['message']}"
        for message in told
        if file_of(message).parent != wrong and message["message"] not in ALLOWED
    }
    assert sorted(found)[:40] == []


def test_the_checker_sees_what_is_wrong(wrong: Path, told: list[dict[str, Any]]) -> None:
    seen = {file_of(message) for message in told if message["type"] == "error"}
    assert seen == {wrong / name for name in WRONG}
