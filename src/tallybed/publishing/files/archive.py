"""A season in one file that opens without the web: its pages, what they lead to, and a page that lists them.

A link that leaves the archive leads to that page, which says what is not there. The
file is a ZIP archive (APPNOTE, PKWARE) whose entries are sorted, stamped with the site's
day and packed by Deflate at one level, pictures left as they are, since they are packed
already: the same site gives the same bytes each time. Another version of the machine's
zlib may find other bytes that unpack to the same.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping
from datetime import date
from io import BytesIO
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

from tallybed.pages.files.archive import INDEX, OUTSIDE, archive_page
from tallybed.pages.frame import addresses
from tallybed.publishing.files.relinking import relinked, target
from tallybed.publishing.paths import relative
from tallybed.publishing.rendering import Rendering
from tallybed.reckoning.year import Year, Years

_LEFT = frozenset({addresses.HOME, addresses.SEASONS, addresses.CROPS, addresses.SHEETS})
"""Lists of the whole site: they would bring all of it along."""
_YEARS = range(1980, 2108)
"""The years that the format can write: seven bits, counted from the first."""
_UNIX = 3
_FILE = 0o100644 << 16
_PAGE = ".html"
_PACKED = (".jpg", ".png", ".webp")
"""Endings of files that are packed by their own format."""
_LEVEL = 9
"""The level of Deflate that packs the smallest. Written down, since a library's usual level may change."""


def archive(
    year: Year, files: Mapping[str, bytes], assets: Iterable[str], rendering: Rendering
) -> dict[str, bytes]:
    """Return the files of a season's archive, by their paths in it.

    ``files`` is the whole site, ``assets`` are the paths of style sheets and the like.
    """
    years = year.years.whole or year.years
    kept = _kept(year, years, files, assets)
    found = {path: _inside(path, files[path], kept, years) for path in kept}
    page = archive_page(year, sorted(kept))
    found[INDEX] = _inside(INDEX, rendering.page(page), kept, years)
    return dict(sorted(found.items()))


def zipped(files: Mapping[str, bytes], folder: str, day: date) -> bytes:
    """Return files as a ZIP archive, all below one folder, each stamped with a day."""
    out = BytesIO()
    year = min(max(day.year, _YEARS[0]), _YEARS[-1])
    with ZipFile(out, "w") as archive:
        for path, data in sorted(files.items()):
            entry = ZipInfo(f"{folder}/{path}", (year, day.month, day.day, 0, 0, 0))
            entry.create_system, entry.external_attr = _UNIX, _FILE
            packing = ZIP_STORED if path.endswith(_PACKED) else ZIP_DEFLATED
            archive.writestr(entry, data, packing, _LEVEL)
    return out.getvalue()


def _kept(year: Year, years: Years, files: Mapping[str, bytes], assets: Iterable[str]) -> frozenset[str]:
    """Return what belongs in: all of the season's folder, and what that leads to, page by page."""
    others = tuple(f"{other.name}/" for other in years.all if other.name != year.name)
    kept = {path for path in files if path.startswith(f"{year.name}/")} | {*assets} & set(files)
    waiting = deque(sorted(kept))
    while waiting:
        here = waiting.popleft()
        if not here.endswith(_PAGE):
            continue
        for path in _targets(here, files[here]):
            if path in files and path not in kept and path not in _LEFT and not path.startswith(others):
                kept.add(path)
                waiting.append(path)
    return frozenset(kept)


def _targets(here: str, page: bytes) -> list[str]:
    """Return the paths that a page's links lead to, each once; an empty one stands for elsewhere."""
    found: dict[str, None] = {}

    def look(tag: str, address: str) -> None:
        """Take note of where an address leads."""
        # What the head of a page names are other forms of the site, not its parts.
        if tag != "link":
            found[target(here, address)[0]] = None

    relinked(page.decode(), look)
    return list(found)


def _inside(here: str, data: bytes, kept: frozenset[str], years: Years) -> bytes:
    """Return a page with every link leading to a page of the archive, or to what it says of the others."""
    if not here.endswith(_PAGE):
        return data
    base = years.garden.address

    def change(tag: str, address: str) -> str | None:
        """Return the address that a link has in the archive, or None where it stays."""
        path, _anchor = target(here, address)
        if not path or path in kept:
            return None
        if tag == "link" and base:
            return addresses.absolute(base, path)
        if path == INDEX:
            return relative(here, INDEX)
        return relative(here, f"{INDEX}#{OUTSIDE}")

    return relinked(data.decode(), change).encode()
