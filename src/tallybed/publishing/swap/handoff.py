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
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from posixpath import dirname

from tallybed.publishing.paths import MARKER, checked, claimed_twice
from tallybed.publishing.swap import disk
from tallybed.publishing.swap.changes import Changes, changes
from tallybed.publishing.swap.marker import marker
from tallybed.publishing.swap.old_site import old_site


@dataclass(frozen=True, slots=True, kw_only=True)
class Handed:
    """What a hand-over did."""

    changed: bool
    """Whether anything was written; False where the same bytes lay there already."""
    marker: str
    """SHA-256 of the site's marker, which holds that of every file."""
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


class NewSite:
    """A site that is coming to be in place of what lies in a folder, file by file, in any order.

    What the old site holds to the byte is not written again. Several processes may write to one at
    a time; what the others wrote is then added to one that ends the work.
    """

    def __init__(self, names: _Names, *, replace: bool) -> None:
        """Look at what lies in the folder. Raises RefusedError where it must stay."""
        self.hashes: dict[str, str] = {}
        """Path → SHA-256 of each file it is to have."""
        self._names = names
        self._new = names.new
        self._old = old_site(names.target, replace=replace)
        self._twice: set[str] = set()
        self._made: set[str] = set()
        """Folders that were made for the new tree, as paths within it."""

    def put(self, path: str, data: bytes) -> None:
        """Add a file. Raises ValueError where its path is unfit, OSError where the machine fails."""
        digest = sha256(data).hexdigest()
        self._note(checked(path), digest)
        if not self.has(path, digest):
            disk.step("before write")
            self._make_folder_of(path)
            disk.write(self._new / path, data)

    def add(self, files: Mapping[str, str]) -> None:
        """Take in files that are there already: those of the old site, or what another process wrote."""
        for path, digest in files.items():
            self._note(path, digest)

    def has(self, path: str, digest: str) -> bool:
        """Return whether the old site has that file to the byte."""
        return self._old.intact.get(path) == digest

    def finish(self, progress: Callable[[int, int], None] | None = None) -> Handed:
        """Put it in the old one's place. Raises ValueError where two files claim a path, OSError."""
        if twice := sorted(self._twice.union(claimed_twice(self.hashes))):
            raise ValueError(f"claimed twice: {', '.join(twice)}")
        names, hashes = self._names, self.hashes
        mark = sha256(marker(hashes)).hexdigest()
        if self._old.told == hashes == self._old.intact and not self._old.more:
            return Handed(changed=False, marker=mark, changes=Changes())
        names.new.mkdir(exist_ok=True)
        self._finish_tree(progress)
        found = None
        if self._old.told is not None:
            found = changes(names.target, self._old.told, hashes, names.new)
        _swap(names)
        return Handed(changed=True, marker=mark, changes=found)

    def _note(self, path: str, digest: str) -> None:
        """Note a file that it is to have."""
        if path in self.hashes:
            self._twice.add(path)
        self.hashes[path] = digest

    def _finish_tree(self, progress: Callable[[int, int], None] | None) -> None:
        """Add what stays and the marker, and wait until all of it is on the disk."""
        new, written = self._new, []
        for path, digest in sorted(self.hashes.items()):
            place = new / path
            if self.has(path, digest) and not place.exists():
                self._make_folder_of(path)
                disk.link(self._names.target / path, place)
            else:
                written.append(place)
        linked = len(self.hashes) - len(written)
        for done, _file in enumerate(disk.flushed(written, disk.flush_file), start=linked + 1):
            if progress is not None:
                progress(done, len(self.hashes))
        (new / MARKER).write_bytes(marker(self.hashes))
        disk.flush_file(new / MARKER)
        folders = sorted({above for path in self.hashes for above in _folders_above(path)})
        for _folder in disk.flushed([new / folder for folder in folders], disk.flush_folder):
            pass
        disk.flush_folder(new)
        disk.flush_folder(new.parent)

    def _make_folder_of(self, path: str) -> None:
        """Make the folder that a file of the new tree is to lie in."""
        folder = dirname(path)
        if folder not in self._made:
            (self._new / folder).mkdir(parents=True, exist_ok=True)
            self._made.add(folder)


def _folders_above(path: str) -> Iterator[str]:
    """Yield the folders of a path within the site, from the innermost on; not the site itself."""
    while path := dirname(path):
        yield path


@contextmanager
def new_site(target: Path, *, replace: bool = False) -> Iterator[NewSite]:
    """Give a site to fill; ``finish`` puts it into the folder ``target``, and without that nothing does.

    With ``replace``, a folder that Tallybed did not write, or that was changed by hand, is taken away too.

    Raises RefusedError where the folder holds what is not ours, OSError (BusyError among them) where
    the machine fails; in every case, and where the block fails, the site stays as it was.
    """
    names = _Names(target.resolve())
    names.target.parent.mkdir(parents=True, exist_ok=True)
    with disk.alone(names.lock):
        _repair(names)
        found = NewSite(names, replace=replace)
        try:
            yield found
        finally:
            _repair(names)


def hand_over(files: Mapping[str, bytes], target: Path) -> Handed:
    """Make the folder ``target`` hold exactly these files and the marker.

    ``files`` maps paths within the site to bytes. Raises ValueError where paths are unfit or claimed
    twice, and what ``new_site`` raises; in every case the site stays as it was.
    """
    for path in files:
        checked(path)
    with new_site(target) as new:
        for path, data in sorted(files.items()):
            new.put(path, data)
        return new.finish()


def repair(target: Path) -> None:
    """Finish or undo a hand-over that was ended halfway, if there was one.

    Raises BusyError where one is under way, OSError where the machine fails.
    """
    names = _Names(target.resolve())
    if names.left:
        with disk.alone(names.lock):
            _repair(names)


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
        if not names.target.exists():
            names.old.rename(names.target)
        names.note.unlink()
        raise
    names.note.unlink()
    disk.flush_folder(names.note.parent)
    disk.step("after swap")
