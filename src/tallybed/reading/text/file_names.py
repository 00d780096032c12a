"""What the names of files say: a visit's day, and a short name fit for addresses."""

from __future__ import annotations

import re
import unicodedata
from datetime import date

from tallybed.reading.base.problems import Misread, quoted

IDENTITY = "the name that the entry’s file first had, such as 2026-04-19-peas-are-up"
_ENTRY_NAME = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})(?:[-_ ]+(.*))?")


def slug_of(name: str, nameless: str) -> str:
    """Return a file's name as it stands in an address: small letters and digits joined by hyphens.

    ``nameless`` stands for a name of which nothing is left.
    """
    plain = unicodedata.normalize("NFKD", name.casefold()).encode("ascii", "ignore").decode("ascii")
    return "-".join(re.findall(r"[a-z0-9]+", plain)) or nameless


def entry_name(stem: str) -> tuple[date | None, str]:
    """Return the day that an entry's file name begins with, if it does, and the rest of it as a slug."""
    match = _ENTRY_NAME.fullmatch(stem)
    try:
        day = date.fromisoformat(match[1]) if match else None
    except ValueError:
        day = None
    if match is None or day is None:
        return None, slug_of(stem, "visit")
    return day, slug_of(match[2] or "", "visit")


def no_day(stem: str) -> str:
    """Return what is amiss with an entry's file name that tells no day."""
    if _ENTRY_NAME.fullmatch(stem):
        return "begins with a day that the calendar does not have"
    return "does not begin with a date"


def entry_identity(text: str) -> str:
    """Read what an entry is known by for all time: its file's first name, with ``.md`` or without."""
    stem = text.strip().removesuffix(".md")
    day, slug = entry_name(stem)
    if day is None:
        raise Misread("entry-identity", f"{quoted(text)} {no_day(stem)}", IDENTITY)
    return f"{day.isoformat()}-{slug}"
