"""Bad-content cases: files of a tiny garden, and every finding that reading it must give, word for word.

A case is a YAML file in ``tests/cases/bad/``, named by the code it shows:

    what: a sentence
    files:                      # paths below the garden folder
      content/2026/plan.yaml: |
        - {crop: spinach, …}
      content/2026/log/x.md: {text: …, as: latin-1}    # another encoding
      content/…: {size: 100000000}                     # a file of that many bytes, taking no room
      content/…: {repeat: [["[", 10000]]}              # texts repeated
      content/…: {link: /etc}                          # a symbolic link
      content/…: {pipe: yes}                           # a named pipe
      content/garden.yaml: null                        # not there; else GARDEN stands there by itself
    finds: [every line that `tallybed check` would print, in order]
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from tallybed.garden.findings import has_errors, sorted_findings, worded
from tallybed.pages.frame.links import nowhere_links
from tallybed.reading.folder.garden_folder import read
from tallybed.tasks.site.reckoned import reckoned

LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
FOLDER = Path(__file__).parent.parent / "cases" / "bad"
GARDEN = """\
name: Tiny
beds:
  - {name: long, length: 4 squares, width: 2 squares}
season: {start: Mar 1, end: Nov 30}
"""


@cache
def load(path: Path) -> dict[str, Any]:
    """Return a case file's content, which nobody changes."""
    case = yaml.load(path.read_text(encoding="utf-8"), Loader=LOADER)
    assert set(case) == {"what", "files", "finds"}, f"{path.name}: a case has what, files, finds"
    return dict(case)


def lay_out(root: Path, files: Mapping[str, Any]) -> None:
    """Write a case's files below ``root``."""
    for name, content in ({"content/garden.yaml": GARDEN} | dict(files)).items():
        if content is None:
            continue
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        match content:
            case str():
                path.write_text(content, encoding="utf-8", newline="")
            case {"text": text, "as": encoding}:
                path.write_bytes(text.encode(encoding))
            case {"size": size}:
                with path.open("wb") as stream:
                    stream.truncate(size)
            case {"repeat": parts}:
                path.write_text("".join(text * times for text, times in parts), encoding="utf-8")
            case {"link": target}:
                path.symlink_to(target)
            case {"pipe": _}:
                os.mkfifo(path)
            case _:
                raise AssertionError(f"{name}: {content!r} is no content of a case file")


def told(root: Path) -> list[str]:
    """Return every line that a check of a garden's texts prints: those of reading, then of links."""
    found = read(root)
    findings = list(found.findings)
    if found.garden is not None and not has_errors(findings):
        whole = reckoned(found.garden, drafts=True)
        findings += nowhere_links(reckoned(found.garden), whole)
    return [worded(finding) for finding in sorted_findings(findings)]
