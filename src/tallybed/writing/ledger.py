"""Rows added to ledgers, one writer at a time, and the last one taken back.

Beside the ledgers, in ``content/``, out of the gardener's sight:

``.tallybed-ledger-lock``  held by whoever is writing
``.tallybed-weighed``      the rows that were added last, so that they can be taken back
``.tallybed-unfinished``   what a command that is writing has begun, see ``journal``
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from pathlib import Path

from tallybed.garden.plurals import figured
from tallybed.writing import journal
from tallybed.writing.atomic import in_turn
from tallybed.writing.journal import common
from tallybed.writing.ledger_insert import UnfitError as UnfitError
from tallybed.writing.ledger_insert import with_rows

LOCK = ".tallybed-ledger-lock"
MEMORY = ".tallybed-weighed"
REMEMBERED = 50
"""Rows, or spreadsheets taken in, that can be taken back, one after the other."""
LARGEST_MEMORY = 20_000_000
"""Characters that are kept of what can be taken back; the oldest goes first."""

Agree = Callable[[bytes, bytes], None]
"""Given the bytes as they were and as they would be; raises UnfitError where these do not read as meant."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Added:
    """A row that was added, with the end of the file before and after."""

    ledger: str
    """Path below ``content/``."""
    row: str
    before: str
    """The end of the file that the row changed, as it was."""
    after: str
    new_file: bool = False
    record: str = ""
    """Path below ``content/`` of the record of a spreadsheet that was taken in; empty for a row."""
    record_before: str = ""
    record_after: str = ""

    @property
    def rows(self) -> tuple[str, ...]:
        """The rows as they stand at the end of the ledger."""
        return tuple(line.strip().removeprefix("- ") for line in self.after.splitlines() if line.strip())


@contextmanager
def turn(content: Path) -> Iterator[None]:
    """Let the block be the only writer of ledgers of a ``content`` folder. Raises BusyError."""
    with in_turn(content / LOCK):
        journal.finish(content)
        yield


def recover(content: Path) -> str:
    """Finish what a command that was stopped left half done; return in words what stands, if anything.

    Raises BusyError, OSError.
    """
    with in_turn(content / LOCK):
        return journal.finish(content)


def append(content: Path, ledger: str, rows: Sequence[str], agree: Agree) -> None:
    """Add rows to a ledger within a ``turn``: all of them, or none.

    ``ledger`` is a path below ``content``; a file that is not there is made. Raises
    UnfitError where the ledger cannot take them or ``agree`` will not, OSError.
    """
    path = content / ledger
    there = path.exists()
    old = path.read_bytes() if there else b""
    new, steps = old, list[Added]()
    for row in rows:
        longer = with_rows(new, [row])
        same = common(new, longer)
        steps.append(
            Added(
                ledger=ledger,
                row=row,
                before=_kept(new[same:]),
                after=_kept(longer[same:]),
                new_file=not there and not steps,
            )
        )
        new = longer
    told = f"content/{ledger} holds {rows[-1] if len(rows) == 1 else f'the {len(rows)} new rows'}"
    memory = _memory([*_remembered(content), *steps])
    journal.write(content, ledger, new, {MEMORY: memory}, told, lambda back: agree(old, back))


def append_with_record(
    content: Path, ledger: str, rows: Sequence[str], agree: Agree, record: str, text: str, what: str
) -> None:
    """Add rows to a ledger and give the record of what was taken in its new text, both or neither.

    ``ledger`` and ``record`` are paths below ``content``; ``what`` names the rows, for whoever
    takes them back. To be called within a ``turn``. Raises UnfitError, OSError.
    """
    path, beside = content / ledger, content / record
    there = path.exists()
    old = path.read_bytes() if there else b""
    new = with_rows(old, rows)
    same = common(old, new)
    step = Added(
        ledger=ledger,
        row=what,
        before=_kept(old[same:]),
        after=_kept(new[same:]),
        new_file=not there,
        record=record,
        record_before=_kept(beside.read_bytes()) if beside.exists() else "",
        record_after=text,
    )
    then = {record: text, MEMORY: _memory([*_remembered(content), step])}
    journal.write(content, ledger, new, then, f"content/{ledger} holds {what}", lambda back: agree(old, back))


def correct(
    content: Path, ledger: str, pairs: Sequence[tuple[str, str]], agree: Agree, record: str, text: str
) -> None:
    """Put rows in the place of others in a ledger, and give the record its new text, both or neither.

    ``pairs`` are rows as they stand and as they are to be. To be called within a ``turn``. Raises
    UnfitError where a row does not stand there or ``agree`` will not; OSError.
    """
    path = content / ledger
    old = path.read_bytes() if path.exists() else b""
    new = old
    for standing, row in pairs:
        at = offset_of(standing, new)
        if at is None:
            raise UnfitError(f"content/{ledger} no longer holds {standing}")
        new = new[:at] + row.encode() + new[at + len(standing.encode()) :]
    told = f"content/{ledger} holds {figured(len(pairs), 'corrected row')}"
    journal.write(content, ledger, new, {record: text}, told, lambda back: agree(old, back))


def offset_of(row: str, data: bytes) -> int | None:
    """Return where a row first stands in a ledger's bytes, comments passed over; None where it does not."""
    found = re.search(rb"^[^#\r\n]*?(" + re.escape(row.encode()) + rb")", data, re.MULTILINE)
    return found.start(1) if found else None


def remembered(content: Path) -> Added | None:
    """Return the last row that was added, or None where none is remembered."""
    return next(reversed(_remembered(content)), None)


def to_take_back(content: Path) -> Added | None:
    """Return the same. Raises UnfitError where it can no longer be taken back."""
    last = remembered(content)
    if last is not None:
        _ledger_before(content, last)
        _record_before(content, last)
    return last


def take_back(content: Path) -> Added | None:
    """Take away the last row that was added, within a ``turn``; return it, or None where none is remembered.

    Raises UnfitError where the row is no longer the end of its ledger.
    """
    known = _remembered(content)
    if not known:
        return None
    last = known[-1]
    shorter = _ledger_before(content, last)
    then = {**_record_before(content, last), MEMORY: _memory(known[:-1])}
    gone = None if last.new_file and not shorter else shorter
    journal.write(content, last.ledger, gone, then, f"taken back from content/{last.ledger}: {last.row}")
    return last


def memory_texts(content: Path) -> tuple[str, ...]:
    """Return the texts of what can be taken back; all of the file as one where it cannot be read as rows."""
    known = _remembered(content)
    path = content / MEMORY
    if not known and path.is_file():
        return (path.read_text(encoding="utf-8", errors="replace"),)
    return tuple(text for one in known for text in asdict(one).values() if isinstance(text, str))


def _ledger_before(content: Path, last: Added) -> bytes:
    """Return a ledger as it is to be again. Raises UnfitError where it no longer ends with what was added."""
    path = content / last.ledger
    data = path.read_bytes() if path.exists() else b""
    after, before = _bytes(last.after), _bytes(last.before)
    if not data.endswith(after):
        raise UnfitError(
            f"content/{last.ledger} no longer ends with what is remembered as the last, {last.row}: "
            f"something was written after it, or corrected in it; {_by_hand(last)}"
        )
    return data[: len(data) - len(after)] + before


def _record_before(content: Path, last: Added) -> Mapping[str, str]:
    """Return the record of what was taken in as it is to be again. Raises UnfitError where it has changed."""
    if not last.record:
        return {}
    path = content / last.record
    if not path.exists() or path.read_bytes() != _bytes(last.record_after):
        raise UnfitError(
            f"content/{last.record} is no longer as it was after {last.row} came in: "
            f"something was corrected or changed in it; {_by_hand(last)}"
        )
    return {last.record: last.record_before}


def _by_hand(last: Added) -> str:
    """Return what to do where something can no longer be taken back."""
    if not last.record:
        return "delete by hand what does not belong there"
    return f"delete by hand what does not belong there, in content/{last.ledger} and content/{last.record}"


def _remembered(content: Path) -> list[Added]:
    """Return the rows that can be taken back; none where the note of them cannot be read."""
    try:
        return [Added(**one) for one in json.loads((content / MEMORY).read_text(encoding="utf-8"))]
    except (FileNotFoundError, ValueError, TypeError):
        return []


def _memory(steps: Sequence[Added]) -> str:
    """Return the text that keeps the last ``REMEMBERED`` of these to be taken back."""
    kept: list[dict[str, object]] = []
    left = LARGEST_MEMORY
    for step in reversed(steps[-REMEMBERED:]):
        left -= len(step.after) + len(step.before) + len(step.record_before) + len(step.record_after)
        if left < 0:
            break
        kept.insert(0, asdict(step))
    return json.dumps(kept, indent=1) + "\n"


def _kept(data: bytes) -> str:
    """Return bytes as a text that gives them back, whatever they are."""
    return data.decode("utf-8", "surrogateescape")


def _bytes(text: str) -> bytes:
    """Return the bytes that ``_kept`` made this text of."""
    return text.encode("utf-8", "surrogateescape")
