"""What lies in a garden's folder besides what a build reads: backups, spreadsheets, mails, archives.

Editors and commands leave such files behind; what was withdrawn may still stand in
them. They are the gardener's own, so they are found and told, and not cut.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Container, Iterator
from contextlib import suppress
from io import BytesIO
from pathlib import Path
from zipfile import ZipFile

from tallybed.publishing.paths import MARKER

MOST_BYTES = 50_000_000
"""Bytes that are looked through in one file, and in all that a packed one holds."""
_BACKUP = re.compile(r"~|\.(?:bak|old|orig|save|sw[a-p])~?", re.IGNORECASE)
"""What editors put after the name of a file they keep a copy of (common practice, no source)."""


def backups(path: Path) -> tuple[Path, ...]:
    """Return the copies of a file that editors left beside it, such as ``x.md~`` and ``.x.md.swp``."""
    if not path.parent.is_dir():
        return ()
    return tuple(
        one
        for one in sorted(path.parent.iterdir())
        if one != path and one.is_file() and not one.is_symlink() and _copies(one.name, path)
    )


def _copies(name: str, path: Path) -> bool:
    """Return whether a file of that name is an editor's copy of the file at ``path``."""
    if name == f"#{path.name}#":
        return True
    for known in (path.name, path.stem):
        rest = name.removeprefix(".").removeprefix(known)
        if rest != name.removeprefix(".") and _BACKUP.fullmatch(rest):
            return True
    return False


def files(root: Path) -> Iterator[tuple[str, Path]]:
    """Yield each ordinary file of a garden's folder that no program can make anew, with its path below it.

    Built sites, folders whose name begins with a dot (version control and what is kept of
    photographs among them) and what may not be read are left out; links are not followed.
    """
    for folder, folders, names in os.walk(root):
        here = Path(folder)
        if MARKER in names and here != root:
            folders.clear()
            continue
        folders[:] = sorted(one for one in folders if not (one.startswith(".") or (here / one).is_symlink()))
        for name in sorted(names):
            path = here / name
            if path.is_file() and not path.is_symlink() and os.access(path, os.R_OK):
                yield path.relative_to(root).as_posix(), path


def sites(root: Path) -> tuple[str, ...]:
    """Return the folders of built sites in a garden's folder, as paths below it."""
    found = (path.parent for path in root.glob(f"*/{MARKER}") if path.is_file())
    return tuple(sorted(path.relative_to(root).as_posix() for path in found))


def holding(root: Path, but: Container[str], held: Callable[[str], bool]) -> tuple[str, ...]:
    """Return the files, but some, in whose text something is held; packed ones are looked into."""
    return tuple(
        file
        for file, path in files(root)
        if file not in but and path.stat().st_size <= MOST_BYTES and any(map(held, _texts(path)))
    )


def _texts(path: Path) -> Iterator[str]:
    """Yield what is written in a file; nothing for one that holds no text, such as a picture."""
    data = path.read_bytes()
    if data.startswith(b"PK"):
        yield from _packed(data)
    elif data.startswith((b"\xff\xfe", b"\xfe\xff")):
        yield data.decode("utf-16", "replace")
    elif b"\0" not in data:
        yield data.decode("utf-8", "replace")


def _packed(data: bytes) -> Iterator[str]:
    """Yield the texts of a ZIP archive's files, those of a workbook among them, up to a bearable size.

    Nobody can look into what is damaged or locked: it is passed over, and the rest is looked into.
    """
    left = MOST_BYTES
    # Damage raises errors of many kinds, those of each way of packing among them; no disk is involved.
    with suppress(Exception), ZipFile(BytesIO(data)) as archive:
        for member in archive.infolist():
            left -= member.file_size
            if left < 0:
                return
            inside = b"\0"
            with suppress(Exception):
                inside = archive.read(member)
            if b"\0" not in inside:
                yield inside.decode("utf-8", "replace")
