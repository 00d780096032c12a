"""A garden read again, with what reading it left before: the same as if nobody had read it yet."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

from tallybed.garden.crops import Crop
from tallybed.garden.garden import Garden
from tallybed.reading.folder.garden_folder import FolderRead, read
from tallybed.reading.folder.remembered import Memory
from tests.small_garden import GARDEN, LEDGER, PLAN, folder

CONTENT = "content"


def put(name: str, text: str) -> Callable[[Path], object]:
    return lambda root: (root / CONTENT / name).write_text(text, encoding="utf-8")


def gone(name: str) -> Callable[[Path], object]:
    return lambda root: (root / CONTENT / name).unlink()


EDITS: dict[str, Callable[[Path], object]] = {
    "a line more in the ledger": put(
        "2026/harvest.yaml", f"{LEDGER}- {{date: 2026-05-20, crop: radish, weight: 2 oz}}\n"
    ),
    "an error in it": put("2026/harvest.yaml", f"{LEDGER}- {{date: 2026-05-20, crop: radich}}\n"),
    "the same error, another file": put("2026/plan.yaml", f"# {PLAN}"),
    "broken YAML": put("2026/plan.yaml", f"{PLAN}- {{crop: [\n"),
    "no UTF-8": lambda root: (root / CONTENT / "2026" / "plan.yaml").write_bytes(b"- \xff\n"),
    "no plan": gone("2026/plan.yaml"),
    "the plan again": put("2026/plan.yaml", PLAN),
    "another crop of its own": put("crops.yaml", "- {name: Radich, like: radish}\n"),
    "its crops in error": put("crops.yaml", "- {name: Radich, like: radidish}\n"),
    "no crops of its own": gone("crops.yaml"),
    "the ledger right again": put("2026/harvest.yaml", LEDGER),
    "a bed taken away": put("garden.yaml", GARDEN.replace("  - {name: back", "  - {name: rear")),
    "its own file broken": put("garden.yaml", "name: [\n"),
    "its own file again": put("garden.yaml", GARDEN),
    "crops as another country calls them": put("garden.yaml", f"{GARDEN}language: en-NZ\n"),
    "as the garden calls them": put("crops.yaml", "- {crop: swede, name: neep}\n"),
    "as the library calls them": put("garden.yaml", GARDEN),
    "an entry without a header": put("2026/log/2026-05-01-late.md", "No header.\n"),
    "an entry": put("2026/log/2026-05-01-late.md", "---\ntitle: Late\ndate: 2026-05-01\n---\nLate.\n"),
    "an empty log": lambda root: [one.unlink() for one in (root / CONTENT / "2026/log").iterdir()],
    "no log": lambda root: (root / CONTENT / "2026" / "log").rmdir(),
    "another season": lambda root: shutil.copytree(root / CONTENT / "2026", root / CONTENT / "2025"),
    "a file that nobody reads": put("2026/plam.yaml", ""),
}
"""One after the other, on one garden."""


def as_read(found: FolderRead) -> object:
    return found.garden, found.findings, found.taking


def test_whatever_changes_what_is_read_is_what_lies_there(tmp_path: Path) -> None:
    """Fails where something is taken from the memory though a file it depends on has changed."""
    root = folder(tmp_path / "garden")
    found = read(root, Memory())
    for name, edit in EDITS.items():
        edit(root)
        fresh = read(root)
        for time in ("once", "twice"):
            found = read(root, found.leaves)
            assert as_read(found) == as_read(fresh), f"{name}, {time}"


def test_a_file_that_now_lies_elsewhere_is_not_taken_from_memory(tmp_path: Path) -> None:
    root = folder(tmp_path / "garden")
    found = read(root, Memory())
    plan = root / CONTENT / "2026" / "plan.yaml"
    plan.replace(tmp_path / "plan.yaml")
    plan.symlink_to(tmp_path / "plan.yaml")
    assert as_read(read(root, found.leaves)) == as_read(read(root))
    assert [one.code for one in read(root, found.leaves).findings] == ["outside-folder"]


def _radish(garden: Garden) -> Crop:
    return next(crop for crop in garden.crops if crop.slug == "radish" and crop.days == 23)


def test_what_has_not_changed_is_not_read_again(tmp_path: Path) -> None:
    """Fails where the memory is no use: each season would be made anew, and every file parsed."""
    root = folder(tmp_path / "garden")
    put("crops.yaml", "- {crop: radish, days: 23}\n")(root)
    shutil.copytree(root / CONTENT / "2026", root / CONTENT / "2025")
    found = read(root, Memory())
    EDITS["a line more in the ledger"](root)
    again = read(root, found.leaves)
    assert found.garden is not None
    assert again.garden is not None
    assert again.garden.seasons[0] is found.garden.seasons[0]
    assert again.garden.seasons[1] is not found.garden.seasons[1]
    assert again.garden.beds is found.garden.beds
    assert _radish(again.garden) is _radish(found.garden), "it has the garden's own days"
    plan = f"{CONTENT}/2026/plan.yaml"
    assert again.leaves.nodes[plan][1] is found.leaves.nodes[plan][1]


def test_nothing_is_kept_of_files_that_are_gone(tmp_path: Path) -> None:
    root = folder(tmp_path / "garden")
    found = read(root, Memory())
    shutil.rmtree(root / CONTENT / "2026")
    left = read(root, found.leaves).leaves
    assert set(left.parts) == {"garden.yaml", "crops.yaml"}
    assert not any("2026" in name for name in (*left.nodes, *left.pages))


def test_a_folder_read_once_leaves_nothing(tmp_path: Path) -> None:
    """Fails where every command holds all that was parsed: half of what a large garden takes."""
    left = read(folder(tmp_path / "garden")).leaves
    assert [left.nodes, left.pages, left.parts] == [{}, {}, {}]
