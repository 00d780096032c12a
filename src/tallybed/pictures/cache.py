"""Pictures kept from one build to the next, beside the garden and never in its site.

A photograph is kept under the hash of its own bytes and of everything else that
decides what comes out, so that an entry is right or is not found. What is found is
still looked at: its hash, and that each file in it is a bare picture of the size it
is said to have. What a build did not use is taken away after it, so that the folder
never holds more than one build needs.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from shutil import rmtree

from tallybed.pages.files.card import Card
from tallybed.pictures import share_cards
from tallybed.pictures.developing import Developed, Print, stamp
from tallybed.pictures.rooms import NOTES, keep, room
from tallybed.pictures.stripped import Bare, bare

_PHOTO, _CARD = "photo", "card"
"""Endings of what is kept; each kind is kept and taken away by itself."""


class _Shelf:
    """One build's use of the folder for one kind of thing; without a folder nothing is kept."""

    def __init__(self, folder: Path | None, kind: str, made_by: str) -> None:
        """Open the folder; nothing is read yet. One that is a link to elsewhere is not used."""
        self._folder = None if folder is None or folder.is_symlink() else folder
        self._kind = kind
        self._stamp = sha256(made_by.encode()).hexdigest()[:16]
        self.used: set[str] = set()

    def read(self, source: str) -> bytes:
        """Return what was kept for that hash; nothing where it is not there."""
        name = self._name(source)
        self.used.add(name)
        if self._folder is None:
            return b""
        try:
            return (self._folder / self._kind / name).read_bytes()
        except OSError:
            return b""

    def keep(self, source: str, data: bytes) -> None:
        """Keep what that hash gave. A folder that cannot be written to keeps nothing."""
        if self._folder is None:
            return
        with suppress(OSError):
            keep(room(self._folder, self._kind) / self._name(source), data)

    def tidy(self, others: Iterable[str] = ()) -> None:
        """Take away what this build did not use, here or, by the names of ``others``, in another process."""
        used = self.used.union(others)
        for path in _entries(self._folder, self._kind):
            if path.name not in used or path.parent == self._folder:
                with suppress(OSError):
                    path.unlink()

    def _name(self, source: str) -> str:
        """Return the name of the file in which that hash's entry is kept."""
        return f"{source}-{self._stamp}.{self._kind}"


class Cache:
    """The photographs that are kept."""

    def __init__(self, folder: Path | None) -> None:
        """Open the folder; see ``_Shelf``."""
        self._shelf = _Shelf(folder, _PHOTO, stamp())
        self.tidy = self._shelf.tidy

    def get(self, source: str) -> Developed | None:
        """Return what was kept for the photograph of that hash, if it is there and sound."""
        try:
            return unpacked(self._shelf.read(source))
        except ValueError:
            return None

    def put(self, source: str, made: Developed) -> None:
        """Keep what a photograph of that hash gave."""
        self._shelf.keep(source, packed(made))


class CardCache:
    """The pictures of figures that are kept, each by all that it says."""

    def __init__(self, folder: Path | None) -> None:
        """Open the folder; see ``_Shelf``."""
        self._shelf = _Shelf(folder, _CARD, share_cards.stamp())
        self.tidy = self._shelf.tidy

    @property
    def used(self) -> frozenset[str]:
        """What this build used, by name."""
        return frozenset(self._shelf.used)

    def drawn(self, card: Card) -> bytes:
        """Return a card as a PNG file: kept from a build before and sound, else drawn."""
        source = sha256(repr(card).encode()).hexdigest()
        told_hash, _, data = self._shelf.read(source).partition(b"\n")
        if not data or sha256(data).hexdigest().encode() != told_hash:
            data = share_cards.drawn(card)
            self._shelf.keep(source, sha256(data).hexdigest().encode() + b"\n" + data)
        return data


def forget_words(folder: Path) -> None:
    """Take away all that was kept and may hold words of the garden. Raises OSError where it cannot be."""
    for path in _entries(folder, _CARD):
        path.unlink(missing_ok=True)
    for kind in NOTES:
        if (folder / kind).is_dir() and not (folder / kind).is_symlink():
            rmtree(folder / kind)


def forget(folder: Path, source: str) -> int:
    """Take away all that was kept of the photograph of that hash; return how many files went.

    Raises OSError where one cannot be.
    """
    found = [path for path in _entries(folder, _PHOTO) if path.name.startswith(f"{source}-")]
    for path in found:
        path.unlink(missing_ok=True)
    return len(found)


def _entries(folder: Path | None, kind: str) -> list[Path]:
    """Return the files of one kind that the cache keeps, half-written ones too, in order of name."""
    if folder is None or folder.is_symlink() or not folder.is_dir():
        return []
    entry = re.compile(rf"[0-9a-f]{{64}}-[0-9a-f]{{16}}\.{kind}(\.[A-Za-z0-9_]+\.new)?")
    # Those of an earlier version lie in the folder itself.
    found = (path for place in (folder, folder / kind) if place.is_dir() for path in place.iterdir())
    return sorted(path for path in found if entry.fullmatch(path.name))


def packed(made: Developed) -> bytes:
    """Return one file of it all: a line that says what follows, and then that, one after the other."""
    head = {
        "told": made.told,
        "prints": [
            {"kind": one.kind, "width": one.width, "height": one.height, "bytes": len(one.data)}
            for one in made.prints
        ],
    }
    body = json.dumps(head).encode() + b"\n" + b"".join(one.data for one in made.prints)
    return sha256(body).hexdigest().encode() + b"\n" + body


def unpacked(data: bytes) -> Developed:
    """Return what ``packed`` put in. Raises ValueError where anything is not as it was."""
    told_hash, _, body = data.partition(b"\n")
    if sha256(body).hexdigest().encode() != told_hash:
        raise ValueError("other bytes than were kept")
    line, _, rest = body.partition(b"\n")
    head = json.loads(line)
    prints = []
    try:
        for one in head["prints"]:
            part, rest = rest[: one["bytes"]], rest[one["bytes"] :]
            if bare(part) != Bare(one["kind"], one["width"], one["height"]):
                raise ValueError("no bare picture of the size told")
            prints.append(Print(kind=one["kind"], width=one["width"], height=one["height"], data=part))
        if rest or not prints:
            raise ValueError("more or less than was told")
        return Developed(prints=tuple(prints), told=tuple(str(clause) for clause in head["told"]))
    except (KeyError, TypeError) as error:
        raise ValueError("not as it was written") from error
