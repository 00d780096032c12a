"""Every mistake a gardener can make in the files, told word for word at its place."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest

from tallybed.reading.base.codes import CODES
from tests.reading.bad_cases import FOLDER, lay_out, load, told

CASES = sorted(FOLDER.iterdir())
LARGE = {"too-many-values-1"}
"""Takes a second to read, in the gate; ``yaml/test_nodes.py`` holds the same of a smaller limit."""
IN_GATE = bool(os.environ.get("CI"))
AT_DESK = [one for one in CASES if one.stem.endswith("-1") and one.stem not in LARGE]
"""The first case of each code; the gate tries them all."""


@pytest.mark.parametrize("path", CASES if IN_GATE else AT_DESK, ids=lambda path: path.stem)
def test_each_mistake_is_told_in_these_words(path: Path, tmp_path: Path) -> None:
    case = load(path)
    lay_out(tmp_path, case["files"])
    lines = told(tmp_path)
    assert lines == case["finds"], f"{path.name}: {case['what']}"
    if IN_GATE and path.stem not in LARGE:
        assert told(tmp_path) == lines, f"{path.name}: a second reading says something else"


def test_each_case_shows_the_code_it_is_named_by() -> None:
    for path in CASES:
        named = re.fullmatch(r"([a-z0-9-]+)-[0-9]+\.yaml", path.name)
        assert named, f"{path.name}: a case is named by its code and a number"
        codes = {line.rpartition("[")[2].rstrip("]") for line in load(path)["finds"]}
        assert named.group(1) in codes, f"{path.name} never finds {named.group(1)}"
        assert codes <= set(CODES), f"{path.name} finds codes that reading/base/codes.py does not list"


def test_every_code_has_a_case() -> None:
    shown = {line.rpartition("[")[2].rstrip("]") for path in CASES for line in load(path)["finds"]}
    assert set(CODES) == shown, (
        "a code of reading/base/codes.py without a case, or a case with a code of its own"
    )


def test_every_code_has_a_sentence() -> None:
    for code, sentence in CODES.items():
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", code), code
        assert sentence.endswith("."), f"{code}: no full stop"
        assert sentence[0].isupper() or sentence.startswith("garden.yaml"), code
