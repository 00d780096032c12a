"""What lies in a folder."""

from __future__ import annotations

from pathlib import Path


def tree(folder: Path) -> dict[str, bytes]:
    """Return every file below a folder, by its path there."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
