"""What the swap needs of the machine: flushing, exchanging two folders at once, one build at a time.

Every step that changes what the next command finds goes through ``step``, so that
a test can end the process before or after any of them.
"""

from __future__ import annotations

import ctypes
import errno
import os
import shutil
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import IO

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2
"""From Linux's fcntl.h and fs.h, see renameat2(2)."""


_FLUSHED_AT_ONCE = 8
"""To wait for one file after the other takes a full build seconds; a disk writes what it is told together."""
_LONGEST_NUMBER = 20
"""Digits of a process's number, at the most."""


class BusyError(OSError):
    """Another build is writing to the same place."""


def step(name: str) -> None:
    """Do nothing; a test puts a crash in its place. ``name`` says what is about to happen, or has."""
    del name


def write(path: Path, data: bytes) -> None:
    """Write a file."""
    with path.open("wb", buffering=0) as file:
        left = memoryview(data)
        while left:
            left = left[file.write(left) :]


def flush_file(path: Path) -> None:
    """Wait until a file's bytes are on the disk."""
    # Opened for writing since some systems refuse to flush what is open for reading alone.
    with path.open("rb+", buffering=0) as file:
        os.fsync(file.fileno())


def flush_folder(path: Path) -> None:
    """Wait until a folder's names are on the disk, where the system offers that for folders."""
    if not hasattr(os, "O_DIRECTORY"):
        return
    folder = os.open(path, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(folder)
    except OSError as error:
        if error.errno not in {errno.EINVAL, errno.ENOTSUP, errno.EBADF}:
            raise
    finally:
        os.close(folder)


def flushed(paths: Sequence[Path], flush: Callable[[Path], object]) -> Iterator[Path]:
    """Flush files or folders, several at a time; yield each, in their order, once it is on the disk."""
    # It loads logging, and only what was written anew needs it.
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(_FLUSHED_AT_ONCE) as pool:
        for path, _none in zip(paths, pool.map(flush, paths), strict=True):
            yield path


def link(source: Path, target: Path) -> None:
    """Give a file a second name, or a copy where the system has none."""
    try:
        os.link(source, target)
    except OSError:
        shutil.copyfile(source, target)
        flush_file(target)


def rename(source: Path, target: Path) -> None:
    """Give a folder a name that is free, and wait until that is on the disk."""
    step(f"before rename {source.name}")
    source.rename(target)
    step(f"after rename {source.name}")
    flush_folder(target.parent)


def exchange(one: Path, other: Path) -> bool:
    """Let two folders of one file system trade names in one step; return whether the system could."""
    if not sys.platform.startswith("linux"):
        return False
    try:
        renameat2 = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    renameat2.argtypes = (ctypes.c_int, ctypes.c_char_p, ctypes.c_int, ctypes.c_char_p, ctypes.c_uint)
    renameat2.restype = ctypes.c_int
    step("before exchange")
    done = renameat2(_AT_FDCWD, os.fsencode(one), _AT_FDCWD, os.fsencode(other), _RENAME_EXCHANGE)
    step("after exchange")
    # Whatever kept it from happening, nothing has moved: two renames are tried next and say what is wrong.
    return bool(done == 0)


def remove(path: Path) -> None:
    """Take away a file or a whole folder, if it is there."""
    if path.is_symlink() or path.is_file():
        path.unlink(missing_ok=True)
    elif path.is_dir():
        step(f"before remove {path.name}")
        shutil.rmtree(path)
        step(f"after remove {path.name}")


@contextmanager
def alone(path: Path) -> Iterator[None]:
    """Hold the lock file ``path`` while the block runs. Raises BusyError where another process has it.

    The system lets go of the lock when a process ends, however it ends. Within the file stands the number
    of the process that holds it, see ``holder``.
    """
    while True:
        file = path.open("a+b")
        try:
            _lock(file)
        except OSError as error:
            file.close()
            if error.errno not in {errno.EACCES, errno.EAGAIN, errno.EDEADLK}:
                raise
            raise BusyError(errno.EBUSY, "another build is writing there just now", str(path)) from None
        if _still_there(file, path):
            break
        file.close()  # its last holder took it away between our opening and our locking it
    with suppress(OSError):  # who holds it is for others to read; the lock holds without
        file.truncate(0)
        file.write(str(os.getpid()).encode())
        file.flush()
    try:
        yield
    finally:
        if os.name != "nt":
            path.unlink(missing_ok=True)
        file.close()
        if os.name == "nt":
            with suppress(OSError):  # an open file cannot be removed there, and another may have it by now
                path.unlink()


def holder(path: Path) -> int | None:
    """Return the number of the process that holds a lock file, or None where that is not to be read."""
    try:
        return int(path.read_bytes()[:_LONGEST_NUMBER])
    except (OSError, ValueError):
        return None


def _lock(file: IO[bytes]) -> None:
    """Lock an open file for this process alone. Raises OSError where another has it."""
    if sys.platform == "win32":
        msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
    else:
        fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)


def _still_there(file: IO[bytes], path: Path) -> bool:
    """Return whether an open file is still the one that lies at a path."""
    try:
        return os.path.samestat(os.fstat(file.fileno()), path.stat())
    except FileNotFoundError:
        return False
