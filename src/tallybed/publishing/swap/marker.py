"""The marker: a file in the site that tells what Tallybed wrote there, to the byte."""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import file_digest
from pathlib import Path

from tallybed.publishing.paths import MARKER

_FORMAT = 1
_MOST = 50_000_000
"""Bytes of marker that are read at most; a site of 300,000 files needs fewer."""
_LITTER = frozenset({".DS_Store", "Thumbs.db", "desktop.ini"})
"""What file managers leave in folders that were looked at; nobody misses it."""


def files_of(folder: Path) -> dict[str, bytes] | None:
    """Return the files that the folder's marker names, as they lie there; None without a marker of ours.

    Raises OSError where one of them is gone or cannot be read.
    """
    told = hashes_of(folder)
    return None if told is None else {path: (folder / path).read_bytes() for path in told}


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """How a site's folder differs from what its marker says, as sorted paths."""

    added: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()

    @property
    def by_hand(self) -> tuple[str, ...]:
        """Files that would be lost if the site were written anew."""
        return tuple(sorted(self.added + self.changed))


def marker(hashes: Mapping[str, str]) -> bytes:
    """Return the marker of a site with these files: path → SHA-256 in hexadecimal."""
    says = {
        "about": "Tallybed wrote this folder and writes it anew at each build. Do not change files in it.",
        "format": _FORMAT,
        "files": dict(sorted(hashes.items())),
    }
    return (json.dumps(says, indent=1, ensure_ascii=False) + "\n").encode()


def hashes_of(folder: Path) -> dict[str, str] | None:
    """Return what the folder's marker says, or None where no marker that we wrote is there."""
    path = folder / MARKER
    if path.is_symlink() or not path.is_file() or path.stat().st_size > _MOST:
        return None
    try:
        says = json.loads(path.read_bytes())
    except (ValueError, RecursionError):
        return None
    if not isinstance(says, dict) or says.get("format") != _FORMAT:
        return None
    files = says.get("files")
    if not isinstance(files, dict) or not all(isinstance(value, str) for value in files.values()):
        return None
    return files


def difference(folder: Path, hashes: Mapping[str, str]) -> Difference:
    """Compare what lies in the folder with what its marker says."""
    added: list[str] = []
    changed: list[str] = []
    seen: set[str] = set()
    for here, folders, files in os.walk(folder):
        links = [name for name in folders if Path(here, name).is_symlink()]
        for name in files + links:
            path = Path(here, name)
            relative = path.relative_to(folder).as_posix()
            if relative == MARKER or name in _LITTER:
                continue
            seen.add(relative)
            if relative not in hashes:
                added.append(relative)
            elif path.is_symlink() or not path.is_file() or _digest(path) != hashes[relative]:
                changed.append(relative)
    return Difference(
        added=tuple(sorted(added)),
        changed=tuple(sorted(changed)),
        missing=tuple(sorted(set(hashes) - seen)),
    )


def _digest(path: Path) -> str:
    """Return the SHA-256 of a file's bytes in hexadecimal digits."""
    with path.open("rb") as file:
        return file_digest(file, "sha256").hexdigest()
