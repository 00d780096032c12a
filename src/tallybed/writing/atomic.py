"""One file written so that it is the old one or the new one, whole, whatever happens."""

from __future__ import annotations

import errno
import shutil
import stat
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager, suppress
from contextvars import ContextVar
from pathlib import Path

from tallybed.publishing.swap import disk
from tallybed.publishing.swap.refused import RefusedError

PATIENCE = 30.0
"""Seconds to wait for somebody else who is writing."""
SOON = 0.3
"""Seconds after which it is told that somebody waits. Our choice: a row is written sooner."""
ON_WAIT: ContextVar[Callable[[str], None] | None] = ContextVar("on_wait", default=None)
"""What tells, in words, whom one waits for; a command sets it that has a terminal to tell it on."""
_PAUSE = 0.01
_WRITABLE = stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH


@contextmanager
def in_turn(lock: Path, patience: float = PATIENCE) -> Iterator[None]:
    """Hold a lock file while the block runs, after whoever holds it now. Raises BusyError in the end."""
    began = time.monotonic()
    tell = ON_WAIT.get()
    with ExitStack() as held:
        while True:
            try:
                held.enter_context(disk.alone(lock))
                break
            except disk.BusyError:
                waited = time.monotonic() - began
                if waited > patience:
                    raise disk.BusyError(errno.EBUSY, _who(lock), str(lock)) from None
                if tell is not None and waited > SOON:
                    tell(f"{_who(lock)}; waiting for up to {patience:.0f} seconds")
                    tell = None
            time.sleep(_PAUSE)
        yield


def _who(lock: Path) -> str:
    """Return in words who holds a lock."""
    number = disk.holder(lock)
    return f"somebody else is writing there just now{f' (process {number})' if number else ''}"


def write_over(path: Path, data: bytes, agree: Callable[[bytes], None] | None = None) -> None:
    """Give a file new bytes: written beside it, flushed, read back, then renamed over it.

    ``agree`` is given the bytes as they were read back and raises where they must not
    take the old ones' place. A link stays a link; the file it leads to is the one written.
    Raises OSError, also where the file is marked as one that nobody may write.
    """
    target = path.resolve()
    if target.exists() and not target.stat().st_mode & _WRITABLE:
        # A renamed file would take its place all the same.
        raise PermissionError(errno.EACCES, "the file is marked as read-only", str(target))
    beside = target.with_name(f".{target.name}.tallybed-new")
    disk.step("before write beside")
    try:
        beside.write_bytes(data)
        disk.step("after write beside")
        disk.flush_file(beside)
        back = beside.read_bytes()
        if back != data:
            raise OSError(errno.EIO, "the disk gave back other bytes than were written", str(beside))
        if agree is not None:
            agree(back)
        if target.exists():
            shutil.copymode(target, beside)
        disk.step("before replace")
        beside.replace(target)
    except BaseException as error:
        with suppress(OSError):  # what went wrong first is what is told
            beside.unlink(missing_ok=True)
        if isinstance(error, OSError) and error.filename in (None, str(beside)):
            # A full disk does not say which file it has no room for, and nobody asked for the one beside.
            error.filename = str(target)
        raise
    disk.step("after replace")
    disk.flush_folder(target.parent)


def write_new(path: Path, data: bytes, *, replace: bool = False) -> None:
    """Write a file where none is, whole or not at all; over one that is there only with ``replace``.

    Raises RefusedError where a folder or a file is in the way, OSError.
    """
    if path.is_dir():
        raise RefusedError(f"{path} is a folder; name a file")
    if not path.parent.is_dir():
        raise RefusedError(f"there is no folder {path.parent} to write {path.name} into")
    if path.exists() and not replace:
        raise RefusedError(f"{path} exists already; name another file, or use --replace to overwrite it")
    write_over(path, data)
