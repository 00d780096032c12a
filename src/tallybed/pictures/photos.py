"""The photographs that entries name: which the site shows, as which files, and what is wrong with others."""

from __future__ import annotations

import errno
import os
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

from tallybed.garden.findings import Finding, Place, Severity
from tallybed.garden.garden import Garden
from tallybed.garden.naming import folded
from tallybed.garden.records.log import Entry, Photo
from tallybed.pictures.cache import Cache
from tallybed.pictures.developing import EXPECTED, MOST_BYTES, Developed, Unfit, developed
from tallybed.pictures.stripped import JPEG, WEBP

USUAL = 960
"""Pixels across of the copy for readers that choose none themselves."""
_REFUSED_NAME = frozenset({errno.ENAMETOOLONG, errno.EINVAL, errno.EILSEQ})
"""What a machine says of a name that none of its files can have: too long, or with signs it does not take."""
_ENDINGS = {JPEG: "jpg", WEBP: "webp"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Copy:
    """One file of a photograph."""

    path: str
    """Path within the site."""
    width: int
    height: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A photograph as the site shows it: a JPEG copy for every reader, and more to choose from."""

    path: str
    """Path of the usual copy within the site, named by the photograph's own bytes."""
    width: int
    height: int
    jpeg: tuple[Copy, ...] = ()
    """Narrowest first."""
    webp: tuple[Copy, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Pictures:
    """Every photograph of a garden, by ``season/file`` as its entry names it."""

    by_name: Mapping[str, Picture] = field(default_factory=dict)
    files: Mapping[str, bytes] = field(default_factory=dict)
    """Bytes to put out, by path within the site."""
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class _Mention:
    """A photograph as one entry names it."""

    season: str
    photo: Photo
    waits: bool

    @property
    def name(self) -> str:
        """Season and file, as in ``2026/peas.jpg``."""
        return f"{self.season}/{self.photo.file}"


def pictures(
    root: Path,
    garden: Garden,
    waits: Callable[[Entry], bool] = lambda _entry: False,
    *,
    drafts: bool = False,
    cache: Path | None = None,
) -> Pictures:
    """Return the photographs that log entries name, made ready.

    One that shows somebody who did not agree is left out wherever its bytes are named,
    and told. Those of an entry that waits are looked at, and put out only with
    ``drafts``; one of them that cannot be shown is a warning, since nobody is to see it
    yet. ``cache`` is a folder where what was made is kept for the next build.

    Raises OSError where the machine cannot read a file that is there.
    """
    room = _Room(root, Cache(cache))
    mentions = tuple(_mentions(garden, waits))
    room.withhold(one for one in mentions if not one.photo.may_be_shown)
    for mention in mentions:
        room.take(mention, show=drafts or not mention.waits)
    room.cache.tidy()
    return Pictures(by_name=room.by_name, files=room.files, findings=tuple(room.findings))


def _mentions(garden: Garden, waits: Callable[[Entry], bool]) -> Iterator[_Mention]:
    """Yield each photograph that a log entry names, in the order of seasons and entries."""
    for season in garden.seasons:
        for entry in season.log or ():
            for photo in entry.photos:
                yield _Mention(season.name, photo, waits(entry))


class _Room:
    """One build's work on photographs."""

    def __init__(self, root: Path, cache: Cache) -> None:
        self.cache = cache
        self.by_name: dict[str, Picture] = {}
        self.files: dict[str, bytes] = {}
        self.findings: list[Finding] = []
        self._root = root
        self._withheld: dict[str, _Mention] = {}
        """By names and hashes of photographs that nobody may see: the first line that says so."""
        self._told: set[str] = set()

    def withhold(self, mentions: Iterator[_Mention]) -> None:
        """Keep photographs from being put out, under these and any other names."""
        for mention in mentions:
            self._withheld.setdefault(mention.name, mention)
            try:
                self._withheld.setdefault(sha256(self._read(mention)).hexdigest(), mention)
            except Unfit:
                continue  # what cannot be opened cannot be shown under another name either

    def take(self, mention: _Mention, *, show: bool) -> None:
        """Make one photograph ready, or tell why not; put it out where it may be shown."""
        if mention.name in self.by_name:
            return
        if mention.name in self._withheld:
            self.findings.append(_unagreed(mention.photo, self._withheld[mention.name].photo))
            return
        try:
            data = self._read(mention)
            source = sha256(data).hexdigest()
            if source in self._withheld:
                self.findings.append(_unagreed(mention.photo, self._withheld[source].photo))
                return
            made = self._made(source, data)
        except Unfit as unfit:
            self.findings.append(_unfit(mention, unfit))
            return
        if mention.name not in self._told:
            self._told.add(mention.name)
            self.findings += (_otherwise(mention.photo, clause) for clause in made.told)
        if show:
            self._put_out(mention, source, made)

    def _read(self, mention: _Mention) -> bytes:
        """Return a photograph's bytes. Raises Unfit where it is missing, elsewhere or too large; OSError."""
        folder = self._root / "content" / mention.season / "photos"
        path = folder / mention.photo.file
        try:
            real = folder.resolve()
            inside = path.parent == folder and path.resolve().is_relative_to(real)
            kept = real.is_relative_to(self._root.resolve())
        except RuntimeError:  # what Python up to 3.12 says of links that lead to each other
            raise Unfit("is a link that leads nowhere", "a photograph itself in that place") from None
        if not inside:
            raise Unfit("lies outside the season’s photos folder", "the name of a file in that folder")
        if not kept:
            raise Unfit(
                "lies outside the garden, where a link leads", f"it in content/{mention.season}/photos/"
            )
        try:
            there = path.is_file()
        except OSError as error:
            if error.errno not in _REFUSED_NAME:
                raise
            raise Unfit("is a name that this machine gives no file", "a shorter name") from None
        if not there and os.path.lexists(path):
            raise Unfit("is a folder, or a link that leads nowhere", "a photograph itself in that place")
        if not there and (like := _named_alike(path)):
            raise Unfit(
                f"is not there, but {like} is, which differs in capitals or in how its accents are stored",
                "the same name for the file and here, best in small letters without accents",
            )
        if not there:
            raise Unfit("is not there", f"a file of that name in content/{mention.season}/photos/")
        if (size := path.stat().st_size) > MOST_BYTES:
            raise Unfit(f"has {size:,} bytes", f"at most {MOST_BYTES:,}")
        return path.read_bytes()

    def _made(self, source: str, data: bytes) -> Developed:
        """Return the copies of a photograph, from the cache where they are kept there. Raises Unfit."""
        made = self.cache.get(source)
        if made is None:
            made = developed(data)
            self.cache.put(source, made)
        return made

    def _put_out(self, mention: _Mention, source: str, made: Developed) -> None:
        """Add a photograph's copies to the site's files; the usual one is the widest JPEG up to ``USUAL``."""
        copies: dict[str, list[Copy]] = {JPEG: [], WEBP: []}
        for one in made.prints:
            path = f"{mention.season}/photos/{source[:16]}-{one.width}.{_ENDINGS[one.kind]}"
            self.files[path] = one.data
            copies[one.kind].append(Copy(path=path, width=one.width, height=one.height))
        usual = max((one for one in copies[JPEG] if one.width <= USUAL), key=lambda one: one.width)
        self.by_name[mention.name] = Picture(
            path=usual.path,
            width=usual.width,
            height=usual.height,
            jpeg=tuple(copies[JPEG]),
            webp=tuple(copies[WEBP]),
        )


def _named_alike(path: Path) -> str:
    """Return a file beside ``path`` whose name reads the same but for capitals, or an empty text."""
    names = sorted(one.name for one in path.parent.iterdir()) if path.parent.is_dir() else []
    return next((name for name in names if folded(name) == folded(path.name)), "")


def _finding(photo: Photo, code: str, severity: Severity, found: str, expected: str, remedy: str) -> Finding:
    """Return a finding on a photograph, at the place that names it."""
    return Finding(
        place=photo.place if photo.place.file else Place("content"),
        code=code,
        severity=severity,
        found=f"{photo.file} {found}",
        expected=expected,
        remedy=remedy,
    )


def _unfit(mention: _Mention, unfit: Unfit) -> Finding:
    """Return a finding that a photograph cannot be shown: an error, or a warning where its entry waits."""
    remedy = "put another file in its place, or take the line out"
    if unfit.expected == EXPECTED:
        remedy = "save it as JPEG, put another file in its place, or take the line out"
    severity = Severity.WARNING if mention.waits else Severity.ERROR
    return _finding(mention.photo, "photo-unfit", severity, unfit.found, unfit.expected, remedy)


def _unagreed(photo: Photo, withheld: Photo) -> Finding:
    """Return a warning that a photograph is left out, since people on it are not said to have agreed.

    ``withheld``: the photograph as the line has it that says so, which may be another line.
    """
    found, expected = "shows people", "consent: yes, once everyone who can be known on it has agreed"
    if photo.may_be_shown:
        line = f"{withheld.place.file}, line {withheld.place.line}"
        found = f"is the same picture as {withheld.file} in {line}, which shows people"
        expected = f"{expected}, in that line as well"
    return _finding(
        photo,
        "photo-consent",
        Severity.WARNING,
        f"{found} who are not said to have agreed, so it is left out",
        expected,
        "ask them, or take the line and the file out",
    )


def _otherwise(photo: Photo, clause: str) -> Finding:
    """Return advice that a photograph looks different on the page from its file."""
    return _finding(photo, "photo-shown-otherwise", Severity.ADVICE, clause, "", "look at it on the page")
