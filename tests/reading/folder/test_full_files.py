"""A file with thousands of mistakes: nobody is told more than some hundreds, nor waits for the rest."""

from __future__ import annotations

from pathlib import Path
from types import ModuleType

import pytest

from tallybed.reading.base import mappings
from tallybed.reading.base.problems import MOST
from tallybed.reading.folder import season_links
from tests.reading.bad_cases import GARDEN, lay_out, told

ROWS = 600
FILES: dict[str, tuple[ModuleType, str, str]] = {
    "keys that nobody knows": (
        mappings,
        "content/garden.yaml",
        GARDEN + "".join(f"key{n}: x\n" for n in range(ROWS)),
    ),
    "partners that nobody knows": (
        season_links,
        "content/2026/plan.yaml",
        "".join(
            f"- {{crop: radish, tag: R{n}, squares: {'ABCD'[n % 4]}{n // 4 % 2 + 1}, sow: Apr 12,"
            f" until: Apr 20, among: nobody {n}}}\n"
            for n in range(ROWS)
        ),
    ),
}


@pytest.mark.parametrize("name", FILES)
def test_no_more_is_looked_for_than_is_told(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    module, file, text = FILES[name]
    looked: list[str] = []

    def nearest(word: str, *_known: object) -> str:
        looked.append(word)
        return ""

    monkeypatch.setattr(module, "nearest", nearest)
    lay_out(tmp_path, {file: text})
    assert len(told(tmp_path)) >= MOST
    assert len(looked) <= 2 * MOST
