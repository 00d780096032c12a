"""The crop library that comes with the package: ``library/crops/*.yaml`` and ``library/sources.yaml``.

It is read strictly. Whatever does not fit is our mistake, not the gardener's, and
ends the reading with the file, line and column it stands at. What it was understood as
is kept beside it, so that commands need not read it (``kept_library.py``).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from hashlib import blake2b
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from tallybed.garden.crops import Crop, Footing, Source
from tallybed.garden.findings import worded
from tallybed.garden.naming import Names, free_letters
from tallybed.reading.base.context import Context
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.base.scanners import Scanner, every
from tallybed.reading.folder.kept_library import UNDERSTOOD, from_text
from tallybed.reading.shapes.library import crop, source
from tallybed.reading.yaml.nodes import parse

T = TypeVar("T")
FOLDER = Path(__file__).parents[2] / "library"
"""Where the package keeps its library."""


class LibraryError(Exception):
    """A file of the crop library is malformed; the message names the file, the line and what is wrong."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Library:
    """The crops the package knows, and the publications their figures come from."""

    crops: Mapping[str, Crop]
    """By slug, in sorted order."""
    sources: Mapping[str, Source]
    """By id, in sorted order."""
    names: Names
    """What its crops are called; made once, since every reading of a garden begins with it."""


@cache
def load_library() -> Library:
    """Return the library of the package, read once: as it is kept, if that was made of its files.

    Raises LibraryError, OSError.
    """
    kept = from_text((FOLDER / UNDERSTOOD).read_text(encoding="utf-8"), hash_of(FOLDER))
    return read_library(FOLDER) if kept is None else _library(*kept)


def hash_of(folder: Path) -> str:
    """Return a hash of a library's files by name and bytes. Raises OSError."""
    found = blake2b(digest_size=32)
    for page in _pages(folder):
        data = page.read_bytes()
        found.update(f"{page.name} {len(data)}\n".encode())
        found.update(data)
    return found.hexdigest()


def read_library(folder: Path) -> Library:
    """Read a library from a folder. Raises LibraryError at the first file that does not fit."""
    first, *pages = _pages(folder)
    sources: dict[str, Source] = {}
    for one in read_page(first, every(source, "a list of sources")):
        if one.id in sources:
            raise LibraryError(f"sources.yaml: the id {one.id} stands there twice")
        sources[one.id] = one
    crops = [read_page(page, crop, sources) for page in pages]
    holders: dict[str, str] = {}
    for each in crops:
        holder = holders.setdefault(each.letters, each.slug)
        if holder != each.slug:
            free = free_letters(each.name, {one.letters for one in crops})
            raise LibraryError(
                f"{each.slug}.yaml: the letters {each.letters} stand for {holder} already; {free} are free"
            )
    return _library(crops, sources.values())


def _library(crops: Iterable[Crop], sources: Iterable[Source]) -> Library:
    """Return crops, which come sorted, and sources as a library."""
    by_slug = MappingProxyType({each.slug: each for each in crops})
    return Library(
        crops=by_slug,
        names=Names.of(by_slug.values()),
        sources=MappingProxyType({each.id: each for each in sorted(sources, key=lambda each: each.id)}),
    )


def _pages(folder: Path) -> tuple[Path, ...]:
    """Return the files of a library: that of the sources, and those of the crops by name."""
    crops = sorted((folder / "crops").iterdir(), key=lambda page: page.name)
    return (folder / "sources.yaml", *(page for page in crops if page.name.endswith(".yaml")))


def kinds(library: Library) -> dict[Footing, int]:
    """Return how many of the library's figures stand on each kind of ground (those used once only)."""
    counts = dict.fromkeys(Footing, 0)
    for each in library.crops.values():
        for figure in each.figures:
            counts[figure.kind] += 1
    return counts


def read_page(page: Path, scan: Scanner[T], sources: Collection[str] = ()) -> T:
    """Read one file. Raises LibraryError with the first problem found in it."""
    problems = Problems()
    try:
        node = parse(page.read_text(encoding="utf-8"), page.name, problems)
        if node is None:
            raise LibraryError(f"{page.name}: the file holds nothing")
        read = scan(node, Context(problems=problems, sources=sources))
    except LeftOut:
        read = None
    found = problems.all()
    if found or read is None:
        raise LibraryError(worded(found[0]))
    return read
