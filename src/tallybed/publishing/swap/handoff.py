"""The new site takes the old one's place, whole or not at all.

The new tree is written beside the old one, under the site's folder's parent, and
flushed to the disk. Then the two trade names in one step where the system can do
that; else the old one is renamed out of the way and the new one into place, and a
note, written before the first rename and removed after the second, tells the next
command how far that came. Names beside the site's folder ``site``:

``.site.tallybed-new``   the tree being written, or the old one after the trade
``.site.tallybed-old``   the old tree, on its way out
``.site.tallybed-swap``  the note: the new tree is complete, and two renames are under way
``.site.tallybed-lock``  held by the build that is writing
"""

from __future__ import annotations

import shutil
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from tallybed.publishing.paths import MARKER, checked, claimed_twice
from tallybed.publishing.swap import disk
from tallybed.publishing.swap.changes import Changes, changes
from tallybed.publishing.swap.marker import difference, hashed, hashes_of, marker

_SOME = 8
"""Files that a refusal names before it says how many more there are."""


class RefusedError(Exception):
    """The folder holds something that is not ours to overwrite; the message says what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Handed:
    """What a hand-over did."""

    target: Path
    files: int
    changed: bool
    """Whether anything was written; False where the same bytes lay there already."""
    changes: Changes | None = None
    """What became of the pages; None where there was no site before."""


@dataclass(frozen=True, slots=True)
class _Names:
    target: Path

    def _beside(self, word: str) -> Path:
        """Return the path beside the site's folder that a word stands for."""
        return self.target.with_name(f".{self.target.name}.tallybed-{word}")

    @property
    def new(self) -> Path:
        """The tree being written, or the old one after the trade."""
        return self._beside("new")

    @property
    def old(self) -> Path:
        """The old tree, on its way out."""
        return self._beside("old")

    @property
    def note(self) -> Path:
        """The note that two renames are under way."""
        return self._beside("swap")

    @property
    def lock(self) -> Path:
        """The file held by the build that is writing."""
        return self._beside("lock")

    @property
    def left(self) -> bool:
        """Whether any of the four lies there."""
        return any(path.exists() for path in (self.new, self.old, self.note, self.lock))


def hand_over(
    files: Mapping[str, bytes],
    target: Path,
    *,
    replace: bool = False,
    progress: Callable[[int, int], None] | None = None,
) -> Handed:
    """Make the folder ``target`` hold exactly these files and the marker.

    ``files`` maps paths within the site to bytes. With ``replace``, a folder that
    Tallybed did not write, or that was changed by hand, is taken away too.
    ``progress`` is told how many files of how many are written.

    Raises RefusedError where the folder holds what is not ours, ValueError where paths
    are unfit or claimed twice, OSError (BusyError among them) where the machine fails;
    in every case the site stays as it was.
    """
    for path in files:
        checked(path)
    if twice := claimed_twice(files):
        raise ValueError(f"claimed twice: {', '.join(twice)}")
    hashes = hashed(files)
    names = _Names(target.resolve())
    names.target.parent.mkdir(parents=True, exist_ok=True)
    with disk.alone(names.lock):
        _repair(names)
        if _as_wanted(names.target, hashes, replace=replace):
            return Handed(target=target, files=len(files), changed=False, changes=Changes())
        before = hashes_of(names.target)
        found = None if before is None else changes(names.target, before, hashes, files)
        try:
            _write(files, marker(hashes), names.new, progress)
            _swap(names)
        finally:
            _repair(names)
    return Handed(target=target, files=len(files), changed=True, changes=found)


def repair(target: Path) -> bool:
    """Finish or undo a hand-over that was ended halfway; return whether there was one.

    Raises BusyError where one is under way, OSError where the machine fails.
    """
    names = _Names(target.resolve())
    if not names.left:
        return False
    with disk.alone(names.lock):
        _repair(names)
    return True


def _repair(names: _Names) -> None:
    """Finish the renames that a broken-off build began, and take away what it left. Raises OSError."""
    if names.note.exists():
        if not names.target.exists():
            # Ended between the two renames. The new tree is complete: it was before the note was written.
            disk.rename(names.new if names.new.exists() else names.old, names.target)
        names.note.unlink()
        disk.flush_folder(names.note.parent)
    disk.remove(names.new)
    disk.remove(names.old)


def _as_wanted(target: Path, hashes: Mapping[str, str], *, replace: bool) -> bool:
    """Return whether the folder holds these files already. Raises RefusedError where it must stay."""
    if not target.exists():
        return False
    if not target.is_dir():
        raise RefusedError(f"{target} is a file; name a folder for the site")
    if any((target / name).exists() for name in (".git", ".hg", ".svn")):
        raise RefusedError(
            f"{target} is kept under version control, and writing it anew would lose its history; "
            "build into another folder and copy from there"
        )
    told = hashes_of(target)
    if told is None:
        if any(target.iterdir()) and not replace:
            raise RefusedError(
                f"{target} is not empty and Tallybed did not write it; "
                "name another folder with --to, or use --replace to lose what is in it"
            )
        return False
    found = difference(target, told)
    if found.by_hand and not replace:
        raise RefusedError(
            f"{target} holds files that were changed or added by hand: {_some(found.by_hand)}; "
            "move them elsewhere, or use --replace to lose them"
        )
    return told == dict(hashes) and not found.by_hand and not found.missing


def _some(paths: tuple[str, ...]) -> str:
    """Return the first paths of many, and how many more there are."""
    more = f" and {len(paths) - _SOME} more" if len(paths) > _SOME else ""
    return ", ".join(paths[:_SOME]) + more


def _write(
    files: Mapping[str, bytes], mark: bytes, folder: Path, progress: Callable[[int, int], None] | None
) -> None:
    """Write the tree and wait until all of it is on the disk; the marker comes last."""
    folder.mkdir()
    every = [*sorted(files.items()), (MARKER, mark)]
    written: list[Path] = []
    folders = {folder}
    for number, (path, data) in enumerate(every, start=1):
        disk.step("before write")
        place = folder / path
        if place.parent not in folders:
            place.parent.mkdir(parents=True, exist_ok=True)
            folders |= {place.parent, *(above for above in place.parents if folder in above.parents)}
        place.write_bytes(data)
        written.append(place)
        if progress is not None:
            progress(number, len(every))
    # After the last was written, so that the system can put many on the disk together.
    for place in written:
        disk.flush_file(place)
    for here in sorted(folders, key=lambda path: len(path.parts), reverse=True):
        disk.flush_folder(here)
    disk.flush_folder(folder.parent)


def _swap(names: _Names) -> None:
    """Put the new tree in the old one's place. Raises OSError; if a rename fails, the old one is put back."""
    if not names.target.exists():
        disk.rename(names.new, names.target)
        return
    shutil.copymode(names.target, names.new)
    if disk.exchange(names.new, names.target):
        disk.flush_folder(names.target.parent)
        return
    disk.step("before note")
    names.note.write_bytes(b"A new site is being put in place. The next tallybed command finishes this.\n")
    disk.flush_file(names.note)
    disk.flush_folder(names.note.parent)
    disk.step("after note")
    try:
        disk.rename(names.target, names.old)
        disk.rename(names.new, names.target)
    except OSError:
        # What a program that holds a file of the site open makes happen on some systems.
        if not names.target.exists() and names.old.exists():
            names.old.rename(names.target)
        names.note.unlink()
        raise
    names.note.unlink()
    disk.flush_folder(names.note.parent)
    disk.step("after swap")
