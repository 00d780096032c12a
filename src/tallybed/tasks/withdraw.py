"""Taking a picture, an entry or a person's name out of a garden for good.

What must go is found first and can be shown; then it goes. Like ``building`` it
brings tiers together; the commands call it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from hashlib import sha256
from pathlib import Path

from tallybed.garden.findings import Place
from tallybed.garden.naming import nearest
from tallybed.garden.people import WithdrawnKind
from tallybed.pictures.cache import FOLDER, forget, forget_cards
from tallybed.publishing.assets import OWN
from tallybed.reading.edit.header_edits import (
    UncutError,
    by_of,
    photos_named,
    replaced,
    with_by,
    without_photos,
)
from tallybed.reading.edit.person_names import PersonName, position
from tallybed.reading.folder.garden_folder import slug_of
from tallybed.reading.folder.known_files import LOG, PHOTOS, TAKEN_IN, WITHDRAWN
from tallybed.tasks.build import CONTENT, GARDEN_FILE, SITE, UsageError
from tallybed.writing.atomic import write_over
from tallybed.writing.ledger import MEMORY, turn
from tallybed.writing.remnants import backups, files, holding, sites

RECORD = f"{CONTENT}/{WITHDRAWN}"
_HEAD = "# What was taken out for good: that it happened, and when. What it was is kept nowhere.\n"
_TEXTS = frozenset({".csv", ".html", ".md", ".txt", ".xml", ".yaml", ".yml"})
_PICTURE = re.compile(rf"(?:{CONTENT}/)?([12][0-9]{{3}})/{PHOTOS}/([^/\\]+)")
_ENTRY = re.compile(rf"(?:{CONTENT}/)?([12][0-9]{{3}})/(?:{LOG}/)?([^/\\]+?)(?:\.md)?")
_INSTEAD = re.compile(r"[^\W\d_][\w -]*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Edit:
    """A file that stays, and the text it is to have."""

    file: str
    """Path below the garden's folder."""
    text: str = field(repr=False)
    words: str
    """What changes in it, for the gardener."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Withdrawal:
    """What goes, what changes, and what the gardener must see to."""

    root: Path
    kind: WithdrawnKind
    seasons: frozenset[str]
    """Seasons it is withdrawn from; an empty text for what belongs to none."""
    edits: tuple[Edit, ...] = ()
    gone: tuple[str, ...] = ()
    """Files that go, as paths below the garden's folder."""
    hashes: frozenset[str] = frozenset()
    """Hashes of the photographs among them."""
    left: tuple[Place, ...] = ()
    """Places that speak of it, or hold the name, and stay as they are."""
    alike: tuple[Place, ...] = ()
    """Places that may hold the name, written otherwise."""
    named: tuple[str, ...] = ()
    """Files that hold the name in their own names."""
    unread: tuple[str, ...] = ()
    """Files that no build reads, and that hold it or speak of it."""

    @property
    def empty(self) -> bool:
        """Whether there is nothing to take out."""
        return not self.edits and not self.gone


def picture(root: Path, named: str) -> Withdrawal:
    """Return what must go with a picture, named as ``2026/photos/peas.jpg``.

    Copies of the same bytes under other names go too. Raises UsageError where there is
    no such picture, OSError.
    """
    _require_garden(root)
    match = _PICTURE.fullmatch(named.strip())
    if match is None:
        raise UsageError(f"{named} is no picture such as 2026/photos/peas.jpg")
    season, file = match.groups()
    path = f"{CONTENT}/{season}/{PHOTOS}/{file}"
    pictures = _pictures(root)
    users = [entry for entry, names in _naming(root) if (season, file) in names]
    if path not in pictures and not users:
        close = nearest(path, pictures)
        hint = f"; did you mean {close.removeprefix(f'{CONTENT}/')}?" if close else ""
        raise UsageError(f"there is no picture {season}/{PHOTOS}/{file}{hint}")
    same = {path} | {one for one, sign in pictures.items() if path in pictures and sign == pictures[path]}
    return _without_pictures(root, WithdrawnKind.PICTURE, same, pictures, {season})


def entry(root: Path, named: str) -> Withdrawal:
    """Return what must go with an entry, named as ``2026/2026-04-19-peas-are-up``.

    Its pictures go too where no other entry shows them. Raises UsageError where there
    is no such entry, OSError.
    """
    _require_garden(root)
    match = _ENTRY.fullmatch(named.strip())
    if match is None:
        raise UsageError(f"{named} is no entry such as 2026/2026-04-19-peas-are-up")
    season, stem = match.groups()
    file = f"{CONTENT}/{season}/{LOG}/{stem}.md"
    if not (root / file).is_file():
        known = [one.removeprefix(f"{CONTENT}/{season}/{LOG}/") for one in _entries(root)]
        close = nearest(f"{stem}.md", known).removesuffix(".md")
        hint = f"; did you mean {season}/{close}?" if close else ""
        raise UsageError(f"there is no entry {season}/{stem}{hint}")
    shown = dict(_naming(root))
    others = {name for one, names in shown.items() if one != file for name in names}
    pictures = _pictures(root)
    own = {f"{CONTENT}/{year}/{PHOTOS}/{name}" for year, name in shown.get(file, set()) - others}
    found = _without_pictures(root, WithdrawnKind.ENTRY, own & set(pictures), pictures, {season}, skip=file)
    gone = (file, *_backups(root, file), *found.gone)
    return replace(
        found,
        gone=gone,
        left=tuple(sorted({*found.left, *_speaking(root, [stem], skip={file})})),
        unread=tuple(
            sorted({*found.unread, *_unread(root, gone, lambda text: _speaks(text, [stem]))} - {*gone})
        ),
    )


def name(root: Path, named: str, instead: str = "") -> Withdrawal:
    """Return where a person's name must go.

    It is taken out of each ``by``; in other text it is replaced by ``instead``, or left
    and told where that is empty. Raises UsageError where it is no name, or the words
    cannot stand in its place, OSError.
    """
    _require_garden(root)
    try:
        wanted = PersonName(named)
    except ValueError:
        raise UsageError("a name has at least one letter") from None
    words = " ".join(instead.split())
    if words and (not _INSTEAD.fullmatch(words) or wanted.within(words)):
        raise UsageError(f"{words} cannot stand instead: letters, digits, spaces and hyphens can")
    edits: list[Edit] = []
    left: list[Place] = []
    alike: list[Place] = []
    for file, text in _texts(root, CONTENT):
        here, put = (wanted, words)
        if file.endswith(f"/{TAKEN_IN}"):  # which keeps the cells of spreadsheets in small letters
            here, put = PersonName(named.casefold()), words.casefold()
        new, changes = _unnamed(file, text, here, put)
        if changes:
            edits.append(Edit(file=file, text=new, words="; ".join(changes)))
        left += (Place(file, line, column) for line, column in here.lines(new))
        alike += (Place(file, line, column) for line, column in here.alike(new))
    for file, text in _texts(root, OWN):
        left += (Place(file, line, column) for line, column in wanted.lines(text))
        alike += (Place(file, line, column) for line, column in wanted.alike(text))
    memory = (f"{CONTENT}/{MEMORY}",) if (root / CONTENT / MEMORY).is_file() and edits else ()
    return Withdrawal(
        root=root,
        kind=WithdrawnKind.NAME,
        seasons=frozenset(_season_of(one.file) for one in edits),
        edits=tuple(edits),
        gone=memory,
        left=tuple(sorted(set(left))),
        alike=tuple(sorted(set(alike))),
        named=tuple(_files_named(root, slug_of(named, ""))),
        unread=_unread(root, memory, wanted.held),
    )


def archives(root: Path) -> tuple[str, ...]:
    """Return the archives that lie in the garden's folder, made while all was still there."""
    return tuple(file for file, path in files(root) if path.suffix.lower() == ".zip")


def built_elsewhere(root: Path) -> tuple[str, ...]:
    """Return the folders in the garden's that a build wrote to by another name than the usual one."""
    return tuple(one for one in sites(root) if one != SITE)


def carry_out(withdrawal: Withdrawal, day: date) -> None:
    """Take out what a withdrawal names, and note that on that day something was withdrawn.

    The note comes first and is written once, so that a second run finishes what a first
    one, ended halfway, began. Raises OSError (BusyError among them).
    """
    root = withdrawal.root
    with turn(root / CONTENT):
        _note(withdrawal, day)
        for edit in withdrawal.edits:
            write_over(root / edit.file, edit.text.encode())
        for file in withdrawal.gone:
            (root / file).unlink(missing_ok=True)
        for source in sorted(withdrawal.hashes):
            forget(root / FOLDER, source)
        forget_cards(root / FOLDER)  # drawn anew by the next build; they may hold what a text said


def _note(withdrawal: Withdrawal, day: date) -> None:
    path = withdrawal.root / RECORD
    old = path.read_bytes().decode("utf-8") if path.exists() else _HEAD
    if old and not old.endswith("\n"):
        old += "\n"
    new = old
    for season in sorted(withdrawal.seasons):
        where = f"season: {season}, " if season else ""
        line = f"- {{withdrawn: {withdrawal.kind}, {where}on: {day.isoformat()}}}\n"
        new += "" if line in new else line
    if new != old or not path.exists():
        write_over(path, new.encode())


def _without_pictures(
    root: Path,
    kind: WithdrawnKind,
    gone: set[str],
    pictures: dict[str, str],
    seasons: set[str],
    skip: str = "",
) -> Withdrawal:
    """Return what must go with pictures: their files, their lines in entries, what was kept of them."""
    edits: list[Edit] = []
    left: list[Place] = []
    for file, text in _texts(root, CONTENT):
        if file == skip or file not in _entries(root):
            continue
        year = _season_of(file)
        names = {one.rpartition("/")[2] for one in gone if _season_of(one) == year}
        try:
            new = without_photos(text, names)
        except UncutError:
            left += (place for place in _places(file, text, names))
            continue
        if new != text:
            edits.append(Edit(file=file, text=new, words="no longer shows it"))
    changed = {edit.file for edit in edits}
    names = {one.rpartition("/")[2] for one in gone}
    of = {*seasons, *(_season_of(one) for one in gone)}
    elsewhere = {file for file, _text in _texts(root, CONTENT) if _season_of(file) not in {"", *of}}
    left += _speaking(root, names, skip={skip, *changed, *elsewhere})
    for edit in edits:
        left += _places(edit.file, edit.text, names)
    kept = {copy for one in gone for copy in _backups(root, one)}
    going = tuple(sorted({one for one in gone if one in pictures} | kept))
    return Withdrawal(
        root=root,
        kind=kind,
        seasons=frozenset(of),
        edits=tuple(edits),
        gone=going,
        hashes=frozenset(pictures[one] for one in going if one in pictures),
        left=tuple(sorted(set(left))),
        unread=tuple(
            sorted({*_unread(root, going, lambda text: _speaks(text, names)), *_same(root, going, pictures)})
        ),
    )


def _unnamed(file: str, text: str, wanted: PersonName, instead: str) -> tuple[str, list[str]]:
    """Return a file's text without the name as far as that can be done, and what was changed."""
    changes: list[str] = []
    header = file.endswith(".md")
    if header and file.count("/") > 1 and wanted.within(text):
        try:
            by = by_of(text)
            if wanted.within(by):
                rest = wanted.out_of(by)
                text = with_by(text, rest)
                changes.append(f"by: {rest}" if rest else "no longer says by whom")
        except UncutError:
            pass  # what could not be cut is told as left
    if instead and wanted.within(text):
        try:
            new = replaced(text, lambda part: wanted.replaced(part, instead), header=header)
        except UncutError:
            return text, changes
        count = sum(1 for _ in wanted.lines(text))
        changes.append(f"{count} × “{instead}” in its place")
        text = new
    return text, changes


def _require_garden(root: Path) -> None:
    if not (root / GARDEN_FILE).is_file():
        raise UsageError(f"{root.resolve()} is no garden folder: it holds no {GARDEN_FILE}")


def _files(root: Path, folder: str) -> Iterator[tuple[str, Path]]:
    """Yield each ordinary file below a folder of the garden; links are not followed."""
    top = root / folder
    if top.is_symlink() or not top.is_dir():
        return
    for path in sorted(top.rglob("*")):
        if path.is_file() and not path.is_symlink():
            yield path.relative_to(root).as_posix(), path


def _texts(root: Path, folder: str) -> Iterator[tuple[str, str]]:
    """Yield path and text of each text file that can be read as UTF-8."""
    for file, path in _files(root, folder):
        if path.suffix.lower() in _TEXTS and file != RECORD:
            try:
                yield file, path.read_bytes().decode("utf-8")
            except UnicodeDecodeError:
                continue  # a build does not read it either, and says so


def _pictures(root: Path) -> dict[str, str]:
    """Return the hash of each file in the photos folders, by its path."""
    return {
        file: sha256(path.read_bytes()).hexdigest()
        for file, path in _files(root, CONTENT)
        if file.split("/")[2:3] == [PHOTOS]
    }


def _entries(root: Path) -> frozenset[str]:
    return frozenset(
        file
        for file, _path in _files(root, CONTENT)
        if file.split("/")[2:3] == [LOG] and file.endswith(".md")
    )


def _naming(root: Path) -> Iterator[tuple[str, set[tuple[str, str]]]]:
    """Yield each entry that can be read with the pictures it shows, as season and file."""
    entries = _entries(root)
    for file, text in _texts(root, CONTENT):
        if file in entries:
            try:
                yield file, {(_season_of(file), one) for one in photos_named(text)}
            except UncutError:
                continue


def _season_of(file: str) -> str:
    """Return the season a file below the garden's folder belongs to, empty where to none."""
    year = file.split("/")[1]
    return year if re.fullmatch(r"[12][0-9]{3}", year) else ""


def _speaking(root: Path, words: Iterable[str], skip: set[str]) -> Iterator[Place]:
    """Yield where texts speak of files by their names."""
    wanted = tuple(words)
    for file, text in _texts(root, CONTENT):
        if file not in skip:
            yield from _places(file, text, wanted)


def _places(file: str, text: str, words: Iterable[str]) -> Iterator[Place]:
    for word in sorted(words):
        for match in re.finditer(rf"(?<![\w.-]){re.escape(word)}(?![\w-])", text):
            yield Place(file, *position(text, match.start()))


def _speaks(text: str, words: Iterable[str]) -> bool:
    return any(_places("", text, words))


def _files_named(root: Path, slug: str) -> Iterator[str]:
    """Yield files whose own names hold a name as a whole word of it; an entry's stands in its address."""
    for file, path in files(root):
        if slug and f"-{slug}-" in f"-{slug_of(path.stem, '')}-":
            yield file


def _backups(root: Path, file: str) -> tuple[str, ...]:
    return tuple(path.relative_to(root).as_posix() for path in backups(root / file))


def _unread(root: Path, gone: Iterable[str], held: Callable[[str], bool]) -> tuple[str, ...]:
    """Return files that hold something, besides those that go and those looked through line by line.

    Archives are told by themselves.
    """
    read = {file for folder in (CONTENT, OWN) for file, _text in _texts(root, folder)}
    return holding(root, {*read, *gone, *archives(root), RECORD}, held)


def _same(root: Path, gone: Iterable[str], pictures: Mapping[str, str]) -> Iterator[str]:
    """Yield files of the same bytes as pictures that go, wherever in the garden's folder they lie."""
    going = {*gone}
    hashes = {pictures[file] for file in going if file in pictures}
    sizes = {(root / file).stat().st_size for file in going if file in pictures}
    for file, path in files(root):
        other = file not in going and path.stat().st_size in sizes
        if other and sha256(path.read_bytes()).hexdigest() in hashes:
            yield file
