"""A new log entry put into a garden folder, beside the photographs of its day."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from tallybed.garden.days import in_full
from tallybed.pictures.gathering import Gathered, copied
from tallybed.publishing.swap.refused import RefusedError
from tallybed.reckoning.year import Year
from tallybed.writing.atomic import write_new
from tallybed.writing.entry_text import EntryDraft, text_of


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenUp:
    """What was put into the garden folder."""

    path: Path
    """The new entry."""
    photographs: tuple[str, ...] = ()
    """Names in the season's photos folder."""
    undated: tuple[str, ...] = ()
    """Names of files that do not say when they were taken, and were left where they are."""
    unread: tuple[str, ...] = ()
    """Names of photographs in a form that is not read; nobody looked for their day."""


def write_up(root: Path, year: Year, draft: EntryDraft, found: Gathered) -> WrittenUp:
    """Write the entry's file and copy its photographs.

    Raises RefusedError where an entry of that day and name is there, or the season's
    folder lies elsewhere; OSError where the machine fails.
    """
    season = root / "content" / year.name
    path = season / "log" / f"{draft.name}.md"
    photos = season / "photos"
    known = [one for one in year.season.log or () if (one.day, one.slug) == (draft.day, draft.slug)]
    if known or path.exists() or path.is_symlink():
        there = known[0].place.file if known else path
        raise RefusedError(
            f"there is already an entry of {in_full(draft.day)} with that name: {there}; "
            "open it in your editor, or choose another title"
        )
    for folder in (path.parent, photos):
        if not folder.resolve().is_relative_to(root.resolve()):
            raise RefusedError(f"{folder} leads out of the garden folder; put a real folder in its place")
    names = copied(found.taken, photos)
    text = text_of(replace(draft, photographs=names), year)
    path.parent.mkdir(parents=True, exist_ok=True)
    write_new(path, text.encode())
    return WrittenUp(
        path=path,
        photographs=names,
        undated=tuple(one.name for one in found.undated),
        unread=tuple(one.name for one in found.unread),
    )
