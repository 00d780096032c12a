"""What must go with a picture, or with an entry and its pictures."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from itertools import count
from pathlib import Path

from tallybed.garden.findings import Place
from tallybed.garden.naming import nearest
from tallybed.garden.records.people import WithdrawnKind
from tallybed.garden.records.treatment import names_manure
from tallybed.reading.edit.header_edits import UncutError, without_photos
from tallybed.reading.edit.kept_lines import what_protects
from tallybed.reading.folder.known_files import CONTENT, LOG, PHOTOS
from tallybed.reading.shapes.safety.treatment import may_tell_wait
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.base.garden import require_garden
from tallybed.tasks.withdrawing import garden_files
from tallybed.tasks.withdrawing.withdrawal import Edit, Withdrawal

_PICTURE = re.compile(rf"(?:{CONTENT}/)?([12][0-9]{{3}})/{PHOTOS}/([^/\\]+)")
_ENTRY = re.compile(rf"(?:{CONTENT}/)?([12][0-9]{{3}})/(?:{LOG}/)?([^/\\]+?)(?:\.md)?")


def picture(root: Path, named: str) -> Withdrawal:
    """Return what must go with a picture, named as ``2026/photos/peas.jpg``.

    Copies of the same bytes under other names go too. Raises UsageError where there is
    no such picture, OSError.
    """
    require_garden(root)
    match = _PICTURE.fullmatch(named.strip())
    if match is None:
        raise UsageError(f"{named} is not a picture such as 2026/photos/peas.jpg")
    season, file = match.groups()
    path = f"{CONTENT}/{season}/{PHOTOS}/{file}"
    pictures = garden_files.pictures(root)
    users = [entry for entry, names in garden_files.entries_showing(root) if (season, file) in names]
    if path not in pictures and not users:
        close = nearest(path, pictures)
        hint = f"; did you mean {close.removeprefix(f'{CONTENT}/')}?" if close else ""
        raise UsageError(f"there is no picture {season}/{PHOTOS}/{file}{hint}")
    same = {path} | {one for one, sign in pictures.items() if path in pictures and sign == pictures[path]}
    return _without_pictures(root, WithdrawnKind.PICTURE, same, pictures, season)


def entry(root: Path, named: str) -> Withdrawal:
    """Return what must go with an entry, named as ``2026/2026-04-19-peas-are-up``.

    Its pictures go too where no other entry shows them. Raises UsageError where there
    is no such entry, OSError.
    """
    require_garden(root)
    match = _ENTRY.fullmatch(named.strip())
    if match is None:
        raise UsageError(f"{named} is not an entry such as 2026/2026-04-19-peas-are-up")
    season, stem = match.groups()
    file = f"{CONTENT}/{season}/{LOG}/{stem}.md"
    if not (root / file).is_file():
        folder = f"{CONTENT}/{season}/{LOG}/"
        known = sorted(one for one in garden_files.entries(root) if one.startswith(folder))
        first_name = re.compile(rf"^identity:\s*['\"]?{re.escape(stem)}(?:\.md)?(?![\w-])", re.MULTILINE)
        renamed = (one for one in known if first_name.search((root / one).read_text("utf-8", "replace")))
        close = next(renamed, "") or nearest(f"{folder}{stem}.md", known)
        close = close.removeprefix(folder).removesuffix(".md")
        hint = f"; did you mean {season}/{close}?" if close else ""
        raise UsageError(f"there is no entry {season}/{stem}{hint}")
    shown = dict(garden_files.entries_showing(root))
    others = {name for one, names in shown.items() if one != file for name in names}
    pictures = garden_files.pictures(root)
    own = {f"{CONTENT}/{year}/{PHOTOS}/{name}" for year, name in shown.get(file, set()) - others}
    found = _without_pictures(root, WithdrawnKind.ENTRY, own & set(pictures), pictures, season, skip=file)
    gone = (file, *garden_files.backups_of(root, file), *found.gone)
    return replace(
        found,
        edits=(*found.edits, *_kept(root, file)),
        gone=gone,
        left=tuple(sorted({*found.left, *garden_files.speaking(root, [stem], skip={file})})),
        unread=tuple(
            sorted(
                {
                    *found.unread,
                    *garden_files.unread(root, gone, lambda text: garden_files.speaks(text, [stem])),
                }
                - {*gone}
            )
        ),
    )


def _kept(root: Path, file: str) -> Iterator[Edit]:
    """Yield the entry that keeps a withdrawn one's treatments: what protects people outlasts its words.

    Raises UsageError where it may hold one that cannot be read.
    """
    text = (root / file).read_bytes().decode("utf-8", errors="replace")
    try:
        kept = what_protects(text)
    except UncutError:
        if may_tell_wait(text) or names_manure(text):
            raise UsageError(
                f"{file} cannot be read, and may tell of a treatment, which has to be kept; correct it first"
            ) from None
        return
    if kept:
        folder, _slash, name = file.rpartition("/")
        day = re.match(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", name)
        stem = f"{folder}/{day.group() if day else ''}-treatment"
        places = (f"{stem}{'' if number == 1 else f'-{number}'}.md" for number in count(1))
        # One that a withdrawal ended halfway left behind is written once more, not twice.
        place = next(one for one in places if _free(root / one, kept))
        yield Edit(file=place, text=kept, words="keeps its treatments, without a word of the entry")


def _free(path: Path, text: str) -> bool:
    """Return whether a file is not there, or holds this text already."""
    return not path.exists() or path.read_bytes() == text.encode()


def _without_pictures(
    root: Path,
    kind: WithdrawnKind,
    gone: set[str],
    pictures: dict[str, str],
    season: str,
    skip: str = "",
) -> Withdrawal:
    """Return what must go with pictures: their files, their lines in entries, what was kept of them.

    ``pictures``: all of the garden, with their hashes. ``skip``: an entry that goes itself.
    """
    edits, left = _without_lines(root, gone, skip)
    changed = {edit.file for edit in edits}
    names = {one.rpartition("/")[2] for one in gone}
    of = {season, *(garden_files.season_of(one) for one in gone)}
    elsewhere = {
        file
        for file, _text in garden_files.texts(root, CONTENT)
        if garden_files.season_of(file) not in {"", *of}
    }
    left += garden_files.speaking(root, names, skip={skip, *changed, *elsewhere})
    for edit in edits:
        left += garden_files.places_of(edit.file, edit.text, names)
    kept = {copy for one in gone for copy in garden_files.backups_of(root, one)}
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
            sorted(
                {
                    *garden_files.unread(root, going, lambda text: garden_files.speaks(text, names)),
                    *garden_files.copies_of(root, going, pictures),
                }
            )
        ),
    )


def _without_lines(root: Path, gone: set[str], skip: str) -> tuple[list[Edit], list[Place]]:
    """Return entries without their lines of pictures that go; and where those stay that cannot be cut."""
    edits: list[Edit] = []
    left: list[Place] = []
    entries = garden_files.entries(root) - {skip}
    for file, text in garden_files.texts(root, CONTENT):
        if file not in entries:
            continue
        year = garden_files.season_of(file)
        names = {one.rpartition("/")[2] for one in gone if garden_files.season_of(one) == year}
        try:
            new = without_photos(text, names)
        except UncutError:
            left += garden_files.places_of(file, text, names)
            continue
        if new != text:
            edits.append(Edit(file=file, text=new, words="no longer shows it"))
    return edits, left
