"""A garden's files as a withdrawal looks through them: texts, pictures, entries, and what lies about."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from hashlib import sha256
from pathlib import Path

from tallybed.garden.findings import Place
from tallybed.publishing.assets import OWN
from tallybed.reading.edit.header_edits import UncutError, photos_named
from tallybed.reading.edit.person_names import position
from tallybed.reading.folder.known_files import CONTENT, LOG, PHOTOS
from tallybed.tasks.withdrawing.withdrawal import RECORD
from tallybed.writing.remnants import backups, files, holding

_TEXTS = frozenset({".csv", ".html", ".md", ".txt", ".xml", ".yaml", ".yml"})


def _files(root: Path, folder: str) -> Iterator[tuple[str, Path]]:
    """Yield each ordinary file below a folder of the garden; links are not followed."""
    top = root / folder
    if top.is_symlink() or not top.is_dir():
        return
    for path in sorted(top.rglob("*")):
        if path.is_file() and not path.is_symlink():
            yield path.relative_to(root).as_posix(), path


def texts(root: Path, folder: str) -> Iterator[tuple[str, str]]:
    """Yield path and text of each text file that can be read as UTF-8."""
    for file, path in _files(root, folder):
        if path.suffix.lower() in _TEXTS and file != RECORD:
            try:
                yield file, path.read_bytes().decode("utf-8")
            except UnicodeDecodeError:
                continue  # a build does not read it either, and says so


def pictures(root: Path) -> dict[str, str]:
    """Return the hash of each file in the photos folders, by its path."""
    return {
        file: sha256(path.read_bytes()).hexdigest()
        for file, path in _files(root, CONTENT)
        if file.split("/")[2:3] == [PHOTOS]
    }


def entries(root: Path) -> frozenset[str]:
    """Return the paths of the log entries of every season."""
    return frozenset(
        file
        for file, _path in _files(root, CONTENT)
        if file.split("/")[2:3] == [LOG] and file.endswith(".md")
    )


def entries_showing(root: Path) -> Iterator[tuple[str, set[tuple[str, str]]]]:
    """Yield each entry that can be read with the pictures it shows, as season and file."""
    every = entries(root)
    for file, text in texts(root, CONTENT):
        if file in every:
            try:
                yield file, {(season_of(file), one) for one in photos_named(text)}
            except UncutError:
                continue


def season_of(file: str) -> str:
    """Return the season a file below the garden's folder belongs to, empty where to none."""
    year = file.split("/")[1]
    return year if re.fullmatch(r"[12][0-9]{3}", year) else ""


def speaking(root: Path, words: Iterable[str], skip: set[str]) -> Iterator[Place]:
    """Yield where texts speak of files by their names."""
    wanted = tuple(words)
    for file, text in texts(root, CONTENT):
        if file not in skip:
            yield from places_of(file, text, wanted)


def places_of(file: str, text: str, words: Iterable[str]) -> Iterator[Place]:
    """Yield where a text speaks of files by their names."""
    for word in sorted(words):
        for match in re.finditer(rf"(?<![\w.-]){re.escape(word)}(?![\w-])", text):
            yield Place(file, *position(text, match.start()))


def speaks(text: str, words: Iterable[str]) -> bool:
    """Return whether a text speaks of files by their names."""
    return any(places_of("", text, words))


def backups_of(root: Path, file: str) -> tuple[str, ...]:
    """Return the copies of a file that editors left beside it, as paths below the garden's folder."""
    return tuple(path.relative_to(root).as_posix() for path in backups(root / file))


def unread(root: Path, gone: Iterable[str], held: Callable[[str], bool]) -> tuple[str, ...]:
    """Return files that hold something, besides those that go and those looked through line by line.

    Archives are told by themselves.
    """
    read = {file for folder in (CONTENT, OWN) for file, _text in texts(root, folder)}
    return holding(root, {*read, *gone, *archives(root), RECORD}, held)


def copies_of(root: Path, gone: Iterable[str], pictures: Mapping[str, str]) -> Iterator[str]:
    """Yield files of the same bytes as pictures that go, wherever in the garden's folder they lie."""
    going = {*gone}
    hashes = {pictures[file] for file in going if file in pictures}
    sizes = {(root / file).stat().st_size for file in going if file in pictures}
    for file, path in files(root):
        other = file not in going and path.stat().st_size in sizes
        if other and sha256(path.read_bytes()).hexdigest() in hashes:
            yield file


def archives(root: Path) -> tuple[str, ...]:
    """Return the archives that lie in the garden's folder, made while all was still there."""
    return tuple(file for file, path in files(root) if path.suffix.lower() == ".zip")
