"""What took long to reckon or draw, kept beside a garden for the next run, each under all it follows from."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable, Iterable
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from weakref import finalize

from tallybed.pictures.rooms import FOLDER, lies_elsewhere, room
from tallybed.tasks.site.fingerprint import of_program, of_texts

_KIND = "reckoned"
_FILE = "kept.sqlite"
_MOST_BYTES = 50_000_000
"""Bytes of texts that are kept; where there are more as a run begins, the newer half stays."""
_TABLE = "CREATE TABLE IF NOT EXISTS kept (name TEXT PRIMARY KEY, hash TEXT NOT NULL, text BLOB NOT NULL)"
_SHORTEN = """DELETE FROM kept WHERE rowid IN (
    SELECT rowid FROM (SELECT rowid, sum(length(text)) OVER (ORDER BY rowid DESC) AS newer FROM kept)
    WHERE newer > ?)"""
_WAITS = 0.2
"""Seconds to wait for another run that is writing; then nothing is read or kept."""


class Reckonings:
    """One run's use of them. Where it cannot be written nothing is kept; a link is not followed."""

    def __init__(self, root: Path) -> None:
        """Know the folder beside the garden in ``root``; it is opened when something is asked for."""
        self._folder = root / FOLDER
        self._opened: sqlite3.Connection | None = None
        self._opened_by = 0
        """The process that opened it."""

    def kept(self, of: str, work: Callable[[], str]) -> str:
        """Return what ``work`` gives: what it gave before, if that is kept and sound, else anew.

        ``of``: all that it follows from, but for the program itself.
        """
        name = of_texts([of_program(), of])[:64]
        text = self._read(name)
        if text is None:
            text = work()
            self._write(name, text.encode())
        return text

    def _read(self, name: str) -> str | None:
        with suppress(sqlite3.Error, UnicodeDecodeError):
            for told, data in self._asked("SELECT hash, text FROM kept WHERE name = ?", name):
                if isinstance(data, bytes) and sha256(data).hexdigest() == told:
                    return data.decode()
        return None

    def _write(self, name: str, data: bytes) -> None:
        with suppress(sqlite3.Error):
            told = sha256(data).hexdigest()
            self._asked("INSERT OR REPLACE INTO kept VALUES (?, ?, ?)", name, told, data)

    def _asked(self, statement: str, *values: str | bytes) -> Iterable[tuple[object, object]]:
        """Return what the file answers; nothing where it cannot be opened. Raises sqlite3.Error."""
        if self._opened_by != os.getpid():  # a process that another began opens its own
            self._opened, self._opened_by = self._open(), os.getpid()
        return self._opened.execute(statement, values) if self._opened else ()

    def _open(self) -> sqlite3.Connection | None:
        """Return the file, sound and not too long; None where it cannot be, or lies elsewhere."""
        path = self._folder / _KIND / _FILE
        if lies_elsewhere(path):
            return None
        with suppress(OSError, sqlite3.Error):
            room(self._folder, _KIND)
            try:
                file = _ready(path)
            except sqlite3.OperationalError:
                return None  # it is sound, and somebody else is at it
            except sqlite3.DatabaseError:
                path.unlink()
                file = _ready(path)
            finalize(self, file.close)
            return file
        return None


def _ready(path: Path) -> sqlite3.Connection:
    """Open a file of texts, made where it is not there. Raises sqlite3.Error."""
    # The preview asks from several threads; the library lets one after the other in.
    file = sqlite3.connect(path, timeout=_WAITS, isolation_level=None, check_same_thread=False)
    try:
        # What a failing machine may spoil is told by its hash and worked out again: nothing is waited for.
        file.execute("PRAGMA synchronous = OFF")
        file.execute("PRAGMA journal_mode = MEMORY")
        file.execute(_TABLE)
        ((size,),) = file.execute("SELECT total(length(text)) FROM kept")
        if size > _MOST_BYTES:
            file.execute(_SHORTEN, (_MOST_BYTES // 2,))
    except sqlite3.Error:
        file.close()
        raise
    return file
