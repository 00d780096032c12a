"""What was taken from which spreadsheet, written so that ledger and record never part.

Before the ledger is touched, the record as it will be is put beside it in a file of its
own; then the ledger is written, then the record takes its place. Where a machine stops in
between, the ledger itself says which of the two it was, and the next command finishes.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterable, Sequence
from pathlib import Path

from tallybed.garden.pickings import SheetRow
from tallybed.writing.atomic import write_over
from tallybed.writing.ledger import Agree, append
from tallybed.writing.ledger_row import in_braces, scalar

_INNERMOST = re.compile(rb"\{[^{}]*\}")
PENDING = ".tallybed-taking"
OPENING = """\
# Written by tallybed take-in: what was taken from which file, so that no row is taken twice.
# A row deleted here counts as new the next time its file is taken in.
"""


def record_text(files: Iterable[tuple[str, str, Sequence[SheetRow]]]) -> str:
    """Return the record's text: for each file its name, the order of its dates if settled, its rows."""
    parts = [OPENING]
    for name, order, rows in files:
        parts.append(f"- from: {scalar(name)}\n")
        if order:
            parts.append(f"  dates: {order}\n")
        parts.append("  rows:\n" if rows else "  rows: []\n")
        parts += [f"    - {in_braces([('row', str(row.number)), *row.cells])}\n" for row in rows]
    return "".join(parts)


def write(
    content: Path, season: str, ledger: str, record: str, rows: Sequence[str], agree: Agree, text: str
) -> None:
    """Add rows to a season's ledger and put ``text`` in place of its record, both or neither.

    To be called within a ``turn`` at the ledgers; ``ledger`` and ``record`` are names of
    files in the season's folder. Raises UnfitError, OSError.
    """
    folder = content / season
    pending = folder / PENDING
    path = folder / ledger
    old = path.read_bytes() if path.exists() else b""
    before = _counted(old, rows)
    after = {row: before[row] + times for row, times in sorted(Counter(rows).items())}
    write_over(pending, json.dumps({"rows": after, "record": text}, indent=1).encode())
    try:
        append(content, f"{season}/{ledger}", rows, agree, remember=False)
    except BaseException:
        if not _written(path, after):
            pending.unlink(missing_ok=True)
        raise
    finish(content, season, ledger, record)


def finish(content: Path, season: str, ledger: str, record: str) -> None:
    """Finish, or undo, what a machine that stopped left half done. To be called within a turn."""
    folder = content / season
    pending = folder / PENDING
    if not pending.exists():
        return
    try:
        left = json.loads(pending.read_bytes())
        after, text = dict(left["rows"]), str(left["record"])
    except (ValueError, KeyError, TypeError):
        after, text = {}, ""
    if after and _written(folder / ledger, after):
        write_over(folder / record, text.encode())
    pending.unlink()


def _written(ledger: Path, after: dict[str, int]) -> bool:
    """Return whether a ledger holds each row as often as it was to hold it."""
    there = _counted(ledger.read_bytes() if ledger.exists() else b"", after)
    return all(there[row] >= times for row, times in after.items())


def _counted(data: bytes, rows: Iterable[str]) -> dict[str, int]:
    """Return how often each row stands in a ledger.

    Looking for one after the other takes too long in a long ledger; a row without braces
    within it is found as a pair of braces that holds no other.
    """
    pairs = Counter(_INNERMOST.findall(data))
    found = {}
    for row in rows:
        sought = row.encode()
        found[row] = pairs[sought] if _INNERMOST.fullmatch(sought) else data.count(sought)
    return found
