"""A crop of the garden's own that is only weighed needs a name and a family; a plan needs more of it."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

from tallybed.garden.findings import has_errors, worded
from tallybed.reading.folder.garden_folder import read
from tallybed.tasks.build import make
from tallybed.tasks.check import check
from tests.small_garden import written

GARDEN = """\
name: One bed
beds: [{name: bed, length: 12 squares, width: 4 squares}]
season: {start: Mar 1, end: Nov 30}
"""
KEYS = {"habit": "running", "start": "sown", "letters": "{}", "spacing": "6 in"}
SETS = [frozenset(told) for number in range(len(KEYS) + 1) for told in combinations(sorted(KEYS), number)]
"""Every choice of the keys that a plan needs: from none told to all."""
NAMES = [f"zorpel{chr(ord('a') + number)}" for number in range(len(SETS))]


def _crops() -> str:
    rows = []
    for number, (name, told) in enumerate(zip(NAMES, SETS, strict=True)):
        keys = {key: KEYS[key].format(f"Q{chr(ord('a') + number)}") for key in KEYS if key in told}
        rows.append(f"- {{new: {name}, family: Zorpaceae{''.join(f', {k}: {v}' for k, v in keys.items())}}}")
    return "\n".join(rows) + "\n"


def _ledger() -> str:
    """Each crop weighed alone, with its square, with a count, in a bowl, and beyond belief."""
    rows = []
    for number, name in enumerate(NAMES):
        square = f"{chr(ord('A') + number % 12)}{number // 12 + 1}"
        rows += [
            f"- {{date: Jun 1, crop: {name}, weight: 4 oz}}",
            f"- {{date: Jun 20, crop: {name}, squares: {square}, weight: 6 oz, count: 3}}",
            f"- {{date: Jul 2, mixed: [{name}, kale], weight: 1 lb}}",
            f"- {{date: Jul 3, crop: {name}, weight: 900 lb}}",
        ]
    return "\n".join(rows) + "\n"


def _log() -> str:
    """Each crop sown in a square, for which the plan has no row."""
    lines = [
        f"  - {{sow: {name}, squares: {chr(ord('A') + number % 12)}{number // 12 + 1}}}"
        for number, name in enumerate(NAMES)
    ]
    return "---\ntitle: Sown\ndate: 2026-04-10\ndone:\n" + "\n".join(lines) + "\n---\nMud.\n"


def _garden(root: Path, **files: str) -> Path:
    names = {"plan": "2026/plan.yaml", "harvest": "2026/harvest.yaml", "log": "2026/log/2026-04-10-sown.md"}
    papers = {names[name]: text for name, text in files.items()}
    return written(root, {"garden.yaml": GARDEN, "crops.yaml": _crops(), **papers})


def test_whatever_is_told_of_it_a_crop_can_be_weighed_and_the_site_is_built(tmp_path: Path) -> None:
    root = _garden(tmp_path, harvest=_ledger(), log=_log())
    assert [worded(one) for one in check(root) if has_errors([one])] == []
    files = make(root).files
    for name, told in zip(NAMES, SETS, strict=True):
        page = files[f"crops/{name}/index.html"].decode()
        assert "Zorpaceae" in page
        for key, words in (("habit", "how it grows"), ("spacing", "its spacing")):
            assert (words in page) == (key not in told), f"{name}: {key}"
        assert "0 in" not in page, "a spacing that nobody told"


def test_a_plan_says_which_keys_its_crop_lacks_and_where_it_stands(tmp_path: Path) -> None:
    rows = [
        f"- {{crop: {name}, squares: {chr(ord('A') + number % 12)}{number // 12 + 1}, sow: Apr 10}}"
        for number, name in enumerate(NAMES)
    ]
    found = {
        one.place.line: worded(one)
        for one in read(_garden(tmp_path, plan="\n".join(rows) + "\n")).findings
        if one.code == "crop-keys"
    }
    for line, told in enumerate(SETS, start=1):
        missing = [key for key in KEYS if key not in told and key != "letters"]
        assert (line in found) == bool(missing)
        if missing:
            assert f"content/crops.yaml:{line} does not tell its" in found[line]
            words = found[line].partition("does not tell its")[2].partition("(")[0]
            assert [key for key in KEYS if key in words] == missing
