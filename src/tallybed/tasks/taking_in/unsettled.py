"""What has to be settled before rows can be taken: names nobody knows, dates that read two ways."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from tallybed.reading.folder.known_files import CONTENT, NAMES, TAKE_IN
from tallybed.reading.spreadsheet.dates import AMBIGUOUS
from tallybed.reading.spreadsheet.rows import ReadRow
from tallybed.reckoning.harvest.picking_source import Asking
from tallybed.tasks.taking_in.intake import Books, Fate, JudgedRow, Unknown
from tallybed.writing.ledger_row import scalar


def unknown_names(books: Books, told: Iterable[tuple[ReadRow, JudgedRow]]) -> tuple[Unknown, ...]:
    """Return the names to settle, each once, with the place to settle it in."""
    rows: Counter[tuple[str, str, bool]] = Counter()
    near: dict[tuple[str, str, bool], tuple[str, ...]] = {}
    for one, line in told:
        if line.fate is not Fate.UNPLACED:
            continue
        season = one.season or list(books.scales)[-1]
        for trouble in one.problems:
            if trouble.name:
                key = (trouble.name, season, False)
                rows[key] += 1
                near[key] = trouble.near
        question = line.question
        if question is not None and question.about is Asking.CROP and one.picking and one.picking.crops:
            key = (one.picking.crops[0].typed, season, True)
            rows[key] += 1
            near[key] = tuple(dict.fromkeys(source.crop for source in question.choices))
    return tuple(
        Unknown(name=key[0], near=near[key], rows=times, where=_where_to_settle(key, near[key]))
        for key, times in sorted(rows.items())
    )


def _where_to_settle(key: tuple[str, str, bool], near: Sequence[str]) -> str:
    """Return the file to settle a name in, another one for general names, with a line as an example."""
    name, season, general = key
    meaning = near[0] if near else "CROP"
    if general:
        return f"{CONTENT}/{season}/{NAMES}, as in   {scalar(name)}: {meaning}"
    return f"{CONTENT}/{TAKE_IN}, as in   names: {{{season}: {{{scalar(name)}: {meaning}}}}}"


def open_dates(told: Sequence[ReadRow]) -> tuple[str, ...]:
    """Return the dates that may be read two ways, each once."""
    found = [
        one.row.get("date") for one in told if any(trouble.code == AMBIGUOUS for trouble in one.problems)
    ]
    return tuple(dict.fromkeys(found))
