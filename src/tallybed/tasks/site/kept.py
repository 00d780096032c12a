"""What is kept of closed seasons from one build to the next: which files they had, not the files.

The key it is kept under is a hash of all that those files are made of. So what is found under
a key is right; whether the site still holds the files, byte for byte, is for the site to say.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from tallybed.pages.frame.links import Asked, lead_the_same
from tallybed.pages.frame.surround import surround
from tallybed.pages.frame.waits_shown import open_notices
from tallybed.pictures.rooms import FOLDER, room
from tallybed.publishing.assets import OWN
from tallybed.reading.folder.known_files import CONTENT
from tallybed.reckoning.closed import season_after
from tallybed.reckoning.year import Years
from tallybed.tasks.site.fingerprint import of_folder, of_program, of_texts
from tallybed.tasks.site.laid_out import LaidOut
from tallybed.writing.atomic import write_over

_KIND, _FILE = "closed", "closed.json"
_MOST = 50_000_000
"""Bytes of it that are read at most; 300,000 files need fewer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """The files of closed seasons, and what their links were told."""

    files: Mapping[str, str]
    """Path → SHA-256."""
    links: Asked


def closed_key(laid: LaidOut, years: Years, closed: Years, *, as_of: date | None, drafts: bool) -> str:
    """Return a hash of all that the files of closed seasons are made of. Raises OSError.

    That is all of the garden but its open seasons, which closed ones do not know; what of entries
    may be read; and the little of the whole site that stands around each page.
    """
    names = frozenset(year.name for year in closed.all)
    later = [year.name for year in years.all if year.name not in names]
    read = [(year.name, entry.slug, entry.title) for year in closed.all for entry in year.season.log or ()]
    shown = {name: one for name, one in laid.photographs.by_name.items() if name.split("/")[0] in names}
    told = open_notices(years) if years.foremost in closed.all else ()
    parts = (
        *(of_program(), of_folder(laid.root / CONTENT, without=later), of_folder(laid.root / OWN)),
        *(as_of, drafts, closed.today, season_after(closed.garden, years.garden), read),
        [one.slug for one in closed.garden.questions],
        *(surround(years), told, sorted(shown.items())),
    )
    return of_texts([repr(part) for part in parts])


def kept_closed(root: Path, key: str, years: Years) -> Kept | None:
    """Return what was kept under that key, or None where nothing was or links lead elsewhere by now."""
    path = root / FOLDER / _KIND / _FILE
    try:
        if path.is_symlink() or path.stat().st_size > _MOST:
            return None
        says = json.loads(path.read_bytes())
        if says["key"] != key:
            return None
        links: Asked = {(words, here): target for words, here, target in says["links"]}
        kept = Kept(files=dict(says["files"]), links=links)
    except (OSError, ValueError, RecursionError, KeyError, TypeError):
        return None
    return kept if lead_the_same(years, kept.links) else None


def keep_closed(root: Path, key: str, kept: Kept) -> None:
    """Keep it, in place of what was kept before. A folder that cannot be written to keeps nothing."""
    links = [[words, here, target] for (words, here), target in kept.links.items()]
    says = {"key": key, "files": dict(kept.files), "links": links}
    with suppress(OSError):
        write_over(room(root / FOLDER, _KIND) / _FILE, json.dumps(says).encode())
