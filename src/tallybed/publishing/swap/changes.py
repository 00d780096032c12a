"""What a build changed for the public: pages new, changed and gone, by the marker of the site before."""

from __future__ import annotations

import re
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

_PAGE = ".html"
_STAMP = re.compile(rb'<time class="stamp" datetime="([^"]*)">([^<]*)</time>')
"""The day that a page speaks as of, as ``layouts/sheet.html`` writes it."""
_MENU = re.compile(rb'<nav class="site".*?</nav>', re.DOTALL)
"""The site's menu, as it is written there: it changes on every page when a season begins or is over."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """Paths of pages, each sorted."""

    new: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()
    framed: tuple[str, ...] = ()
    """Pages in which nothing is other but the day they speak as of, or the menu."""

    def __bool__(self) -> bool:
        """Return whether any page is other than before, or there is one more or less."""
        return bool(self.new or self.changed or self.gone or self.framed)


def changes(folder: Path, before: Mapping[str, str], after: Mapping[str, str], new: Path) -> Changes:
    """Return what the pages of a site are to become, before they do.

    ``before`` and ``after`` are path → SHA-256, as the old marker and the new one tell
    them; ``folder`` holds the old site, ``new`` the new one.
    """
    was, comes = _pages(before), _pages(after)
    other = [path for path in sorted(was & comes) if before[path] != after[path]]
    framed = [path for path in other if _only_framed(folder / path, new / path)]
    return Changes(
        new=tuple(sorted(comes - was)),
        changed=tuple(path for path in other if path not in set(framed)),
        gone=tuple(sorted(was - comes)),
        framed=tuple(framed),
    )


def _pages(paths: Mapping[str, str]) -> set[str]:
    return {path for path in paths if path.endswith(_PAGE)}


def _only_framed(old: Path, new: Path) -> bool:
    """Return whether two states of a page are one, without their menus and the days they speak as of."""
    with suppress(OSError):
        was, comes = (_MENU.sub(b"", path.read_bytes()) for path in (old, new))
        days = {day for page in (was, comes) for stamp in _STAMP.findall(page) for day in stamp if day}
        # The longest first: the 4th of a month stands in the 14th.
        for day in sorted(days, key=lambda one: (-len(one), one)):
            was, comes = was.replace(day, b""), comes.replace(day, b"")
        return was == comes
    return False
