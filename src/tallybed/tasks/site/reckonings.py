"""What took long to reckon or draw, kept beside a garden for the next run, each under all it follows from."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from tallybed.pictures.rooms import FOLDER, keep, room
from tallybed.tasks.site.fingerprint import of_program, of_texts

_KIND = "reckoned"
_MOST_FILES = 2_000
"""Files that are kept; with more, those written first go."""
_MOST_BYTES = 5_000_000
"""Bytes of one that are read at most."""


class Reckonings:
    """One run's use of them. A folder that cannot be written to keeps nothing; a link is not followed."""

    def __init__(self, root: Path) -> None:
        """Open the folder beside the garden in ``root``; nothing is read yet."""
        self._folder = root / FOLDER
        self._place: Path | None = None

    def kept(self, of: str, work: Callable[[], str]) -> str:
        """Return what ``work`` gives: what it gave before, if that is kept and sound, else anew.

        ``of``: all that it follows from, but for the program itself.
        """
        name = of_texts([of_program(), of])[:64]
        text = self._read(name)
        if text is None:
            text = work()
            self._write(name, text)
        return text

    def _read(self, name: str) -> str | None:
        path = self._folder / _KIND / name
        try:
            if self._is_elsewhere() or path.is_symlink() or path.stat().st_size > _MOST_BYTES:
                return None
            told_hash, _, data = path.read_bytes().partition(b"\n")
        except OSError:
            return None
        return data.decode() if sha256(data).hexdigest().encode() == told_hash else None

    def _write(self, name: str, text: str) -> None:
        if self._is_elsewhere():
            return
        data = text.encode()
        with suppress(OSError):
            if self._place is None:
                self._place = _cleared(room(self._folder, _KIND))
            keep(self._place / name, sha256(data).hexdigest().encode() + b"\n" + data)

    def _is_elsewhere(self) -> bool:
        return self._folder.is_symlink() or (self._folder / _KIND).is_symlink()


def _cleared(place: Path) -> Path:
    """Leave in a folder what may be kept, once in a run, and return it. Raises OSError."""
    files = list(place.iterdir())
    if len(files) > _MOST_FILES:
        files.sort(key=lambda path: (path.stat().st_mtime_ns, path.name))
        for path in files[:-_MOST_FILES]:
            path.unlink(missing_ok=True)
    return place
