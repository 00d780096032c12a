"""Every page, drawing and style sheet is valid: the Nu Html Checker (vnu-jar, see package.json)."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from tests import tools

ALLOWED: Mapping[str, str] = {}
"""Warnings that stand, each with the reason why."""


def messages(folder: Path) -> list[dict[str, Any]]:
    """Return what the checker says of all HTML, SVG and CSS in a folder."""
    jar = tools.packaged("vnu-jar", "build", "dist", "vnu.jar")
    done = subprocess.run(
        [
            tools.java(),
            *("-Xss4m", "-jar", str(jar), "--skip-non-html", "--also-check-svg", "--also-check-css"),
            *("--format", "json", str(folder)),
        ],
        capture_output=True,
        text=True,
        check=False,
    )
    found: list[dict[str, Any]] = json.loads(done.stderr)["messages"]
    return found


def test_every_page_is_valid(demo: Path) -> None:
    wrong = {
        f"{message['url'].removeprefix(demo.as_uri())}:{message.get('lastLine')}: {message['message']}"
        for message in messages(demo)
        if message["message"] not in ALLOWED
    }
    assert sorted(wrong)[:40] == []


def test_the_checker_sees_what_is_wrong(tmp_path: Path) -> None:
    page = '<!DOCTYPE html><html lang="en"><title>x</title><p id="a"><ul><li id="a"></ul></p><img src="x">'
    (tmp_path / "wrong.html").write_text(page, encoding="utf-8")
    (tmp_path / "wrong.css").write_text("p { colr: red }", encoding="utf-8")
    (tmp_path / "wrong.svg").write_text(
        '<svg xmlns="http://www.w3.org/2000/svg"><circle r="1" radius="2"/></svg>', encoding="utf-8"
    )
    told = {Path(message["url"]).name for message in messages(tmp_path) if message["type"] == "error"}
    assert told == {"wrong.html", "wrong.css", "wrong.svg"}
