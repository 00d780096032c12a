"""Rows of a spreadsheet that need attention, in few lines: those of one cause are told together."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tallybed.garden.plurals import figured
from tallybed.tasks.taking_in.intake import Fate, JudgedRow

EACH = 3
"""Rows of one cause that are shown; one more is shown too, as a line about it would be no shorter."""
MOST = 40
"""Rows of all causes that are shown. Our choice: as many as a window has lines."""
CAUSES = 10
"""Causes that are told of the others."""
_SPANS = 6
"""Runs of row numbers that are told of one cause."""
_QUOTED = re.compile("“[^”]*”")
_Cause = tuple[Fate, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class InFew:
    """Rows that are shown, and what is said of the others."""

    shown: tuple[JudgedRow, ...]
    """In the order of the file."""
    others: tuple[str, ...]
    """Sentences."""


def in_few(lines: Sequence[JudgedRow]) -> InFew:
    """Return which rows are shown one by one, and sentences on the others, most rows first."""
    shown = _first_of_each(lines)[:MOST]
    seen = {id(line) for line in shown}
    left = _by_cause([line for line in lines if id(line) not in seen])
    ordered = sorted(left.values(), key=lambda rows: -len(rows))
    told = [f"And {figured(len(rows), 'row')} more {_cause_words(rows)}" for rows in ordered[:CAUSES]]
    number = sum(map(len, ordered[CAUSES:]))
    if number:
        told.append(f"And {figured(number, 'row')} more, for other causes.")
    return InFew(shown=tuple(shown), others=tuple(told))


def _first_of_each(lines: Sequence[JudgedRow]) -> list[JudgedRow]:
    """Return the first rows of each cause, in the order of the file."""
    causes = _by_cause(lines).values()
    chosen = {id(row) for rows in causes for row in (rows if len(rows) <= EACH + 1 else rows[:EACH])}
    return [line for line in lines if id(line) in chosen]


def _by_cause(lines: Sequence[JudgedRow]) -> dict[_Cause, list[JudgedRow]]:
    """Return rows by what becomes of them and why, whatever texts the reason quotes."""
    causes: dict[_Cause, list[JudgedRow]] = {}
    for line in lines:
        causes.setdefault((line.fate, _QUOTED.sub("“…”", line.words)), []).append(line)
    return causes


def _cause_words(rows: Sequence[JudgedRow]) -> str:
    """Return what rows of one cause become, why, and their numbers."""
    words = {row.words for row in rows}
    why = words.pop() if len(words) == 1 else _QUOTED.sub("“…”", rows[0].words)
    numbers = list(_spans(sorted({row.row.number for row in rows})))
    where = ", ".join(numbers[:_SPANS]) + (", …" if len(numbers) > _SPANS else "")
    verb = "is" if len(rows) == 1 else "are"
    return f"{verb} {rows[0].fate.value}{': ' if why else ''}{why} ({where})"


def _spans(numbers: Sequence[int]) -> Iterator[str]:
    """Yield numbers, those that follow each other together: ``5``, ``7 to 90``."""
    first = last = numbers[0]
    for number in (*numbers[1:], None):
        if number == last + 1:
            last = number
            continue
        yield str(first) if first == last else f"{first} to {last}"
        first = last = number or 0
