"""Paths within a site: which are allowed, and how one page points at another."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from posixpath import dirname
from urllib.parse import quote

from tallybed.pages.frame.relative import relative as way

MARKER = ".tallybed"
"""Name of the file that tells that Tallybed wrote a folder."""

_FORBIDDEN = re.compile(r'[\x00-\x1f\x7f<>:"\\|?*]')
"""Signs that no file name may hold on one system or another (Microsoft, "Naming Files, Paths, and
Namespaces"), and the backslash that is a separator there."""
_DEVICES = frozenset({"con", "prn", "aux", "nul"} | {f"{d}{n}" for d in ("com", "lpt") for n in range(1, 10)})
"""Names that open a device instead of a file (same source)."""
ELSEWHERE = re.compile(r"[A-Za-z][A-Za-z0-9+.-]*:|//")
"""The scheme of an absolute address (RFC 3986, section 3.1), or the start of a network path."""


@lru_cache(maxsize=20_000)
def fits(path: str) -> bool:
    """Return whether the path names a file inside the site on every system."""
    for part in path.split("/"):
        stem = part.split(".")[0].casefold()
        if part.startswith(".") or part.endswith((".", " ")) or not part or stem in _DEVICES:
            return False
    return not _FORBIDDEN.search(path)


def checked(path: str) -> str:
    """Return the path if it fits. Raises ValueError."""
    if not fits(path):
        raise ValueError(f"no path within a site: {path!r}")
    return path


def claimed_twice(paths: Iterable[str]) -> tuple[str, ...]:
    """Return paths that two files claim, sorted.

    Names that differ in case alone count as one, since some systems keep only one of
    them; so does a file that stands where another file's folder must.
    """
    seen: set[str] = set()
    twice: set[str] = set()
    folders: set[str] = set()
    every = list(paths)
    for path in every:
        folded = path.casefold()
        if folded in seen:
            twice.add(path)
        seen.add(folded)
        while (folder := dirname(folded)) not in {"", folded}:
            folders.add(folder)
            folded = folder
    twice |= {path for path in every if path.casefold() in folders}
    return tuple(sorted(twice))


def page_path(target: str) -> str:
    """Return the file that a target names: a folder's page is its ``index.html``."""
    if not target or target.endswith("/"):
        return f"{target}index.html"
    return target


def from_top(top: str, target: str) -> str:
    """Return the link to ``target`` from a page shown at any address, where the site lies at ``top``."""
    found = relative("index.html", target)
    return found if ELSEWHERE.match(found) or found.startswith("#") else top + found


def relative(source: str, target: str) -> str:
    """Return the link from the file ``source`` to ``target``, both paths within the site.

    A page is always named with its ``index.html``, so that a site opened from a
    folder by double-click works without a server. A part after ``#`` is kept; an
    address outside the site (``https:``, ``mailto:``) is returned as it is.
    """
    path, part = _page_and_part(target)
    return way(source, path) + part if path else part


@lru_cache(maxsize=20_000)
def _page_and_part(target: str) -> tuple[str, str]:
    """Return the file that a target names and its part of it; without a file what is left as it is."""
    path, hash_sign, anchor = target.partition("#")
    if ELSEWHERE.match(target) or (hash_sign and not path):
        return "", target
    return checked(page_path(path.lstrip("/"))), hash_sign + quote(anchor)
