"""Rows added to ledgers, one writer at a time, and the last one taken back.

Beside the ledgers, in ``content/``, out of the gardener's sight:

``.tallybed-ledger-lock``  held by whoever is writing
``.tallybed-weighed``      the rows that were added last, so that they can be taken back
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from pathlib import Path

from tallybed.writing.atomic import in_turn, write_over
from tallybed.writing.ledger_insert import UnfitError as UnfitError
from tallybed.writing.ledger_insert import with_rows

LOCK = ".tallybed-ledger-lock"
MEMORY = ".tallybed-weighed"
REMEMBERED = 50
"""Rows that can be taken back, one after the other."""

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


@contextmanager
def turn(content: Path) -> Iterator[None]:
    """Let the block be the only writer of ledgers of a ``content`` folder. Raises BusyError."""
    with in_turn(content / LOCK):
        yield


def append(content: Path, ledger: str, rows: Sequence[str], agree: Agree, *, remember: bool = True) -> None:
    """Add rows to a ledger within a ``turn``: all of them, or none.

    ``ledger`` is a path below ``content``; a file that is not there is made. Raises
    UnfitError where the ledger cannot take them or ``agree`` will not, OSError.
    """
    path = content / ledger
    there = path.exists()
    old = path.read_bytes() if there else b""
    if not remember:
        new = with_rows(old, rows)
        write_over(path, new, lambda back: agree(old, back))
        return
    new, steps = old, list[Added]()
    for row in rows:
        longer = with_rows(new, [row])
        same = _common(new, longer)
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
    write_over(path, new, lambda back: agree(old, back))
    _remember(content, [*_remembered(content), *steps])


def _common(one: bytes, other: bytes) -> int:
    """Return how many bytes two texts begin with alike."""
    pairs = enumerate(zip(one, other, strict=False))
    return next((place for place, (here, there) in pairs if here != there), min(len(one), len(other)))


def remembered(content: Path) -> Added | None:
    """Return the last row that was added and can be taken back, or None."""
    return next(reversed(_remembered(content)), None)


def take_back(content: Path) -> Added | None:
    """Take away the last row that was added, within a ``turn``; return it, or None where none is remembered.

    Raises UnfitError where the row is no longer the end of its ledger.
    """
    known = _remembered(content)
    if not known:
        return None
    last = known[-1]
    path = content / last.ledger
    data = path.read_bytes() if path.exists() else b""
    after, before = _bytes(last.after), _bytes(last.before)
    if not data.endswith(after):
        raise UnfitError(
            f"content/{last.ledger} no longer ends with the row that is remembered as the last, {last.row}: "
            "something was written after it; delete by hand what does not belong there"
        )
    shorter = data[: len(data) - len(after)] + before
    if last.new_file and not shorter:
        path.unlink()
    else:
        write_over(path, shorter)
    _remember(content, known[:-1])
    return last


def _remembered(content: Path) -> list[Added]:
    """Return the rows that can be taken back; none where the note of them cannot be read."""
    try:
        return [Added(**one) for one in json.loads((content / MEMORY).read_text(encoding="utf-8"))]
    except FileNotFoundError:
        return []
    except (ValueError, TypeError):
        return []


def _remember(content: Path, steps: Sequence[Added]) -> None:
    """Keep the last ``REMEMBERED`` of these rows to be taken back."""
    text = json.dumps([asdict(step) for step in steps[-REMEMBERED:]], indent=1) + "\n"
    write_over(content / MEMORY, text.encode())


def _kept(data: bytes) -> str:
    """Return bytes as a text that gives them back, whatever they are."""
    return data.decode("utf-8", "surrogateescape")


def _bytes(text: str) -> bytes:
    """Return the bytes that ``_kept`` made this text of."""
    return text.encode("utf-8", "surrogateescape")
