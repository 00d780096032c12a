"""The marker: a file in the site that tells what Tallybed wrote there, to the byte.

Whoever copies the site copies it along, so it names no file: a path stands in it as its hash.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from tallybed.publishing.paths import MARKER
from tallybed.publishing.swap.whole_file import bytes_of

_FORMAT = 2
_NAMED = 1
"""The format of markers that named every path, as sites written before may still have."""
_MOST = 50_000_000
"""Bytes of marker that are read at most; a site of 300,000 files needs fewer."""
_Entry = tuple[str, os.DirEntry[str]]
"""The path of a file within the site, and what lies there."""
_LITTER = frozenset({".DS_Store", "Thumbs.db", "desktop.ini"})
"""What file managers leave in folders that were looked at; nobody misses it."""


def files_there(folder: Path) -> dict[str, bytes] | None:
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
    def any(self) -> bool:
        """Whether there is any."""
        return bool(self.added or self.changed or self.missing)

    @property
    def by_hand(self) -> tuple[str, ...]:
        """Files that would be lost if the site were written anew."""
        return tuple(sorted(self.added + self.changed))


def marker(hashes: Mapping[str, str]) -> bytes:
    """Return the marker of a site with these files: path → SHA-256 in hexadecimal."""
    says = {
        "about": "Tallybed wrote this folder and writes it anew at each build. Do not change files in it.",
        "format": _FORMAT,
        "files": dict(sorted((_veiled(path), digest) for path, digest in hashes.items())),
    }
    return (json.dumps(says, indent=1, ensure_ascii=False) + "\n").encode()


def _veiled(path: str) -> str:
    """Return what stands for a path in a marker."""
    return sha256(path.encode(errors="surrogateescape")).hexdigest()[:32]


def hashes_of(folder: Path) -> dict[str, str] | None:
    """Return what the folder's marker says, or None where no marker that we wrote is there.

    It is path → SHA-256 in hexadecimal; a file that is gone goes by what stands for its path.
    """
    said = _said(folder)
    return None if said is None else _by_path(said, _entries(str(folder)))


def compared(folder: Path) -> tuple[dict[str, str], Difference] | None:
    """Return the same, and how what lies in the folder differs from it: the folder is gone through once."""
    said = _said(folder)
    if said is None:
        return None
    entries = tuple(_entries(str(folder)))
    told = _by_path(said, entries)
    return told, _difference(entries, told)


def _said(folder: Path) -> dict[str, str] | None:
    """Return what the folder's marker says of each file, by what stands for its path there."""
    path = folder / MARKER
    if path.is_symlink() or not path.is_file() or path.stat().st_size > _MOST:
        return None
    try:
        says = json.loads(path.read_bytes())
    except (ValueError, RecursionError):
        return None
    if not isinstance(says, dict) or says.get("format") not in (_NAMED, _FORMAT):
        return None
    files = says.get("files")
    if not isinstance(files, dict) or not all(isinstance(value, str) for value in files.values()):
        return None
    named = says["format"] == _NAMED
    return {_veiled(one) if named else one: digest for one, digest in files.items()}


def _by_path(said: Mapping[str, str], entries: Iterable[_Entry]) -> dict[str, str]:
    """Return what is said of each file by its path; of one that is gone, by what stands for its path."""
    there = {_veiled(relative): relative for relative, _entry in entries}
    return {there.get(one, one): digest for one, digest in said.items()}


def _difference(entries: Iterable[_Entry], hashes: Mapping[str, str]) -> Difference:
    """Compare what lies in a folder with what its marker says."""
    added: list[str] = []
    changed: list[str] = []
    seen: set[str] = set()
    for relative, entry in entries:
        if relative == MARKER or entry.name in _LITTER:
            continue
        seen.add(relative)
        if relative not in hashes:
            added.append(relative)
        elif not entry.is_file(follow_symlinks=False) or _digest(entry.path) != hashes[relative]:
            changed.append(relative)
    return Difference(
        added=tuple(sorted(added)),
        changed=tuple(sorted(changed)),
        missing=tuple(sorted(set(hashes) - seen)),
    )


def _entries(folder: str) -> Iterator[_Entry]:
    """Yield the path within the site and the entry of everything below a folder, the folders left out."""
    ahead = [(folder, "")]
    while ahead:
        here, above = ahead.pop()
        with os.scandir(here) as entries:
            for entry in entries:
                if entry.is_dir(follow_symlinks=False):
                    ahead.append((entry.path, f"{above}{entry.name}/"))
                else:
                    yield f"{above}{entry.name}", entry


def _digest(path: str) -> str:
    """Return the SHA-256 of a file's bytes in hexadecimal digits."""
    return sha256(bytes_of(path)).hexdigest()
