"""The folder beside a garden in which builds keep what the next one may use again, a room for each kind."""

from __future__ import annotations

import os
from pathlib import Path

FOLDER = ".tallybed-cache"
"""Name of the folder in a garden."""
NOTES = ("closed", "built", "reckoned", "read")
"""Rooms for what is noted of a build: what closed seasons had, what it was made of and told, what took
long to reckon, and seasons as they were understood."""
_TAG = "CACHEDIR.TAG"
_TEXTS = {
    # Bryan Ford, "Cache Directory Tagging Specification", version 0.6: the first line, to the letter.
    _TAG: "Signature: 8a477f597d28d172789f06886806bc55\n# Tallybed's; it may be deleted at any time.\n",
    ".gitignore": "*\n",
}


def room(folder: Path, kind: str) -> Path:
    """Return the place for one kind of thing, made ready. Raises OSError."""
    (folder / kind).mkdir(parents=True, exist_ok=True)
    for name, text in _TEXTS.items():
        if not (folder / name).exists():
            (folder / name).write_text(text, encoding="utf-8", newline="\n")
    return folder / kind


def lies_elsewhere(path: Path) -> bool:
    """Return whether a file in a room, or the room, or the folder of all rooms, is a link."""
    return any(one.is_symlink() for one in (path, path.parent, path.parents[1]))


def keep(path: Path, data: bytes) -> None:
    """Put a file in place whole, whatever other builds do at the time. Raises OSError."""
    import tempfile  # with all it loads: a build that finds nothing changed keeps nothing

    handle, new = tempfile.mkstemp(prefix=f"{path.name}.", suffix=".new", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        Path(new).replace(path)
    except OSError:
        Path(new).unlink(missing_ok=True)
        raise
