"""The only module that opens the gardener's files: bounded, inside the folder, UTF-8.

Text comes out with line feeds alone and without a byte order mark, so that
lines and columns are those an editor shows.
"""

from __future__ import annotations

import codecs
import re
import stat
from dataclasses import dataclass
from pathlib import Path

from tallybed.garden.findings import Place
from tallybed.garden.invisible import UNSEEN, described
from tallybed.reading.base.problems import LeftOut, Problems

LARGEST = 2_000_000
"""Bytes of the largest text file read; a ledger of ten thousand weighings has about one million."""
LARGEST_TABLE = 40_000_000
"""Bytes of the largest table read: a century of a weather station, each day with all that it measured."""
_WIDE_MARKS = (
    (codecs.BOM_UTF32_LE, "UTF-32"),
    (codecs.BOM_UTF32_BE, "UTF-32"),
    (codecs.BOM_UTF16_LE, "UTF-16"),
    (codecs.BOM_UTF16_BE, "UTF-16"),
)
_BEGINNING = 1000
"""Bytes of which about half are nought in a text of two bytes a sign, also where no mark says so."""
_VERSIONS = re.compile(r"^(?:<{7}|={7}|>{7})(?= |$)", re.MULTILINE)
"""The marks of version control around lines that two people changed; in prose they would be published."""
_BACKUP = re.compile(
    r"\.|#.*#$|.*(~|\.(swp|swo|bak|tmp|orig|part))$|(Thumbs\.db|desktop\.ini)$", re.IGNORECASE
)


@dataclass(frozen=True, slots=True, order=True)
class FolderItem:
    """One name in a folder."""

    name: str
    is_folder: bool


class FolderOnDisk:
    """A garden folder, opened for reading."""

    def __init__(self, root: Path, problems: Problems) -> None:
        """Open the folder; nothing is read yet."""
        self._root = root
        self._real_root = root.resolve()
        self._problems = problems

    def listing(self, folder: str) -> tuple[FolderItem, ...]:
        """Return the names in a folder below the root, sorted, without hidden files and editors' backups.

        A folder that is not there has no names. Raises OSError if it cannot be listed.
        """
        path = self._root / folder
        if not path.is_dir() or not self._inside(path, folder):
            return ()
        found = (
            FolderItem(each.name, each.is_dir()) for each in path.iterdir() if not _BACKUP.match(each.name)
        )
        return tuple(sorted(found))

    def text(self, file: str) -> str:
        """Return a file's text. Raises LeftOut after telling why it cannot be, OSError on machine trouble."""
        path = self._root / file
        if not self._inside(path, file):
            raise LeftOut
        about = path.stat()
        if not stat.S_ISREG(about.st_mode):
            found = "this is a folder" if stat.S_ISDIR(about.st_mode) else "this is not an ordinary file"
            self._problems.add(
                Place(file),
                "not-a-file",
                found,
                expected="a text file",
                remedy="give it another name, or put a text file in its place",
            )
            raise LeftOut
        data, largest = b"", LARGEST_TABLE if file.endswith(".csv") else LARGEST
        if about.st_size <= largest:
            with path.open("rb") as stream:
                data = stream.read(largest + 1)
        if about.st_size > largest or len(data) > largest:
            found = f"the file has {max(about.st_size, len(data)):,} bytes, so it was not read"
            self._problems.add(
                Place(file), "file-too-large", found, expected=f"a text file of {largest:,} bytes at most"
            )
            raise LeftOut
        return self._decoded(data, file)

    def _inside(self, path: Path, name: str) -> bool:
        """Return whether a path stays within the garden folder; tells where a link leads out or nowhere."""
        try:
            real = path.resolve(strict=True)
        except (FileNotFoundError, RuntimeError):
            self._problems.add(
                Place(name), "broken-link", "this link leads nowhere", remedy="put the file itself here"
            )
            return False
        if real.is_relative_to(self._real_root):
            return True
        self._problems.add(
            Place(name),
            "outside-folder",
            "this link leads out of the garden folder",
            expected="a file inside it",
            remedy="put the file itself here",
        )
        return False

    def _decoded(self, data: bytes, file: str) -> str:
        """Return a file's bytes as text, each line ended by a line feed alone.

        Raises LeftOut, after telling, where they are not UTF-8, hold what cannot be seen, or two versions.
        """
        encoding = _wide(data)
        if encoding:
            found = f"the file is written in {encoding}"
            self._problems.add(
                Place(file), "not-utf-8", found, expected="UTF-8", remedy="save it again as UTF-8"
            )
            raise LeftOut
        data = data.removeprefix(codecs.BOM_UTF8)
        try:
            text = data.decode("utf-8")
        except UnicodeDecodeError as error:
            self._tell_byte(data, error.start, file)
            raise LeftOut from None
        text = text.replace("\r\n", "\n").replace("\r", "\n")
        unseen = UNSEEN.search(text)
        if unseen is not None:
            self._problems.add(
                _place_in(text[: unseen.start()], file),
                "unseen-character",
                described(unseen.group()),
                remedy="delete it",
            )
            raise LeftOut
        begun = _two_versions(text)
        if begun is not None:
            self._problems.add(
                _place_in(text[:begun], file),
                "two-versions",
                "two versions of the file were put together here, and nobody chose between them",
                remedy="keep what is right of both, and delete the lines of <, = and >",
            )
            raise LeftOut
        return text

    def _tell_byte(self, data: bytes, start: int, file: str) -> None:
        """Tell of the first byte that is not UTF-8, with what it would be in Latin-1."""
        before = data[:start].decode("utf-8").replace("\r\n", "\n").replace("\r", "\n")
        found = f"the byte {data[start]:02X} is not UTF-8"
        as_latin = data[start : start + 1].decode("latin-1")
        if as_latin.isprintable():
            found += f"; in the older Latin-1 it would be {as_latin}"
        self._problems.add(
            _place_in(before, file),
            "not-utf-8",
            found,
            expected="UTF-8",
            remedy="save the file again as UTF-8",
        )


def _wide(data: bytes) -> str:
    """Return the encoding of a text in two or four bytes a sign, where a mark says so or its bytes do."""
    begin = data[:_BEGINNING]
    told = next((encoding for mark, encoding in _WIDE_MARKS if data.startswith(mark)), "")
    return told or ("UTF-16" if len(begin) < begin.count(0) * 4 < 3 * len(begin) else "")


def _two_versions(text: str) -> int | None:
    """Return where two versions of a part begin that nobody chose between, or None."""
    if "<<<<<<<" not in text:
        return None
    found: list[int] = []
    for mark in _VERSIONS.finditer(text):
        if len(found) < 3 and mark.group()[0] == "<=>"[len(found)]:
            found.append(mark.start())
    return found[0] if len(found) == 3 else None


def _place_in(before: str, file: str) -> Place:
    """Return the place after a text, columns counted in characters."""
    return Place(file, before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1)
