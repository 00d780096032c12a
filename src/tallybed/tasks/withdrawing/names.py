"""Where a person's name must go, what takes its place, and where it stays for the gardener to see to."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from tallybed.garden.findings import Place
from tallybed.garden.records.people import WithdrawnKind
from tallybed.publishing.assets import OWN
from tallybed.reading.edit.header_edits import UncutError, by_of, replaced, with_by
from tallybed.reading.edit.person_names import PersonName
from tallybed.reading.folder.known_files import CONTENT, TAKEN_IN
from tallybed.reading.text.file_names import slug_of
from tallybed.tasks.base.errors import UsageError
from tallybed.tasks.base.garden import require_garden
from tallybed.tasks.withdrawing import garden_files
from tallybed.tasks.withdrawing.withdrawal import Edit, Withdrawal
from tallybed.writing.ledger import MEMORY, memory_texts, remembered
from tallybed.writing.remnants import files

_INSTEAD = re.compile(r"[^\W\d_][\w -]*")


def name(root: Path, named: str, instead: str = "") -> Withdrawal:
    """Return where a person's name must go.

    It is taken out of each ``by``; in other text it is replaced by ``instead``, or left
    and told where that is empty. What could be taken back of the ledger is forgotten only
    where it holds the name. Raises UsageError where it is not a name, or the words
    cannot stand in its place, OSError.
    """
    require_garden(root)
    try:
        wanted = PersonName(named)
    except ValueError:
        raise UsageError("a name needs at least one letter") from None
    words = " ".join(instead.split())
    if words and (not _INSTEAD.fullmatch(words) or wanted.within(words)):
        raise UsageError(
            f"{words} cannot take its place; begin with a letter, use only letters, digits, spaces and "
            "hyphens, and leave the name out"
        )
    small = PersonName(named.casefold())
    edits: list[Edit] = []
    left: list[Place] = []
    alike: list[Place] = []
    for file, text in garden_files.texts(root, CONTENT):
        here, put = (wanted, words)
        if file.endswith(f"/{TAKEN_IN}"):  # which keeps the cells of spreadsheets in small letters
            here, put = small, words.casefold()
        new, changes = _unnamed(file, text, here, put)
        if changes:
            edits.append(Edit(file=file, text=new, words="; ".join(changes)))
        left += (Place(file, line, column) for line, column in here.lines(new))
        alike += (Place(file, line, column) for line, column in here.alike(new))
    for file, text in garden_files.texts(root, OWN):
        left += (Place(file, line, column) for line, column in wanted.lines(text))
        alike += (Place(file, line, column) for line, column in wanted.alike(text))
    told = memory_texts(root / CONTENT)
    # Where no row can be read, one may hold the name in signs that stand for letters.
    may_hold = bool(edits and told) and remembered(root / CONTENT) is None
    forgotten = may_hold or any(wanted.held(text) or small.within(text) for text in told)
    memory = (f"{CONTENT}/{MEMORY}",) if forgotten else ()
    return Withdrawal(
        root=root,
        kind=WithdrawnKind.NAME,
        seasons=frozenset(map(garden_files.season_of, [one.file for one in edits] or memory)),
        edits=tuple(edits),
        gone=memory,
        left=tuple(sorted(set(left))),
        alike=tuple(sorted(set(alike))),
        named=tuple(_files_named(root, slug_of(named, ""))),
        unread=garden_files.unread(root, memory, wanted.held),
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
            new = replaced(
                text,
                lambda part: wanted.replaced(part, instead),
                header=header,
                prose=lambda part: wanted.replaced_in_prose(part, instead),
            )
        except UncutError:
            return text, changes
        count = sum(1 for _ in wanted.lines(text)) - sum(1 for _ in wanted.lines(new))
        if count:
            changes.append(f"{count} × “{instead}” in its place")
        text = new
    return text, changes


def _files_named(root: Path, slug: str) -> Iterator[str]:
    """Yield files whose own names hold a name as a whole word of it; an entry's stands in its address."""
    for file, path in files(root):
        if slug and f"-{slug}-" in f"-{slug_of(path.stem, '')}-":
            yield file
