"""Hashes of what a site is made of: the garden's files, Tallybed's own, and the libraries it runs with.

Loads next to nothing, since it is asked before anything else is.
"""

from __future__ import annotations

import errno
import os
import sys
from collections.abc import Collection, Iterator
from functools import cache
from hashlib import blake2b
from pathlib import Path

from tallybed.publishing.swap.whole_file import bytes_of

_NO_FOLDER = frozenset({errno.ENOENT, errno.ENOTDIR, errno.ELOOP})
"""What a machine says of a folder that is not there, is a file, or a link to itself."""
_PASSING = frozenset({"__pycache__"})


def of_folder(folder: Path, *, without: Collection[str] = ()) -> str:
    """Return a hash of all files below a folder, by path and bytes; a folder that is missing has one too.

    ``without``: names of folders right below it that are left out. Raises OSError where a file
    cannot be read.
    """
    found = blake2b()
    top = len(str(folder))
    if os.path.lexists(folder) and not folder.is_dir():
        found.update(b"no folder\0")
    for entry in _files(str(folder), without):
        found.update(os.fsencode(entry.path[top:]) + b"\0")
        if entry.is_symlink():
            found.update(b"link\0" + os.fsencode(Path(entry.path).readlink()) + b"\0")
            continue
        if not entry.is_file(follow_symlinks=False):
            found.update(b"other\0")  # to open a pipe would be to wait until somebody writes to it
            continue
        data = bytes_of(entry.path)
        found.update(b"%d\0" % len(data))
        found.update(data)
    return found.hexdigest()


@cache
def of_program() -> str:
    """Return a hash of Tallybed itself and of the names and versions of all that is installed with it.

    It is worked out once: what is loaded stays as it is while it runs.
    """
    package = Path(__file__).parents[2]
    return of_texts([of_folder(package), of_folder(package.parents[1] / "layouts"), *_installed()])


@cache
def of_rooms(*rooms: str) -> str:
    """Return the same of some rooms of Tallybed alone, such as ``reading``."""
    package = Path(__file__).parents[2]
    return of_texts([*(of_folder(package / room) for room in rooms), *_installed()])


@cache
def _installed() -> tuple[str, ...]:
    """Return the version of Python, and the name and version of all that is installed for it."""
    found = [sys.version]
    for place in map(Path, dict.fromkeys(sys.path)):
        if place.is_dir():
            names = (path.name for path in place.iterdir())
            found += sorted(name for name in names if name.endswith((".dist-info", ".egg-info")))
    return tuple(found)


def of_texts(parts: list[str]) -> str:
    """Return a hash of texts, each apart from the next."""
    found = blake2b()
    for part in parts:
        data = part.encode("utf-8", "surrogatepass")
        found.update(b"%d\0" % len(data))
        found.update(data)
    return found.hexdigest()


def _files(folder: str, without: Collection[str] = ()) -> Iterator[os.DirEntry[str]]:
    """Yield each file below a folder, in a settled order; links are not followed."""
    try:
        entries = sorted(os.scandir(folder), key=lambda entry: entry.name)
    except OSError as error:
        if error.errno not in _NO_FOLDER:
            raise
        return
    for entry in entries:
        if not entry.is_dir(follow_symlinks=False):
            yield entry
        elif entry.name not in _PASSING and entry.name not in without:
            yield from _files(entry.path)
