"""Seasons as commands understood them, beside a garden for the next command: see ``kept_seasons.py``."""

from __future__ import annotations

from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from tallybed.pictures.rooms import FOLDER, keep, lies_elsewhere, room
from tallybed.tasks.site.fingerprint import of_rooms

_KIND = "read"
_MOST = 50_000_000
"""Bytes of one season that are kept; ten thousand weighings take three million."""


class SeasonShelf:
    """The room in the folder beside a garden; links are not followed, and what is not sound is not used."""

    def __init__(self, root: Path, *, changing: str = "") -> None:
        """Know the garden in ``root``, and a season about to be written to; nothing is read yet."""
        self.changing = changing
        self._folder = root / FOLDER

    def find(self, name: str, made_of: str) -> bytes | None:
        """Return what was left under a name, if it was made of the same by the same program; else None."""
        path = self._path(name)
        try:
            if lies_elsewhere(path) or path.stat().st_size > _MOST:
                return None
            head, _, data = path.read_bytes().partition(b"\n")
        except OSError:
            return None
        return data if head.decode("latin-1") == _head(made_of, data) else None

    def leave(self, name: str, made_of: str, data: bytes) -> None:
        """Keep bytes in place of what was left under the name before, as far as that can be done."""
        path = self._path(name)
        if len(data) >= _MOST or lies_elsewhere(path):
            return
        with suppress(OSError):
            room(self._folder, _KIND)
            keep(path, f"{_head(made_of, data)}\n".encode() + data)

    def _path(self, name: str) -> Path:
        return self._folder / _KIND / f"{name}.json"


def _head(made_of: str, data: bytes) -> str:
    """Return the line that stands before what is kept: what it follows from, and its own hash."""
    return f"{of_rooms('garden', 'reading', 'library')} {made_of} {sha256(data).hexdigest()}"
