"""Whether a site is already what a build would make it, known before anything that takes time is loaded.

A build notes the hash of all it was made of and the hash of the site's marker, with what it told. Where
both are as they were, and every file of the site is as its marker says, there is nothing to build.
"""

from __future__ import annotations

import glob
import json
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from hashlib import sha256
from pathlib import Path

from tallybed.garden.findings import Finding
from tallybed.pictures.rooms import FOLDER, keep, room
from tallybed.publishing.paths import MARKER
from tallybed.publishing.swap.marker import compared
from tallybed.tasks.site.finding_notes import as_notes, from_notes
from tallybed.tasks.site.fingerprint import of_folder, of_program, of_texts

SITE = "site"
"""The folder a site is written to, below the garden's, where no other is named."""
_KIND = "built"
_MOST = 10_000_000
"""Bytes of a note that are read at most."""
_TARGETS = 4
"""Folders of which a note is kept at a time."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Unchanged:
    """What the last build told, of which all still holds."""

    findings: tuple[Finding, ...]
    pages: int
    today: date


def made_of(root: Path, *, as_of: date | None) -> str:
    """Return a hash of all that a site is made of: garden, program, and what was asked. Raises OSError."""
    folders = (of_folder(root / "content"), of_folder(root / "layouts"))
    return of_texts([of_program(), *folders, repr(as_of)])


def unchanged(root: Path, target: Path, source: str) -> Unchanged | None:
    """Return what the last build of these sources told, if the site still is what it made; else None."""
    beside = target.resolve()
    try:
        path = _note(root, target)
        if path.is_symlink() or path.stat().st_size > _MOST or _left_halfway(beside):
            return None
        says = json.loads(path.read_bytes())
        mark = sha256((target / MARKER).read_bytes()).hexdigest()
        if (says["source"], says["marker"]) != (source, mark):
            return None
        found = compared(target)
        if found is None or found[1].any:
            return None
        return Unchanged(
            findings=from_notes(says["findings"]),
            pages=int(says["pages"]),
            today=date.fromisoformat(says["today"]),
        )
    except (OSError, ValueError, RecursionError, KeyError, TypeError):
        return None


def note(root: Path, target: Path, source: str, marker: str, told: Unchanged) -> None:
    """Note what a build was made of and what it told. A folder that cannot be written to keeps nothing."""
    says = {
        "source": source,
        "marker": marker,
        "findings": as_notes(told.findings),
        "pages": told.pages,
        "today": told.today.isoformat(),
    }
    path = _note(root, target)
    with suppress(OSError):
        if path.parent.is_symlink():
            return
        room(root / FOLDER, _KIND)
        others = sorted((one for one in path.parent.glob("*.json") if one != path), key=lambda one: one.name)
        for one in others[: max(0, len(others) - _TARGETS + 1)]:
            one.unlink(missing_ok=True)
        keep(path, json.dumps(says).encode())


def _note(root: Path, target: Path) -> Path:
    """Return where the note of a site's folder lies."""
    name = sha256(str(target.resolve()).encode("utf-8", "surrogatepass")).hexdigest()[:32]
    return root / FOLDER / _KIND / f"{name}.json"


def _left_halfway(target: Path) -> bool:
    """Return whether a hand-over was ended halfway, which the next one must finish or undo."""
    return any(target.parent.glob(f".{glob.escape(target.name)}.tallybed-*"))
