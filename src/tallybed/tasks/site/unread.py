"""Lines of the log that could not be understood and may tell a wait: whoever picks must know of them."""

from __future__ import annotations

import re
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from tallybed.garden.findings import Finding, Place, Severity
from tallybed.reading.base.problems import LeftOut, Problems
from tallybed.reading.folder.disk import FolderOnDisk
from tallybed.reading.folder.known_files import CONTENT, LOG
from tallybed.reading.shapes.safety.treatment import may_tell_wait

_ENTRY = re.compile(rf"{CONTENT}/[0-9]{{4}}/{LOG}/(?P<day>[0-9]{{4}}-[0-9]{{2}}-[0-9]{{2}})?.*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Unread:
    """An entry with an error, among whose lines is one of a treatment, or of manure or compost."""

    place: Place
    """The first error in it."""
    day: date | None
    """The day of the entry by its file's name; None where that tells none."""


def unread_treatments(root: Path, errors: Iterable[Finding]) -> tuple[Unread, ...]:
    """Return the entries of the log that may tell a wait which nobody knows. Raises OSError."""
    first: dict[str, Finding] = {}
    for error in errors:
        if error.severity is Severity.ERROR and _ENTRY.fullmatch(error.place.file):
            first.setdefault(error.place.file, error)
    return tuple(
        Unread(place=error.place, day=_day(file)) for file, error in first.items() if _may_tell(root, file)
    )


def unread_words(unread: Iterable[Unread], day: date) -> str:
    """Return in words which unread entries may tell a wait for a picking of a day; empty for none."""
    found = [one.place for one in unread if one.day is None or one.day <= day]
    if not found:
        return ""
    places = " and ".join(f"{place.file}:{place.line}" for place in found)
    return f"this may come from inside a wait that is not known: a treatment cannot be understood ({places})"


def _may_tell(root: Path, file: str) -> bool:
    """Return whether an entry has a line that a wait can follow from; True where its text cannot be read."""
    try:
        return may_tell_wait(FolderOnDisk(root, Problems()).text(file))
    except LeftOut:
        return True


def _day(file: str) -> date | None:
    """Return the day that an entry's file name begins with, or None."""
    match = _ENTRY.fullmatch(file)
    with suppress(ValueError):
        return date.fromisoformat(match.group("day")) if match and match.group("day") else None
    return None
