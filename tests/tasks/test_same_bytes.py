"""The same content gives the same bytes, whatever the clock, the language and the place of the machine."""

import os
import shutil
import subprocess
from collections.abc import Mapping
from pathlib import Path

from tallybed.tasks.start import start
from tests.tasks.test_build import COMMAND, tree
from tests.tools import ROOT

SURROUNDINGS = (
    {"TZ": "UTC", "LC_ALL": "C", "PYTHONHASHSEED": "0"},
    {"TZ": "Pacific/Kiritimati", "LC_ALL": "tr_TR.UTF-8", "PYTHONHASHSEED": "4242"},
    {"TZ": "Pacific/Niue", "LC_ALL": "de_DE.ISO-8859-1", "PYTHONHASHSEED": "1", "PYTHONUTF8": "0"},
)


def built_in(surroundings: Mapping[str, str], garden: Path, site: Path, cwd: Path) -> dict[str, bytes]:
    cwd.mkdir(exist_ok=True)
    done = subprocess.run(
        [*COMMAND, "build", str(garden), "--to", str(site), "--quiet"],
        env={**os.environ, **surroundings},
        cwd=cwd,
        capture_output=True,
        check=False,
        timeout=300,
    )
    assert done.returncode == 0, done.stderr.decode(errors="replace")
    return tree(site)


def same(one: Mapping[str, bytes], other: Mapping[str, bytes]) -> None:
    assert one
    assert other.keys() == one.keys()
    assert [path for path in one if one[path] != other[path]] == []


def test_the_same_content_gives_the_same_bytes_anywhere(tmp_path: Path) -> None:
    garden = tmp_path / "garden"
    start(garden, 2026)
    first, *others = (
        built_in(surroundings, garden, tmp_path / f"site{number}" / "out", tmp_path / f"cwd{number}")
        for number, surroundings in enumerate(SURROUNDINGS)
    )
    for other in others:
        same(first, other)


def test_the_demonstration_is_the_same_bytes_anywhere(demo: Path, tmp_path: Path) -> None:
    """As built here, in surroundings of its own, and as built by the command in the oddest of those above.

    The committed site, built on yet another machine, is held against the first in tests/whole.
    """
    shutil.copytree(ROOT / "content", tmp_path / "copy" / "content")
    other = built_in(SURROUNDINGS[-1], tmp_path / "copy", tmp_path / "site" / "out", tmp_path / "cwd")
    same(tree(demo), other)
