"""The site is the old one or the new one, whole, whenever a build ends."""

import json
import os
import random
import signal
import subprocess
import sys
import time
from contextlib import suppress
from itertools import count
from pathlib import Path
from threading import Barrier

import pytest

from tallybed.publishing.paths import MARKER
from tallybed.publishing.swap import disk
from tallybed.publishing.swap.handoff import hand_over, new_site, repair
from tallybed.publishing.swap.marker import Difference, compared
from tallybed.publishing.swap.refused import RefusedError
from tests import tools
from tests.folders import tree

FILES = {"index.html": b"<p>one</p>\n", "2026/index.html": b"<p>two</p>\n", "style.css": b"p {}\n"}


@pytest.fixture(params=["exchange", "renames"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Run with the system's exchange, and as on a system that has none."""
    if request.param == "renames":
        monkeypatch.setattr(disk, "exchange", lambda _one, _other: False)
    return str(request.param)


def test_the_folder_holds_the_files_and_a_marker_and_nothing_lies_beside_it(tmp_path: Path, way: str) -> None:
    target = tmp_path / "site"
    for files in (FILES, {"index.html": b"other"}, FILES):
        hand_over(files, target)
        found = tree(target)
        assert found.pop(MARKER), way
        assert found == files
        assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_an_unchanged_build_touches_nothing(tmp_path: Path) -> None:
    target = tmp_path / "site"
    assert hand_over(FILES, target).changed
    before = {path: path.stat().st_mtime_ns for path in target.rglob("*")}
    assert not hand_over(FILES, target).changed
    assert {path: path.stat().st_mtime_ns for path in target.rglob("*")} == before


def test_the_marker_depends_on_the_files_alone(tmp_path: Path) -> None:
    hand_over(FILES, tmp_path / "one")
    hand_over(dict(reversed(FILES.items())), tmp_path / "elsewhere" / "two")
    assert tree(tmp_path / "one") == tree(tmp_path / "elsewhere" / "two")


def test_a_foreign_folder_is_never_overwritten_unasked(tmp_path: Path) -> None:
    (tmp_path / "letters.txt").write_text("dear aunt")
    with pytest.raises(RefusedError, match="not empty and Tallybed did not write it"):
        hand_over(FILES, tmp_path)
    assert tree(tmp_path) == {"letters.txt": b"dear aunt"}


@pytest.mark.parametrize(
    "mark",
    [b"", b"[]", b"{", b'{"format": 3, "files": {}}', b'{"format": 1, "files": []}', b"[" * 100_000, b"\xff"],
)
def test_a_marker_we_did_not_write_protects_the_folder_too(tmp_path: Path, mark: bytes) -> None:
    (tmp_path / MARKER).write_bytes(mark)
    with pytest.raises(RefusedError):
        hand_over(FILES, tmp_path)


def test_an_empty_folder_is_taken(tmp_path: Path, way: str) -> None:
    target = tmp_path / "site"
    target.mkdir()
    assert hand_over(FILES, target).changed, way


def test_a_file_in_the_folders_place_is_refused(tmp_path: Path) -> None:
    (tmp_path / "site").write_text("x")
    with pytest.raises(RefusedError, match="is a file"), new_site(tmp_path / "site", replace=True):
        pass


def test_a_folder_under_version_control_is_refused_even_when_told_to_replace(tmp_path: Path) -> None:
    hand_over(FILES, tmp_path / "site")
    (tmp_path / "site" / ".git").mkdir()
    with pytest.raises(RefusedError, match="version control"), new_site(tmp_path / "site", replace=True):
        pass


@pytest.mark.parametrize("kind", ["changed", "added", "added link", "added folder link", "changed to link"])
def test_work_done_by_hand_is_refused_and_named_until_told_to_replace(tmp_path: Path, kind: str) -> None:
    target = tmp_path / "site"
    hand_over(FILES, target)
    outside = tmp_path / "outside"
    outside.mkdir()
    (outside / "keep.txt").write_text("keep")
    named = "2026/index.html"
    if kind == "changed":
        (target / named).write_text("by hand")
    elif kind == "changed to link":
        (target / named).unlink()
        (target / named).symlink_to(outside / "keep.txt")
    else:
        named = "2026/mine.txt"
        place = target / named
        if kind == "added":
            place.write_text("mine")
        else:
            place.symlink_to(outside / "keep.txt" if kind == "added link" else outside)
    before = tree(target)
    for files in (FILES, {"index.html": b"new"}):
        with pytest.raises(RefusedError, match=named):
            hand_over(files, target)
    assert tree(target) == before
    with new_site(target, replace=True) as new:
        for path, data in FILES.items():
            new.put(path, data)
        new.finish()
    assert {path: data for path, data in tree(target).items() if path != MARKER} == FILES
    assert (outside / "keep.txt").read_text() == "keep", "a linked file was lost"


def test_a_file_that_was_deleted_comes_back(tmp_path: Path) -> None:
    target = tmp_path / "site"
    hand_over(FILES, target)
    (target / "style.css").unlink()
    assert hand_over(FILES, target).changed
    assert (target / "style.css").exists()


def test_litter_of_file_managers_is_no_work_by_hand(tmp_path: Path) -> None:
    target = tmp_path / "site"
    hand_over(FILES, target)
    (target / ".DS_Store").write_bytes(b"\0")
    hand_over({"index.html": b"new"}, target)
    assert not (target / ".DS_Store").exists()


def test_a_link_in_the_sites_place_is_followed_and_kept(tmp_path: Path, way: str) -> None:
    real = tmp_path / "www"
    hand_over(FILES, real)
    (tmp_path / "site").symlink_to(real, target_is_directory=True)
    hand_over({"index.html": b"new"}, tmp_path / "site")
    assert (tmp_path / "site").is_symlink(), way
    assert (real / "index.html").read_bytes() == b"new"


@pytest.mark.skipif(os.name == "nt", reason="no such modes there")
def test_the_folder_keeps_who_may_read_it(tmp_path: Path, way: str) -> None:
    hand_over(FILES, tmp_path / "site")
    (tmp_path / "site").chmod(0o2750)
    hand_over({"index.html": b"new"}, tmp_path / "site")
    assert (tmp_path / "site").stat().st_mode & 0o7777 == 0o2750, way


@pytest.mark.parametrize("path", ["../x.html", "/x.html", "a/../../x"])
def test_no_file_lands_outside(tmp_path: Path, path: str) -> None:
    with pytest.raises(ValueError, match="no path within a site"):
        hand_over({path: b"x"}, tmp_path / "a" / "site")
    assert tree(tmp_path) == {}


def test_a_failure_while_writing_leaves_the_old_site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "site"
    hand_over(FILES, target)
    before = tree(target)

    def full(_path: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(disk, "flush_file", full)
    with pytest.raises(OSError, match="No space left"):
        hand_over({"index.html": b"new"}, target)
    assert tree(target) == before
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_a_disk_is_told_of_several_files_together(tmp_path: Path) -> None:
    """One after the other, a full build waits for the disk as long as it works."""
    both, paths = Barrier(2), [tmp_path / "a", tmp_path / "b"]
    assert list(disk.flushed(paths, lambda _path: both.wait(timeout=20))) == paths


@pytest.mark.parametrize("which", [".site.tallybed-new", "site"])
def test_a_rename_that_fails_leaves_the_old_site(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, which: str
) -> None:
    target = tmp_path / "site"
    hand_over(FILES, target)
    before = tree(target)
    rename = disk.rename

    def held_open(source: Path, to: Path) -> None:
        if source.name == which:
            raise PermissionError(13, "held open by another program")
        rename(source, to)

    monkeypatch.setattr(disk, "exchange", lambda _one, _other: False)
    monkeypatch.setattr(disk, "rename", held_open)
    with pytest.raises(PermissionError):
        hand_over({"index.html": b"new"}, target)
    assert tree(target) == before
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


@pytest.mark.parametrize("call", range(1, 10))
def test_a_disk_that_fails_to_note_a_name_leaves_a_whole_site(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: int
) -> None:
    """A rename may be done and its folder not flushed: the old site or the new one, and nothing beside."""
    monkeypatch.setattr(disk, "exchange", lambda _one, _other: False)
    target, other = tmp_path / "site", {"index.html": b"other"}
    hand_over(FILES, target)
    flush, calls = disk.flush_folder, count(1)

    def failing(path: Path) -> None:
        if next(calls) == call:
            raise OSError(5, "Input/output error")
        flush(path)

    monkeypatch.setattr(disk, "flush_folder", failing)
    with suppress(OSError):
        hand_over(other, target)
    found = tree(target)
    found.pop(MARKER)
    assert found in (FILES, other)
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


def test_two_builds_do_not_collide(tmp_path: Path) -> None:
    target = tmp_path / "site"
    with disk.alone(tmp_path / ".site.tallybed-lock"):
        with pytest.raises(disk.BusyError, match="another build"):
            hand_over(FILES, target)
        assert not target.exists()
    assert hand_over(FILES, target).changed


def test_a_lock_that_a_killed_build_left_holds_nobody_up(tmp_path: Path) -> None:
    (tmp_path / ".site.tallybed-lock").write_bytes(b"")
    assert hand_over(FILES, tmp_path / "site").changed
    assert [path.name for path in tmp_path.iterdir()] == ["site"]


@pytest.mark.parametrize("left", ["new", "old", "swap", "lock"])
def test_whatever_a_broken_off_build_left_is_taken_away(tmp_path: Path, left: str) -> None:
    """One alone, too: else half a site lies beside the whole one for good."""
    hand_over(FILES, tmp_path / "site")
    beside = tmp_path / f".site.tallybed-{left}"
    if left in ("new", "old"):
        beside.mkdir()
        (beside / "index.html").write_bytes(b"half")
    else:
        beside.write_bytes(b"")
    repair(tmp_path / "site")
    assert [path.name for path in tmp_path.iterdir()] == ["site"]
    assert tree(tmp_path / "site").items() >= FILES.items()


def test_a_file_that_is_put_twice_is_refused(tmp_path: Path) -> None:
    with new_site(tmp_path / "site") as new:
        new.put("index.html", b"one")
        new.put("index.html", b"other")
        with pytest.raises(ValueError, match=r"claimed twice: index\.html"):
            new.finish()
    assert list(tmp_path.iterdir()) == []


def test_exchange_is_one_step_on_this_system(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    for folder in (one, other):
        folder.mkdir()
        (folder / folder.name).touch()
    if not disk.exchange(one, other):
        tools.lacking(
            "an exchange of two names in one step", "run the tests on Linux, on a file system that has it"
        )
    assert [path.name for path in one.iterdir()] == ["other"]
    assert [path.name for path in other.iterdir()] == ["one"]


needs_fork = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs fork and SIGKILL")


@needs_fork
@pytest.mark.parametrize("how", ["exchange", "renames"])
def test_a_build_killed_at_any_step_leaves_a_whole_site(tmp_path: Path, how: str) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.publishing.swap.crashing", str(tmp_path / "garden"), how],
        cwd=tools.ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    records = json.loads(done.stdout)
    steps = {record["step"] for record in records if record["with_old"]}
    swaps = (
        {"before exchange", "after exchange"}
        if how == "exchange"
        else {
            "before note",
            "after note",
            "before rename site",
            "after rename site",
            "before rename .site.tallybed-new",
            "after rename .site.tallybed-new",
            "after swap",
        }
    )
    assert steps >= swaps | {"before write"}, "a crash point was not reached"
    for record in records:
        whole = {"old", "new"} if record["with_old"] else {"none", "new"}
        # Between two renames, and only there, the site may be away until the next command.
        away = how == "renames" and record["step"] in {
            "after rename site",
            "before rename .site.tallybed-new",
        }
        assert record["found"] in whole | ({"none"} if away else set()), record
        assert record["repaired"] in whole, record
        assert record["left"] == [], record
        assert set(record["again"]) <= whole, record


ENDLESS = """
import sys
from pathlib import Path
from tallybed.publishing.swap import disk
from tallybed.publishing.swap.handoff import hand_over
if sys.argv[2] == "renames":
    disk.exchange = lambda one, other: False
target = Path(sys.argv[1])
print("ready", flush=True)
round = 0
while True:
    round += 1
    hand_over({f"{n}/index.html": b"%d of %d" % (n, round) for n in range(round % 7, 40)}, target)
"""


@needs_fork
@pytest.mark.parametrize("how", ["exchange", "renames"])
def test_builds_killed_at_random_moments_never_leave_a_mixture(tmp_path: Path, how: str) -> None:
    target = tmp_path / "site"
    moments = random.Random(20260914)
    for moment in [moments.uniform(0, 0.15) for _ in range(20)]:
        with subprocess.Popen(
            [sys.executable, "-c", ENDLESS, str(target), how], stdout=subprocess.PIPE, text=True
        ) as child:
            assert child.stdout is not None
            assert child.stdout.readline() == "ready\n"
            time.sleep(moment)
            child.send_signal(signal.SIGKILL)
            child.wait(timeout=30)
        repair(target)
        assert [path.name for path in tmp_path.iterdir()] in ([], ["site"]), moment
        if target.exists():
            both = compared(target)
            assert both is not None, moment
            assert both[1] == Difference(), moment
            rounds = {path.read_bytes().split()[-1] for path in target.rglob("index.html")}
            assert len(rounds) == 1, f"a mixture of builds {rounds} after {moment} seconds"
