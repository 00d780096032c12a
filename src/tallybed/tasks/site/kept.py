"""What is kept of closed seasons from one build to the next: what was found, and which files they had.

The key it is kept under is a hash of all that those files are made of. So what is found under
a key is right; whether the site still holds the files, byte for byte, is for the site to say.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from tallybed.garden.findings import Finding
from tallybed.pages.frame.links import Asked, lead_the_same
from tallybed.pages.frame.surround import surround
from tallybed.pages.frame.waits_shown import open_notices
from tallybed.pictures.photos import Picture
from tallybed.pictures.rooms import FOLDER, keep, room
from tallybed.publishing.assets import OWN
from tallybed.reading.folder.known_files import CONTENT
from tallybed.reckoning.closed import season_after
from tallybed.reckoning.onward import told_of_earlier
from tallybed.reckoning.year import Years
from tallybed.tasks.site.finding_notes import as_notes, from_notes
from tallybed.tasks.site.fingerprint import of_folder, of_program, of_texts

_KIND, _FILE, _FINDINGS = "closed", "files.json", "findings.json"
_MOST = 50_000_000
"""Bytes of it that are read at most; 300,000 files need fewer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """The files of closed seasons, and what their links were told."""

    files: Mapping[str, str]
    """Path → SHA-256."""
    links: Asked


def closed_base(root: Path, years: Years, *, as_of: date | None, drafts: bool) -> str:
    """Return a hash of all that closed seasons are worked out from. Raises OSError.

    That is all of the garden but its open seasons, which closed ones do not know, and what of
    entries may be read. Empty where no season is closed.
    """
    closed = years.closed
    if closed is None:
        return ""
    names = frozenset(year.name for year in closed.all)
    later = [year.name for year in years.all if year.name not in names]
    read = [(year.name, entry.slug, entry.title) for year in closed.all for entry in year.season.log or ()]
    parts = (
        *(of_program(), of_folder(root / CONTENT, without=later)),
        *(as_of, drafts, closed.today, sorted(names), read, [one.slug for one in closed.garden.questions]),
    )
    return of_texts([repr(part) for part in parts])


def closed_key(base: str, root: Path, photographs: Mapping[str, Picture], years: Years, closed: Years) -> str:
    """Return a hash of all that the files of closed seasons are made of. Raises OSError.

    ``base``: of what they are worked out from. Besides there are templates and photographs, and the
    little of the whole site that stands around each page, and which plantings open seasons go on with.
    """
    names = frozenset(year.name for year in closed.all)
    shown = {name: one for name, one in photographs.items() if name.split("/")[0] in names}
    told = open_notices(years) if years.foremost in closed.all else ()
    after = season_after(closed.garden, years.garden)
    onward = tuple(told_of_earlier(years))
    parts = (base, of_folder(root / OWN), after, onward, surround(years), told, sorted(shown.items()))
    return of_texts([repr(part) for part in parts])


def kept_findings(root: Path, base: str) -> tuple[Finding, ...] | None:
    """Return what was found of closed seasons when they were worked out from the same; None for nothing."""
    says = _read(root / FOLDER / _KIND / _FINDINGS)
    try:
        return from_notes(says["findings"]) if says["base"] == base else None
    except (KeyError, TypeError, ValueError):
        return None


def keep_findings(root: Path, base: str, findings: Iterable[Finding]) -> None:
    """Keep it, in place of what was kept before. A folder that cannot be written to keeps nothing."""
    _write(root, _FINDINGS, {"base": base, "findings": as_notes(findings)})


def kept_closed(root: Path, key: str, years: Years) -> Kept | None:
    """Return what was kept under that key, or None where nothing was or links lead elsewhere by now."""
    says = _read(root / FOLDER / _KIND / _FILE)
    try:
        if says["key"] != key:
            return None
        links: Asked = {(words, here): target for words, here, target in says["links"]}
        kept = Kept(files=dict(says["files"]), links=links)
    except (ValueError, KeyError, TypeError):
        return None
    return kept if lead_the_same(years, kept.links) else None


def keep_closed(root: Path, key: str, kept: Kept) -> None:
    """Keep it, in place of what was kept before. A folder that cannot be written to keeps nothing."""
    links = [[words, here, target] for (words, here), target in kept.links.items()]
    _write(root, _FILE, {"key": key, "files": dict(kept.files), "links": links})


def _read(path: Path) -> dict[str, Any]:
    """Return what a note says; nothing where there is none that can be read."""
    try:
        if path.is_symlink() or path.stat().st_size > _MOST:
            return {}
        says = json.loads(path.read_bytes())
    except (OSError, ValueError, RecursionError):
        return {}
    return says if isinstance(says, dict) else {}


def _write(root: Path, name: str, says: dict[str, Any]) -> None:
    """Write a note."""
    with suppress(OSError):
        keep(room(root / FOLDER, _KIND) / name, json.dumps(says).encode())
