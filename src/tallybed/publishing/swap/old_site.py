"""What lies in a site's folder before a new site takes its place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from tallybed.publishing.paths import MARKER
from tallybed.publishing.swap.marker import compared, marker
from tallybed.publishing.swap.refused import RefusedError

_SOME = 8
"""Files that a refusal names before it says how many more there are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OldSite:
    """What lies in a site's folder."""

    told: Mapping[str, str] | None = None
    """Path → SHA-256 by its marker; None where there is none."""
    intact: Mapping[str, str] = field(default_factory=dict)
    """Those of them that lie there to the byte."""
    more: bool = False
    """Whether anything else lies there, a marker that we would write otherwise among them."""


def old_site(target: Path, *, replace: bool) -> OldSite:
    """Return what lies in a site's folder. Raises RefusedError where it must stay."""
    if not target.exists():
        return OldSite()
    if not target.is_dir():
        raise RefusedError(f"{target} is a file; name a folder for the site")
    if any((target / name).exists() for name in (".git", ".hg", ".svn")):
        raise RefusedError(
            f"{target} is kept under version control, and writing it anew would lose its history; "
            "build into another folder and copy from there"
        )
    told_and_found = compared(target)
    if told_and_found is None:
        if any(target.iterdir()) and not replace:
            raise RefusedError(
                f"{target} is not empty and Tallybed did not write it; "
                "name another folder with --to, or use --replace to lose what is in it"
            )
        return OldSite()
    told, found = told_and_found
    if found.by_hand and not replace:
        raise RefusedError(
            f"{target} holds files that were changed or added by hand: {_some(found.by_hand)}; "
            "move them elsewhere, or use --replace to lose them"
        )
    other = frozenset((*found.changed, *found.missing))
    intact = {path: digest for path, digest in told.items() if path not in other}
    return OldSite(
        told=told, intact=intact, more=bool(found.added) or (target / MARKER).read_bytes() != marker(told)
    )


def _some(paths: tuple[str, ...]) -> str:
    """Return the first paths of many, and how many more there are."""
    more = f" and {len(paths) - _SOME} more" if len(paths) > _SOME else ""
    return ", ".join(paths[:_SOME]) + more
